package run_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/run"
)

// hasty moves controls of a branch at random, those that the flight feels often.
func hasty(t *testing.T, rng *rand.Rand, b *book.Build, x *run.Branch) {
	t.Helper()
	felt := []string{"engine_left_switch", "gear_lever", "flap_lever", "thrust_levers"}
	c := b.Controls[rng.IntN(len(b.Controls))]
	if item, ok := b.Item(felt[rng.IntN(len(felt))]); ok && rng.IntN(2) == 0 {
		c = item.(*book.Control)
	}
	if err := x.Move(c.ID, c.Positions[rng.IntN(len(c.Positions))], x.Now()+book.Time(1+rng.Int64N(int64(10*book.Second)))); err != nil {
		t.Fatal(err)
	}
}

// sample is what some values of a branch were at a moment that was over.
type sample struct {
	at     book.Time
	values []float64
}

// flyOut flies a branch to its end and samples it; now and then it moves something.
func flyOut(t *testing.T, rng *rand.Rand, b *book.Build, x *run.Branch, nodes []circuit.Node) (list []sample) {
	t.Helper()
	for moves := 0; !x.Ended(); {
		until := x.Now() + book.Time(rng.Int64N(int64(120*book.Second)))
		if err := x.Until(context.Background(), until); err != nil {
			t.Fatal(err)
		}
		if x.Now() > until || !x.Settled() {
			t.Fatalf("asked to go to %d it is at %d, settled %v", until, x.Now(), x.Settled())
		}
		s := sample{at: x.Now()}
		for _, n := range nodes {
			s.values = append(s.values, x.Value(n))
		}
		list = append(list, s)
		if moves < 6 && rng.IntN(5) == 0 {
			moves++
			hasty(t, rng, b, x)
		}
		if until > 40000*book.Second {
			t.Fatal("it never ends")
		}
		if !x.Step(book.Never) && !x.Ended() {
			t.Fatal("no instant follows, and it has not ended")
		}
		for !x.Settled() && x.Step(x.Now()) {
		}
	}
	return list
}

// TestBranch_PartsAreFly: a run that is parted again and again, and moved in each
// part alone, is in each of them the run that is flown from the start.
func TestBranch_PartsAreFly(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	rng, ctx := rand.New(rand.NewPCG(8, 15)), context.Background()
	left := 0
	for _, s := range append(scenarios(b, c.Path.End(), 3), fail(during("climb", 30), "engine_left")) {
		stem, err := c.Branch(ctx, s, nil)
		if err != nil {
			t.Fatal(err)
		}
		var nodes []circuit.Node
		for _, v := range stem.Circuit().Values() {
			nodes = append(nodes, v.Node)
		}
		for range 3 {
			if err := stem.Until(ctx, stem.Now()+book.Time(rng.Int64N(int64(c.Path.End()/3)))); err != nil {
				t.Fatal(err)
			}
			for range 3 {
				x := stem.Part()
				if x.Now() != stem.Now() || !x.With(stem) || x.Ended() != stem.Ended() {
					t.Fatalf("a part at %d stands at %d", stem.Now(), x.Now())
				}
				list := flyOut(t, rng, b, x, nodes)
				compareSamples(t, flownAgain(t, c, x), list, nodes)
				if x.Path() != c.Path {
					left++
				}
			}
			hasty(t, rng, b, stem)
		}
	}
	if left < 12 {
		t.Errorf("only %d parts have left the flight of all", left)
	}
}

// flownAgain is the record of all that was moved in a branch, and is compared with
// how that ended.
func flownAgain(t *testing.T, c *run.Course, x *run.Branch) *run.Record {
	t.Helper()
	r, err := c.Fly(context.Background(), x.Scenario())
	if err != nil {
		t.Fatal(err)
	}
	if e := r.Ending(); e.Arrived() != x.Arrived() || r.Fault == nil && x.Now() != r.End || x.Path().End() != r.Path().End() {
		t.Errorf("%v: ends at %d, arrived %v; flown again %+v", x.Scenario().Actions, x.Now(), x.Arrived(), e)
	}
	return r
}

