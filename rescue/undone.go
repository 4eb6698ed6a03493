package rescue

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/say"
)

// Undone is a move that does not stand to the end: an act of the flight, or of the
// question, sets its control otherwise.
type Undone struct {
	Control *book.Control
	To      string
	At      book.Time
}

// undone flies moves made at a moment and lists those that are moved again by nobody's
// hand.
func (b *base) undone(ctx context.Context, at book.Time, set Set) (list []Undone, err error) {
	asked := b.asked
	asked.Actions = append(slices.Clone(asked.Actions), set.actions(at, b.stood(at))...)
	r, err := b.course.Fly(ctx, asked)
	if err != nil {
		return nil, err
	}
	c := r.Circuit()
	for _, m := range set {
		n, ok := c.Node(circuit.Value{Item: m.Control.ID})
		if !ok || m.Back {
			continue
		}
		for _, t := range r.Instants() {
			if to := c.WordText(r.At(n, t)); t > at+m.After && to != m.Position {
				list = append(list, Undone{m.Control, to, t})
				break
			}
		}
	}
	return list, nil
}

// undoneWords say which moves are undone, and how to ask what holding them does.
func (p *Spared) undoneWords() string {
	var parts []string
	for _, u := range p.Undone {
		parts = append(parts, say.Lower(u.Control.Title)+" to "+say.Quoted(u.To)+" at "+p.clock(u.At))
	}
	if len(parts) == 0 {
		return ""
	}
	text := "Made at " + p.clock(p.Moments[0]) + ", it does not stand: the flight's own acts set " + say.And(parts)
	return text + ". Ask with “!” after the position what it does if it is held by hand: " + strings.Join(p.heldTexts(), " ") + "."
}

func (p *Spared) heldTexts() (list []string) {
	for _, m := range p.Set {
		list = append(list, m.Control.ID+"="+m.Position+"!")
	}
	return list
}
