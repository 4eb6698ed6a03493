package ask_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestParts_AreOfTheFlightThatIsPriced: what each thing adds is told of the two flights
// of the table, where a crew turn and act as well as where nobody does.
func TestParts_AreOfTheFlightThatIsPriced(t *testing.T) {
	b, ground := corvane.Book(t), islands(t)
	desk, plain := ask.NewDesk(b).Over(ground), corvane.Build(t, "")
	rng := rand.New(rand.NewPCG(31, 4))
	compared, differ := 0, 0
	for i := range 8 {
		what := []string{"tr_right", "tr_left"}
		if i > 0 {
			what = []string{plain.Units[rng.IntN(len(plain.Units))].ID, plain.Units[rng.IntN(len(plain.Units))].ID}
		}
		at := fmt.Sprintf("climb + %d s", 120+300*i)
		q := ask.Question{Crew: scenario.ByTheBook, Fail: []scenario.Strike{{What: what, At: at}}}
		a, err := desk.Answer(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		c, err := a.Costs(t.Context(), ground, ask.Price{})
		if err != nil {
			t.Fatal(what, err)
		}
		for j := 0; j < len(c.Places); j += 5 {
			p := c.Places[j]
			if !p.Failed.Arrives || !p.Healthy.Arrives {
				continue
			}
			parts, ok, err := c.Attribute(t.Context(), p.Airfield.Ident)
			if err != nil || !ok {
				t.Fatal(what, ok, err)
			}
			compared++
			if parts.Failed != parts.Healthy {
				differ++
			}
			if math.Abs(parts.Failed.FuelKg-p.Failed.FuelKg) > 0.01 || math.Abs(parts.Failed.Minutes-p.Failed.Minutes) > 0.001 ||
				math.Abs(parts.Healthy.FuelKg-p.Healthy.FuelKg) > 0.01 || math.Abs(parts.Healthy.Minutes-p.Healthy.Minutes) > 0.001 {
				t.Errorf("%v at %s to %s: failed %+v, healthy %+v; in the table %.2f kg in %.3f min, and %.2f kg in %.3f min", what, at, p.Airfield.Ident,
					parts.Failed, parts.Healthy, p.Failed.FuelKg, p.Failed.Minutes, p.Healthy.FuelKg, p.Healthy.Minutes)
			}
		}
	}
	if compared < 8 || differ < 3 {
		t.Errorf("%d places compared, %d with a difference: the test shows little", compared, differ)
	}
}

// TestFuel_LessThanTheReserveIsSaidFirst: the way back without its own speed and level
// takes what must be left, of 100 kg less than the flight has.
func TestFuel_LessThanTheReserveIsSaidFirst(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	for plan, short := range map[string]bool{"divert QSVA @ climb + 120 s": true, "divert QSKE @ climb + 120 s": false} {
		a, err := desk.Answer(t.Context(), ask.Question{Crew: scenario.ByTheBook, Flight: "northern_link,fuel=5200", Out: []string{"tr_left"}, Plan: []string{plan}, Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}})
		if err != nil {
			t.Fatal(err)
		}
		v := a.Ledger.View()
		if said := strings.Contains(v.Landing, "of fuel, less than the final reserve of "); said != short || v.Fuel == nil || (v.Fuel.LeftKg < v.Fuel.ReserveKg) != short || !strings.HasPrefix(v.Summary, v.Landing) {
			t.Errorf("%s: %q, %+v", plan, v.Landing, v.Fuel)
		}
	}
}
