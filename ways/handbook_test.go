package ways_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"knockon/internal/tree"
	"knockon/ways"
	"knockon/ways/logic"
)

// handbook holds small trees with answers that were printed elsewhere; their
// numbers stand in internal/checks/tables/fault-trees.tsv.
var handbook = []struct {
	name   string
	source string
	text   string
	sets   []string // each with its members sorted
}{{
	name:   "pressure tank",
	source: "NUREG-0492 chapter VIII; probabilities as in an open test suite that quotes the NASA handbook of 2002",
	text: `top = E1
E1 = or(T, E2)
E2 = or(K2, E3)
E3 = and(S, E4)
E4 = or(S1, E5)
E5 = or(K1, R)
T ~ 5e-6
K2 ~ 3e-5
S ~ 1e-4
S1 ~ 3e-5
K1 ~ 5e-6
R ~ 1e-4`,
	sets: []string{"T", "K2", "S S1", "K1 S", "R S"},
}, {
	name:   "container seal",
	source: "NASA fault tree handbook 2002, design comparison",
	text: `top = leak
leak = or(cc, ind)
cc = and(tape, ccev)
ind = and(metal, comp, plug)
comp = and(s1, s2)
tape ~ 0.1
ccev ~ 1e-5
metal ~ 1e-3
plug ~ 1e-3
s1 ~ 1e-3
s2 ~ 1e-3`,
	sets: []string{"ccev tape", "metal plug s1 s2"},
}, {
	name:   "theatre supply",
	source: "an open fault tree test suite",
	text: `top = g
g = and(mains, or(gen, relay))
mains ~ 0.03
gen ~ 0.02
relay ~ 0.05`,
	sets: []string{"gen mains", "mains relay"},
}, {
	name:   "two trains",
	source: "an open fault tree test suite",
	text: `top = g
g = and(or(V1, P1), or(V2, P2))
V1 ~ 0.5
V2 ~ 0.5
P1 ~ 0.7
P2 ~ 0.7`,
	sets: []string{"V1 V2", "P2 V1", "P1 V2", "P1 P2"},
}, {
	name:   "two-channel control unit",
	source: "an open fault tree test suite; p = 1 - exp(-rate 8760 h)",
	text: `top = g
g = or(vm, and(L1, L2), and(L1, sw1), swi, and(L2, sw2))
L1 = or(el1, ps1)
L2 = or(el2, ps2)` + rates(8760, map[string]float64{
		"vm": 1.6e-7, "el1": 3e-5, "el2": 3e-5, "ps1": 1.35e-5, "ps2": 1.35e-5,
		"swi": 1.3e-7, "sw1": 2.6e-6, "sw2": 2.6e-6,
	}),
	sets: []string{"swi", "vm", "ps1 ps2", "ps1 sw1", "el2 ps1", "ps2 sw2", "el1 ps2", "el1 sw1", "el2 sw2", "el1 el2"},
}, {
	name:   "three motors",
	source: "an open fault tree test suite, house events worked out",
	text: `top = g
g = or(K5, and(T2, or(K1, S1, T1i, and(or(KT1i, T2i), or(KT2i, T3i), or(KT3i, T4i)))))` +
		same(0.02, "K5 T2 K1 S1 T1i KT1i T2i KT2i T3i KT3i T4i"),
	sets: []string{"K5", "S1 T2", "K1 T2", "T1i T2",
		"KT1i KT2i KT3i T2", "KT1i KT2i T2 T4i", "KT1i KT3i T2 T3i", "KT1i T2 T3i T4i",
		"KT2i KT3i T2 T2i", "KT2i T2 T2i T4i", "KT3i T2 T2i T3i", "T2 T2i T3i T4i"},
}, {
	name:   "two of three",
	source: "C(3,2) pairs; elementary",
	text:   "top = g\ng = atleast(2; a, b, c)" + same(0.1, "a b c"),
	sets:   []string{"a b", "a c", "b c"},
}}

