package ledger_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

// frame is what every small book here stands in: phases by the clock, so that
// all moments are whole seconds, and the shortest flight there is.
const frame = `
aircraft "toy" {
  title = "Toy"
}
phase "ground" {
  title = "On the ground"
}
phase "climb" {
  title  = "Climb"
  begins = real.time_s >= 100
}
phase "cruise" {
  title  = "Cruise"
  begins = real.time_s >= 200
}
phase "landing" {
  title  = "Landing"
  begins = real.time_s >= 300
}
flight "hop" {
  title              = "Hop"
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
`

// load loads a small book within the frame.
func load(t testing.TB, text string) *book.Build {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + text)}})
	if b == nil {
		var all strings.Builder
		for _, d := range diags {
			fmt.Fprintln(&all, d)
		}
		t.Fatal(all.String())
	}
	build, _ := b.Build("")
	return build
}

func course(t testing.TB, text string) *run.Course {
	t.Helper()
	c, err := run.NewCourse(load(t, text), nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// failing reads "pump@100 gen.low@120+30": units that fail at a second, the
// last one for 30 s.
func failing(t testing.TB, text string) run.Scenario {
	t.Helper()
	var s run.Scenario
	for _, word := range strings.Fields(text) {
		name, when, _ := strings.Cut(word, "@")
		unit, fault, _ := strings.Cut(name, ".")
		var at, lasts float64
		if n, _ := fmt.Sscanf(when, "%g+%g", &at, &lasts); n == 0 {
			t.Fatalf("bad failure %q", word)
		}
		s.Strikes = append(s.Strikes, run.Strike{
			Fail: []book.FailureRef{{Unit: unit, Fault: fault}},
			At:   book.Moment{Offset: book.AtSeconds(at)}, Lasts: book.AtSeconds(lasts),
		})
	}
	return s
}

func answer(t testing.TB, c *run.Course, s run.Scenario) *ledger.Ledger {
	t.Helper()
	l, err := ledger.Answer(context.Background(), c, s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// of gives the ledger of failures in a small book.
func of(t testing.TB, text, failures string) *ledger.Ledger {
	t.Helper()
	return answer(t, course(t, text), failing(t, failures))
}
