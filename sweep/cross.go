package sweep

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
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
	f = &flips{from: from, first: s.truth(from)}
	s.now = f.first
	for at := from; ; s.now = !s.now {
		if at = s.first(at, t.p.end); at == book.Never {
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
	n, found := slices.BinarySearch(f.at, when)
	if found {
		n++
	}
	if n == len(f.at) {
		return book.Never
	}
	return f.at[n]
}

// search looks for the first moment at which a comparison is not what it is
// now, in the way of circuit.Machine.
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

type look struct {
	at     book.Time
	differ bool
	by     float64
}

func (s *search) truth(at book.Time) bool {
	return s.t.calc.Value(s.key.test, []float64{s.t.at(s.key.a, at), s.t.at(s.key.b, at)}) != 0
}

func (s *search) look(at book.Time) look {
	a, b := s.t.at(s.key.a, at), s.t.at(s.key.b, at)
	return look{at, (s.t.calc.Value(s.key.test, []float64{a, b}) != 0) != s.now, a - b}
}

// step is how far apart a search looks at first. Results do not depend on it.
const step = 3 * circuit.DefaultStep

// first looks from one moment at which something bends sharply to the next.
func (s *search) first(from, until book.Time) book.Time {
	a := s.look(from)
	for from < until {
		bound := min(s.t.boundAfter(s.key.a, from), s.t.boundAfter(s.key.b, from))
		to := min(bound, until)
		if !s.straight {
			to = min((from/step+1)*step, s.t.p.knotAfter(from), to)
		}
		b := s.look(to)
		if at := s.between(a, b); at != book.Never {
			return at
		}
		from, a = to, b
	}
	return book.Never
}

// fine is the shortest stretch that is divided to look for a double crossing.
const fine = 10 * book.Second / 1000

func (s *search) between(a, b look) book.Time {
	if b.at-a.at <= 1 {
		if b.differ {
			return b.at
		}
		return book.Never
	}
	mid := s.look(a.at + (b.at-a.at)/2)
	bend := math.Abs(mid.by - (a.by+b.by)/2)
	if mid.differ {
		return s.between(a, mid)
	}
	near := min(math.Abs(a.by), math.Abs(b.by), math.Abs(mid.by))
	straight := bend <= 1e-9*(math.Abs(a.by)+math.Abs(b.by)) || 4*bend <= near
	if b.at-a.at <= fine || straight {
		if b.differ {
			return s.bisect(mid.at, b.at)
		}
		return book.Never
	}
	if at := s.between(a, mid); at != book.Never {
		return at
	}
	return s.between(mid, b)
}

func (s *search) bisect(lo, hi book.Time) book.Time {
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; s.truth(mid) != s.now {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}
