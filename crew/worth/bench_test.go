package worth_test

import (
	"context"
	"testing"

	"knockon/crew/worth"
)

// BenchmarkAssess assesses the longest procedure of the demonstration book: all
// omissions, delays, wrong switches and swaps.
func BenchmarkAssess(b *testing.B) {
	tm := team(b, "", "northern_link")
	ctx := context.Background()
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		b.Fatal(err)
	}
	p := longest(tm.Build())
	s, ok, err := c.First(ctx, p, c.Single(p))
	if !ok || err != nil {
		b.Fatal(ok, err)
	}
	for b.Loop() {
		w, err := worth.Assess(ctx, tm, s, p)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(w.Flights+1), "flights")
	}
}
