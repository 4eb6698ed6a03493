package run_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/region"
	"knockon/run"
)

// TestPlan_OnFinal: a flight on its final approach is not turned to where it is going,
// nor to another runway there: it lands when it would have.
func TestPlan_OnFinal(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{Router: region.Router{Region: islands.Region(t)}})
	if err != nil {
		t.Fatal(err)
	}
	plain := flown(t, c, run.Scenario{})
	for _, l := range []run.Leg{{Do: run.GoOn}, {Do: run.Land}, {Do: run.Divert, To: "QSVA"}, {Do: run.Divert, To: "QSVA/35"}} {
		l.At = during("final", 40)
		r := flown(t, c, run.Scenario{Plan: []run.Leg{l}})
		if len(r.Turns) != 1 || !strings.Contains(r.Turns[0].Why, "final approach") || r.End != plain.End {
			t.Errorf("%s %s: %+v, ends %d, not %d", l.Do, l.To, r.Turns, r.End, plain.End)
		}
	}
	around := run.Leg{Do: run.GoAround, At: during("landing_roll", 0)}
	if r := flown(t, c, run.Scenario{Plan: []run.Leg{around}}); !r.Ending().Arrived() || r.Turns[0].Why != "" {
		t.Errorf("a go-around with the levers closed for the flare: %+v, %+v", r.Ending(), r.Turns)
	}
}

// TestRecord_LandsOnLess: a leg that stays up is said of the landing; all legs down,
// or a take-off that was rejected, is not.
func TestRecord_LandsOnLess(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	leg := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "left_leg", Fault: "stays_up"}}, At: during("descent", 5)}}}
	if !flown(t, c, leg).LandsOnLess() {
		t.Error("a leg that stays up is not said")
	}
	if flown(t, c, run.Scenario{}).LandsOnLess() || flown(t, c, run.Scenario{Plan: []run.Leg{{Do: run.Reject, At: during("take_off_roll", 5)}}}).LandsOnLess() {
		t.Error("said of a landing on all legs, or of a flight that never flew")
	}
}

// TestResolve_ShortFinal: 500 ft on the final path, as near as a microsecond, on every
// flight; an offset counts from there.
func TestResolve_ShortFinal(t *testing.T) {
	b := corvane.Build(t, "")
	ft := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "height_ft" })
	for _, id := range []string{"northern_link", "short_hop"} {
		for _, set := range []run.Setting{{}, {Prescribed: true}} {
			c, err := run.NewCourse(b, corvane.Flight(t, b, id), set)
			if err != nil {
				t.Fatal(err)
			}
			m, err := book.ParseMoment("short final", b)
			if err != nil {
				t.Fatal(err)
			}
			at, err := c.Resolve(t.Context(), m)
			if err != nil || c.Path.Value(ft, at) >= 500 || c.Path.Value(ft, at-1) < 500 {
				t.Errorf("%s: %v, %g ft, %v", id, at, c.Path.Value(ft, at), err)
			}
			m, err = book.ParseMoment("short_final - 10 s", b)
			if before, bad := c.Resolve(t.Context(), m); err != nil || bad != nil || at-before != 10*book.Second {
				t.Errorf("%s: ten seconds before it is %v, %v, %v", id, before, err, bad)
			}
		}
	}
}

// TestResolve_AHeightInAPhase: the first moment in the phase at which the flight
// passes the height, to the microsecond, up or down; none where it does not.
func TestResolve_AHeightInAPhase(t *testing.T) {
	b := corvane.Build(t, "")
	ft := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "altitude_ft" })
	c, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r := flown(t, c, run.Scenario{})
	resolve := func(text string) (book.Time, error) {
		m, err := book.ParseMoment(text, b)
		if err != nil {
			t.Fatal(err)
		}
		return c.Resolve(t.Context(), m)
	}
	for text, up := range map[string]bool{"10,000 ft in the climb": true, "10,000 ft in the descent": false, "FL200 in the descent": false} {
		at, err := resolve(text)
		phase := map[bool]string{true: "climb", false: "descent"}[up]
		feet := 10000.0
		if strings.HasPrefix(text, "FL200") {
			feet = 20000
		}
		above := func(at book.Time) bool { return r.Path().Value(ft, at) >= feet }
		if err != nil || r.PhaseAt(at) != phase || above(at) != up || above(at-1) == up {
			t.Errorf("%q: %v, %g ft, %v", text, at, r.Path().Value(ft, at), err)
		}
		for s := book.Time(0); s < at && up; s += book.Second {
			if above(s) {
				t.Fatalf("%q: it was above at %v already", text, s)
			}
		}
		if later, err := resolve(text + " + 30 s"); err != nil || later-at != 30*book.Second {
			t.Errorf("%q: half a minute later is %v, %v", text, later, err)
		}
	}
	for _, text := range []string{"50,000 ft in the climb", "5,000 ft in the cruise", "10,000 ft in taxi out"} {
		if at, err := resolve(text); err == nil || !strings.Contains(err.Error(), "does not pass") {
			t.Errorf("%q: %v, %v", text, at, err)
		}
	}
}
