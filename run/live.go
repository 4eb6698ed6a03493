package run

import (
	"context"
	"fmt"
	"sort"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
)

// A live flight feels the systems through the effects of the book. The flight
// with nothing failed is flown once and laid out for all runs; a run follows it
// while its effects are the same at the same time, then leaves it for good and
// is flown on with its own. Effects that change at a moment are felt from the
// next microsecond on.

// turn is a moment from which the effects are others.
type turn struct {
	at book.Time
	to energy.Config
}

// steering is the part of a pilot that flies.
type steering struct {
	path *energy.Path // nil: not live
	left bool         // the shared flight
	now  energy.Config
	made []turn

	bends *bends // nil: nobody else flies such flights
	bent  []*bend
}

// liveCourse flies the flight with nothing failed and lays it out.
func liveCourse(b *book.Build, f *book.Flight, set Setting) (*Course, error) {
	m, err := energy.NewMission(f, b.Aircraft)
	if err != nil {
		return nil, fmt.Errorf("flight %s: %w", f.ID, err)
	}
	c, err := circuit.Compile(b, f, set.Watch...)
	if err != nil {
		return nil, err
	}
	first := m.Fly(energy.Clean())
	k := &Course{
		Build: b, Flight: f, Path: first, circuit: c, step: set.Step, mission: m, effects: effectNodes(c),
		course: circuit.NewLiveCourse(c, first, first.Knots(), set.Step), healthy: map[string]*Record{}, noted: &sync.Map{}, router: set.Router,
	}
	p, err := k.prepare(context.Background(), Scenario{})
	if err != nil {
		return nil, err
	}
	p.left = true
	r, err := p.fly(context.Background())
	if err != nil {
		return nil, err
	}
	k.Path, k.shared = r.Path(), p.made
	k.course = circuit.NewCourse(c, k.Path, k.Path.Knots(), set.Step)
	k.same = k.along(k.Path, k.course)
	return k, nil
}

func effectNodes(c *circuit.Circuit) []circuit.Node {
	var list []circuit.Node
	for _, kind := range book.Effects {
		n, ok := c.Node(circuit.Value{Item: book.EffectID(kind.Name)})
		if !ok {
			n = circuit.None
		}
		list = append(list, n)
	}
	return list
}

// along is the course of a path that is given, with the moments of this one.
func (c *Course) along(path flight.Path, laid *circuit.Course) *Course {
	return &Course{Build: c.Build, Flight: c.Flight, Path: path, circuit: c.circuit, step: c.step, course: laid, clock: c, given: true, partial: c.partial, healthy: map[string]*Record{}, noted: c.noted}
}

// Beside is what a run is compared with: the same flight as that run flew it,
// with its set-up and inoperative units, without its failures and what the crew
// moved because of them. On a flight that
// does not feel the systems that is Healthy.
func (c *Course) Beside(ctx context.Context, here *Record) (*Record, error) {
	return c.besides(here).Healthy(ctx, here.Scenario)
}

// besides is the course of what a run is compared with.
func (c *Course) besides(here *Record) *Course {
	switch {
	case c.mission == nil:
		return c
	case here.Path() == c.Path:
		return c.same
	}
	return c.led(here.Path(), here.Trace.Course())
}

// led is the course of a path that one run flew, which was on a course in the end,
// and another is led along.
func (c *Course) led(path flight.Path, last *circuit.Course) *Course {
	step := c.step
	if step == 0 {
		step = stride
	}
	return c.along(path, circuit.NewLedCourse(c.circuit, path, path.Knots(), step, last))
}

func (p *pilot) begin(c *Course) {
	if c.mission != nil {
		p.path, p.now = c.Path.(*energy.Path), energy.Clean()
	}
}

// flown is the flight as known so far.
func (p *pilot) flown() flight.Path {
	if p.path == nil {
		return p.course.Path
	}
	return p.path
}

// steer notes the effects when an instant is over and flies on with them.
func (p *pilot) steer(m *circuit.Machine, again bool) {
	if p.path == nil || again || m.Now() >= p.path.End() {
		return
	}
	now, was := p.course.configure(m), p.now
	if !p.left {
		was = p.course.sharedAt(m.Now())
	}
	switch {
	case p.turn(m, now):
	case !p.path.Feels(m.Now(), was, now):
	case p.bends != nil && m.Now() > 0:
		p.bend(m, now)
	case m.Now() == 0:
		p.leave(m, p.course.mission.Fly(now), now)
	default:
		p.leave(m, p.path.LeaveAhead(m.Now(), now), now)
	}
}

// leave puts a run onto another path for good.
func (p *pilot) leave(m *circuit.Machine, path *energy.Path, now energy.Config) {
	p.left, p.now = true, now
	p.made = append(p.made, turn{m.Now(), now})
	if !p.ahead {
		path = path.Whole()
	}
	p.path = path
	m.Turn(p.path, p.path.Knots(), p.path.End())
	if p.bends != nil {
		p.bent = append(p.bent, &bend{at: m.Now(), first: path, path: path})
	}
}

// configure is what the systems do to the flight as the machine stands.
func (k *Course) configure(m *circuit.Machine) energy.Config {
	c := m.Circuit()
	return k.mission.Aircraft().Configure(func(name string) (number float64, word string, ok bool) {
		for i, kind := range book.Effects {
			if n := k.effects[i]; kind.Name == name && n != circuit.None {
				v := m.Value(n)
				return v, c.WordText(v), true
			}
		}
		return 0, "", false
	})
}

// sharedAt is the configuration of the shared flight at a moment.
func (c *Course) sharedAt(t book.Time) energy.Config {
	i := sort.Search(len(c.shared), func(i int) bool { return c.shared[i].at > t })
	if i == 0 {
		return energy.Clean()
	}
	return c.shared[i-1].to
}

// nextShared is when the shared flight changes its effects next.
func (p *pilot) nextShared(t book.Time) book.Time {
	if p.path == nil || p.left {
		return book.Never
	}
	list := p.course.shared
	if i := sort.Search(len(list), func(i int) bool { return list[i].at > t }); i < len(list) {
		return list[i].at
	}
	return book.Never
}
