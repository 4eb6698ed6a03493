package sweep

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// spans is a set of moments: stretches that have a duration, in order, apart
// from each other. The rules are those of the ledger (docs/meaning.md 5).
type spans []circuit.Span

// rounding is the longest difference in time that may be rounding alone.
const rounding = book.Second / 1000

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

// minus gives the moments in s that are not in other.
func (s spans) minus(other spans) spans {
	var rest spans
	for _, p := range s {
		from := p.From
		for _, o := range other {
			if o.To <= from || o.From >= p.To {
				continue
			}
			if from < o.From {
				rest = append(rest, circuit.Span{From: from, To: o.From})
			}
			from = o.To
		}
		if from < p.To {
			rest = append(rest, circuit.Span{From: from, To: p.To})
		}
	}
	return rest
}

func (s spans) and(other spans) spans {
	var both spans
	for _, p := range s {
		for _, o := range other {
			if from, to := max(p.From, o.From), min(p.To, o.To); from < to {
				both = append(both, circuit.Span{From: from, To: to})
			}
		}
	}
	return both
}

// longer keeps the stretches that last longer than d.
func (s spans) longer(d book.Time) spans {
	return slices.DeleteFunc(slices.Clone(s), func(p circuit.Span) bool { return p.To-p.From <= d })
}

// beyond gives the moments in s that are not in other, without rounding.
func (s spans) beyond(other spans) spans { return s.minus(other).longer(rounding) }

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

func (s spans) within(p circuit.Span) spans { return s.and(spans{p}) }

func (s spans) has(t book.Time) bool {
	return slices.ContainsFunc(s, func(p circuit.Span) bool { return p.From <= t && t < p.To })
}

func (s spans) near(t book.Time) bool { return s.has(t) || s.has(t-rounding) || s.has(t+rounding) }

// passing lists the moments of what has no duration.
func passing(list []circuit.Span) (at []book.Time) {
	for _, p := range list {
		if p.From == p.To {
			at = append(at, p.From)
		}
	}
	return at
}

// onlyHere lists the moments at which something is yes for no duration here and
// not at all there.
func onlyHere(here, there []circuit.Span) (at []book.Time) {
	for _, t := range passing(here) {
		near := slices.ContainsFunc(passing(there), func(m book.Time) bool { return m-t <= rounding && t-m <= rounding })
		if !lasting(here).has(t) && !lasting(there).near(t) && !near {
			at = append(at, t)
		}
	}
	return at
}
