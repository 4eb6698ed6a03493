package circuit_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
)

// air is a flight made for a test: each quantity is a function of seconds.
type air map[string]func(s float64) float64

func (a air) Value(q int, t book.Time) float64 {
	if f, ok := a[book.Quantities[q].Name]; ok {
		return f(t.Seconds())
	}
	return 0
}

// frame is what every test book needs around the lines under test.
const frame = `
aircraft "test" { title = "Test aircraft" }
phase "early" {}
phase "late" { begins = real.time_s >= 50 }
flight "only" {
  from = "A"
  to   = "B"
  takeoff_mass_kg = 30000
  fuel_kg = 5000
  cruise_altitude_ft = 4000
  distance_nm = 25
  rotate_kt = 130
  climb_kt = 250
  climb_mach = 0.7
  descent_kt = 250
  approach_kt = 130
}
`

func build(t testing.TB, text string) *book.Build {
	t.Helper()
	files := fstest.MapFS{"test.hcl": {Data: []byte(frame + text)}}
	b, diags := book.Load(context.Background(), files)
	for _, d := range diags {
		if d.Severity == book.Error {
			t.Fatalf("%s: %s: %s", d.Subject, d.Summary, d.Detail)
		}
	}
	loaded, _ := b.Build("")
	return loaded
}

func compile(t testing.TB, text string) *circuit.Circuit {
	t.Helper()
	c, err := circuit.Compile(build(t, text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// flown is a run of a test book: 100 seconds long, with knots every 10.
func flown(t testing.TB, c *circuit.Circuit, a air, step book.Time, fail map[string]float64) *circuit.Trace {
	t.Helper()
	if a["time_s"] == nil {
		a["time_s"] = func(s float64) float64 { return s }
	}
	course := circuit.NewCourse(c, a, knots(), step)
	var failures []circuit.Failure
	type strike struct {
		at book.Time
		n  int
	}
	var strikes []strike
	for _, w := range c.Ways() {
		if at, ok := fail[w.String()]; ok {
			ways, _ := c.Expand([]book.FailureRef{w})
			strikes = append(strikes, strike{book.AtSeconds(at), len(failures)})
			failures = append(failures, circuit.Failure{Ways: ways, When: circuit.None})
		}
	}
	m := circuit.NewMachine(course, failures, nil)
	var trace *circuit.Trace
	end := 100 * book.Second
	for at, again := book.Time(0), false; ; {
		var in []circuit.Input
		for i, s := range strikes {
			if s.n >= 0 && s.at == at {
				in = append(in, circuit.Input{Strike: s.n, End: -1, Control: -1})
				strikes[i].n = -1
			}
		}
		changed, more, err := m.Instant(at, in)
		if err != nil {
			t.Fatal(err)
		}
		if again = more; trace == nil {
			trace = circuit.NewTrace(m)
		} else {
			trace.Add(m, changed)
		}
		if at == end && !again {
			trace.Done(end)
			return trace
		}
		if again {
			continue
		}
		next := min(end, m.NextTimer())
		for _, s := range strikes {
			if s.n >= 0 {
				next = min(next, s.at)
			}
		}
		at = min(next, m.NextCrossing(next))
	}
}

func knots() (list []book.Time) {
	for s := 0; s <= 100; s += 10 {
		list = append(list, book.Time(s)*book.Second)
	}
	return list
}

func spans(t testing.TB, tr *circuit.Trace, value string) []circuit.Span {
	t.Helper()
	id, aspect, _ := strings.Cut(value, " ")
	n, ok := tr.Circuit().Node(circuit.Value{Item: id, Aspect: circuit.Aspect(aspect)})
	if !ok {
		t.Fatalf("no value %q", value)
	}
	return tr.Spans(n)
}
