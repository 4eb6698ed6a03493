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

// Simpson integrates a rate over one piece by Simpson's rule. A value may jump
// at a knot, where it has its new value: the piece that ends there takes what
// it was just before.
func (k Knots) Simpson(rate func(book.Time) float64, a, b book.Time) float64 {
	last := b
	if _, knot := slices.BinarySearch(k, b); knot && b > a {
		last = b - 1
	}
	return (b - a).Seconds() / 6 * (rate(a) + 4*rate(a+(b-a)/2) + rate(last))
}

// stretch is the longest piece of a sum whose rate follows the sum itself: how
// finely it is divided, its own errors say.
const stretch = 16 * book.Second

// StretchEnd is PanelEnd for such a sum.
func (k Knots) StretchEnd(from, bound book.Time) book.Time {
	return min((from/stretch+1)*stretch, k.After(from), bound)
}

// Grow is what a sum that is worth v at a becomes by b, where its rate follows the
// sum itself: the solution of v' = rate(t, v), to where two halves of a piece
// differ from the whole by less than a part of ten million. Where the rate does not read v, it is Simpson's rule.
func (k Knots) Grow(rate func(at book.Time, v float64) float64, a, b book.Time, v float64) float64 {
	last := b
	if _, knot := slices.BinarySearch(k, b); knot && b > a {
		last = b - 1
	}
	return grow(rate, a, b, last, v, runge(rate, a, b, last, v))
}

// shortest is the shortest piece that is divided.
const shortest = book.Second / 4096

// grow takes two halves in place of the whole, and halves again until that makes
// no difference.
func grow(rate func(book.Time, float64) float64, a, b, last book.Time, v, whole float64) float64 {
	mid := a + (b-a)/2
	half := runge(rate, a, mid, mid, v)
	both := runge(rate, mid, b, last, half)
	if off := both - whole; b-a <= shortest || math.Abs(off) <= 1e-7*max(math.Abs(v), 1) {
		return Finite(both + off/15)
	}
	half = grow(rate, a, mid, mid, v, half)
	return grow(rate, mid, b, last, half, runge(rate, mid, b, last, half))
}

// runge is one step of the classical method of Runge and Kutta, of the fourth order.
func runge(rate func(book.Time, float64) float64, a, b, last book.Time, v float64) float64 {
	h, mid := (b - a).Seconds(), a+(b-a)/2
	k1 := rate(a, v)
	k2 := rate(mid, v+h/2*k1)
	k3 := rate(mid, v+h/2*k2)
	k4 := rate(last, v+h*k3)
	return Finite(v + h/6*(k1+2*k2+2*k3+k4))
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
