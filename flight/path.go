package flight

import "knockon/book"

// Path is a flight as flown: every real.* value at every moment. It is frozen
// and may be read from many goroutines.
type Path interface {
	// End is the last moment; the first is 0.
	End() book.Time
	// Knots are ascending moments, 0 and End among them, such that between two
	// neighbours every number is smooth and every yes/no is constant.
	Knots() []book.Time
	// Value gives quantity q (an index of book.Quantities) at t: a number in the
	// quantity's unit, or 0 and 1 for no and yes. A value that jumps has its new
	// value at the moment of the jump. t outside the flight is cut to it.
	Value(q int, t book.Time) float64
}
