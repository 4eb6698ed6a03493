package run

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
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

// Branch starts a run. The error is one of Fly.
func (c *Course) Branch(ctx context.Context, s Scenario) (*Branch, error) {
	p, err := c.prepare(ctx, s)
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
func (c *Course) BranchBeside(ctx context.Context, here *Record) (*Branch, error) {
	return c.besides(here).Branch(ctx, here.Scenario.Healthy())
}

// Part gives a run that stands where this one does and flies on by itself.
func (b *Branch) Part() *Branch {
	p := *b.pilot
	p.queue, p.lasts, p.made, p.bent = slices.Clone(p.queue), slices.Clone(p.lasts), slices.Clone(p.made), slices.Clone(p.bent)
	p.legs, p.waits, p.turns = slices.Clone(p.legs), slices.Clone(p.waits), slices.Clone(p.turns)
	p.scenario.Actions = slices.Clone(p.scenario.Actions)
	p.record = &Record{Struck: slices.Clone(p.record.Struck)}
	return &Branch{pilot: &p, m: b.m.Fork(), again: b.again, fault: b.fault, ended: b.ended}
}

// Move has a control moved at a moment after the present one.
func (b *Branch) Move(control, position string, at book.Time) error {
	number, to, ok := b.Circuit().Control(control, position)
	if !ok || at <= b.m.Now() {
		return fmt.Errorf("run: a branch at %d cannot set %s to %q at %d", b.m.Now(), control, position, at)
	}
	b.pilot.push(at, circuit.Input{Strike: -1, End: -1, Control: number, To: to})
	b.pilot.scenario.Actions = append(b.pilot.scenario.Actions, Action{Control: control, Position: position, At: book.Moment{Offset: at}}.Taken())
	return nil
}

// Step works out the next instant, if it is not after a moment; ok is false
// where there is none. What it touched, Touched says.
func (b *Branch) Step(until book.Time) (ok bool) {
	p, m := b.pilot, b.m
	if b.ended || !b.again && until < p.flown().End() && p.after(m, until+1) > until {
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

// Follow flies a run that feels nothing, up to the moment of another and along the
// path that the other one flies; seen is called after each step. So far they must
// have been on one path.
func (b *Branch) Follow(ctx context.Context, other *Branch, seen func()) error {
	ahead := other.pilot.bent[len(b.pilot.bent):]
	for i, x := range ahead {
		b.pilot.bent = append(b.pilot.bent, x)
		if i+1 < len(ahead) && ahead[i+1].at <= b.m.Now() {
			continue
		}
		if err := b.until(ctx, x.at, seen); err != nil {
			return err
		}
		b.lead(x)
	}
	b.keepUp(other)
	return b.until(ctx, other.Now(), seen)
}

// lead puts a run on a bend that it has come to, or lies behind it.
func (b *Branch) lead(x *bend) {
	p, path := b.pilot, x.known()
	p.course = p.course.along(path, p.course.course)
	if x.laid == nil || x.laid.Circuit() != b.m.Circuit() || b.m.Now() != x.at {
		b.m.Turn(path, path.Knots(), path.End())
		return
	}
	b.m.Board(x.laid)
	if path != x.first {
		b.m.Extend(path, path.Knots(), path.End())
	}
}

// keepUp gives a run as much of the path of another as is known.
func (b *Branch) keepUp(other *Branch) {
	p := b.pilot
	if n := len(p.bent); n > 0 {
		if path := p.bent[n-1].known(); b.Path() != path {
			p.course = p.course.along(path, p.course.course)
			b.m.Extend(path, path.Knots(), path.End())
		}
		return
	}
	if path := other.Path(); b.Path() != path {
		p.course = p.course.along(path, p.course.course)
		b.m.Turn(path, path.Knots(), path.End())
	}
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

// Arrived says of a run that is over that it was flown to its end.
func (b *Branch) Arrived() bool {
	if b.fault != nil {
		return false
	}
	p := b.pilot.path
	return p == nil || hows[p.Ending()] == Arrived
}

// bends are the flights that parts of one run have turned onto, each flown once
// for all of them.
type bends struct {
	mu    sync.Mutex
	known map[turning]*bend
}

// turning is a flight that is left at a moment, and what is felt from then on.
type turning struct {
	last *bend // nil: none yet
	from *energy.Path
	at   book.Time
	to   energy.Config
}

// bend is the flight that comes of it, flown as far as anybody needed it, and
// the circuit laid on its beginning.
type bend struct {
	at    book.Time
	first *energy.Path // as far as it was flown at once
	laid  *circuit.Course

	mu   sync.Mutex
	path *energy.Path
}

// bend turns the flight as steer does, onto one that others may have flown.
func (p *pilot) bend(m *circuit.Machine, now energy.Config) {
	k := turning{from: p.path, at: m.Now(), to: now}
	if n := len(p.bent); n > 0 {
		k.last, k.from = p.bent[n-1], nil
	}
	p.bends.mu.Lock()
	x := p.bends.known[k]
	p.bends.mu.Unlock()
	if x != nil {
		m.Board(x.laid)
	} else {
		path := p.path.LeaveAhead(k.at, now)
		m.Turn(path, path.Knots(), path.End())
		x = p.bends.keep(k, &bend{at: k.at, first: path, path: path, laid: m.Course()})
	}
	p.left, p.now, p.path = true, now, x.first
	p.made, p.bent = append(p.made, turn{m.Now(), now}), append(p.bent, x)
}

// keep gives the bend that was there first.
func (b *bends) keep(k turning, x *bend) *bend {
	b.mu.Lock()
	defer b.mu.Unlock()
	if was := b.known[k]; was != nil {
		return was
	}
	b.known[k] = x
	return x
}

// known is the path as far as anybody has flown it.
func (x *bend) known() *energy.Path {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.path
}

// flyOn gives an open path as flown farther, by somebody else if it was.
func (p *pilot) flyOn() *energy.Path {
	if len(p.bent) == 0 {
		return p.path.FlyOn(p.turned())
	}
	x := p.bent[len(p.bent)-1]
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.path.Open() && x.path.End() <= p.path.End() {
		x.path = x.path.FlyOn(x.at)
	}
	return x.path
}
