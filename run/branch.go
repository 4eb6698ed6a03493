package run

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
)

// Branch is a run under way that can be parted: each part flies on by itself,
// with what is moved in it alone. Its values are those of Fly on the scenario
// with all that was moved. It keeps no record; whoever wants one looks after
// each Step. It is for one goroutine, but one that is no longer flown may be
// parted by many.
type Branch struct {
	pilot *pilot
	m     *circuit.Machine
	again bool
	fault error
	ended bool
}

// Branch starts a run. The error is one of Fly. Where need (nil: all) says of a
// circuit which of its nodes are needed, with all that they hang on, no other is
// worked out.
func (c *Course) Branch(ctx context.Context, s Scenario, need func(*circuit.Circuit) []bool) (*Branch, error) {
	p, err := c.prepareFor(ctx, s, need)
	if err != nil {
		return nil, err
	}
	p.forgetful, p.ahead, p.bends = true, true, &bends{known: map[turning]*bend{}}
	b := &Branch{pilot: p}
	if b.m, b.again, err = p.start(); err != nil {
		return nil, err
	}
	return b, nil
}

// BranchBeside starts what a record is compared with (see Beside).
func (c *Course) BranchBeside(ctx context.Context, here *Record, need func(*circuit.Circuit) []bool) (*Branch, error) {
	return c.besides(here).Branch(ctx, here.Scenario.Healthy(), need)
}

// Part gives a run that stands where this one does and flies on by itself.
func (b *Branch) Part() *Branch { return b.PartInto(nil) }

// PartInto does that in the room of a run that nobody asks any more; nil: of its own.
func (b *Branch) PartInto(over *Branch) *Branch {
	var room *circuit.Machine
	if over != nil {
		room = over.m
	}
	p := *b.pilot
	p.queue, p.lasts, p.made, p.bent = slices.Clone(p.queue), slices.Clone(p.lasts), slices.Clone(p.made), slices.Clone(p.bent)
	p.legs, p.waits, p.turns = slices.Clone(p.legs), slices.Clone(p.waits), slices.Clone(p.turns)
	p.scenario.Actions = slices.Clone(p.scenario.Actions)
	p.record = &Record{Struck: slices.Clone(p.record.Struck)}
	return &Branch{pilot: &p, m: b.m.ForkInto(room), again: b.again, fault: b.fault, ended: b.ended}
}

// Move has a control moved at a moment after the present one.
func (b *Branch) Move(control, position string, at book.Time) error {
	return b.move(control, position, at, false)
}

// Hold has it moved and held there: no act moves it, until Move or Hold does.
func (b *Branch) Hold(control, position string, at book.Time) error {
	return b.move(control, position, at, true)
}

func (b *Branch) move(control, position string, at book.Time, held bool) error {
	number, to, ok := b.Circuit().Control(control, position)
	if !ok || at <= b.m.Now() {
		return fmt.Errorf("run: a branch at %d cannot set %s to %q at %d", b.m.Now(), control, position, at)
	}
	b.pilot.push(at, circuit.Input{Strike: -1, End: -1, Control: number, To: to, Hold: held})
	b.pilot.scenario.Actions = append(b.pilot.scenario.Actions, Action{Control: control, Position: position, At: book.Moment{Offset: at}, Held: held}.Taken())
	return nil
}

// Join has a run turn onto the flights that the parts of another one flew: both
// must be of one scenario, and stand on the same path.
func (b *Branch) Join(other *Branch) { b.pilot.bends = other.pilot.bends }

// Step works out the next instant, if it is not after a moment; ok is false
// where there is none. What it touched, Touched says.
func (b *Branch) Step(until book.Time) (ok bool) {
	p, m := b.pilot, b.m
	if b.ended || !b.again && until < book.Never && p.after(m, until+1) > until {
		return false
	}
	b.again, b.fault = p.instant(m, b.again, book.Never)
	b.ended = b.fault != nil || m.Now() >= p.flown().End() && !b.again
	return true
}

// Until flies on to a moment, that included.
func (b *Branch) Until(ctx context.Context, t book.Time) error { return b.until(ctx, t, func() {}) }

func (b *Branch) until(ctx context.Context, t book.Time, seen func()) error {
	for steps := 0; b.Step(t); steps++ {
		seen()
		if steps%64 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
	}
	return nil
}

// With says that a run is on the path of another one, as far as it has gone. No
// says that it is not known to be.
func (b *Branch) With(other *Branch) bool {
	n := len(b.pilot.bent)
	if n > len(other.pilot.bent) || n > 0 && b.pilot.bent[n-1] != other.pilot.bent[n-1] {
		return false
	}
	return n == len(other.pilot.bent) || b.Now() <= other.pilot.bent[n].at
}

// Path is the flight as known so far.
func (b *Branch) Path() flight.Path { return b.pilot.flown() }

// Circuit is what is run: the course's, with the conditions of the scenario.
func (b *Branch) Circuit() *circuit.Circuit { return b.m.Circuit() }

// Now is the moment of the last instant.
func (b *Branch) Now() book.Time { return b.m.Now() }

// Settled says that no other instant follows at the moment.
func (b *Branch) Settled() bool { return !b.again }

// Value of a steady node when the last instant was over.
func (b *Branch) Value(n circuit.Node) float64 { return b.m.Value(n) }

// Touched lists the nodes that had another value at some point of the last
// instant, those that came back included.
func (b *Branch) Touched() []circuit.Node { return b.m.Touched() }

// Sign has the machine sign how its nodes come to their values.
func (b *Branch) Sign() { b.m.Sign() }

// Signature of a touched node: the same in two instants only if it went through
// the same values in the same evaluations.
func (b *Branch) Signature(n circuit.Node) uint64 { return b.m.Signature(n) }

// Scenario is what is flown, with what was moved.
func (b *Branch) Scenario() Scenario { return b.pilot.scenario }

// Ended says that the flight is over: it is at its end, or broke off.
func (b *Branch) Ended() bool { return b.ended }

// NeverSettled says of a run that is over that it broke off in a loop of the model.
func (b *Branch) NeverSettled() bool {
	var loop *circuit.Unsettled
	return errors.As(b.fault, &loop)
}

// Arrived says of a run that is over that it was flown to its end.
func (b *Branch) Arrived() bool {
	if b.fault != nil {
		return false
	}
	p := b.pilot.path
	return p == nil || hows[p.Ending()] == Arrived
}
