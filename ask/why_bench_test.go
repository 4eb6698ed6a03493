package ask_test

import (
	"testing"

	"knockon/ask"
	"knockon/circuit"
	"knockon/scenario"
)

// BenchmarkExplain explains a loss. With one failure nothing is flown; the leaves
// of two are proven by flights.
func BenchmarkExplain(b *testing.B) {
	for _, c := range []struct {
		name string
		fail []string
	}{{"one", []string{"tr_right"}}, {"two", []string{"tr_right", "gear_valve"}}} {
		b.Run(c.name, func(b *testing.B) {
			a, err := desk(b).Answer(b.Context(), ask.Question{Fail: []scenario.Strike{{What: c.fail, At: "climb + 120 s"}}, Out: []string{"tr_left"}})
			if err != nil {
				b.Fatal(err)
			}
			for i := 0; b.Loop(); i++ {
				l := a.Ledger.Losses[i%len(a.Ledger.Losses)]
				if _, ok := a.Explain(circuit.Value{Item: l.Function.ID}, l.Spans[0].From); !ok {
					b.Fatal(l.Function.ID)
				}
			}
		})
	}
}
