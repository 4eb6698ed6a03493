package rescue

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/span"
)

// moments lists when moves are tried against bites that end the question at the
// first of them, or at the last if it bites already, or where the flight breaks off: ten seconds after the
// strike, whenever a phase begins, and twelve even steps. Sets of more than one
// move are tried at those of main only, which leave out two steps of three.
func (b *base) moments(bites span.Set) (list, main []book.Time) {
	first := b.strike + soonest
	rest := from(bites, first)
	if len(rest) == 0 {
		return nil, nil
	}
	until, steps := rest[0].From, evenSteps
	switch {
	case b.f == flight && until <= first:
		return nil, nil
	case b.f == flight:
		steps = evenSteps - 1 // where it breaks off there is nothing left to move
	case until <= first:
		until, steps = last(rest), evenSteps-1 // at its very end there is nothing left to end
	}
	list = append(list, first)
	for _, p := range b.here.Phases() {
		if p.From > first && p.From < until {
			list = append(list, p.From)
		}
	}
	main = slices.Clone(list)
	for k := 1; k <= steps; k++ {
		at := until
		if k < evenSteps {
			at = first + (until-first)*book.Time(k)/evenSteps
			at = max(first, at-(at-b.strike)%book.Second) // on a whole second
		}
		if list = append(list, at); k%evenSparse == 0 {
			main = append(main, at)
		}
	}
	return inOrder(list), inOrder(main)
}

func inOrder(list []book.Time) []book.Time {
	slices.Sort(list)
	return slices.Compact(list)
}

// stood is where a control stands just before a moment, without any move.
func (b *base) stood(at book.Time) func(string) string {
	c := b.here.Circuit()
	return func(id string) string {
		n, _ := c.Node(circuit.Value{Item: id})
		return c.WordText(b.here.Before(n, at))
	}
}
