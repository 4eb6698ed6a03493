package sweep

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/circuit/smooth"
)

// flipKey is a comparison of two terms.
type flipKey struct {
	test circuit.Node
	a, b term
}

// flips is a comparison over the rest of the flight: what it is at first, and
// when it turns.
type flips struct {
	from  book.Time
	first bool
	at    []book.Time
}

// compared works out when a comparison of two terms turns, from a moment to the
// end of the flight. Terms do not change, so once is enough.
func (t *terms) compared(k flipKey, from book.Time) *flips {
	f, ok := t.flips[k]
	if ok && f.from <= from {
		return f
	}
	if !t.p.gates[k.test].reached {
		return t.given(k, from)
	}
	s := &search{t: t, key: k, straight: t.straight(k.a) && t.straight(k.b)}
	f = &flips{from: from, first: s.Look(from).Differ}
	s.now = f.first
	for at := from; ; s.now = !s.now {
		if at = smooth.First(s, at, t.p.end); at == book.Never {
			break
		}
		f.at = append(f.at, at)
	}
	t.flips[k] = f
	return f
}

// given takes the turns of a comparison that no failure changes from the record
// of the flight without failures.
func (t *terms) given(k flipKey, from book.Time) *flips {
	f := &flips{from: from, first: t.p.there.At(k.test, from) != 0}
	for _, ch := range t.p.there.History(k.test) {
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
	key flipKey
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
	return smooth.Look{At: at, Differ: (s.t.p.gates[s.key.test].work.Of(a, b) != 0) != s.now, By: a - b}
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
