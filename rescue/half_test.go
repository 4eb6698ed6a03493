package rescue

import (
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
)

// TestOf_NoHalfMeasure: what only makes the flight longer puts no loss off, and what
// keeps an aircraft up for longer and farther from its field is no help either.
func TestOf_NoHalfMeasure(t *testing.T) {
	for _, x := range []struct {
		name, flight, function, phase string
		what                          []string
	}{
		{"flaps before the landing roll", "short_hop", "antiskid", "cruise", []string{"brake_channel_a", "brake_channel_b"}},
		{"an engine less", "northern_link", "", "lift_off", []string{"gear_valve"}},
	} {
		a, err := Of(t.Context(), demoCourse(t, x.flight), Question{Scenario: failing(x.phase, 0, x.what...), Function: x.function, Order: 1, Workers: 2}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if v := a.View(); !a.Bites || a.Delay > 0 || strings.Contains(v.Delay, "longest") {
			t.Errorf("%s: bites %v, put off by %v: %s", x.name, a.Bites, a.Delay, v.Delay)
		}
	}
}

// TestWithCrew_PutOut: a fire that a crew put out is not said to be lost as it is with
// nobody's hands.
func TestWithCrew_PutOut(t *testing.T) {
	c := demoCourse(t, "short_hop")
	asked := failing("climb", 0)
	asked.Strikes[0].Fail = []book.FailureRef{{Unit: "nacelle_left", Fault: "burns"}}
	a, err := Of(t.Context(), c, Question{Scenario: asked, Function: "no_fire_left", Order: 1, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	team, err := crew.NewTeam(c.Build, c.Flight, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := a.WithCrew(t.Context(), team, asked, 1); err != nil {
		t.Fatal(err)
	}
	if text := a.View().Crew; !strings.Contains(text, "lost as well, but only to +0:") || !strings.Contains(text, "works from then on") {
		t.Error(text)
	}
}
