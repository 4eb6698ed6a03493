package run

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// Held is a run that stands at a moment and can be flown on to more than one
// place from there. It is frozen and may be used from many goroutines.
type Held struct {
	At book.Time

	course  *Course // that flies on: with drag and thrust
	pilot   *pilot
	machine *circuit.Machine
	path    *energy.Path
}

// Hold flies a scenario up to a moment. The flight must feel the systems.
func (c *Course) Hold(ctx context.Context, s Scenario, at book.Time) (*Held, error) {
	if c.mission == nil {
		return nil, fmt.Errorf("flight %s cannot be flown elsewhere: the aircraft block gives no drag polars and no thrust", c.Flight.ID)
	}
	p, err := c.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	return c.hold(ctx, p, at)
}

// HoldWith is Hold with a hand that acts on what happens, then and later.
func (c *Course) HoldWith(ctx context.Context, s Scenario, at book.Time, h Forker) (*Held, error) {
	if c.mission == nil {
		return c.Hold(ctx, s, at)
	}
	p, err := c.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	p.scenario.Actions, p.scenario.Plan = slices.Clone(s.Actions), slices.Clone(s.Plan)
	p.hand = h
	return c.hold(ctx, p, at)
}

// HoldBeside does the same along the path that a held run has flown, whatever
// the systems of this scenario do: it is in the same place with the same fuel.
func (c *Course) HoldBeside(ctx context.Context, h *Held, s Scenario) (*Held, error) {
	along := c.same
	if h.path != c.Path {
		along = c.led(h.path, h.machine.Course())
	}
	p, err := along.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	g, err := c.hold(ctx, p, h.At)
	if err != nil {
		return nil, err
	}
	g.path = h.path
	return g, nil
}

func (c *Course) hold(ctx context.Context, p *pilot, at book.Time) (*Held, error) {
	p.ahead = true
	m, again, err := p.start()
	if err != nil {
		return nil, err
	}
	for steps := 0; m.Now() < at || again; steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err := p.attendUntil(ctx, m, again, at); err != nil {
			return nil, err
		}
		if again, err = p.instant(m, again, at); err != nil {
			return nil, fmt.Errorf("the flight ends before %.0f s: %w", at.Seconds(), err)
		}
		if m.Now() >= p.flown().End() && !again {
			break
		}
	}
	if m.Now() < at {
		return nil, fmt.Errorf("the flight ends at %.0f s, before the moment at %.0f s", m.Now().Seconds(), at.Seconds())
	}
	if p.path != nil && p.path.Open() {
		p.path = p.path.Whole()
		m.Extend(p.path, p.path.Knots(), p.path.End())
	}
	return &Held{At: at, course: c, pilot: p, machine: m, path: p.path}, nil
}

// Path is the flight as it was flown up to the moment, and would go on if
// nothing changed any more; nil if it does not feel the systems.
func (h *Held) Path() *energy.Path { return h.path }

// Configured is what the systems do to the flight at the moment.
func (h *Held) Configured() energy.Config { return h.course.configure(h.machine) }

// Whereabouts is where the flight is at the moment, over the ground that a
// router knows.
func (h *Held) Whereabouts(r Router) (Whereabouts, error) {
	p := *h.pilot
	p.path = h.path
	return p.whereabouts(r, h.machine, h.At, h.Configured())
}

// Goes flies a held run on with a leg that begins at the moment, as Fly does the
// scenario with that leg in its plan, and gives the record from the moment on.
func (h *Held) Goes(ctx context.Context, l Leg) (*Record, error) {
	k := h.hand()
	k.insert(l, h.At)
	k.steer(k.machine, false)
	return k.pilot.goOn(ctx, k.machine, false)
}

// Along flies a held run on along a path that another run, held at the same moment
// of the same flight, flew from there: its systems do nothing to it.
func (h *Held) Along(ctx context.Context, path *energy.Path) (*Record, error) {
	k := h.hand()
	k.pilot.path = path
	k.machine.Turn(path, path.Knots(), path.End())
	for steps := 0; k.fault == nil && k.machine.Now() < path.End(); steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		k.arrive(k.next(k.machine, path.End()))
	}
	return k.record.done(k.pilot, k.machine, k.machine.Now(), k.fault), nil
}

// Mix decides what the systems do to a flight that several runs share.
type Mix func([]energy.Config) energy.Config

// Divert flies a held run to another runway, with all that its systems do on the
// way, and gives the record from the moment on.
func (h *Held) Divert(ctx context.Context, d energy.Diversion) (*Record, error) {
	list, err := Together(ctx, d, func(c []energy.Config) energy.Config { return c[0] }, h)
	if err != nil {
		return nil, err
	}
	return list[0], nil
}

// Together flies runs that are held at the same moment of the same flight to
// another runway, all along one path, which feels what mix makes of their
// effects; no list turns it. It gives a record for each; one with a Fault where a
// loop never settles.
func Together(ctx context.Context, d energy.Diversion, mix Mix, held ...*Held) ([]*Record, error) {
	t := gather(mix, held)
	t.turn(t.path.DivertAhead(t.now, d, t.config))
	return t.fly(ctx)
}

// GoTogether does the same with a leg that begins at the moment, as Goes flies the
// first of the runs: where a list of its crew turns the flight, all turn.
func GoTogether(ctx context.Context, l Leg, mix Mix, held ...*Held) ([]*Record, error) {
	t := gather(mix, held)
	t.leads = t.hands[0]
	t.leads.insert(l, t.now)
	t.turn(t.path)
	t.steer()
	return t.fly(ctx)
}