const vesely = `top = TOP
TOP = or(G1, G2)
G1 = or(G3, G4)
G2 = or(G5, G6)
G3 = or(G7, G8, G9)
G4 = or(G10, G11)
G5 = or(G12, G13, G14)
G6 = and(G15, G3)
G7 = and(e1, e2)
G8 = and(e1, e3)
G9 = and(e2, e3)
G10 = and(e1, e2, G16)
G11 = and(G17, G18)
G12 = and(e4, e5)
G13 = and(e4, e6)
G14 = and(e5, e6)
G15 = or(e7, e8)
G16 = or(e9, e10)
G17 = or(e7, e8, e9)
G18 = or(G19, G20)
G19 = and(e1, e2, e3)
G20 = and(e4, e5, e6)`

func same(p float64, events string) string {
	var b strings.Builder
	for _, e := range strings.Fields(events) {
		fmt.Fprintf(&b, "\n%s ~ %g", e, p)
	}
	return b.String()
}

func rates(hours float64, perHour map[string]float64) string {
	var b strings.Builder
	for e, r := range perHour {
		fmt.Fprintf(&b, "\n%s ~ %.17g", e, -math.Expm1(-r*hours))
	}
	return b.String()
}

func read(t testing.TB, text string) (*logic.Logic, logic.Term) {
	t.Helper()
	l, top, err := tree.Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return l, top
}

