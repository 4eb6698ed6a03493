package sweep_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"knockon/sweep"
)

func TestRun_PairsOfTheDemonstrationAreThoseOfTheLedger(t *testing.T) {
	b := demoBook(t)
	n := many(t, "KNOCKON_SWEEP_PAIRS", 6)
	r := rand.New(rand.NewPCG(5, 2))
	for _, v := range b.Variants {
		s := sweepOf(t, b, v.ID)
		for phase := range s.Phases() {
			start := time.Now()
			h, err := s.Run(context.Background(), phase, 2, nil)
			if err != nil {
				t.Fatal(err)
			}
			t.Log(v.ID, h.Phase.ID, len(h.Sets), "pairs meet;", len(h.Outcomes), "outcomes;", time.Since(start))
			for range n {
				agree(t, s, h, phase, somePair(r, s, h))
			}
		}
	}
}

// somePair is mostly a pair that meets.
func somePair(r *rand.Rand, s *sweep.Sweep, h *sweep.Sheet) sweep.Set {
	if len(h.Sets) > 0 && r.IntN(3) > 0 {
		return sweep.SetOf(h.Sets[r.IntN(len(h.Sets))])
	}
	a := r.IntN(len(s.Failures()) - 1)
	return sweep.Set{a, a + 1 + r.IntN(len(s.Failures())-a-1)}
}
