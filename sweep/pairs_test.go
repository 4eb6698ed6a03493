package sweep_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"knockon/internal/corvane"
	"knockon/sweep"
)

func TestRun_PairsOfTheDemonstrationAreThoseOfTheLedger(t *testing.T) {
	b := corvane.Book(t)
	n, step := many(t, "KNOCKON_SWEEP_PAIRS", 0), 1
	if n == 0 {
		n, step = 10, 5
	}
	r := rand.New(rand.NewPCG(5, 2))
	for _, v := range b.Variants {
		s := sweepOf(t, b, v.ID)
		for phase := 0; phase < len(s.Phases()); phase += step {
			start := time.Now()
			h, err := s.Run(context.Background(), phase, 2, nil)
			if err != nil {
				t.Fatal(err)
			}
			t.Log(v.ID, h.Phase.ID, len(h.Sets), "pairs of their own;", len(h.Outcomes), "outcomes;", time.Since(start))
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

// anyTriple is any three failures.
func anyTriple(r *rand.Rand, s *sweep.Sweep) sweep.Set {
	return withAnother(r, s, withAnother(r, s, sweep.Set{r.IntN(len(s.Failures()))}))
}

// withAnother adds a failure that is not yet in a set.
func withAnother(r *rand.Rand, s *sweep.Sweep, set sweep.Set) sweep.Set {
	for {
		if f := r.IntN(len(s.Failures())); !slices.Contains(set, f) {
			set = append(slices.Clone(set), f)
			slices.Sort(set)
			return set
		}
	}
}
