package sweep_test

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"knockon/internal/corvane"
	"knockon/sweep"
)

// Sets that are not worked out, and those that are not kept, come to what their
// parts come to: all pairs of some phases, and many triples, are worked out
// here whether they meet or not. KNOCKON_SWEEP_PARTS=1 takes all phases of
// all builds.
func TestRun_WhatIsNotWorkedOutComesToItsParts(t *testing.T) {
	b := corvane.Book(t)
	r := rand.New(rand.NewPCG(5, 6))
	s := sweepOf(t, b, "")
	if many(t, "KNOCKON_SWEEP_PARTS", 0) == 0 {
		parts(t, r, s, 6, 2, 0)
		parts(t, r, s, len(s.Phases())-1, 3, 50_000)
		return
	}
	for _, v := range b.Variants {
		s := sweepOf(t, b, v.ID)
		for phase := range s.Phases() {
			parts(t, r, s, phase, 3, 50_000)
		}
	}
}

// parts works out all pairs and so many triples of a phase.
func parts(t *testing.T, r *rand.Rand, s *sweep.Sweep, phase, order, triples int) {
	t.Helper()
	h, err := s.Run(context.Background(), phase, order, nil)
	if err != nil {
		t.Fatal(err)
	}
	sets := allPairs(s)
	for range triples {
		sets = append(sets, anyTriple(r, s))
	}
	compareParts(t, s, h, sets)
}

func allPairs(s *sweep.Sweep) (sets []sweep.Set) {
	for a := range s.Failures() {
		for b := a + 1; b < len(s.Failures()); b++ {
			sets = append(sets, sweep.Set{a, b})
		}
	}
	return sets
}

func compareParts(t *testing.T, s *sweep.Sweep, h *sweep.Sheet, sets []sweep.Set) {
	t.Helper()
	worked, err := s.Outcomes(context.Background(), h.Phase.At, sets)
	if err != nil {
		t.Fatal(err)
	}
	bad := 0
	for i, set := range sets {
		if o := h.Outcome(set); !o.Equal(&worked[i]) {
			if bad++; bad < 4 {
				t.Errorf("%s, %s:\n%s", h.Phase.ID, names(s, set), difference(text(s, o), text(s, worked[i])))
			}
		}
	}
	t.Logf("%s, %s: %d sets worked out whether they meet or not, %d differ", s.Build().Variant, h.Phase.ID, len(sets), bad)
}

// How many workers there are, and which is quicker, makes no difference.
func TestRunAll_IsRunWithAnyNumberOfWorkers(t *testing.T) {
	build := corvane.Build(t, "")
	phases := []int{10, 7, 11}
	var first []*sweep.Sheet
	for _, workers := range []int{1, 2, 5} {
		s, err := sweep.Of(context.Background(), build, nil, sweep.Setting{Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		var sheets []*sweep.Sheet
		last := int64(0)
		err = s.RunAll(context.Background(), phases, 2, func(done, all int64) { last = done }, func(phase int, h *sweep.Sheet) error {
			alone, err := s.Run(context.Background(), phase, 2, nil)
			if err != nil || !reflect.DeepEqual(alone, h) {
				t.Errorf("%d workers: phase %s alone is not what it is with others: %v", workers, h.Phase.ID, err)
			}
			sheets = append(sheets, h)
			return nil
		})
		if err != nil || last == 0 {
			t.Fatal(err, last)
		}
		if first == nil {
			first = sheets
		}
		if !reflect.DeepEqual(first, sheets) {
			t.Errorf("%d workers give another sheet than one", workers)
		}
	}
	for i, h := range first {
		if id := build.Phases[phases[i]].ID; h.Phase.ID != id {
			t.Errorf("sheet %d is of %s, want %s", i, h.Phase.ID, id)
		}
	}
}

func TestRunAll_Stops(t *testing.T) {
	s := sweepOf(t, corvane.Book(t), "")
	ctx, stop := context.WithCancel(context.Background())
	seen := 0
	err := s.RunAll(ctx, []int{0, 1, 2, 3, 4, 5}, 2, nil, func(int, *sweep.Sheet) error { seen++; stop(); return nil })
	if err != context.Canceled || seen == 0 || seen == 6 {
		t.Errorf("error %v after %d of 6 sheets, want that it was stopped", err, seen)
	}
}
