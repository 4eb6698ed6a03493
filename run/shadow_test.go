package run_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// under lists what some values of a circuit hang on through its gates, acts,
// phases and resets, in the plain way.
func under(c *circuit.Circuit, ids ...string) []bool {
	is := make([]bool, c.Size())
	var visit func(n circuit.Node)
	visit = func(n circuit.Node) {
		if n == circuit.None || is[n] {
			return
		}
		is[n] = true
		for _, a := range c.Gate(n).Args {
			visit(a)
		}
		for _, a := range c.Acts() {
			if c.ControlNode(a.Control) == n {
				visit(a.When)
			}
		}
		if _, begins := c.PhaseGates(); n == c.PhaseNode() {
			for _, b := range begins {
				visit(b)
			}
		}
		for _, r := range c.Resets() {
			for i, w := range c.Ways() {
				if c.WayNode(i) == n && w.Unit == r.Unit {
					visit(r.When)
				}
			}
		}
	}
	for _, id := range ids {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.Wanted, circuit.Flyable} {
			if n, ok := c.Node(circuit.Value{Item: id, Aspect: a}); ok {
				visit(n)
			}
		}
	}
	return is
}

// TestBranch_NarrowedAndParted: the functions that a narrow branch works out, with
// controls moved after it was parted, have the values of the whole run from the
// start; and what a shadow says of the run beside it is what flying that says.
func TestBranch_NarrowedAndParted(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	rng := rand.New(rand.NewPCG(14, 3))
	turned := 0
	for range 4 {
		var ids []string
		for range 3 {
			ids = append(ids, c.Build.Functions[rng.IntN(len(c.Build.Functions))].ID)
		}
		s := fail(book.Moment{Phase: "climb", Offset: book.AtSeconds(rng.Float64() * 900)}, c.Build.Units[rng.IntN(len(c.Build.Units))].ID)
		base, err := c.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		struck, _ := base.FirstStrike()
		at := struck + 10*book.Second
		here, there := branches(t, c, s, base, at, ids)
		shadow := run.NewShadow(there, here, watched(there.Circuit(), ids))
		for _, control := range []string{"engine_left_switch", "boost_left_switch", "fire_handle_right", "gen_left_switch"} {
			if compared(t, c, s, at, here.Part(), shadow.Walk(), there.Circuit(), control, ids) {
				turned++
			}
		}
	}
	if turned < 4 {
		t.Errorf("only %d moves turned the flight", turned)
	}
}

func branches(t *testing.T, c *run.Course, s run.Scenario, base *run.Record, at book.Time, ids []string) (here, there *run.Branch) {
	t.Helper()
	ctx := context.Background()
	effects := []string{c.Build.Aircraft.ID}
	for _, e := range c.Build.Effects {
		effects = append(effects, e.ID)
	}
	here, err := c.Branch(ctx, s, func(k *circuit.Circuit) []bool { return under(k, append(effects, ids...)...) })
	if err != nil {
		t.Fatal(err)
	}
	if there, err = c.BranchBeside(ctx, base, func(k *circuit.Circuit) []bool { return under(k, append(ids, c.Build.Aircraft.ID)...) }); err != nil {
		t.Fatal(err)
	}
	for _, b := range []*run.Branch{here, there} {
		if err := b.Until(ctx, at-1); err != nil {
			t.Fatal(err)
		}
	}
	return here, there
}

func watched(c *circuit.Circuit, ids []string) (list []circuit.Node) {
	for _, id := range ids {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.Wanted} {
			if n, ok := c.Node(circuit.Value{Item: id, Aspect: a}); ok {
				list = append(list, n)
			}
		}
	}
	return list
}

// moved is a control that is moved, and where it goes.
func moved(c *run.Course, id string) (position string) {
	x, _ := book.Find("control", id, c.Build.Controls)
	return x.Positions[slices.IndexFunc(x.Positions, func(p string) bool { return p != x.Initial })]
}

// compared flies a branch with a control moved and holds it to the whole way; it
// says whether that turned the flight.
func compared(t *testing.T, c *run.Course, s run.Scenario, at book.Time, b *run.Branch, walk *run.Walk, healthy *circuit.Circuit, control string, ids []string) bool {
	t.Helper()
	ctx := context.Background()
	to := moved(c, control)
	if err := b.Move(control, to, at); err != nil {
		t.Fatal(err)
	}
	now, beside := map[circuit.Node][]run.Flip{}, map[circuit.Node][]run.Flip{}
	for b.Step(book.Never) {
		for _, n := range b.Touched() {
			now[n] = append(now[n], run.Flip{At: b.Now(), Node: n, To: b.Value(n)})
		}
	}
	if err := walk.To(ctx, b, func(f run.Flip) { beside[f.Node] = append(beside[f.Node], f) }); err != nil {
		t.Fatal(err)
	}
	s.Actions = append(slices.Clone(s.Actions), run.Action{Control: control, Position: to, At: book.Moment{Offset: at}}.Taken())
	whole, err := c.Fly(ctx, s)
	if err != nil {
		t.Fatal(err)
	}
	there, err := c.Beside(ctx, whole)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range ids {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.Wanted} {
			v := circuit.Value{Item: id, Aspect: a}
			agrees(t, control, v, whole, b.Circuit(), now, at, whole.End)
			agrees(t, control, v, there, healthy, beside, at, min(whole.End, there.End)) // it was followed as far as the other went
		}
	}
	if b.Now() != whole.End {
		t.Errorf("%s: ends at %d, want %d", control, b.Now(), whole.End)
	}
	return whole.End != c.Path.End()
}

// agrees holds the flips of a value between two moments to a record, a thousandth of a
// second behind each of its instants: the last microsecond of a total is rounding.
func agrees(t *testing.T, control string, v circuit.Value, r *run.Record, c *circuit.Circuit, flips map[circuit.Node][]run.Flip, at, end book.Time) {
	t.Helper()
	n, _ := r.Circuit().Node(v)
	own, ok := c.Node(v)
	if !ok {
		t.Fatalf("%s was narrowed away", v)
	}
	list, is := flips[own], r.Before(n, at)
	for _, x := range r.Instants() {
		if x += 1000; x < at || x >= end {
			continue
		}
		for len(list) > 0 && list[0].At <= x {
			is, list = list[0].To, list[1:]
		}
		if want := r.At(n, x); is != want {
			t.Errorf("%s moved, %s at %d: %v, want %v", control, v, x, is, want)
			return
		}
	}
}
