package run

import (
	"context"
	"fmt"

	"knockon/book"
	"knockon/circuit"
)

// Flying is a run under way. It goes on as far as it is asked, takes actions that
// were not known before, and can be read at its moment. It is not safe for
// concurrent use.
//
// However often it is asked, and in what pieces, its values are those of Fly on
// the scenario with all its actions. It keeps no record: fly that for one.
type Flying struct {
	pilot *pilot
	m     *circuit.Machine
	again bool
	now   book.Time
	fault error
	ended bool
}

// Begin starts a run. The error is one of Fly.
func (c *Course) Begin(ctx context.Context, s Scenario) (*Flying, error) {
	p, err := c.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	p.scenario.Actions = append([]Action(nil), s.Actions...)
	p.forgetful = true
	f := &Flying{pilot: p}
	if f.m, f.again, err = p.start(); err != nil {
		return nil, err
	}
	return f, nil
}

// Now is the moment up to which the run has gone, that included.
func (f *Flying) Now() book.Time { return f.now }

// Ended says that the flight is over: it has arrived, or broken off.
func (f *Flying) Ended() bool { return f.ended }

// End is when the flight will end if nothing changes any more.
func (f *Flying) End() book.Time {
	if f.ended { // it may have broken off before
		return f.m.Now()
	}
	return f.pilot.flown().End()
}

// Until goes on to a moment, that included, and calls seen (nil: nothing) after
// each moment at which something may have changed. A moment that lies behind is
// no error, and one behind the end is the end.
func (f *Flying) Until(ctx context.Context, t book.Time, seen func(View)) error {
	for steps := 0; !f.ended; steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		if !f.again && f.pilot.next(f.m, f.End()) > t {
			break
		}
		f.instant()
		if seen != nil && !f.again {
			seen(glance{f.m, f.m.Now()})
		}
	}
	f.now = max(f.now, min(t, f.End()), f.m.Now())
	return nil
}

func (f *Flying) instant() {
	f.again, f.fault = f.pilot.instant(f.m, f.again, book.Never)
	f.ended = f.fault != nil || f.m.Now() >= f.End() && !f.again
}

// Move has a control moved at a moment after the present one. The error says what
// does not fit.
func (f *Flying) Move(control, position string, at book.Time) error {
	number, to, ok := f.pilot.circuit.Circuit().Control(control, position)
	switch {
	case !ok:
		return fmt.Errorf("build %s has no control %s with a position %q", f.pilot.course.Build.Variant, control, position)
	case at <= f.now:
		return fmt.Errorf("the flight is at %.3f s; nothing can be moved at %.3f s any more", f.now.Seconds(), at.Seconds())
	}
	f.pilot.push(at, circuit.Input{Strike: -1, End: -1, Control: number, To: to})
	f.pilot.scenario.Actions = append(f.pilot.scenario.Actions, Action{Control: control, Position: position, At: book.Moment{Offset: at}}.Taken())
	return nil
}

// Value is the value of a steady node at the moment.
func (f *Flying) Value(n circuit.Node) float64 { return f.m.Value(n) }

// Read is the value at the moment of a node that the gauge was made for.
func (f *Flying) Read(g *circuit.Gauge, n circuit.Node) float64 { return g.Read(f.m, n, f.now) }

// Real is a physical value at the moment, by its number in book.Quantities.
func (f *Flying) Real(q int) float64 { return f.pilot.flown().Value(q, f.now) }

// Scenario is what is flown, with the actions that came on the way.
func (f *Flying) Scenario() Scenario { return f.pilot.scenario }
