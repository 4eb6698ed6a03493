// Package smooth is what every evaluator knows of values that change between
// instants: where a comparison of them turns, how a total adds up, when it
// meets its bound. One run and many runs at once use the same rules, so that
// they find the same microsecond. A search never depends on how far apart it
// looks. Start reading at First.
package smooth

import (
	"math"
	"slices"

	"knockon/book"
)

// Finite keeps a result within the doubles: what is not a number is 0, and
// what is too large is the largest of its sign.
func Finite(x float64) float64 {
	switch {
	case x != x:
		return 0
	case x > math.MaxFloat64:
		return math.MaxFloat64
	case x < -math.MaxFloat64:
		return -math.MaxFloat64
	}
	return x
}

// Knots are the moments at which a flight may bend or jump, in order.
type Knots []book.Time

// After returns the first knot after a moment, or Never.
func (k Knots) After(t book.Time) book.Time {
	i, found := slices.BinarySearch(k, t)
	if found {
		i++
	}
	if i == len(k) {
		return book.Never
	}
	return k[i]
}

// panel is the longest piece over which a rate that changes all the time is
// integrated at once.
const panel = book.Second

// PanelEnd is where the piece of an integral that begins at a moment ends: at
// the next whole second, knot of the flight, or bound met under the rate, so
// that a sum does not depend on who asks when.
func (k Knots) PanelEnd(from, bound book.Time) book.Time {
	return min((from/panel+1)*panel, k.After(from), bound)
}

// last is where the end of a piece is looked at: a value may jump at a knot, where
// it has its new value, so a piece that ends there takes what it was just before.
func (k Knots) last(a, b book.Time) book.Time {
	if _, knot := slices.BinarySearch(k, b); knot && b > a {
		return b - 1
	}
	return b
}

// Simpson integrates a rate over one piece by Simpson's rule.
func (k Knots) Simpson(rate func(book.Time) float64, a, b book.Time) float64 {
	last := k.last(a, b)
	return (b - a).Seconds() / 6 * (rate(a) + 4*rate(a+(b-a)/2) + rate(last))
}

// stretch is the longest piece of a sum whose rate follows the sum itself: how
// finely it is divided, its own errors say.
const stretch = 32 * book.Second

// StretchEnd is PanelEnd for such a sum.
func (k Knots) StretchEnd(from, bound book.Time) book.Time {
	return min((from/stretch+1)*stretch, k.After(from), bound)
}

// Tank is a total whose rate stands: what it held at a moment, and its bounds,
// nil for none.
type Tank struct {
	Base   float64
	At     book.Time
	Rate   float64
	Bounds *book.Bounds
}

// Value is what it holds at a moment not before At.
func (s Tank) Value(t book.Time) float64 {
	v := Finite(s.Base + s.Rate*(t-s.At).Seconds())
	if s.Bounds != nil {
		v = min(max(v, s.Bounds.Least), s.Bounds.Most)
	}
	return v
}

// Full is when it meets the bound that it runs towards, or Never. It needs
// bounds.
func (s Tank) Full() book.Time {
	to := s.Bounds.Most
	if s.Rate < 0 {
		to = s.Bounds.Least
	}
	in := (to - s.Base) / s.Rate
	if s.Rate == 0 || in > 1e6 {
		return book.Never
	}
	return s.At + book.AtSeconds(in)
}
