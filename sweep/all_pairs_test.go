package sweep_test

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"knockon/internal/corvane"
	"knockon/sweep"
)

// TestRun_AllPairsOfTheDemonstrationAreThoseOfTheLedger holds every single
// failure and every pair, on every build and in every phase, to the plain way:
// 2.7 million flights, which take hours. KNOCKON_SWEEP_ALL=1 asks for it; -run
// with a build and a phase takes a part, such as
// -run AllPairs/island_kit/cruise. Otherwise each 600th set of one phase is taken.
func TestRun_AllPairsOfTheDemonstrationAreThoseOfTheLedger(t *testing.T) {
	b := corvane.Book(t)
	if many(t, "KNOCKON_SWEEP_ALL", 0) == 0 {
		allPairsOf(t, sweepOf(t, b, ""), 7, 600)
		return
	}
	for _, v := range b.Variants {
		t.Run(v.ID, func(t *testing.T) {
			s := sweepOf(t, b, v.ID)
			for phase, p := range s.Phases() {
				t.Run(p.ID, func(t *testing.T) { allPairsOf(t, s, phase, 1) })
			}
		})
	}
}

// allPairsOf holds each nth of the singles and pairs of a phase to the plain way.
func allPairsOf(t *testing.T, s *sweep.Sweep, phase, each int) {
	h, err := s.Run(context.Background(), phase, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	var sets []sweep.Set
	for f := range s.Failures() {
		sets = append(sets, sweep.Set{f})
	}
	sets = append(sets, allPairs(s)...)
	start := time.Now()
	var next, held atomic.Int64
	var hands sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		hands.Go(func() {
			for i := int(next.Add(1)-1) * each; i < len(sets); i = int(next.Add(1)-1) * each {
				if same(t, s, h, phase, sets[i]) {
					held.Add(1)
				}
			}
		})
	}
	hands.Wait()
	t.Logf("%s, %s: %d of %d sets agree, %s", s.Build().Variant, h.Phase.ID, held.Load(), (len(sets)+each-1)/each, time.Since(start).Round(time.Second))
}

// same is agree for use from many goroutines.
func same(t *testing.T, s *sweep.Sweep, h *sweep.Sheet, phase int, set sweep.Set) bool {
	plain, err := s.Plain(context.Background(), phase, set)
	if err != nil {
		t.Error(names(s, set), err)
		return false
	}
	fast := h.Outcome(set)
	if !fast.Equal(&plain) {
		t.Errorf("%s, %s, %s:\n%s", s.Build().Variant, h.Phase.ID, names(s, set), difference(text(s, fast), text(s, plain)))
		return false
	}
	return true
}
