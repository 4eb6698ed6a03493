package ask_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/ask"
	"knockon/book"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// islands are the airfields of the demonstration, without their weather.
func islands(t *testing.T) *region.Region {
	t.Helper()
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	g, _ := region.New(list, "", "", "250 250/85")
	return g
}

// TestCosts_AreThoseOfThePlan: what is said of a field, with the crew by the book
// or with nobody, is to the digit what the answer is whose plan goes there at that
// moment; and so is every value of the two records from then on.
func TestCosts_AreThoseOfThePlan(t *testing.T) {
	g := islands(t)
	desk := ask.NewDesk(corvane.Book(t)).Over(g)
	units := corvane.Build(t, "").Units
	rng := rand.New(rand.NewPCG(10, 30))
	acted := 0
	for i := range questions(t) {
		q := ask.Question{Crew: scenario.Conducts[i%3], Fail: []scenario.Strike{{At: fmt.Sprintf("climb + %d s", rng.IntN(3000))}}}
		for range 2 {
			q.Fail[0].What = append(q.Fail[0].What, units[rng.IntN(len(units))].ID)
		}
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		c, err := a.Costs(context.Background(), g, ask.Price{Turn: fmt.Sprint(rng.IntN(3000)+600, " s"), Most: 3})
		if err != nil {
			continue // the flight is over by then
		}
		for i := range c.Places {
			p := &c.Places[i]
			if len(p.Failed.Landings) == 0 || p.Failed.Unjudged() {
				continue
			}
			q.Plan = []string{fmt.Sprintf("divert %s/%s @ %.6f s", p.Airfield.Ident, p.Failed.Landings[0].End, c.At.Seconds())}
			there, err := desk.Answer(context.Background(), q)
			if err != nil {
				t.Fatal(err)
			}
			sameFrom(t, p.Failed.Record(), there.Here, c.At)
			if v := there.Ledger.View(); p.Failed.Arrives && (v.Fuel == nil || v.Fuel.LeftKg != math.Round(p.Failed.LandsKg) || v.Fuel.ReserveKg != math.Round(p.Failed.ReserveKg)) {
				t.Errorf("%v: %+v, and for the price %.1f of %.1f kg", q, v.Fuel, p.Failed.LandsKg, p.Failed.ReserveKg)
			}
			acted += len(there.Here.Scenario.Actions)
		}
	}
	if acted < 20 {
		t.Errorf("the crew moved only %d controls: the test shows nothing", acted)
	}
}

// turned are the turns of a record: its crew may have left the route for a level
// before the plan's own turn.
func turned(r *run.Record) []string {
	var out []string
	for _, x := range r.Turns {
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s at %v %s", x.Leg.Do, x.At, x.Why)))
	}
	return out
}

// sameFrom holds a record to the values of another from a moment on, and to what
// those did who acted in it.
func sameFrom(t *testing.T, a, b *run.Record, at book.Time) {
	t.Helper()
	if got, want := turned(a), turned(b); !slices.Equal(got, want) || !slices.Contains(want, fmt.Sprintf("divert at %v", at)) {
		t.Fatalf("turned %q, and in the answer %q", got, want)
	}
	if a.End != b.End || a.Ended != b.Ended {
		t.Fatalf("ends %v at %v, and %v at %v", a.Ended, a.End, b.Ended, b.End)
	}
	instants := slices.DeleteFunc(slices.Clone(b.Instants()), func(x book.Time) bool { return x < at })
	for _, v := range a.Circuit().Values() {
		n, ok := b.Circuit().Node(v.Value)
		if !ok {
			t.Fatalf("no %v", v.Value)
		}
		for _, x := range instants {
			if a.At(v.Node, x) != b.At(n, x) {
				t.Fatalf("%v at %v: %v and %v", v.Value, x, a.At(v.Node, x), b.At(n, x))
			}
		}
	}
}

// TestAnswer_SaysAnOverweightLanding, and only one: back at once, and after holding.
func TestAnswer_SaysAnOverweightLanding(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	for want, plan := range map[string][]string{
		"It lands at 38,": {"return @ lift_off + 60 s"},
		"":                {"hold 36,500 kg @ climb + 60 s", "return @ when real.mass_kg < 36600"},
	} {
		a, err := desk.Answer(context.Background(), ask.Question{Crew: scenario.Nobody, Plan: plan, Fail: []scenario.Strike{{What: []string{"engine_left"}, At: "lift_off"}}})
		if err != nil {
			t.Fatal(err)
		}
		says := a.Ledger.View().Landing
		if strings.Contains(says, "above the greatest landing mass of 36,600 kg") != (want != "") || !strings.Contains(says, want) || !a.Here.Ending().Arrived() {
			t.Errorf("%v: %s", plan, says)
		}
	}
}

// TestCrew_AListSendsItDownAndThenAway: what is not to a field binds nobody, and goes
// to the level that the line names.
func TestCrew_AListSendsItDownAndThenAway(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	q := ask.Question{Crew: scenario.ByTheBook, Fail: []scenario.Strike{{What: []string{"cabin_wall.leaks"}, At: "cruise + 600 s"}}}
	for _, plan := range [][]string{nil, {"divert QSVA @ cruise + 601 s"}} {
		q.Plan = plan
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		var done []string
		for _, turn := range a.Here.Turns {
			done = append(done, fmt.Sprint(turn.Leg.Do, " ", turn.Leg.LevelFt, " ", turn.Why))
		}
		want := "descend 10000 ;land 0 "
		if plan != nil {
			want = "divert 0 ;descend 10000 "
		}
		if got := strings.Join(done, ";"); got != want {
			t.Errorf("plan %v: %s, want %s", plan, got, want)
		}
	}
}