func gather(mix Mix, held []*Held) *together {
	t := &together{mix: mix, now: held[0].At, path: held[0].path}
	for _, h := range held {
		t.hands = append(t.hands, h.hand())
	}
	t.config = t.mixed()
	return t
}

// stride is how far apart a flight under way looks for crossings at first, where
// no step is set. Results do not depend on it.
const stride = 60 * book.Second

// hand is one of the runs that fly together.
type hand struct {
	*pilot
	course  *Course
	machine *circuit.Machine
	fault   error
}

func (h *Held) hand() *hand {
	p := *h.pilot
	p.queue = slices.Clone(p.queue)
	p.lasts = slices.Clone(p.lasts)
	p.legs, p.waits, p.turns, p.made = slices.Clone(p.legs), slices.Clone(p.waits), slices.Clone(p.turns), slices.Clone(p.made)
	p.scenario.Actions, p.scenario.forced = slices.Clone(p.scenario.Actions), slices.Clone(p.scenario.forced)
	if f, ok := p.hand.(Forker); ok {
		p.hand = f.Fork()
	}
	p.left = true
	m := h.machine.Fork()
	m.Stride(stride)
	p.record = newRecord(&p, m)
	return &hand{pilot: &p, course: h.course, machine: m}
}

// insert puts a leg before all others.
func (h *hand) insert(l Leg, at book.Time) {
	h.legs = slices.Insert(slices.Clone(h.legs), 0, pending{leg: l, at: at})
	h.scenario.Plan = append(slices.Clone(h.scenario.Plan), l)
}

// together is a flight that several runs share.
type together struct {
	mix    Mix
	hands  []*hand
	leads  *hand // whose legs are flown; nil: nobody's
	path   *energy.Path
	config energy.Config
	now    book.Time
	turned book.Time // when the path was last turned
}

// fly flies to the end of the path.
func (t *together) fly(ctx context.Context) (list []*Record, err error) {
	for steps := 0; t.path.Open() || t.now < t.path.End(); steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err := t.attend(ctx); err != nil {
			return nil, err
		}
		t.instant()
	}
	for _, h := range t.hands {
		end := t.now
		if h.fault != nil {
			end = h.machine.Now()
		}
		list = append(list, h.record.done(h.pilot, h.machine, end, h.fault))
	}
	return list, nil
}

func (t *together) mixed() energy.Config {
	var list []energy.Config
	for _, h := range t.hands {
		list = append(list, h.course.configure(h.machine))
	}
	return t.mix(list)
}

func (t *together) turn(path *energy.Path) {
	t.path = path
	knots := path.Knots()
	for _, h := range t.hands {
		h.pilot.path = path
		h.machine.Turn(path, knots, path.End())
	}
	t.turned = t.now
}

// flyOn flies an open path on.
func (t *together) flyOn() {
	t.path = t.path.FlyOn(t.turned)
	knots := t.path.Knots()
	for _, h := range t.hands {
		h.pilot.path = t.path
		h.machine.Extend(t.path, knots, t.path.End())
	}
}

// instant flies on to the next moment at which something happens in one of them.
func (t *together) instant() {
	t.now = t.coming()
	for _, h := range t.hands {
		h.arrive(t.now)
	}
	if t.path.Open() || t.now < t.path.End() {
		t.steer()
	}
}

// steer turns the flight where the run that leads it begins a leg, or where it
// feels what the systems do.
func (t *together) steer() {
	c := t.mixed()
	switch {
	case t.led(c):
		t.config = c
		t.turn(t.leads.path)
	case t.path.Feels(t.now, t.config, c):
		t.config = c
		t.turn(t.path.LeaveAhead(t.now, c))
	}
}

// led begins the legs of the run that leads, and drops those of the others.
func (t *together) led(c energy.Config) (turned bool) {
	for _, h := range t.hands {
		if h == t.leads && h.fault == nil {
			turned = h.pilot.turn(h.machine, c)
		} else {
			h.legs, h.waits = nil, nil
		}
	}
	return turned
}

// attend lets the hands of the runs look, each in its turn.
func (t *together) attend(ctx context.Context) error {
	for _, h := range t.hands {
		for at := t.now; h.pilot.hand != nil && h.fault == nil; at = h.look {
			if err := h.seen(ctx, h.machine, at); err != nil {
				return err
			}
			if h.look >= t.coming() {
				break
			}
		}
	}
	return nil
}

// coming is the next moment at which something happens, the path flown on as far
// as that takes.
func (t *together) coming() book.Time {
	next := t.next()
	for t.path.Open() && next >= t.path.End() {
		t.flyOn()
		next = t.next()
	}
	return next
}

// next is the next moment at which something happens: the end at the latest.
func (t *together) next() book.Time {
	next := t.path.End()
	for _, h := range t.hands {
		if h.fault == nil {
			next = min(next, h.next(h.machine, t.path.End()))
		}
	}
	return next
}

// arrive works out all instants of a moment.
func (h *hand) arrive(at book.Time) {
	again := true
	for again && h.fault == nil {
		var changed []circuit.Node
		if changed, again, h.fault = h.machine.Instant(at, h.due(at)); h.fault != nil {
			return
		}
		h.record.Add(h.machine, changed)
		h.noteStruck(h.machine)
		h.fault = h.judge(h.machine, again)
	}
}
