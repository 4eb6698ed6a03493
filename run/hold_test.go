package run_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/roll"
	"knockon/run"
)

// places are runways near and far, good and bad.
var places = []energy.Diversion{
	{DistanceM: 40 * 1852, Runway: roll.Runway{Code: 6, AltitudeFt: 60}},
	{DistanceM: 210 * 1852, Runway: roll.Runway{Code: 5, AltitudeFt: 1800, HeadwindKt: -4, SlopePct: 1}},
	{DistanceM: 330 * 1852, Runway: roll.Runway{Code: 2, AltitudeFt: 20, HeadwindKt: 15, Fluid: roll.Fluid{DepthMM: 8, Gravity: 1}}},
}

// TestDivert_IsTheFlightFromTheStart: a run that was held, forked and turned has
// the values that the same failures give on the whole path, flown from the start
// as a path that is given.
func TestDivert_IsTheFlightFromTheStart(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	rng := rand.New(rand.NewPCG(7, 1))
	units := c.Build.Units
	for range 12 {
		s := fail(book.Moment{Phase: "climb", Offset: book.AtSeconds(rng.Float64() * 900)}, units[rng.IntN(len(units))].ID, units[rng.IntN(len(units))].ID)
		at, err := c.Resolve(ctx, s.Strikes[0].At)
		if err != nil {
			t.Fatal(err)
		}
		held, err := c.Hold(ctx, s, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range places {
			r, err := held.Divert(ctx, d)
			if err != nil {
				t.Fatal(err)
			}
			whole, err := run.NewCourse(c.Build, c.Flight, run.Setting{Path: r.Path()})
			if err != nil {
				t.Fatal(err)
			}
			s.Strikes[0].At = book.Moment{Offset: at}
			slow, err := whole.Fly(ctx, s)
			if err != nil {
				t.Fatal(err)
			}
			sameAfter(t, r, slow, at)
		}
	}
}

// sameAfter compares every steady value after a moment.
func sameAfter(t *testing.T, fast, slow *run.Record, at book.Time) {
	t.Helper()
	if fast.End != slow.End || fast.Fault != nil || slow.Fault != nil {
		t.Fatalf("%v: ends at %v and %v, faults %v and %v", fast.Scenario, fast.End, slow.End, fast.Fault, slow.Fault)
	}
	c := fast.Circuit()
	for _, v := range c.Values() {
		if !fast.Steady(v.Node) {
			continue
		}
		a, b := after(fast.History(v.Node), at), after(slow.History(v.Node), at)
		if len(a) != len(b) || fast.At(v.Node, at) != slow.At(v.Node, at) {
			t.Fatalf("%v: %s changes %d and %d times; %v and %v", fast.Scenario.Strikes, v.Value, len(a), len(b), a, b)
		}
		for i := range a {
			// A total that follows itself is added up in other pieces along a path that is
			// given, so that what it crosses may come some microseconds elsewhere.
			if max(a[i].At-b[i].At, b[i].At-a[i].At) > 5 || a[i].To != b[i].To {
				t.Fatalf("%v: %s: %v and %v", fast.Scenario.Strikes, v.Value, a[i], b[i])
			}
		}
	}
}

func after(list []circuit.Change, at book.Time) []circuit.Change {
	for i, ch := range list {
		if ch.At > at {
			return list[i:]
		}
	}
	return nil
}

// TestHoldBeside_StandsInTheSamePlace: with the failures and without, the flight
// goes on from one place, with one mass and fuel.
func TestHoldBeside_StandsInTheSamePlace(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	s := fail(book.Moment{Phase: "climb", Offset: book.AtSeconds(60)}, "engine_left")
	at, err := c.Resolve(ctx, book.Moment{Phase: "cruise", Offset: book.AtSeconds(300)})
	if err != nil {
		t.Fatal(err)
	}
	here, err := c.Hold(ctx, s, at)
	if err != nil {
		t.Fatal(err)
	}
	there, err := c.HoldBeside(ctx, here, s.Healthy())
	if err != nil {
		t.Fatal(err)
	}
	if here.Path() != there.Path() || here.Configured().Engines[0] != 0 || there.Configured().Engines[0] != 1 {
		t.Errorf("engines at %v and %v", here.Configured().Engines, there.Configured().Engines)
	}
	a, err := here.Divert(ctx, places[1])
	if err != nil {
		t.Fatal(err)
	}
	b, err := there.Divert(ctx, places[1])
	if err != nil {
		t.Fatal(err)
	}
	_, one, ok1 := a.Path().(*energy.Path).Touchdown()
	_, two, ok2 := b.Path().(*energy.Path).Touchdown()
	if !ok1 || !ok2 || one.TimeS <= two.TimeS {
		t.Errorf("on one engine it lands %v at %v s, on two %v at %v s", ok1, one.TimeS, ok2, two.TimeS)
	}
}

// TestTogether_MixesTheEffects: with all effects taken from the healthy run, the
// failed one flies where the healthy one would.
func TestTogether_MixesTheEffects(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	s := fail(book.Moment{Phase: "climb", Offset: book.AtSeconds(60)}, "engine_left")
	at, _ := c.Resolve(ctx, s.Strikes[0].At)
	here, err := c.Hold(ctx, s, at)
	if err != nil {
		t.Fatal(err)
	}
	there, err := c.HoldBeside(ctx, here, s.Healthy())
	if err != nil {
		t.Fatal(err)
	}
	alone, err := there.Divert(ctx, places[0])
	if err != nil {
		t.Fatal(err)
	}
	both, err := run.Together(ctx, places[0], func(c []energy.Config) energy.Config { return c[1] }, here, there)
	if err != nil {
		t.Fatal(err)
	}
	if both[0].End != alone.End {
		t.Errorf("ends at %v, alone at %v", both[0].End, alone.End)
	}
	sameAfter(t, both[1], alone, at)
}

func TestHold_SaysWhatDoesNotFit(t *testing.T) {
	c := liveCourse(t, "short_hop", 0)
	if _, err := c.Hold(context.Background(), run.Scenario{}, 1e15); err == nil {
		t.Error("held after the end")
	}
	given, err := run.NewCourse(c.Build, c.Flight, run.Setting{Prescribed: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := given.Hold(context.Background(), run.Scenario{}, 0); err == nil {
		t.Error("held a flight that does not feel the systems")
	}
}

func BenchmarkDivert(b *testing.B) {
	ctx := context.Background()
	c := liveCourse(b, "northern_link", 0)
	s := fail(book.Moment{Phase: "climb", Offset: book.AtSeconds(300)}, "tr_left", "tr_right")
	at, _ := c.Resolve(ctx, s.Strikes[0].At)
	held, err := c.Hold(ctx, s, at)
	if err != nil {
		b.Fatal(err)
	}
	for i := 0; b.Loop(); i++ {
		if _, err := held.Divert(ctx, places[i%len(places)]); err != nil {
			b.Fatal(err)
		}
	}
}
