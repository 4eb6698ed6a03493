package why_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/why"
)

// told prints an explanation, one step a line.
func told(s *why.Step) string {
	var b strings.Builder
	var write func(s *why.Step, depth int)
	write = func(s *why.Step, depth int) {
		fmt.Fprintf(&b, "%s%s %s [%s] %g", strings.Repeat("  ", depth), s.Value, s.Says, s.Kind, s.At.Seconds())
		if s.Since != s.At && s.Since > 0 {
			fmt.Fprintf(&b, " since %g", s.Since.Seconds())
		}
		if s.Fleeting {
			b.WriteString(" fleeting")
		}
		if s.Stayed {
			fmt.Fprintf(&b, " stayed at %g", s.Other.Seconds())
		}
		b.WriteString("\n")
		for _, c := range s.Because {
			write(c, depth+1)
		}
		for _, c := range s.While {
			fmt.Fprintf(&b, "%s  while %s %s\n", strings.Repeat("  ", depth), c.Label, c.Says)
		}
	}
	write(s, 0)
	return b.String()
}

// frame is what every small book needs around the lines under test.
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

// air is a flight of 100 seconds: time runs, it is icing from 30 to 60 s.
type air struct{}

func (air) End() book.Time { return 100 * book.Second }
func (air) Knots() []book.Time {
	return []book.Time{0, 30 * book.Second, 60 * book.Second, 100 * book.Second}
}

func (air) Value(q int, t book.Time) float64 {
	switch book.Quantities[q].Name {
	case "time_s":
		return t.Seconds()
	case "icing":
		if t >= 30*book.Second && t < 60*book.Second {
			return 1
		}
	}
	return 0
}

// flown is a small book's flight with failures such as "box@10" or
// "box.fault@10-20", and acts such as "knob=on@12", and the one without.
func flown(t testing.TB, text string, happens ...string) (here, there *run.Record) {
	t.Helper()
	b, diags := book.Load(t.Context(), fstest.MapFS{"test.hcl": {Data: []byte(frame + text)}})
	if diags.HasErrors() {
		t.Fatalf("%s: %s %s", diags[0].Subject, diags[0].Summary, diags[0].Detail)
	}
	build, _ := b.Build("")
	course, err := run.NewCourse(build, nil, run.Setting{Path: air{}})
	if err != nil {
		t.Fatal(err)
	}
	here, err = course.Fly(t.Context(), scenario(t, build, happens))
	if err != nil {
		t.Fatal(err)
	}
	there, err = course.Fly(t.Context(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	return here, there
}

func scenario(t testing.TB, b *book.Build, happens []string) (s run.Scenario) {
	t.Helper()
	for _, h := range happens {
		what, times, _ := strings.Cut(h, "@")
		var from, to float64
		fmt.Sscanf(times, "%g-%g", &from, &to)
		at := book.Moment{Offset: book.AtSeconds(from)}
		if control, position, ok := strings.Cut(what, "="); ok {
			s.Actions = append(s.Actions, run.Action{Control: control, Position: position, At: at})
			continue
		}
		ref, err := book.ParseFailure(what, b)
		if err != nil {
			t.Fatal(err)
		}
		s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{ref}, At: at, Lasts: book.AtSeconds(max(to-from, 0))})
	}
	return s
}

// explained prints why a value of a small book is what it is.
func explained(t *testing.T, text, value string, at float64, happens ...string) string {
	t.Helper()
	here, there := flown(t, text, happens...)
	id, aspect, _ := strings.Cut(value, " ")
	s, ok := why.Compare(here, there, circuit.Value{Item: id, Aspect: circuit.Aspect(aspect)}, book.AtSeconds(at))
	if !ok {
		t.Fatalf("no value %q", value)
	}
	return told(s)
}

