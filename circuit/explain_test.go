package circuit_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

// told prints an explanation, one step a line.
func told(s *circuit.Step) string {
	var b strings.Builder
	var write func(s *circuit.Step, depth int)
	write = func(s *circuit.Step, depth int) {
		fmt.Fprintf(&b, "%s%s %s [%s]\n", strings.Repeat("  ", depth), s.Value, s.Says, s.Kind)
		for _, c := range s.Because {
			write(c, depth+1)
		}
	}
	write(s, 0)
	return b.String()
}

func explained(t *testing.T, text string, a air, fail map[string]float64, value string, at float64) string {
	t.Helper()
	c := compile(t, text)
	here, there := flown(t, c, a, 0, fail), flown(t, c, a, 0, nil)
	id, aspect, _ := strings.Cut(value, " ")
	s, ok := circuit.Explain(here, there, circuit.Value{Item: id, Aspect: circuit.Aspect(aspect)}, book.AtSeconds(at))
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
		fail        map[string]float64
		at          float64
		want        string
	}{
		{"a loss goes back to both failures", "picture", map[string]float64{"source_1": 10, "source_2": 20}, 20, `
picture is lost [derived]
  box does not work [derived]
    bar does not work [derived]
      source_1 does not work [derived]
        source_1 failed has failed [failure]
      source_2 does not work [derived]
        source_2 failed has failed [failure]
`},
		{"a timer goes back to what started it", "slow", map[string]float64{"source_2": 20}, 30, `
slow yes [derived]
  source_2 does not work [derived]
    source_2 failed has failed [failure]
`},
		{"a latch goes back to what set it", "tripped", map[string]float64{"source_1": 10}, 30, `
tripped yes [derived]
  source_1 does not work [derived]
    source_1 failed has failed [failure]
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := explained(t, power, air{}, c.fail, c.value, c.at)
			if strings.TrimSpace(got) != strings.TrimSpace(c.want) {
				t.Errorf("got\n%swant%s", got, c.want)
			}
		})
	}
}

// leaves of an explanation.
func leaves(s *circuit.Step, found map[string]bool) {
	if s.Kind != circuit.Derived {
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
		c := compile(t, gateText(units, gates))
		state := make([]int, units)
		fail := map[string]float64{}
		for u := range units {
			if state[u] = rng.IntN(2); state[u] == 0 {
				fail[fmt.Sprintf("n%d", u)] = 10
			}
		}
		here := flown(t, c, air{}, 0, fail)
		for g := range gates {
			top := fmt.Sprintf("n%d", units+g)
			s, _ := circuit.Explain(here, nil, circuit.Value{Item: top}, 20*book.Second)
			found := map[string]bool{}
			leaves(s, found)
			checkLeaves(t, gates, g, state, found, s)
		}
	}
}

func checkLeaves(t *testing.T, gates []gate, g int, state []int, found map[string]bool, s *circuit.Step) {
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
