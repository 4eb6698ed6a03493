package sweep_test

import (
	"context"
	"testing"

	"knockon/sweep"
)

// All singles and pairs in all phases of one build, nothing known beforehand.
func BenchmarkRunAll_Pairs(b *testing.B) {
	n := 0.0
	for b.Loop() {
		b.StopTimer()
		s := sweepOf(b, demoBook(b), "")
		all := make([]int, len(s.Phases()))
		for i := range all {
			all[i] = i
		}
		b.StartTimer()
		if err := s.RunAll(context.Background(), all, 2, nil, func(int, *sweep.Sheet) error { return nil }); err != nil {
			b.Fatal(err)
		}
		n = float64(len(s.Failures())) * float64(len(s.Failures())+1) / 2 * float64(len(all))
	}
	b.ReportMetric(n*float64(b.N)/b.Elapsed().Seconds(), "sets/s")
}

// All singles, pairs and triples in one phase of one build.
func BenchmarkRun_Triples(b *testing.B) {
	s := sweepOf(b, demoBook(b), "")
	for b.Loop() {
		h, err := s.Run(context.Background(), 5, 3, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(h.Sets)), "met")
	}
	n := float64(len(s.Failures()))
	b.ReportMetric(n*(n+1)*(n+2)/6*float64(b.N)/b.Elapsed().Seconds(), "sets/s")
}
