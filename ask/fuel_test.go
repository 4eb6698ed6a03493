package ask_test

import (
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/scenario"
)

// TestAnswer_FuelThatDoesNotLast: an instructor may ask about too little fuel. Hands off
// the flight runs dry, which is said first, with or without a failure; it is dry the
// later, the more there is; and a moment that it never comes to is refused with that.
func TestAnswer_FuelThatDoesNotLast(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	last := 0.0
	for _, fuel := range []string{"1200", "2000", "2600"} {
		q := ask.Question{Crew: scenario.Nobody, Flight: "northern_link,fuel=" + fuel, Fail: []scenario.Strike{{What: []string{"waste_blower"}, At: "climb"}}}
		a, err := desk.Answer(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		e, v := a.Here.Ending(), a.Ledger.View()
		if e.How != run.OutOfFuel || e.At.Seconds() <= last || !strings.HasPrefix(v.Summary, "The flight breaks off ") || !strings.Contains(v.Summary, "the fuel is used up") || !strings.Contains(v.Summary, "with nothing failed either") {
			t.Errorf("%s kg: %v at %v: %s", fuel, e.How, e.At, v.Summary)
		}
		last = e.At.Seconds()
		q.Fail[0].At = "descent"
		if _, err := desk.Answer(t.Context(), q); err == nil || !strings.Contains(err.Error(), "never reaches the phase descent: with nothing failed the fuel is used up") {
			t.Errorf("%s kg: %v", fuel, err)
		}
	}
}
