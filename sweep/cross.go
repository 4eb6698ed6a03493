package sweep

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/circuit/smooth"
)

// flips is a comparison over the rest of the flight: what it is at first, and
// when it turns.
type flips struct {
	of    asked
	from  book.Time
	first bool
	at    []book.Time
}

// compared works out when a comparison of two terms turns, from a moment to the
// end of the flight. Terms do not change, so once is enough.
func (t *terms) compared(k asked, from book.Time) *flips {
	if t.turns == nil {
		t.turns = make([]*flips, 1<<answers)
	}
	last := &t.turns[k.slot()]
	if f := *last; f == nil || f.of != k || f.from > from {
		*last = t.newlyCompared(k, from)
	}
	return *last
}

func (t *terms) newlyCompared(k asked, from book.Time) *flips {
	f, ok := t.flips[k]
	if ok && f.from <= from {
		return f
	}
	if !t.p.gates[k.n].reached {
		return t.given(k, from)
	}
	s := &search{t: t, key: k, straight: t.straight(k.a) && t.straight(k.b)}
	f = &flips{of: k, from: from, first: s.Look(from).Differ}
	s.now = f.first
	for at := from; ; s.now = !s.now {
		if at = t.first(s, at); at == book.Never {
			break
		}
		f.at = append(f.at, at)
	}
	t.flips[k] = f
	return f
}

// first is the first moment after one at which a comparison differs, or Never. It is
// smooth.First, with a number that is held against a level: where that keeps clear of
// the level from one corner to the next is seen at once.
func (t *terms) first(s *search, from book.Time) book.Time {
	x, level := s.key.a, s.key.b
	if t.isConst(x) {
		x, level = level, x
	}
	if !t.isConst(level) || t.list[x].bounded {
		return smooth.First(s, from, t.p.end)
	}
	at := t.list[level].value
	i, found := slices.BinarySearch(t.p.corners, from)
	for ; from < t.p.end; i++ {
		if found {
			if c := t.cellOf(x, i); at < c.least || at > c.most {
				from = t.p.corners[i+1]
				continue
			}
		}
		to := s.Corner(from)
		if turn := smooth.Between(s, s.Look(from), s.Look(to)); turn != book.Never {
			return turn
		}
		if from = to; !found {
			found, i = true, i-1
		}
	}
	return book.Never
}

// cell is how far a number gets, and a margin, from one corner to the next: a level
// beyond is not met, by the rule of smooth.Between.
type cell struct {
	known       bool
	least, most float64
}

func (t *terms) cellOf(x term, i int) cell {
	m := &t.list[x]
	if m.cells == nil {
		m.cells = make([]cell, len(t.p.corners))
	}
	if c := m.cells[i]; c.known {
		return c
	}
	a, b := t.p.corners[i], t.p.corners[i+1]
	va, mid, vb := t.at(x, a), t.at(x, a+(b-a)/2), t.at(x, b)
	margin := 4 * math.Abs(mid-(va+vb)/2)
	c := cell{true, min(va, mid, vb) - margin, max(va, mid, vb) + margin}
	t.list[x].cells[i] = c
	return c
}

// given takes the turns of a comparison that no failure changes from the record
// of the flight without failures.
func (t *terms) given(k asked, from book.Time) *flips {
	f := &flips{of: k, from: from, first: t.p.there.At(k.n, from) != 0}
	for _, ch := range t.p.there.History(k.n) {
		if ch.At > from {
			f.at = append(f.at, ch.At)
		}
	}
	t.flips[k] = f
	return f
}

// is says what the comparison is at a moment.
func (f *flips) is(when book.Time) bool {
	n, found := slices.BinarySearch(f.at, when)
	if found {
		n++
	}
	return f.first != (n%2 == 1)
}

// after is the first turn after a moment, or Never.
func (f *flips) after(when book.Time) book.Time {
	return smooth.Knots(f.at).After(when)
}

// search is a comparison of two terms as a search looks at it.
type search struct {
	t   *terms
	key asked
	now bool
	// straight says that both are straight lines up to the next bound of a
	// total, so that no corner of the flight needs a look.
	straight bool
}

// straight says that a term is a constant or a total with a constant rate.
func (t *terms) straight(x term) bool {
	m := &t.list[x]
	return m.kind == termConst || m.kind == termTotal && t.isConst(m.args[0])
}

// Look is the comparison at one moment.
func (s *search) Look(at book.Time) smooth.Look {
	a, b := s.t.at(s.key.a, at), s.t.at(s.key.b, at)
	return smooth.Look{At: at, Differ: (s.t.p.gates[s.key.n].work.Of(a, b) != 0) != s.now, By: a - b}
}

// step is how far apart a search looks at first.
const step = 3 * circuit.DefaultStep

// Corner is the next of the flight's knots, of the steps at which a search
// looks, and of the moments at which a total meets its bound.
func (s *search) Corner(from book.Time) book.Time {
	bound := min(s.t.boundAfter(s.key.a, from), s.t.boundAfter(s.key.b, from))
	if s.straight {
		return bound
	}
	return min(bound, (from/step+1)*step, s.t.p.knots.After(from))
}
