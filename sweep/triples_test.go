package sweep_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"knockon/internal/corvane"
	"knockon/sweep"
)

// Triples take seconds in a phase, so CI takes one phase of one build.
func TestRun_TriplesOfTheDemonstrationAreThoseOfTheLedger(t *testing.T) {
	b := corvane.Book(t)
	n := many(t, "KNOCKON_SWEEP_TRIPLES", 0)
	r := rand.New(rand.NewPCG(5, 3))
	if n == 0 {
		s := sweepOf(t, b, "")
		triples(t, r, s, len(s.Phases())-1, 12)
		return
	}
	for _, v := range b.Variants {
		s := sweepOf(t, b, v.ID)
		for phase := range s.Phases() {
			triples(t, r, s, phase, n/len(b.Variants)/len(s.Phases())+1)
		}
	}
}

// triples holds so many triples of a phase to the plain way: of those that come
// to something of their own, of those that hold such a pair, and any.
func triples(t *testing.T, r *rand.Rand, s *sweep.Sweep, phase, n int) {
	t.Helper()
	h, err := s.Run(context.Background(), phase, 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[int]int{}
	for i := range n {
		set := anyTriple(r, s)
		if i%3 > 0 {
			set = sweep.SetOf(h.Sets[r.IntN(len(h.Sets))])
			kinds[len(set)]++
			if len(set) == 2 {
				set = withAnother(r, s, set)
			}
		}
		agree(t, s, h, phase, set)
	}
	t.Logf("%s, %s: %d sets of their own, %d outcomes; taken %v", s.Build().Variant, h.Phase.ID, len(h.Sets), len(h.Outcomes), kinds)
}
