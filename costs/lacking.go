package costs

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/say"
)

// lacksFrom is how much longer than in the other run an effect must act for a
// number that it lacks to be missed: the handling of two flights is never the same
// to the second.
const lacksFrom = 60 * book.Second

// lacking names the numbers that effects need on this way and the book does not
// give: those of effects that act here and never in the other run, or for more than
// a minute longer. What they do to the flight is then left out of its price.
func (d *desk) lacking(s, other *Side) (list []string) {
	for _, l := range d.course.Build.Lacks() {
		here, there := s.acts(l.Effect, d.at), other.acts(l.Effect, d.at)
		if here > there+lacksFrom || here > 0 && there == 0 {
			list = append(list, fmt.Sprintf("what %s does: %s (%s:%d)", l.Effect.Name, say.Lower(strings.TrimSuffix(l.Says(), ".")), l.Effect.Range.File, l.Effect.Range.Line))
		}
	}
	return list
}

// miss notes what a side lacks. A place that nothing speaks against is then not
// judged; one that is no good is so all the same, since it lacks what only adds.
func (s *Side) miss(lacking []string) {
	s.Lacking = lacking
	if len(s.Reasons) == 0 {
		for _, text := range lacking {
			s.Reasons = append(s.Reasons, Reason{Lacking, text})
		}
	}
}

// acts is for how long after a moment an effect is not what it is where a book says
// nothing.
func (s *Side) acts(e *book.Effect, from book.Time) (sum book.Time) {
	r, to := s.record, s.record.End
	n, ok := r.Circuit().Node(circuit.Value{Item: e.ID})
	if !ok {
		return 0
	}
	kind, _ := book.EffectNamed(e.Name)
	at, was := from, r.At(n, from)
	for _, ch := range r.History(n) {
		if ch.At <= from || ch.At > to {
			continue
		}
		if was != kind.Default {
			sum += ch.At - at
		}
		at, was = ch.At, r.At(n, ch.At)
	}
	if was != kind.Default {
		sum += max(to-at, 1)
	}
	return sum
}