func TestExplain(t *testing.T) {
	const power = `
unit "source_1" {}
unit "source_2" {}
unit "bar" { needs = source_1 || source_2 }
unit "box" { needs = bar && early }
function "picture" { works = box }
signal "tripped" {
  set   = !source_1
  reset = late
}
signal "slow" { value = held(!source_2, 5) }
alert "bar_lost" {
  level   = "caution"
  message = "Bar lost"
  when    = !bar
}
`
	for _, c := range []struct {
		name, value string
		fail        []string
		at          float64
		want        string
	}{
		{"a loss goes back to both failures", "picture", []string{"source_1@10", "source_2@20"}, 20, `
picture is lost [derived] 20
  box does not work [derived] 20
    bar does not work [derived] 20
      source_1 does not work [derived] 20 since 10
        source_1 failed has failed [failure] 20 since 10
      source_2 does not work [derived] 20
        source_2 failed has failed [failure] 20
`},
		{"a timer goes back to what started it", "slow", []string{"source_2@20"}, 30, `
slow yes [derived] 30 since 25
  source_2 does not work [derived] 20
    source_2 failed has failed [failure] 20
`},
		{"a latch goes back to what set it", "tripped", []string{"source_1@10"}, 30, `
tripped yes [derived] 30 since 10
  source_1 does not work [derived] 10
    source_1 failed has failed [failure] 10
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := explained(t, power, c.value, c.at, c.fail...)
			if strings.TrimSpace(got) != strings.TrimSpace(c.want) {
				t.Errorf("got\n%swant%s", got, c.want)
			}
		})
	}
}

// leaves of an explanation.
func leaves(s *why.Step, found map[string]bool) {
	if s.Kind != why.Derived {
		found[s.Value.String()] = true
	}
	for _, c := range s.Because {
		leaves(c, found)
	}
}

// gate is a random gate: operands are numbers of units, then of gates before
// it; negative ones (less one) are negated.
type gate struct {
	need int // at least so many
	in   []int
}

// TestExplain_SufficientAndLean checks on random circuits of and, or, not and
// at_least that the leaves of an explanation force the value (by trying every
// state of the units that agrees with them), and that without any one of them
// the gates would no longer force it (by three-valued evaluation).
func TestExplain_SufficientAndLean(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		units := 3 + rng.IntN(4)
		gates := randomGates(rng, units)
		state := make([]int, units)
		var fail []string
		for u := range units {
			if state[u] = rng.IntN(2); state[u] == 0 {
				fail = append(fail, fmt.Sprintf("n%d@10", u))
			}
		}
		here, _ := flown(t, gateText(units, gates), fail...)
		for g := range gates {
			top := fmt.Sprintf("n%d", units+g)
			s, _ := why.Explain(here.Trace, nil, circuit.Value{Item: top}, 20*book.Second, nil)
			found := map[string]bool{}
			leaves(s, found)
			checkLeaves(t, gates, g, state, found, s)
		}
	}
}

func checkLeaves(t *testing.T, gates []gate, g int, state []int, found map[string]bool, s *why.Step) {
	t.Helper()
	known := make([]int, len(state))
	for u := range state {
		if known[u] = unknown; found[fmt.Sprintf("n%d failed", u)] {
			known[u] = state[u]
		}
	}
	want := evaluate(gates, state)[g]
	if got := evaluate(gates, known)[g]; got != want {
		t.Fatalf("%v %v: the leaves %v leave gate %d open:\n%s", gates, state, found, g, told(s))
	}
	free := make([]int, len(state))
	for all := range 1 << len(state) {
		agrees := true
		for u := range state {
			free[u] = all >> u & 1
			agrees = agrees && (known[u] == unknown || known[u] == free[u])
		}
		if agrees && evaluate(gates, free)[g] != want {
			t.Fatalf("%v %v: the leaves %v do not force gate %d:\n%s", gates, state, found, g, told(s))
		}
	}
	for u := range state {
		if known[u] == unknown {
			continue
		}
		known[u] = unknown
		if evaluate(gates, known)[g] == want {
			t.Fatalf("%v %v: n%d is not needed among the leaves %v of gate %d:\n%s", gates, state, u, found, g, told(s))
		}
		known[u] = state[u]
	}
}

const unknown = 2

// evaluate gives every gate's value in three-valued logic: 0, 1 or unknown.
func evaluate(gates []gate, units []int) []int {
	values := append([]int(nil), units...)
	for _, g := range gates {
		yes, open := 0, 0
		for _, i := range g.in {
			v := 0
			if i >= 0 {
				v = values[i]
			} else if v = values[-i-1]; v != unknown {
				v = 1 - v
			}
			switch v {
			case 1:
				yes++
			case unknown:
				open++
			}
		}
		switch {
		case yes >= g.need:
			values = append(values, 1)
		case yes+open < g.need:
			values = append(values, 0)
		default:
			values = append(values, unknown)
		}
	}
	return values[len(units):]
}

func randomGates(rng *rand.Rand, units int) (gates []gate) {
	for g := range 6 {
		in := make([]int, 2+rng.IntN(2))
		for i := range in {
			if in[i] = rng.IntN(units + g); rng.IntN(4) == 0 {
				in[i] = -in[i] - 1
			}
		}
		gates = append(gates, gate{1 + rng.IntN(len(in)), in})
	}
	return gates
}

func gateText(units int, gates []gate) string {
	var b strings.Builder
	for u := range units {
		fmt.Fprintf(&b, "unit \"n%d\" {}\n", u)
	}
	for g, gate := range gates {
		var in []string
		for _, i := range gate.in {
			if i >= 0 {
				in = append(in, fmt.Sprintf("n%d", i))
			} else {
				in = append(in, fmt.Sprintf("!n%d", -i-1))
			}
		}
		list := strings.Join(in, ", ")
		text := fmt.Sprintf("at_least(%d, %s)", gate.need, list)
		switch gate.need {
		case 1:
			text = "any(" + list + ")"
		case len(in):
			text = "all(" + list + ")"
		}
		fmt.Fprintf(&b, "signal \"n%d\" { value = %s }\n", units+g, text)
	}
	return b.String()
}
