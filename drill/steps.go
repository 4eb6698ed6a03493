package drill

import (
	"cmp"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/say"
)

// owed is what a crew by the book do of a list, up to the end of the drill, and this
// one left out or did late.
type owed struct {
	call  crew.Call
	list  *book.Procedure
	lines []owing
}

// owing is one line of it.
type owing struct {
	line crew.Line
	says string
	done *Input // nil: left out
}

// late is when a step counts as late.
const late = 10 * book.Second

// steps holds what was done against what the best crew move.
func (t *teller) steps(d *Debrief) {
	t.called = map[string]bool{}
	before, used := map[*book.Procedure]book.Time{}, map[int]bool{}
	for _, l := range t.best.Lines {
		if l.Control == "" || l.To < t.s.began() || l.To > t.s.now {
			continue
		}
		t.called[l.Control+"="+l.Position] = true
		x := Done{Procedure: l.Procedure.Title, Number: l.Number, Says: t.s.says(l.Step), Moves: l.Control + "=" + l.Position, Best: momentOf(l.To)}
		switch i := t.move(l, used); {
		case i >= 0:
			at := t.done[i].At
			m := momentOf(at)
			x.At, x.LateS, x.Early = &m, max(0, (at-l.To).Seconds()), at < before[l.Procedure]
			before[l.Procedure] = max(before[l.Procedure], at)
			if x.Text = x.timely(); at-l.To >= late {
				t.owe(l, x.Says, &t.done[i])
			}
		case t.stands(l.Control, l.To) == l.Position:
			x.Already, x.Text = true, "the control stood there already"
		default:
			t.owe(l, x.Says, nil)
			t.leftOut(d, l)
		}
		d.Steps = append(d.Steps, x)
	}
}

// leftOut has it worked out what followed of the step that comes next.
func (t *teller) leftOut(d *Debrief, l crew.Line) {
	at, s := len(d.Steps), t.s.Flown()
	s.Actions = with(s.Actions, run.Action{Control: l.Control, Position: l.Position, At: book.Moment{Offset: l.To}})
	t.beside = append(t.beside, beside{s, func(c compared) { d.Steps[at].Text = "left out: " + t.consequences(c, 1) }})
}

// owe notes a line of a list that was left out, or done late.
func (t *teller) owe(l crew.Line, says string, done *Input) {
	call := t.best.Calls[l.Call]
	i := slices.IndexFunc(t.owed, func(o owed) bool { return o.list == l.Procedure && o.call.Alert == call.Alert })
	if i < 0 {
		i = len(t.owed)
		t.owed = append(t.owed, owed{call: call, list: l.Procedure})
	}
	t.owed[i].lines = append(t.owed[i].lines, owing{l, says, done})
}

// move finds the first input that does a line, after its alert, and uses it up;
// -1 if there is none.
func (t *teller) move(l crew.Line, used map[int]bool) int {
	given := t.best.Calls[l.Call].Given
	for i, in := range t.done {
		if in.Do == Move && in.ID == l.Control && in.To == l.Position && in.At >= given && !used[i] {
			used[i] = true
			return i
		}
	}
	return -1
}

func (x Done) timely() string {
	text := "done in time"
	if x.LateS >= late.Seconds() {
		text = fmt.Sprintf("done %s late", say.Lasts(book.AtSeconds(x.LateS)))
	}
	if x.Early {
		text += ", before the step in front of it"
	}
	return text
}

// stands is where a control stood in the drill just before a moment.
func (t *teller) stands(control string, at book.Time) string {
	c := t.record.Circuit()
	n, _ := c.Node(circuit.Value{Item: control})
	return c.WordText(t.record.Before(n, at))
}

// with is what was done, and one action more.
func with(done []run.Action, a run.Action) []run.Action {
	all := append(slices.Clone(done), a.Taken())
	slices.SortStableFunc(all, func(a, b run.Action) int { return cmp.Compare(a.At.Offset, b.At.Offset) })
	return all
}
