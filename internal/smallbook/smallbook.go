// Package smallbook turns a few lines of a book into a course, for tests: phases by
// the clock, a flight of 400 s on which nothing moves but time, so that every moment
// is a whole second. Start reading at Course.
package smallbook

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/run"
)

// frame is what every small book here stands in: phases by the clock, so that
// all moments are whole seconds, and a short flight, cut to 400 s.
const frame = `
aircraft "toy" {
  title = "Toy"
  %s
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

// clock is a flight of 400 s on which nothing moves but the clock.
type clock struct{}

func (clock) End() book.Time     { return 400 * book.Second }
func (clock) Knots() []book.Time { return []book.Time{0, 400 * book.Second} }
func (clock) Value(q int, t book.Time) float64 {
	if book.Quantities[q].Name == "time_s" {
		return t.Seconds()
	}
	return 0
}

// Load loads a small book within the frame. A first line "# aircraft: ..."
// gives attributes of the aircraft.
func Load(t testing.TB, text string) *book.Build {
	t.Helper()
	attributes := ""
	if line, rest, _ := strings.Cut(strings.TrimSpace(text), "\n"); strings.HasPrefix(line, "# aircraft: ") {
		attributes, text = strings.ReplaceAll(strings.TrimPrefix(line, "# aircraft: "), "; ", "\n"), rest
	}
	whole := fmt.Sprintf(frame, attributes) + text
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(whole)}})
	if b == nil {
		var all strings.Builder
		for _, d := range diags {
			if d.Severity == book.Error {
				fmt.Fprintln(&all, d)
			}
		}
		t.Fatalf("%s\n%s", all.String(), text)
	}
	build, _ := b.Build("")
	return build
}

// Course is a small book on its flight.
func Course(t testing.TB, text string) *run.Course {
	t.Helper()
	c, err := run.NewCourse(Load(t, text), nil, run.Setting{Path: clock{}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Failing reads "pump@100 gen.low@120+30 /spare lever=up@130 =lever=up@130": units
// that fail at a second, one of them for 30 s, one that is inoperative from the
// start, an act, and a set-up.
func Failing(t testing.TB, text string) run.Scenario {
	t.Helper()
	var s run.Scenario
	for _, word := range strings.Fields(text) {
		if unit, ok := strings.CutPrefix(word, "/"); ok {
			s.Inoperative = append(s.Inoperative, book.FailureRef{Unit: unit})
			continue
		}
		name, when, _ := strings.Cut(word, "@")
		if control, position, ok := strings.Cut(strings.TrimPrefix(name, "="), "="); ok {
			seconds, _ := strconv.ParseFloat(when, 64)
			a := run.Action{Control: control, Position: position, At: book.Moment{Offset: book.AtSeconds(seconds)}}
			if strings.HasPrefix(word, "=") {
				s.SetUp = append(s.SetUp, a)
			} else {
				s.Actions = append(s.Actions, a)
			}
			continue
		}
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
