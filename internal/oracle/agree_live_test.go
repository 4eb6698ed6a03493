package oracle_test

import (
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/internal/oracle"
	"knockon/run"
)

// TestAgreeOnLive flies failures that the flight itself feels, so that each run
// is on a path of its own, and gives the oracle that path.
func TestAgreeOnLive(t *testing.T) {
	build := corvane.Build(t, "")
	f := build.Flights[len(build.Flights)-1]
	live, err := run.NewCourse(build, f, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	d := &demoFlight{run: live, build: build}
	fail := func(at book.Time, units ...string) (s oracle.Scenario) {
		for _, u := range units {
			s.Failures = append(s.Failures, oracle.Failure{Ref: book.FailureRef{Unit: u}, At: at})
		}
		return s
	}
	// At 200 s the loss of dc_left makes a flight that meets the icing layer for a
	// microsecond, and turns away from it for that: no step of the oracle sees it.
	cases := []demoCase{
		{"engine_in_climb", fail(100*book.Second, "engine_left")},
		{"hydraulics", fail(80*book.Second, "reservoir_right", "reservoir_left")}, {"side_of_the_network", fail(150*book.Second, "dc_left")},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { d.agree(t, c.scenario) })
	}
}