func compareSamples(t *testing.T, r *run.Record, list []sample, nodes []circuit.Node) {
	t.Helper()
	for _, s := range list {
		for i, n := range nodes {
			if r.Steady(n) && s.values[i] != r.At(n, s.at) {
				v := r.Circuit().Values()[i].Value
				t.Fatalf("%v at %d: %s is %g, flown from the start %g", r.Scenario.Actions, s.at, v, s.values[i], r.At(n, s.at))
			}
		}
	}
}

// TestShadow_FollowsAnother: the run without the failures, along a part that turns
// the flight again and again, has the values of the run that every record is
// compared with (Beside), in steps of any length.
func TestShadow_FollowsAnother(t *testing.T) {
	b, ctx := corvane.Build(t, ""), context.Background()
	for _, k := range []struct {
		flight, unit string
		steps        []book.Time // seconds
	}{{"short_hop", "waste_blower", []book.Time{5, 40, 100000}}, {"short_hop", "engine_right", []book.Time{30}}, {"northern_link", "waste_blower", []book.Time{600}}} {
		c, err := run.NewCourse(b, corvane.Flight(t, b, k.flight), run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		s := fail(during("climb", 60), k.unit)
		s.FliesOn = true // without hydraulics nobody steers it
		plain, err := c.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		here, err := c.Branch(ctx, s, nil)
		if err != nil {
			t.Fatal(err)
		}
		there, err := c.BranchBeside(ctx, plain, nil)
		if err != nil {
			t.Fatal(err)
		}
		at, _ := c.Resolve(ctx, during("climb", 50))
		if err := here.Until(ctx, at); err != nil {
			t.Fatal(err)
		}
		if err := there.Until(ctx, at); err != nil {
			t.Fatal(err)
		}
		var nodes []circuit.Node
		for _, v := range there.Circuit().Values() {
			nodes = append(nodes, v.Node)
		}
		shadow := run.NewShadow(there, here, nodes)
		a := here.Part()
		for i, to := range []string{"off", "run", "off", "run"} { // the engine goes and comes
			if err := a.Move("engine_left_switch", to, at+book.Time(1+30*i)*book.Second); err != nil {
				t.Fatal(err)
			}
		}
		for _, step := range k.steps {
			x := a.Part()
			got := follow(t, there, shadow.Walk(), x, nodes, at, step*book.Second)
			r := flownAgain(t, c, x)
			beside, err := c.Beside(ctx, r)
			if err != nil {
				t.Fatal(err)
			}
			if x.With(here) || r.Path() == c.Path {
				t.Error("the flight was not turned")
			}
			compareSamples(t, beside, got, nodes)
		}
	}
}

// follow flies a branch to its end, step by step, and has a shadow go along; that is
// sampled.
func follow(t *testing.T, there *run.Branch, walk *run.Walk, x *run.Branch, nodes []circuit.Node, from, step book.Time) (got []sample) {
	t.Helper()
	now := map[circuit.Node]float64{}
	for _, n := range nodes {
		now[n] = there.Value(n)
	}
	for until := from; !x.Ended(); {
		until += step
		if err := x.Until(context.Background(), until); err != nil {
			t.Fatal(err)
		}
		if err := walk.To(context.Background(), x, func(f run.Flip) { now[f.Node] = f.To }); err != nil {
			t.Fatal(err)
		}
		s := sample{at: x.Now()}
		for _, n := range nodes {
			s.values = append(s.values, now[n])
		}
		got = append(got, s)
	}
	return got
}

// TestBranch_With: two parts that turn the flight in the same way at the same moment
// are on one path, and those that turn it at another moment are not.
func TestBranch_With(t *testing.T) {
	c := liveCourse(t, "short_hop", 0)
	at, _ := c.Resolve(t.Context(), during("climb", 30))
	stem, err := c.Branch(t.Context(), run.Scenario{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := stem.Until(t.Context(), at); err != nil {
		t.Fatal(err)
	}
	turned := func(after book.Time) *run.Branch {
		x := stem.Part()
		if err := x.Move("engine_left_switch", "off", at+after*book.Second); err != nil {
			t.Fatal(err)
		}
		if err := x.Until(t.Context(), at+60*book.Second); err != nil {
			t.Fatal(err)
		}
		return x
	}
	one, same, other := turned(10), turned(10), turned(20)
	if one.Path() != same.Path() || !one.With(same) || !same.With(one) {
		t.Error("the same turn gives two paths")
	}
	if one.With(other) || other.With(one) || one.With(stem) || !stem.With(one) || !stem.With(stem) {
		t.Error("different turns are said to be on one path")
	}
}

// TestBranch_MovesWhatItCan: nothing at the present moment or of a name that there
// is not; and a move ends no failure that stands.
func TestBranch_MovesWhatItCan(t *testing.T) {
	c := hopCourse(t, "control \"right\" {\n positions = [\"on\", \"off\"]\n initial = \"off\"\n}\n")
	x, err := c.Branch(t.Context(), run.Scenario{Strikes: []run.Strike{strike(50, 0, "a")}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for x.Now() < 100*book.Second && x.Step(100*book.Second) {
	}
	now := x.Now()
	if x.Move("left", "off", now) == nil || x.Move("left", "half", now+1) == nil || x.Move("middle", "off", now+1) == nil {
		t.Error("moved what cannot be moved")
	}
	if err := x.Move("left", "off", now+1); err != nil {
		t.Error(err)
	}
	if err := x.Until(t.Context(), 200*book.Second); err != nil || x.Ended() {
		t.Fatal(err)
	}
	for id, want := range map[circuit.Value]string{{Item: "left"}: "off", {Item: "right"}: "off"} {
		n, _ := x.Circuit().Node(id)
		if got := x.Circuit().WordText(x.Value(n)); got != want {
			t.Errorf("%v stands at %s", id, got)
		}
	}
	if n, _ := x.Circuit().Node(circuit.Value{Item: "a", Aspect: circuit.Failed}); x.Value(n) == 0 {
		t.Error("the failure has ended with the move")
	}
	if err := x.Until(t.Context(), book.Never); err != nil || !x.Ended() || !x.Arrived() || len(x.Scenario().Actions) != 1 {
		t.Errorf("%v, ended %v, arrived %v", err, x.Ended(), x.Arrived())
	}
	loop := hopCourse(t, "signal \"s\" { value = !a && !before(s) }\n")
	y, err := loop.Branch(t.Context(), run.Scenario{Strikes: []run.Strike{strike(100, 0, "a")}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := y.Until(t.Context(), book.Never); err != nil || !y.Ended() || y.Arrived() {
		t.Errorf("a loop that never settles: %v, ended %v, arrived %v", err, y.Ended(), y.Arrived())
	}
}

// TestBranch_StopsWhereItIsAsked: also on a flight that is flown ahead only as far as
// it must be, a run goes no farther than it is asked to.
func TestBranch_StopsWhereItIsAsked(t *testing.T) {
	b, ctx := corvane.Build(t, ""), context.Background()
	c, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := fail(during("cruise", 60), "tr_right")
	s.Inoperative = []book.FailureRef{{Unit: "tr_left"}}
	from, err := c.Branch(ctx, s, nil)
	if err != nil {
		t.Fatal(err)
	}
	for to := 600 * book.Second; to < 6000*book.Second; to += 331 * book.Second {
		x := from.Part()
		if err := x.Until(ctx, to); err != nil || x.Now() > to {
			t.Errorf("asked to go to %d it is at %d: %v", to, x.Now(), err)
		}
		if err := x.Move("apu_switch", "run", to+1); err != nil {
			t.Error(err)
		}
	}
}
