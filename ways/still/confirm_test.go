package still_test

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/demo"
	"knockon/flight"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/ways"
)

// TestWays_ConfirmedByRuns flies the smallest sets, up to three failures, of
// every function of the demonstration book in the cruise: with the set the
// function is lost, and with any member left out it is not. The flight and the
// totals stand still, as docs/meaning.md 9 says. KNOCKON_SLOW=1 flies all
// sets, else some hundred, drawn evenly; KNOCKON_ALL=1 flies all sets in every
// phase of every build.
//
// The same sets are then flown with the totals running, for three hours. There
// a part of a set may take the function too, by emptying a battery, say: that
// is counted. A set that takes the function at once takes it there as well.
func TestWays_ConfirmedByRuns(t *testing.T) {
	if os.Getenv("KNOCKON_ALL") == "" {
		confirm(t, "first_series", "cruise")
		return
	}
	loaded := corvane.Book(t)
	for _, v := range loaded.Variants {
		b, _ := loaded.Build(v.ID)
		for _, p := range b.Phases {
			t.Run(v.ID+"/"+p.ID, func(t *testing.T) { confirm(t, v.ID, p.ID) })
		}
	}
}

// confirm flies the sets of one phase of one build.
func confirm(t *testing.T, build, phase string) {
	s, moving, all := waysIn(t, build, phase)
	step, most := 1, 400
	if os.Getenv("KNOCKON_SLOW") == "" && os.Getenv("KNOCKON_ALL") == "" {
		step, most = 1+len(all)/120, 24
	}
	stopped, running := newRuns(s, s.stood), newRuns(s, moving)
	var sum, later tally
	for i := 0; i < len(all); i += step {
		if sum.add(t, stopped, all[i]) {
			t.Errorf("%s: %v", s.stood.Build.Functions[all[i].function].ID, all[i].set)
		}
	}
	for i := 0; i < len(all); i += 1 + len(all)/most {
		later.add(t, running, all[i])
	}
	t.Logf("%d smallest sets of %d functions: %+v, %d runs; with totals running %+v", len(all), len(s.stood.Build.Functions), sum, stopped.flown, later)
	if sum.held == 0 || later.held == 0 {
		t.Error("no set was flown")
	}
	if later.idle > 0 {
		t.Errorf("with totals running %d sets do not take their function", later.idle)
	}
}

// demoWays lists the smallest sets of the demonstration book in the cruise, and
// gives a flight on which nothing moves but what the failures bring about, and
// the same with totals that run.
func demoWays(t *testing.T) (s *scene, moving *run.Course, all []way) {
	t.Helper()
	return waysIn(t, "", "cruise")
}

// waysIn does the same in a phase of a build.
func waysIn(t *testing.T, build, phase string) (s *scene, moving *run.Course, all []way) {
	t.Helper()
	b := corvane.Build(t, build)
	at := middle(t, b, phase)
	s = newScene(t, b, at)
	all = s.smallest(t)
	moving = s.stood
	again, ds := book.Load(context.Background(), demo.Book())
	quiet := loadBuild(t, again, ds, build)
	path := stopTotals(t, b, quiet, at)
	stood, err := run.NewCourse(quiet, nil, run.Setting{Path: held{path, at}})
	if err != nil {
		t.Fatal(err)
	}
	s.stood = stood
	return s, moving, all
}

