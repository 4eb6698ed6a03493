package run_test

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
)

func liveCourse(tb testing.TB, flight string, step book.Time) *run.Course {
	tb.Helper()
	b := corvane.Build(tb, "")
	c, err := run.NewCourse(b, corvane.Flight(tb, b, flight), run.Setting{Step: step})
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func fail(at book.Moment, units ...string) run.Scenario {
	var refs []book.FailureRef
	for _, u := range units {
		refs = append(refs, book.FailureRef{Unit: u})
	}
	return run.Scenario{Strikes: []run.Strike{{Fail: refs, At: at}}}
}

func flown(tb testing.TB, c *run.Course, s run.Scenario) *run.Record {
	tb.Helper()
	r, err := c.Fly(context.Background(), s)
	if err != nil {
		tb.Fatal(err)
	}
	if r.Fault != nil {
		tb.Fatalf("%+v: %v", s.Strikes, r.Fault)
	}
	return r
}

func quantity(name string) int {
	for i, q := range book.Quantities {
		if q.Name == name {
			return i
		}
	}
	return -1
}

func during(phase string, s float64) book.Moment {
	return book.Moment{Phase: phase, Offset: book.AtSeconds(s)}
}

// TestLive_WhatTheFlightDoesNotFeelLeavesItAlone: a failure with no effect
// leaves the run on the flight that all share.
func TestLive_WhatTheFlightDoesNotFeelLeavesItAlone(t *testing.T) {
	c := liveCourse(t, "short_hop", 0)
	r := flown(t, c, fail(during("climb", 5), "waste_blower"))
	if r.Path() != c.Path || r.Ended != energy.Arrived {
		t.Errorf("a waste blower has left the flight of all; it %v", r.Ended)
	}
}

// TestLive_AnEngineLost: the flight is the one with nothing failed up to the
// failure, the microsecond of it included; then it is slower and later.
func TestLive_AnEngineLost(t *testing.T) {
	c := liveCourse(t, "northern_link", 0)
	r := flown(t, c, fail(during("climb", 60), "engine_left"))
	at := r.Struck[0].At
	for q := range book.Quantities {
		for _, x := range []book.Time{0, at / 2, at - 1, at} {
			if a, b := r.Path().Value(q, x), c.Path.Value(q, x); a != b {
				t.Errorf("%s at %d: %g, on the shared flight %g", book.Quantities[q].Name, x, a, b)
			}
		}
	}
	climb, later := quantity("vertical_speed_ft_per_min"), at+20*book.Second
	if r.Path().Value(climb, later) > 0.6*c.Path.Value(climb, later) {
		t.Errorf("on one engine it climbs at %.0f ft/min, on two at %.0f", r.Path().Value(climb, later), c.Path.Value(climb, later))
	}
	if r.Ended != energy.Arrived || r.End < c.Path.End()+10*60*book.Second {
		t.Errorf("it %v after %.0f s, on two engines after %.0f s", r.Ended, r.End.Seconds(), c.Path.End().Seconds())
	}
}

// TestLive_GearThatStaysDownSlowsTheClimb, by what its drag takes from it.
func TestLive_GearThatStaysDownSlowsTheClimb(t *testing.T) {
	c := liveCourse(t, "northern_link", 0)
	r := flown(t, c, fail(book.Moment{}, "gear_valve"))
	altitude := quantity("altitude_ft")
	n, ok := r.Circuit().Node(circuit.Value{Item: "effect gear_out"})
	if !ok {
		t.Fatal("no effect gear_out")
	}
	from, ok := flown(t, c, run.Scenario{}).PhaseBegins("first_climb")
	if !ok || r.At(n, from+120*book.Second) == 0 {
		t.Fatal("the gear came up")
	}
	x := from + 300*book.Second
	if a, b := r.Path().Value(altitude, x), c.Path.Value(altitude, x); a > b-2000 {
		t.Errorf("five minutes on it is at %.0f ft with the gear out, %.0f with it in", a, b)
	}
	fuel := quantity("fuel_kg")
	if a, b := r.Path().Value(fuel, r.End), c.Path.Value(fuel, c.Path.End()); a > b-1000 {
		t.Errorf("%.0f kg are left with the gear out, %.0f with it in", a, b)
	}
}

// TestLive_FrozenThrustStaysFrozen: with the thrust of the climb the cruise runs
// away from its Mach number at its level, the flight needs less than it has, and it
// ends at the design dive speed.
func TestLive_FrozenThrustStaysFrozen(t *testing.T) {
	b := corvane.Build(t, "")
	alone := *corvane.Flight(t, b, "northern_link")
	alone.Acts = nil
	for _, a := range corvane.Flight(t, b, "northern_link").Acts {
		if !strings.Contains(a.Title, "when the climb is over") { // nobody closes the levers in the cruise
			alone.Acts = append(alone.Acts, a)
		}
	}
	c, err := run.NewCourse(b, &alone, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r := flown(t, c, fail(during("climb", 60), "autothrottle_box"))
	cruise, ok := r.PhaseBegins("cruise")
	if !ok {
		t.Fatal("no cruise")
	}
	mach, thrust, x := quantity("mach"), quantity("thrust_pct"), cruise+60*book.Second
	if got, usual := r.Path().Value(mach, x), c.Path.Value(mach, x); got < usual+0.04 {
		t.Errorf("Mach %.3f in the cruise with the thrust of the climb, usually %.3f", got, usual)
	}
	if need := r.Path().Value(thrust, x); need > 80 {
		t.Errorf("the cruise needs %.1f %%", need)
	}
	if e := r.Ending(); e.How != run.CannotSlow || !strings.Contains(e.Why, "nobody takes off") {
		t.Errorf("it ends %+v", e)
	}
	if o, ok := r.TooFast(); !ok || o.From < cruise || o.LimitMach != 0.8 || o.Mach < 0.865 {
		t.Errorf("too fast: %v, %+v", ok, o)
	}
}

// TestLive_TheStepOfTheSearchChangesNothing, nor does flying twice.
func TestLive_TheStepOfTheSearchChangesNothing(t *testing.T) {
	usual := liveCourse(t, "short_hop", 0)
	b := corvane.Build(t, "")
	list := append(scenarios(b, usual.Path.End(), 8),
		fail(during("climb", 5), "engine_left"), fail(during("lift_off", 1), "dc_left"), fail(during("cruise", 5), "reservoir_right"))
	for _, step := range []book.Time{0, book.Second / 5, 3 * book.Second} {
		other := liveCourse(t, "short_hop", step)
		for _, s := range list {
			compareRuns(t, usual, other, s, step)
		}
	}
}

// TestLive_BesideFliesTheSamePath: what a run is compared with has the same
// flight, so a scenario without failures has no losses beside it, and a failed
// one none that come from being elsewhere.
func TestLive_BesideFliesTheSamePath(t *testing.T) {
	c := liveCourse(t, "short_hop", 0)
	gear := run.Scenario{Actions: []run.Action{{Control: "gear_lever", Position: "down", At: during("climb", 10)}}}
	for _, s := range []run.Scenario{{}, gear, fail(during("climb", 5), "engine_left")} {
		r := flown(t, c, s)
		beside, err := c.Beside(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		for q := range book.Quantities {
			for x := book.Time(0); x < r.End; x += 7 * book.Second {
				if a, b := r.Path().Value(q, x), beside.Path().Value(q, x); a != b {
					t.Fatalf("%s at %.0f s: %g and %g", book.Quantities[q].Name, x.Seconds(), a, b)
				}
			}
		}
		if len(s.Strikes) == 0 {
			if l := ledger.Of(r, beside); len(l.Losses)+len(l.Alerts)+len(l.Wrong) > 0 {
				t.Errorf("without failures: %d losses, %d alerts, %d wrong", len(l.Losses), len(l.Alerts), len(l.Wrong))
			}
		}
	}
}

// TestLive_NeedsCoefficients and says which.
func TestLive_NeedsCoefficients(t *testing.T) {
	b := corvane.Build(t, "")
	bare := *b
	bare.Aircraft = &book.Aircraft{Head: b.Aircraft.Head, Settings: b.Aircraft.Settings, Numbers: []book.Named{{Name: "cruise_fuel_kg_per_h", Value: 1850}}}
	if _, err := run.NewCourse(&bare, b.Flights[0], run.Setting{}); err == nil {
		t.Error("a flight without thrust was flown")
	} else {
		t.Log(err)
	}
}

// BenchmarkLive flies a run that leaves the shared flight, and one that stays.
func BenchmarkLive(b *testing.B) {
	c := liveCourse(b, "northern_link", 0)
	for name, unit := range map[string]string{"leaves": "engine_left", "stays": "waste_blower"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				flown(b, c, fail(during("climb", 60), unit))
			}
		})
	}
}

// TestFly_FlownAheadIsTheFlight: a run whose flight is flown ahead only as far as
// it must be is the run whose flight is always flown to its end, as it is for a
// hand that might act at any moment.
func TestFly_FlownAheadIsTheFlight(t *testing.T) {
	b := corvane.Build(t, "")
	for _, id := range []string{"short_hop", "northern_link"} {
		c, err := run.NewCourse(b, corvane.Flight(t, b, id), run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range scenarios(b, c.Path.End(), 16) {
			ahead, err := c.Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			whole, err := c.FlyWith(context.Background(), s, idleHand{})
			if err != nil {
				t.Fatal(err)
			}
			if err := same(ahead, whole); err != nil || ahead.End != whole.End || ahead.Path().End() != whole.Path().End() {
				t.Errorf("%s, scenario %d: %v, ends %v and %v", id, i, err, ahead.End, whole.End)
			}
		}
	}
}

// idleHand does nothing.
type idleHand struct{}

func (idleHand) Sees(run.View) run.Will { return run.Will{Look: book.Never} }
