package drill

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

// mostTurns is how many moves of one control are listed.
const mostTurns = 12

// others lists what was moved without being called for, and what came of it. The
// moves of one control are taken together: of two that do the same, neither alone
// is to blame.
func (t *teller) others(d *Debrief) {
	turns, order := map[string][]int{}, []string(nil)
	for i, in := range t.done {
		if in.Do != Move || t.called[in.ID+"="+in.To] {
			continue
		}
		if turns[in.ID] == nil {
			order = append(order, in.ID)
		}
		turns[in.ID] = append(turns[in.ID], i)
	}
	d.Others = make([]Moved, len(order))
	for i, id := range order {
		t.moved(&d.Others[i], id, turns[id])
	}
}

// moved tells of the moves of one control that nobody called for.
func (t *teller) moved(m *Moved, id string, turns []int) {
	*m = Moved{Control: id, Title: t.b.Title(id), Times: len(turns)}
	for _, i := range turns[:min(len(turns), mostTurns)] {
		in := t.done[i]
		m.Turns = append(m.Turns, Turn{in.Who, in.To, momentOf(in.At)})
	}
	if !slices.ContainsFunc(turns, t.turned) {
		m.Text = "the control stood there already"
		return
	}
	s := t.s.Flown()
	s.Actions = slices.DeleteFunc(slices.Clone(s.Actions), func(a run.Action) bool {
		return a.Control == id && !t.called[id+"="+a.Position]
	})
	var moves []Input
	for _, i := range turns {
		moves = append(moves, t.done[i])
	}
	x := t.unasked(m.Title, moves)
	t.beside = append(t.beside, beside{s, func(c compared) {
		m.Text = t.consequences(c, len(turns))
		t.propose(moves[0].At, x, c)
	}})
}

// turned says whether a move may have changed where its control stood: not when
// it stood there, unless something else was done in the same moment.
func (t *teller) turned(i int) bool {
	in := t.done[i]
	with := i > 0 && t.done[i-1].At == in.At || i+1 < len(t.done) && t.done[i+1].At == in.At
	return with || t.stands(in.ID, in.At+1) != in.To
}

// looks lists what was looked at, and what nobody looked at that would have told.
func (t *teller) looks(d *Debrief) {
	seen := map[string][]book.Time{}
	for _, in := range t.done {
		if in.Do != Look {
			continue
		}
		seen[in.ID] = append(seen[in.ID], in.At+LookTakes)
		i := slices.IndexFunc(d.Looks, func(l Looked) bool { return l.Indication == t.b.Title(in.ID) && l.By == in.Who })
		if i < 0 {
			d.Looks = append(d.Looks, Looked{t.b.Title(in.ID), in.Who, 1, momentOf(in.At)})
		} else {
			d.Looks[i].Times++
		}
	}
	for _, l := range t.here.Losses {
		for _, s := range l.Spans {
			if s.Class != ledger.OnlyShown || !s.Mattered || s.At > t.s.now {
				continue
			}
			if !slices.ContainsFunc(seen[s.Via.ID], func(at book.Time) bool { return at >= s.At && at < s.To }) {
				d.Unseen = append(d.Unseen, Unseen{l.Function.Title, s.Via.Title, momentOf(s.At),
					fmt.Sprintf("%s would have shown that %s is lost; nobody looked", s.Via.Title, l.Function.Title)})
				t.hidden(l, s)
			}
		}
	}
}
