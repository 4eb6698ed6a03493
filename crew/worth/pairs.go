package worth

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
)

// Pair is two steps that are left out in one flight.
type Pair struct {
	First, Second *Step
	Flown         *Flown
	Harms         []Harm // that neither brings alone, the gravest first
}

// AssessPairs leaves out every two steps together that can matter each, up to so
// many pairs, in the order of the procedure. Which pairs there are beyond these
// is counted in PairsLeft. It must be the scenario that was assessed.
func (w *Worth) AssessPairs(ctx context.Context, t *crew.Team, s run.Scenario, most int) error {
	all := w.twos()
	w.PairsLeft = max(0, len(all)-most)
	w.Pairs = all[:len(all)-w.PairsLeft]
	err := eachOf(ctx, len(w.Pairs), func(ctx context.Context, i int) (err error) {
		p := w.Pairs[i]
		p.Flown, err = fly(ctx, t, s, crew.Change{Kind: crew.Omit, Step: p.First.Step}, crew.Change{Kind: crew.Omit, Step: p.Second.Step})
		return err
	})
	if err != nil {
		return err
	}
	w.Flights += len(w.Pairs)
	for _, p := range w.Pairs {
		p.Harms = w.beyondEach(p)
	}
	return nil
}

// twos lists the pairs of steps that were reached, that move something, or open
// a way, each, and of which neither stands within the other.
func (w *Worth) twos() (list []*Pair) {
	for i, a := range w.Steps {
		for _, b := range w.Steps[i+1:] {
			if a.omits() && b.omits() && !holds(a.Step, b.Step) {
				list = append(list, &Pair{First: a, Second: b})
			}
		}
	}
	return list
}

func (s *Step) omits() bool { return s.Reached && !idle(crew.Change{Kind: crew.Omit, Step: s.Step}) }

func holds(outer, inner *book.Step) (found bool) {
	crew.Walk([]*book.Step{outer}, func(s *book.Step, _ string) { found = found || s == inner })
	return found
}

// beyondEach compares the flight of a pair with the one done right, and leaves
// out what one of the two brings alone.
func (w *Worth) beyondEach(p *Pair) []Harm {
	due := min(p.First.due(crew.Change{Kind: crew.Omit}, w), p.Second.due(crew.Change{Kind: crew.Omit}, w))
	alone := slices.Concat(p.First.Left().Harms, p.Second.Left().Harms)
	return slices.DeleteFunc(compare(w.Right, p.Flown, due), func(h Harm) bool {
		return slices.ContainsFunc(alone, func(k Harm) bool {
			return k.Kind == h.Kind && k.Item == h.Item && k.Better == h.Better && k.Class >= h.Class && (k.Mattered || !h.Mattered)
		})
	})
}

// Together lists the pairs that bring something bad which neither brings alone.
func (w *Worth) Together() (list []*Pair) {
	for _, p := range w.Pairs {
		if len(p.Harms) > 0 && !p.Harms[0].Better {
			list = append(list, p)
		}
	}
	return list
}