// stopTotals writes into a build, for each total, what it is at a moment of the
// flight without failures, and that it stays so. It gives the path of that
// flight.
func stopTotals(t *testing.T, b, quiet *book.Build, at book.Time) flight.Path {
	t.Helper()
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	record, err := course.Healthy(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	c := course.Circuit()
	values := map[string]float64{}
	for i := range c.Size() {
		if n := circuit.Node(i); c.Gate(n).Kind == circuit.GateTotal {
			_, _, e := c.Source(n)
			values[e.Range.String()] = record.At(n, at)
		}
	}
	stopped := 0
	other, err := circuit.Compile(quiet, quiet.Flights[0])
	if err != nil {
		t.Fatal(err)
	}
	for i := range other.Size() {
		if n := circuit.Node(i); other.Gate(n).Kind == circuit.GateTotal {
			_, _, e := other.Source(n)
			v, ok := values[e.Range.String()]
			if !ok {
				t.Fatalf("%s: no such total", e.Range)
			}
			e.Args[0] = &book.Expr{Op: book.OpNumber, Type: book.Number, Range: e.Range}
			e.Bound = &book.Bounds{Start: v, Least: v, Most: v}
			stopped++
		}
	}
	if stopped == 0 {
		t.Fatal("the book has no total")
	}
	return record.Path()
}

// way is a smallest set of failures of a function.
type way struct {
	function int
	set      []string
}

// smallest lists the smallest sets of all functions, up to three failures.
func (s *scene) smallest(t *testing.T) (all []way) {
	t.Helper()
	for i, f := range s.stood.Build.Functions {
		top, err := s.s.Lost(f.ID)
		if err != nil {
			t.Fatal(err)
		}
		found, err := ways.Find(context.Background(), s.s.Logic, top, ways.Options{Order: 3})
		if err != nil || found.Why != nil {
			t.Fatal(f.ID, err)
		}
		for order := 1; order <= found.Highest(); order++ {
			sets, whole := found.List(order, 1<<20)
			if !whole {
				t.Fatalf("%s has more sets than can be listed", f.ID)
			}
			for _, set := range sets {
				all = append(all, way{i, found.Names(set)})
			}
		}
	}
	return all
}

// tally counts what runs say of sets.
type tally struct {
	held  int // the set takes the function, and no part of it does
	idle  int // the set does not take it
	early int // a part of the set takes it already
}

// add says that a run does not confirm the set.
func (c *tally) add(t *testing.T, runs *runs, w way) (wrong bool) {
	t.Helper()
	idle, early := !runs.lost(t, w.set)[w.function], false
	for i := range w.set {
		part := slices.Delete(slices.Clone(w.set), i, i+1)
		early = early || runs.lost(t, part)[w.function]
	}
	switch {
	case idle:
		c.idle++
	case early:
		c.early++
	default:
		c.held++
	}
	return idle || early
}

// runs flies sets of failures, each once.
type runs struct {
	*scene
	stood *run.Course
	flown int
	known map[string][]bool
	there []bool
}

func newRuns(s *scene, on *run.Course) *runs {
	return &runs{scene: s, stood: on, known: map[string][]bool{}}
}

// lost says of each function whether it does not work once all has settled,
// though it does without the failures.
func (r *runs) lost(t *testing.T, set []string) []bool {
	t.Helper()
	key := strings.Join(set, " ")
	if lost, ok := r.known[key]; ok {
		return lost
	}
	record, err := r.stood.Fly(context.Background(), r.scenario(t, set))
	if err != nil || record.Fault != nil {
		t.Fatal(set, err, record.Fault)
	}
	r.flown++
	if r.there == nil && len(set) > 0 {
		r.lost(t, nil)
	}
	lost := make([]bool, len(r.stood.Build.Functions))
	works := make([]bool, len(lost))
	for i, f := range r.stood.Build.Functions {
		n, _ := r.stood.Circuit().Node(circuit.Value{Item: f.ID})
		works[i] = record.At(n, record.End) != 0
		lost[i] = len(set) > 0 && r.there[i] && !works[i]
	}
	if len(set) == 0 {
		r.there = works
	}
	r.known[key] = lost
	return lost
}

func (r *runs) scenario(t *testing.T, set []string) (s run.Scenario) {
	t.Helper()
	k := run.Strike{At: book.Moment{Offset: r.at}}
	for _, f := range set {
		ref, err := book.ParseFailure(f, r.stood.Build)
		if err != nil {
			t.Fatal(err)
		}
		k.Fail = append(k.Fail, ref)
	}
	if len(set) > 0 {
		s.Strikes = append(s.Strikes, k)
	}
	s.FliesOn = true
	return s
}
