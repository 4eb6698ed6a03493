package run

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/say"
)

// Course is one build on one of its flights, compiled and laid out: what all
// runs of it share. It may be used from many goroutines.
type Course struct {
	Build  *book.Build
	Flight *book.Flight
	Path   flight.Path

	circuit *circuit.Circuit
	course  *circuit.Course
	step    book.Time

	mission *energy.Mission // nil: the flight does not feel the systems
	effects []circuit.Node  // of the effects that the build gives, by book.Effects; None for the others
	shared  []turn          // how the flight with nothing failed is flown
	clock   *Course         // whose moments count; nil: its own
	router  Router          // nil: the ground is not known
	given   bool            // the path is another run's
	partial bool            // not all of the build is worked out
	same    *Course         // the same flight as a path that is given

	mu      sync.Mutex
	healthy map[string]*Record
	noted   *sync.Map // what Once worked out; shared with the courses along other paths
}

// Setting of a course. The zero value is the default.
type Setting struct {
	Step  book.Time    // first step of the search for crossings; no result depends on it
	Watch []*book.Expr // expressions to observe beside the book's own
	Path  flight.Path  // what is flown, whatever the systems do; nil: the flight itself
	// Prescribed flights keep to the profile of flight.Plan, whatever the systems
	// do. Others have the drag and the thrust that the systems leave them
	// (docs/meaning.md 8), if the aircraft block gives the coefficients.
	Prescribed bool
	Router     Router // of plans; nil: a flight can only go where the book sends it
}

// NewCourse compiles a build and plans a flight of it (nil: its first).
func NewCourse(b *book.Build, f *book.Flight, set Setting) (*Course, error) {
	if f == nil {
		first, err := b.FlightNamed("")
		if err != nil {
			return nil, err
		}
		f = first
	}
	if set.Path == nil && !set.Prescribed && feels(b) {
		return liveCourse(b, f, set)
	}
	path := set.Path
	if path == nil {
		plan, err := flight.Plan(f, b.Aircraft)
		if err != nil {
			return nil, fmt.Errorf("flight %s: %w", f.ID, err)
		}
		path = plan
	}
	c, err := circuit.Compile(b, f, set.Watch...)
	if err != nil {
		return nil, err
	}
	return &Course{
		Build: b, Flight: f, Path: path, circuit: c, step: set.Step,
		course: circuit.NewCourse(c, path, path.Knots(), set.Step), healthy: map[string]*Record{}, noted: &sync.Map{}, router: set.Router,
	}, nil
}

// feels says that the book means its flights to be flown with drag and thrust.
func feels(b *book.Build) bool { return b.Aircraft != nil && len(b.Aircraft.Settings) > 0 }

// Feels says that its flights feel the systems, so that they can be turned.
func (c *Course) Feels() bool { return c.mission != nil }

// CanTurn says that its flights can go elsewhere: they feel the systems, and the
// ground is known.
func (c *Course) CanTurn() bool { return c.mission != nil && c.router != nil }

// Circuit returns the compiled build.
func (c *Course) Circuit() *circuit.Circuit { return c.circuit }

// Along is the same build on a path that is given, whatever the systems do; it is
// not compiled again.
func (c *Course) Along(path flight.Path) *Course {
	k := c.along(path, circuit.NewCourse(c.circuit, path, path.Knots(), c.step))
	k.clock = nil
	return k
}

// Healthy flies the scenario without its failures and the crew's actions, once for
// all that share it.
func (c *Course) Healthy(ctx context.Context, s Scenario) (*Record, error) {
	s = s.Healthy()
	key := s.key()
	c.mu.Lock()
	r, ok := c.healthy[key]
	c.mu.Unlock()
	if ok {
		return r, nil
	}
	r, err := c.Fly(ctx, s)
	if err != nil {
		return nil, err
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.healthy) >= mostHealthy {
		clear(c.healthy)
	}
	c.healthy[key] = r
	return r, nil
}

// mostHealthy bounds how many records of flights without failures are kept.
const mostHealthy = 64

// key names a scenario without failures.
func (s Scenario) key() string {
	var k strings.Builder
	for _, r := range s.Inoperative {
		fmt.Fprintf(&k, "%s;", r)
	}
	for _, f := range s.forced {
		fmt.Fprintf(&k, "%d>%d;", f.at, f.phase)
	}
	for _, a := range s.moves() {
		fmt.Fprintf(&k, "%s=%s@%s/%g+%d?%v,%v;", a.Control, a.Position, a.At.Phase, a.At.AtFt, a.At.Offset, a.When, a.Held)
	}
	return k.String()
}

