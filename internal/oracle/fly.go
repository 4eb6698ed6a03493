package oracle

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/flight"
)

// SampleEvery is how far apart the samples of numbers are, at least.
const SampleEvery = book.Second

// Fly flies a build along a path at steps of the given size, with one more at
// each knot of the path, where a flight may be in ice for microseconds, and a
// last step at the end of the path. Failures and actions happen at the first step at or
// after their time, crossings are seen at the first step after them, and timers
// run from the step at which they began. f may be nil: no acts. The watched
// expressions are recorded as aspects Watch of the items "0", "1", ...
//
// A loop that never settles is a *LoopError; the trace up to it comes with it.
// Anything else wrong with the arguments gives an error and no trace.
func Fly(b *book.Build, f *book.Flight, path flight.Path, s Scenario, step book.Time, watch ...*book.Expr) (*Trace, error) {
	return fly(b, f, path, s, step, SampleEvery, watch...)
}

// fly is Fly with samples so far apart.
func fly(b *book.Build, f *book.Flight, path flight.Path, s Scenario, step, every book.Time, watch ...*book.Expr) (*Trace, error) {
	if step <= 0 {
		return nil, fmt.Errorf("a step must be longer than 0, not %g s", step.Seconds())
	}
	m, err := newMachine(b, f, s, watch)
	if err != nil {
		return nil, err
	}
	m.ready(path)
	r := newRecorder(m, path.End())
	sampled := -every
	times := &clock{step: step, end: path.End(), knots: path.Knots()}
	for at := book.Time(0); ; at = times.after(at) {
		if err := m.moment(at, r.settled); err != nil {
			return r.trace, err
		}
		if at >= sampled+every || at == path.End() {
			r.sample()
			sampled = at
		}
		if at == path.End() {
			return r.trace, nil
		}
	}
}

// clock gives the moments that are looked at, whole steps and knots, in order.
type clock struct {
	step, end book.Time
	knots     []book.Time
}

func (c *clock) after(at book.Time) book.Time {
	next := min((at/c.step+1)*c.step, c.end)
	for _, k := range c.knots {
		if k > at {
			next = min(next, k)
		}
	}
	return next
}

// ready makes room for the values once all nodes have their slots.
func (m *machine) ready(path flight.Path) {
	m.path = path
	m.now, m.stood, m.limits = slices.Clone(m.first), make([]float64, m.slots), make([]float64, m.slots)
	m.leftSeen = make([]int, m.slots)
	m.real = make([]float64, len(book.Quantities))
}
