package ask

import (
	"knockon/book"
	"knockon/ledger"
	"knockon/point"
)

// View is an answer in words: its ledger with where what the crew saw led them astray,
// whom they did not reach, and what is worth teaching. Text, pages and the handout are
// all made from it.
func (a *Answer) View() *ledger.View {
	v := a.Ledger.View()
	v.Deceived, v.Unheard = a.Deceived(), a.Unheard()
	v.Worth = point.With(a.Ledger, a.facts()).View(a.Ledger)
	return v
}

// facts are the lists that the crew began for alerts, with what they moved by each.
func (a *Answer) facts() (f point.Facts) {
	if a.Crew == nil {
		return f
	}
	for i, k := range a.Crew.Calls {
		if k.Alert == nil || k.Procedure == nil || k.Begun == book.Never {
			continue
		}
		f.Lists = append(f.Lists, point.List{Alert: k.Alert, Title: k.Procedure.Title, Given: k.Given, At: k.Begun, Moves: a.moves(i)})
	}
	return f
}

// moves are what the crew put somewhere for one of their calls.
func (a *Answer) moves(call int) (list []point.Move) {
	for _, x := range a.Crew.Lines {
		item, ok := a.Course.Build.Item(x.Control)
		if c, is := item.(*book.Control); ok && is && x.Call == call && !x.Omitted {
			list = append(list, point.Move{Control: c, Position: x.Position, At: x.To})
		}
	}
	return list
}
