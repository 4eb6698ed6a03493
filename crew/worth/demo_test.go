package worth_test

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/demo"
	"knockon/run"
)

func team(tb testing.TB, variant, flight string) *crew.Team {
	tb.Helper()
	b, _ := book.Load(context.Background(), demo.Book())
	if b == nil {
		tb.Fatal("the demonstration book does not load")
	}
	build, ok := b.Build(variant)
	if !ok {
		tb.Fatal("no build", variant)
	}
	var f *book.Flight
	for _, x := range build.Flights {
		if x.ID == flight {
			f = x
		}
	}
	t, err := crew.NewTeam(build, f, crew.Setting{Run: run.Setting{Prescribed: true}})
	if err != nil {
		tb.Fatal(err)
	}
	return t
}

func TestLook(t *testing.T) {
	if os.Getenv("LOOK") == "" {
		t.Skip()
	}
	tm := team(t, os.Getenv("BUILD"), "northern_link")
	ctx := context.Background()
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		t.Fatal(err)
	}
	only := os.Getenv("ONLY")
	for _, p := range tm.Build().Procedures {
		if only != "" && p.ID != only {
			continue
		}
		start := time.Now()
		s, err := c.Study(ctx, p, c.Likely(p), worth.DefaultBounds)
		if err != nil {
			t.Fatal(p.ID, err)
		}
		fmt.Println("####", p.ID, "worths", len(s.Worths), "tried", s.Tried, time.Since(start))
		for _, f := range s.Best {
			if f.Worth == nil {
				continue
			}
			fmt.Println("  ", f.Step.Number, worth.Words(tm.Build(), f.Step.Step), "|", f.Worth.Right.Plan.Asked.Strikes[0].Fail, "|", f.Step.At.Seconds(), "|", f.Step.Because)
		}
		if only != "" {
			worth.WriteText(os.Stdout, s, tm.Build(), 140)
		}
	}
}

// longest is the procedure with most steps, those of branches included.
func longest(b *book.Build) (p *book.Procedure) {
	most := 0
	for _, q := range b.Procedures {
		n := 0
		crew.Walk(q.Steps, func(*book.Step, string) { n++ })
		if n > most {
			p, most = q, n
		}
	}
	return p
}
