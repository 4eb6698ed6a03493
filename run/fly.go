package run

import (
	"context"
	"fmt"
	"slices"
	"sort"

	"knockon/book"
	"knockon/circuit"
)

// Fly flies a scenario and returns its record. A run that ends early because a
// loop never settles is a record with Fault set, not an error; an error means
// that the scenario does not fit the build or the flight, or ctx is done.
func (c *Course) Fly(ctx context.Context, s Scenario) (*Record, error) {
	p, err := c.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	return p.fly(ctx)
}

// pilot is one run under way.
type pilot struct {
	course    *Course
	circuit   *circuit.Course
	scenario  Scenario
	failures  []circuit.Failure
	lasts     []book.Time
	acts      []circuit.ConditionalAct
	queue     []event
	timed     []event // all that ever was in the queue before the start
	record    *Record
	ahead     bool // the flight is flown ahead only as far as it must be
	forgetful bool // nobody will read the record
	steering
	navigation
	attention
	lapse
}

// event is an input that waits for its moment; order keeps the order given.
type event struct {
	at    book.Time
	order int
	in    circuit.Input
}

func (c *Course) prepare(ctx context.Context, s Scenario) (*pilot, error) {
	return c.prepareFor(ctx, s, nil)
}

// prepareFor prepares a run of the nodes that are needed; nil: of all.
func (c *Course) prepareFor(ctx context.Context, s Scenario, need func(*circuit.Circuit) []bool) (*pilot, error) {
	p := &pilot{course: c, circuit: c.course, scenario: s}
	p.begin(c)
	if err := p.watchConditions(); err != nil {
		return nil, err
	}
	if need != nil {
		p.circuit = p.circuit.Narrowed(need(p.circuit.Circuit()))
		p.course = c.narrowed(p.circuit)
	}
	p.lapse = lapseOf(p.course, s)
	if err := p.addFailure(Strike{Fail: s.Inoperative}, 0); err != nil {
		return nil, err
	}
	for _, k := range s.Strikes {
		at, err := p.strikeTime(ctx, k)
		if err != nil {
			return nil, err
		}
		if err := p.addFailure(k, at); err != nil {
			return nil, err
		}
	}
	for _, a := range s.moves() {
		if err := p.addAction(ctx, a); err != nil {
			return nil, err
		}
	}
	if err := p.addLegs(ctx); err != nil {
		return nil, err
	}
	p.timed = slices.Clone(p.queue)
	return p, nil
}

// watchConditions compiles the scenario's own conditions behind the circuit,
// unless the course observes them already.
func (p *pilot) watchConditions() error {
	conditions := p.scenario.conditions()
	if !slices.ContainsFunc(conditions, func(e *book.Expr) bool {
		_, watched := p.course.circuit.WatchOf(e)
		return !watched
	}) {
		return nil
	}
	if p.course.partial {
		return errPartial
	}
	wider, err := p.course.circuit.Watching(p.course.Flight, conditions...)
	if err != nil {
		return err
	}
	p.circuit = circuit.NewCourse(wider, p.course.Path, p.course.Path.Knots(), p.course.step)
	return nil
}

// condition returns the node of a scenario's condition.
func (p *pilot) condition(e *book.Expr) circuit.Node {
	n, _ := p.circuit.Circuit().WatchOf(e)
	return n
}

func (p *pilot) strikeTime(ctx context.Context, k Strike) (book.Time, error) {
	if k.When != nil {
		return 0, nil
	}
	return p.course.Resolve(ctx, k.At)
}

func (p *pilot) addFailure(k Strike, at book.Time) error {
	ways, bad := p.circuit.Circuit().Expand(k.Fail)
	if bad != nil {
		return fmt.Errorf("build %s has no %s to fail", p.course.Build.Variant, bad)
	}
	f := circuit.Failure{Ways: ways, Resettable: k.Resettable, When: circuit.None}
	number := len(p.failures)
	if k.When != nil {
		f.When = p.condition(k.When)
	} else {
		p.push(at, circuit.Input{Strike: number, End: -1, Control: -1})
		if k.Lasts > 0 {
			p.push(at+k.Lasts, circuit.Input{Strike: -1, End: number, Control: -1})
		}
	}
	p.failures = append(p.failures, f)
	p.lasts = append(p.lasts, k.Lasts)
	return nil
}

