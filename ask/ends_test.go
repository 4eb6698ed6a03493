package ask_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/ask"
	"knockon/costs"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestCosts_TheEndOfThePlan: where nobody names a runway end, the price of a field and
// the flight that goes there take one and the same, whatever fails. The price leaves it
// only where something speaks against it, for an end that nothing speaks against.
func TestCosts_TheEndOfThePlan(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	r := rand.New(rand.NewPCG(21, 5))
	fails := [][]string{{"brake_channel_a", "brake_channel_b"}, {"brake_left"}, {"brake_left", "brake_right"}, {"engine_left"}, {"brake_valve_normal"}}
	for n, what := range fails {
		q := ask.Question{Crew: scenario.Nobody, Flight: "northern_link", Fail: []scenario.Strike{{What: what, At: []string{"cruise + 60 s", "descent"}[n%2]}}}
		a, err := desk.Answer(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		c, err := a.Costs(t.Context(), a.Ground, ask.Price{})
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range r.Perm(len(c.Places))[:5] {
			p := c.Places[i]
			if len(p.Failed.Landings) == 0 {
				continue
			}
			q.Plan = []string{"divert " + p.Airfield.Ident}
			flown, err := desk.Answer(t.Context(), q)
			if err != nil {
				t.Fatal(err)
			}
			x, ok := flown.Here.Rolled()
			price := p.Failed.Landings[0].End
			if !ok || x.End != price && !(p.Failed.Good() && spokenAgainst(p.Failed.Landings, x.End)) {
				t.Errorf("%v to %s: the plan goes to %q, the price to %q (%v)", what, p.Airfield.Ident, x.End, price, p.Failed.Reasons)
			}
		}
	}
}

// spokenAgainst says that an end is too short or has too much wind.
func spokenAgainst(list []costs.Landing, end string) bool {
	return slices.ContainsFunc(list, func(l costs.Landing) bool {
		return l.End == end && (!l.Stops || l.MarginM() < 0 || l.CrossKt > l.MostCrossKt || l.TailKt > l.MostTailKt)
	})
}
