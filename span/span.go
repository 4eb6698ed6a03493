// Package span is the algebra of stretches of time: which moments are in one
// set and not in another, what lasts, what only passes. A set is always in
// order, its stretches apart from each other and none without duration. Start
// reading at Set.
package span

import (
	"cmp"
	"slices"
	"sort"

	"knockon/book"
	"knockon/circuit"
)

// Set is a set of moments: stretches that have a duration, in order, apart
// from each other.
type Set []circuit.Span

// Lasting keeps what has a duration and joins what touches.
func Lasting(list []circuit.Span) Set {
	var s Set
	for _, p := range list {
		switch last := len(s) - 1; {
		case p.From == p.To:
		case last >= 0 && p.From <= s[last].To:
			s[last].To = max(s[last].To, p.To)
		default:
			s = append(s, p)
		}
	}
	return s
}

// Passing lists the moments of what has no duration.
func Passing(list []circuit.Span) (at []book.Time) {
	for _, p := range list {
		if p.From == p.To {
			at = append(at, p.From)
		}
	}
	return at
}

// And gives the moments in both sets.
func (s Set) And(other Set) Set {
	var both Set
	for i, j := 0, 0; i < len(s) && j < len(other); {
		from, to := max(s[i].From, other[j].From), min(s[i].To, other[j].To)
		if from < to {
			both = append(both, circuit.Span{From: from, To: to})
		}
		if s[i].To < other[j].To {
			i++
		} else {
			j++
		}
	}
	return both
}

// Minus gives the moments in s that are not in other.
func (s Set) Minus(other Set) Set {
	var rest Set
	j := 0
	for _, p := range s {
		for j < len(other) && other[j].To <= p.From {
			j++
		}
		from := p.From
		for k := j; k < len(other) && other[k].From < p.To; k++ {
			if from < other[k].From {
				rest = append(rest, circuit.Span{From: from, To: other[k].From})
			}
			from = other[k].To
		}
		if from < p.To {
			rest = append(rest, circuit.Span{From: from, To: p.To})
		}
	}
	return rest
}

// Rounding is the longest difference in time between two runs that may be
// Rounding alone: both located one crossing to the microsecond, from sums that
// were added up in different pieces.
const Rounding = book.Second / 1000

// Beyond gives the moments in s that are not in other, as stretches that are
// too long to be Rounding.
func (s Set) Beyond(other Set) Set { return s.Minus(other).Longer(Rounding) }

// Near says that a moment is in the set or next to it.
func (s Set) Near(t book.Time) bool {
	return s.Has(t) || s.Has(t-Rounding) || s.Has(t+Rounding)
}

// Or gives the moments in either set; other need not be in order.
func (s Set) Or(other Set) Set {
	all := append(append([]circuit.Span{}, s...), other...)
	sort.Slice(all, func(i, j int) bool { return all[i].From < all[j].From })
	return Lasting(all)
}

// Join makes one of stretches less than gap apart.
func (s Set) Join(gap book.Time) Set {
	var joined Set
	for _, p := range s {
		if last := len(joined) - 1; last >= 0 && p.From-joined[last].To < gap {
			joined[last].To = p.To
		} else {
			joined = append(joined, p)
		}
	}
	return joined
}

// Longer keeps the stretches that last longer than d.
func (s Set) Longer(d book.Time) Set {
	var long Set
	for _, p := range s {
		if p.Length() > d {
			long = append(long, p)
		}
	}
	return long
}

// Within cuts the set to one stretch.
func (s Set) Within(p circuit.Span) Set { return s.And(Set{p}) }

// Has says that a moment is in the set.
func (s Set) Has(t book.Time) bool {
	i := sort.Search(len(s), func(i int) bool { return s[i].To > t })
	return i < len(s) && s[i].From <= t
}

// Length is how long the stretches last in all.
func (s Set) Length() (t book.Time) {
	for _, p := range s {
		t += p.Length()
	}
	return t
}

// With adds moments of no duration to a set, in order.
func (s Set) With(moments []book.Time) []circuit.Span {
	list := append([]circuit.Span(nil), s...)
	for _, t := range moments {
		list = append(list, circuit.Span{From: t, To: t})
	}
	slices.SortFunc(list, func(a, b circuit.Span) int { return cmp.Compare(a.From, b.From) })
	return list
}

// OnlyHere lists the moments at which something is yes for no duration here
// and not at all there.
func OnlyHere(here, there []circuit.Span) (at []book.Time) {
	for _, t := range Passing(here) {
		if !Lasting(here).Has(t) && !Lasting(there).Near(t) && !anyNear(Passing(there), t) {
			at = append(at, t)
		}
	}
	return at
}

func anyNear(moments []book.Time, t book.Time) bool {
	return slices.ContainsFunc(moments, func(m book.Time) bool { return m-t <= Rounding && t-m <= Rounding })
}
