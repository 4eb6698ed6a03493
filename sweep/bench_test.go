package sweep_test

import (
	"context"
	"testing"

	"knockon/internal/corvane"
	"knockon/sweep"
)

// All singles and pairs in all phases of one build, nothing known beforehand.
func BenchmarkRunAll_Pairs(b *testing.B) { runAll(b, 2) }

// The same with all triples.
func BenchmarkRunAll_Triples(b *testing.B) { runAll(b, 3) }

func runAll(b *testing.B, order int) {
	n := 0.0
	for b.Loop() {
		b.StopTimer()
		s := sweepOf(b, corvane.Book(b), "")
		all := make([]int, len(s.Phases()))
		for i := range all {
			all[i] = i
		}
		b.StartTimer()
		if err := s.RunAll(context.Background(), all, order, nil, func(int, *sweep.Sheet) error { return nil }); err != nil {
			b.Fatal(err)
		}
		n = float64(len(all))
		for i := range order {
			n *= float64(len(s.Failures())-i) / float64(i+1)
		}
	}
	b.ReportMetric(n*float64(b.N)/b.Elapsed().Seconds(), "sets/s")
}
