package ledger

import (
	"sort"

	"knockon/book"
	"knockon/circuit"
)

// spans is a set of moments: stretches that have a duration, in order, apart
// from each other.
type spans []circuit.Span

// lasting keeps what has a duration and joins what touches.
func lasting(list []circuit.Span) spans {
	var s spans
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

// passing lists the moments of what has no duration.
func passing(list []circuit.Span) (at []book.Time) {
	for _, p := range list {
		if p.From == p.To {
			at = append(at, p.From)
		}
	}
	return at
}

// and gives the moments in both sets.
func (s spans) and(other spans) spans {
	var both spans
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

// minus gives the moments in s that are not in other.
func (s spans) minus(other spans) spans {
	var rest spans
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

// rounding is the longest difference in time between two runs that may be
// rounding alone: both located one crossing to the microsecond, from sums that
// were added up in different pieces.
const rounding = book.Second / 1000

// beyond gives the moments in s that are not in other, as stretches that are
// too long to be rounding.
func (s spans) beyond(other spans) spans { return s.minus(other).longer(rounding) }

// near says that a moment is in the set or next to it.
func (s spans) near(t book.Time) bool {
	return s.has(t) || s.has(t-rounding) || s.has(t+rounding)
}

// or gives the moments in either set; other need not be in order.
func (s spans) or(other spans) spans {
	all := append(append([]circuit.Span{}, s...), other...)
	sort.Slice(all, func(i, j int) bool { return all[i].From < all[j].From })
	return lasting(all)
}

// join makes one of stretches less than gap apart.
func (s spans) join(gap book.Time) spans {
	var joined spans
	for _, p := range s {
		if last := len(joined) - 1; last >= 0 && p.From-joined[last].To < gap {
			joined[last].To = p.To
		} else {
			joined = append(joined, p)
		}
	}
	return joined
}

// longer keeps the stretches that last longer than d.
func (s spans) longer(d book.Time) spans {
	var long spans
	for _, p := range s {
		if p.Length() > d {
			long = append(long, p)
		}
	}
	return long
}

// within cuts the set to one stretch.
func (s spans) within(p circuit.Span) spans { return s.and(spans{p}) }

// has says that a moment is in the set.
func (s spans) has(t book.Time) bool {
	i := sort.Search(len(s), func(i int) bool { return s[i].To > t })
	return i < len(s) && s[i].From <= t
}