func (p *pilot) addAction(ctx context.Context, a Action) error {
	number, to, ok := p.circuit.Circuit().Control(a.Control, a.Position)
	if !ok {
		return fmt.Errorf("build %s has no control %s with a position %q", p.course.Build.Variant, a.Control, a.Position)
	}
	if a.When != nil {
		p.acts = append(p.acts, circuit.ConditionalAct{When: p.condition(a.When), Control: number, To: to})
		return nil
	}
	at, err := a.At.Offset, error(nil)
	if !a.taken {
		at, err = p.course.Resolve(ctx, a.At)
	}
	if err != nil {
		return err
	}
	p.push(at, circuit.Input{Strike: -1, End: -1, Control: number, To: to, Hold: a.Held})
	return nil
}

func (p *pilot) push(at book.Time, in circuit.Input) {
	e := event{at, len(p.queue), in}
	i := sort.Search(len(p.queue), func(i int) bool { return p.queue[i].at > at })
	p.queue = slices.Insert(p.queue, i, e)
}

// due takes the inputs of moment t from the queue.
func (p *pilot) due(t book.Time) (inputs []circuit.Input) {
	for len(p.queue) > 0 && p.queue[0].at <= t {
		inputs = append(inputs, p.queue[0].in)
		p.queue = p.queue[1:]
	}
	return inputs
}

func (p *pilot) fly(ctx context.Context) (*Record, error) {
	p.ahead = true
	m, again, err := p.start()
	if err != nil {
		return nil, err
	}
	return p.goOn(ctx, m, again)
}

// goOn flies a run that has begun to its end.
func (p *pilot) goOn(ctx context.Context, m *circuit.Machine, again bool) (r *Record, err error) {
	for steps := 0; ; steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err := p.attend(ctx, m, again); err != nil {
			return nil, err
		}
		t := m.Now()
		if again, err = p.instant(m, again, book.Never); err != nil {
			return p.record.done(p, m, max(t, m.Now()), err), nil
		}
		if m.Now() >= p.flown().End() && !again {
			return p.record.done(p, m, m.Now(), nil), nil
		}
	}
}

// start works out the first instant.
func (p *pilot) start() (m *circuit.Machine, again bool, err error) {
	m = circuit.NewMachine(p.circuit, p.failures, p.acts)
	if p.forgetful && p.bends == nil {
		m.Alone()
	}
	if p.course.step == 0 {
		m.Stride(stride)
	}
	if _, again, err = m.Instant(0, p.due(0)); err != nil {
		return nil, false, fmt.Errorf("the flight cannot start: %w", err)
	}
	p.record = newRecord(p, m)
	p.noteStruck(m)
	p.noteDispatched(m)
	p.steer(m, again)
	return m, again, p.judge(m, again)
}

// instant works out the next instant: one at the same moment, or the next at
// which something happens, no later than until.
func (p *pilot) instant(m *circuit.Machine, again bool, until book.Time) (more bool, err error) {
	t := m.Now()
	if !again {
		t = p.after(m, until)
	}
	changed, more, err := m.Instant(t, p.due(t))
	if err != nil {
		return false, err
	}
	if !p.forgetful {
		p.record.Add(m, changed)
	}
	p.noteStruck(m)
	p.steer(m, more)
	return more, p.judge(m, more)
}

// after is the moment of the next instant, no later than until. A flight that is
// open is flown on for it as far as it must be.
func (p *pilot) after(m *circuit.Machine, until book.Time) book.Time {
	for {
		t := p.next(m, min(until, p.flown().End()))
		if p.path == nil || !p.path.Open() || t < p.path.End() {
			return t
		}
		p.path = p.flyOn()
		m.Extend(p.path, p.path.Knots(), p.path.End())
	}
}

// turned is when the flight was last turned.
func (p *pilot) turned() book.Time {
	if len(p.made) == 0 {
		return 0
	}
	return p.made[len(p.made)-1].at
}

// next is the moment of the next instant: the end at the latest.
func (p *pilot) next(m *circuit.Machine, end book.Time) book.Time {
	t := min(end, m.NextTimer(), p.nextShared(m.Now()), p.nextLeg(), p.lost())
	if len(p.queue) > 0 {
		t = min(t, p.queue[0].at)
	}
	return min(t, m.NextCrossing(t))
}

// noteStruck takes down failures that came on their condition, and when a
// passing one of them will end: that long after it came last.
func (p *pilot) noteStruck(m *circuit.Machine) {
	for _, f := range m.Struck {
		p.record.noteStrike(f, m.Now())
		if p.lasts[f] > 0 {
			p.queue = slices.DeleteFunc(p.queue, func(e event) bool { return e.in.End == f })
			p.push(m.Now()+p.lasts[f], circuit.Input{Strike: -1, End: f, Control: -1})
		}
	}
}
