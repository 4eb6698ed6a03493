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
  bar does not work [derived]
    source_1 has not failed no
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

// TestExplain_SufficientAndLean checks on random circuits of and, or, not and
// at_least, by trying every state of the units, that the leaves of an
// explanation force the value, and that without any one of them they do not.
func TestExplain_SufficientAndLean(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		units := 3 + rng.IntN(4)
		text, tops := randomGates(rng, units)
		c := compile(t, text)
		fail := map[string]float64{}
		for u := range units {
			if rng.IntN(2) == 0 {
				fail[fmt.Sprintf("u%d", u)] = 10
			}
		}
		here := flown(t, c, air{}, 0, fail)
		for _, top := range tops {
			s, _ := circuit.Explain(here, nil, circuit.Value{Item: top}, 20*book.Second)
			found := map[string]bool{}
			leaves(s, found)
			if !forces(t, c, units, fail, found, top) {
				t.Fatalf("%s\n%v: the leaves %v do not force %s:\n%s", text, fail, found, top, told(s))
			}
			for l := range found {
				delete(found, l)
				if forces(t, c, units, fail, found, top) {
					t.Fatalf("%s\n%v: %s is not needed among the leaves of %s:\n%s", text, fail, l, top, told(s))
				}
				found[l] = true
			}
		}
	}
}

func randomGates(rng *rand.Rand, units int) (text string, tops []string) {
	var b strings.Builder
	var names []string
	for u := range units {
		fmt.Fprintf(&b, "unit \"u%d\" {}\n", u)
		names = append(names, fmt.Sprintf("u%d", u))
	}
	for g := range 6 {
		var in []string
		for range 2 + rng.IntN(2) {
			n := names[rng.IntN(len(names))]
			if rng.IntN(4) == 0 {
				n = "!" + n
			}
			in = append(in, n)
		}
		list := strings.Join(in, ", ")
		call := [...]string{"all(" + list + ")", "any(" + list + ")", "at_least(2, " + list + ")"}[rng.IntN(3)]
		name := fmt.Sprintf("g%d", g)
		fmt.Fprintf(&b, "signal %q { value = %s }\n", name, call)
		names = append(names, name)
		tops = append(tops, name)
	}
	return b.String(), tops
}

// forces tries every state of the units that agrees with the run on the leaves.
func forces(t *testing.T, c *circuit.Circuit, units int, fail map[string]float64, leaves map[string]bool, top string) bool {
	t.Helper()
	n, _ := c.Node(circuit.Value{Item: top})
	want := flown(t, c, air{}, 0, fail).At(n, 20*book.Second)
	for state := range 1 << units {
		tried, agrees := map[string]float64{}, true
		for u := range units {
			id := fmt.Sprintf("u%d", u)
			if state>>u&1 == 1 {
				tried[id] = 10
			}
			_, failed := fail[id]
			if leaves[id+" failed"] && failed != (state>>u&1 == 1) {
				agrees = false
			}
		}
		if agrees && flown(t, c, air{}, 0, tried).At(n, 20*book.Second) != want {
			return false
		}
	}
	return true
}