func find(t testing.TB, l *logic.Logic, top logic.Term, o ways.Options) *ways.Ways {
	t.Helper()
	w, err := ways.Find(context.Background(), l, top, o)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// listed returns all sets as sorted names, smallest orders first.
func listed(t testing.TB, w *ways.Ways) []string {
	t.Helper()
	var all []string
	for order := range w.Highest() + 1 {
		sets, whole := w.List(order, 1_000_000)
		if !whole || fmt.Sprint(len(sets)) != w.Count(order).String() {
			t.Fatalf("order %d: %d sets listed, %s counted, whole: %v", order, len(sets), w.Count(order), whole)
		}
		for _, s := range sets {
			names := w.Names(s)
			slices.Sort(names)
			all = append(all, strings.Join(names, " "))
		}
	}
	return all
}

func near(got, want, within float64) bool {
	return got == want || math.Abs(got-want) <= within*math.Abs(want)
}

func sameSets(got, want []string) bool {
	got, want = slices.Clone(got), slices.Clone(want)
	slices.Sort(got)
	slices.Sort(want)
	return slices.Equal(got, want)
}

func TestFind_HandbookTrees(t *testing.T) {
	for _, h := range handbook {
		t.Run(h.name, func(t *testing.T) {
			l, top := read(t, h.text)
			w := find(t, l, top, ways.Options{})
			if got := listed(t, w); !sameSets(got, h.sets) {
				t.Errorf("sets %q, want %q (%s)", got, h.sets, h.source)
			}
			risk, err := w.Risk(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			b, err := w.Bounds()
			if err != nil {
				t.Fatal(err)
			}
			slack := 1 + 1e-12 // sets that share no event make two of them equal
			if !(b.Largest <= risk.P*slack && risk.P <= b.Union*slack && b.Union <= b.Sum*slack) {
				t.Errorf("P = %g is outside its bounds %g", risk.P, b)
			}
			checkByTable(t, l, top, w, risk)
		})
	}
}

// checkByTable compares the sets, the probability and every importance with
// what a table of all cases gives.
func checkByTable(t *testing.T, l *logic.Logic, top logic.Term, w *ways.Ways, risk *ways.Risk) {
	t.Helper()
	n := len(l.Events())
	yes := make([]bool, 1<<n)
	for c := range yes {
		yes[c] = l.Eval(top, func(e int) bool { return c>>e&1 == 1 })
	}
	if got, want := listed(t, w), smallest(l, yes); !sameSets(got, want) {
		t.Errorf("sets %q, by table %q", got, want)
	}
	q := tableChance(l, yes, -1, 0)
	if !near(risk.P, q, 1e-12) {
		t.Errorf("P = %.15g, by table %.15g", risk.P, q)
	}
	for _, i := range risk.Events {
		q1, q0 := tableChance(l, yes, i.Event, 1), tableChance(l, yes, i.Event, 0)
		p := l.Events()[i.Event].P
		want := ways.Importance{Event: i.Event, P: p, Birnbaum: q1 - q0, Criticality: p * (q1 - q0) / q,
			Diagnostic: p * q1 / q, RiskAchievement: q1 / q, RiskReduction: q / q0}
		checkImportance(t, l, i, want, 1e-9)
	}
}

func checkImportance(t *testing.T, l *logic.Logic, got, want ways.Importance, within float64) {
	t.Helper()
	if !near(got.Birnbaum, want.Birnbaum, within) || !near(got.Criticality, want.Criticality, within) ||
		!near(got.Diagnostic, want.Diagnostic, within) || !near(got.RiskAchievement, want.RiskAchievement, within) ||
		!near(got.RiskReduction, want.RiskReduction, within) {
		t.Errorf("importance of %s: %+v, want %+v", l.Events()[got.Event].Name, got, want)
	}
}

// smallest returns, from a table of all cases, the sets that suffice and of
// which no smaller part does.
func smallest(l *logic.Logic, yes []bool) []string {
	var sets []string
	below := make([]bool, len(yes)) // some part of the case suffices
	for c, y := range yes {
		for e := range l.Events() {
			below[c] = below[c] || c>>e&1 == 1 && (below[c&^(1<<e)] || yes[c&^(1<<e)])
		}
		if y && !below[c] {
			var names []string
			for e, event := range l.Events() {
				if c>>e&1 == 1 {
					names = append(names, event.Name)
				}
			}
			slices.Sort(names)
			sets = append(sets, strings.Join(names, " "))
		}
	}
	return sets
}

// tableChance sums the probabilities of the cases that are yes; the event
// fixed, if it is one, has the probability p.
func tableChance(l *logic.Logic, yes []bool, fixed int, p float64) float64 {
	total := 0.0
	for c, y := range yes {
		if !y {
			continue
		}
		chance := 1.0
		for e, event := range l.Events() {
			x := event.P
			if e == fixed {
				x = p
			}
			if c>>e&1 == 1 {
				chance *= x
			} else {
				chance *= 1 - x
			}
		}
		total += chance
	}
	return total
}

// W. E. Vesely, Nuclear Engineering and Design 13 (1970) 337-360, figure 1 and
// table 2, as restated in an open test suite: events 7 to 10 stand in the tree
// but in no smallest set.
func TestFind_AbsorbsWhatAddsNothing(t *testing.T) {
	want := []string{"e1 e2", "e1 e3", "e2 e3", "e4 e5", "e4 e6", "e5 e6"}
	l, top := read(t, vesely)
	if got := listed(t, find(t, l, top, ways.Options{})); !sameSets(got, want) {
		t.Errorf("sets %q, want %q", got, want)
	}
}

// Closed form: see the handbook tree "theatre supply".
func TestWays_SharesOfTheatreSupply(t *testing.T) {
	l, top := read(t, handbook[2].text)
	w := find(t, l, top, ways.Options{})
	exact := map[string]float64{"mains": 1, "gen": 0.0006 / 0.00207, "relay": 0.0015 / 0.00207}
	for event, e := range l.Events() {
		fv, err := w.FussellVesely(context.Background(), event)
		if err != nil || !near(fv, exact[e.Name], 1e-10) {
			t.Errorf("%s: Fussell-Vesely %.12g, want %.12g (%v)", e.Name, fv, exact[e.Name], err)
		}
	}
	risk, err := w.Risk(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	want := []ways.Importance{
		{Birnbaum: 0.069, Criticality: 1, Diagnostic: 1, RiskAchievement: 1 / 0.03, RiskReduction: math.Inf(1)},
		{Birnbaum: 0.0285, Criticality: 0.275362318841, Diagnostic: 0.289855072464, RiskAchievement: 14.4927536232, RiskReduction: 1.38},
		{Birnbaum: 0.0294, Criticality: 0.710144927536, Diagnostic: 0.724637681159, RiskAchievement: 14.4927536232, RiskReduction: 3.45},
	}
	for i, w := range want {
		checkImportance(t, l, risk.Events[i], w, 1e-9)
	}
}