// Once gives what work makes of the build and its circuit, which never change:
// worked out once for all who ask with the same key, which should be of a type
// of their own.
func (c *Course) Once(key any, work func() any) any {
	if v, ok := c.noted.Load(key); ok {
		return v
	}
	v, _ := c.noted.LoadOrStore(key, work())
	return v
}

// Clock lists when each phase first begins, on the flight with nothing failed: what
// moments are counted from. Each lasts to where the next begins.
func (c *Course) Clock(ctx context.Context) ([]PhaseSpan, error) {
	if c.clock != nil {
		return c.clock.Clock(ctx)
	}
	r, err := c.Healthy(ctx, Scenario{})
	if err != nil {
		return nil, err
	}
	var list []PhaseSpan
	for _, p := range r.Phases() {
		if !slices.ContainsFunc(list, func(q PhaseSpan) bool { return q.ID == p.ID }) {
			list = append(list, p)
		}
	}
	return list, nil
}

// shortFinal is the first moment of a flight below book.ShortFinalFt on its final
// approach path.
func shortFinal(p flight.Path) (at book.Time, ok bool) {
	height, path := quantity("height_ft"), quantity("on_glide_path")
	low := func(t book.Time) bool { return p.Value(path, t) != 0 && p.Value(height, t) < book.ShortFinalFt }
	knots := p.Knots()
	for i := 1; i < len(knots); i++ { // within a knot and the next the height is smooth, and falls
		from, to := knots[i-1], knots[i]-1
		if low(from) {
			return from, true
		}
		if !low(to) {
			continue
		}
		for to-from > 1 {
			if mid := from + (to-from)/2; low(mid) {
				to = mid
			} else {
				from = mid
			}
		}
		return to, true
	}
	return 0, false
}

// passes is the first moment at which a flight passes a pressure altitude in a phase,
// looked for second by second from where the phase begins.
func passes(r *Record, phase string, ft float64) (book.Time, bool) {
	height := quantity("altitude_ft")
	above := func(t book.Time) bool { return r.Path().Value(height, t) >= ft }
	from, _ := r.PhaseBegins(phase)
	for t := from; t < r.End && r.PhaseAt(t) == phase; t += book.Second {
		if at := min(t+book.Second, r.End); above(t) != above(at) {
			return halved(above, t, at), r.PhaseAt(at) == phase
		}
	}
	return 0, false
}

// halved is the first moment after from at which something is otherwise, to 1 µs.
func halved(is func(book.Time) bool, from, to book.Time) book.Time {
	before := is(from)
	for to-from > 1 {
		if mid := from + (to-from)/2; is(mid) == before {
			from = mid
		} else {
			to = mid
		}
	}
	return to
}

// Resolve turns a moment into a time of this flight. A phase begins when it
// begins on the flight with nothing failed.
func (c *Course) Resolve(ctx context.Context, m book.Moment) (book.Time, error) {
	if c.clock != nil {
		return c.clock.Resolve(ctx, m)
	}
	t := m.Offset
	if m.Phase != "" {
		r, err := c.Healthy(ctx, Scenario{})
		if err != nil {
			return 0, err
		}
		from, ok := r.PhaseBegins(m.Phase)
		if !ok && m.Phase == book.ShortFinal {
			from, ok = shortFinal(r.Path())
		}
		if !ok {
			return 0, fmt.Errorf("flight %s never reaches the phase %s%s", c.Flight.ID, m.Phase, say.Ahead(": with nothing failed ", r.Ending().Why))
		}
		if m.AtFt != 0 {
			if from, ok = passes(r, m.Phase, m.AtFt); !ok {
				return 0, fmt.Errorf("with nothing failed flight %s does not pass %s ft in the phase %s", c.Flight.ID, say.Whole(m.AtFt), m.Phase)
			}
		}
		t += from
	}
	if t < 0 || t > c.Path.End() {
		return 0, fmt.Errorf("%s is outside flight %s, which lasts %s", say.Clock(t), c.Flight.ID, say.Clock(c.Path.End()))
	}
	return t, nil
}
