package sweep_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/sweep"
)

// many is how many cases a test takes: a few, or as many as an environment
// variable says. docs/sweep.md has the figures of the long runs.
func many(t *testing.T, name string, otherwise int) int {
	t.Helper()
	if v := os.Getenv(name); v != "" {
		n, err := strconv.Atoi(v)
		if err != nil {
			t.Fatalf("%s=%s is not a number", name, v)
		}
		return n
	}
	return otherwise
}

func sweepOf(t testing.TB, b *book.Book, variant string) *sweep.Sweep {
	t.Helper()
	build, ok := b.Build(variant)
	if !ok {
		t.Fatalf("no build %q", variant)
	}
	s, err := sweep.Of(context.Background(), build, nil, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// text says what an outcome is, line by line.
func text(s *sweep.Sweep, o sweep.Outcome) string {
	var w strings.Builder
	b := s.Build()
	for _, l := range o.Lost {
		fmt.Fprintf(&w, "%s %s mattered=%v late=%d known=%s %d far=%v alert=%v\n", b.Functions[l.Function].ID, l.Class, l.Mattered, l.LateS, l.Known, l.KnownS, l.Distant, l.ByAlert)
	}
	list := func(what string, ids []int32, id func(i int32) string) {
		for _, i := range ids {
			fmt.Fprintf(&w, "%s %s\n", what, id(i))
		}
	}
	list("given", o.Given, func(i int32) string { return b.Alerts[i].ID })
	list("false", o.False, func(i int32) string { return b.Alerts[i].ID })
	list("wrong", o.Wrong, func(i int32) string { return b.Indications[i].ID })
	list("dark", o.Dark, func(i int32) string { return b.Indications[i].ID })
	return w.String()
}

func names(s *sweep.Sweep, set sweep.Set) string {
	var list []string
	for _, f := range set {
		list = append(list, s.Failures()[f].String())
	}
	return strings.Join(list, " + ")
}

// agree holds a sheet to the plain way on one set.
func agree(t *testing.T, s *sweep.Sweep, h *sweep.Sheet, phase int, set sweep.Set) bool {
	t.Helper()
	plain, err := s.Plain(context.Background(), phase, set)
	if err != nil {
		t.Fatal(err)
	}
	fast := h.Outcome(set)
	if !fast.Equal(&plain) {
		t.Errorf("%s, %s, %s:\n%s", s.Build().Variant, h.Phase.ID, names(s, set), difference(text(s, fast), text(s, plain)))
		return false
	}
	return true
}

func difference(fast, plain string) string {
	var w strings.Builder
	for _, d := range [][3]string{{"sweep", fast, plain}, {"plain", plain, fast}} {
		for line := range strings.Lines(d[1]) {
			if !strings.Contains("\n"+d[2], "\n"+line) {
				fmt.Fprintf(&w, "  only %s: %s", d[0], line)
			}
		}
	}
	return w.String()
}

func TestRun_SinglesOfTheDemonstrationAreThoseOfTheLedger(t *testing.T) {
	b := corvane.Book(t)
	n := many(t, "KNOCKON_SWEEP_SINGLES", 3)
	r := rand.New(rand.NewPCG(5, 1))
	for _, v := range b.Variants {
		s := sweepOf(t, b, v.ID)
		for phase := range s.Phases() {
			h, err := s.Run(context.Background(), phase, 1, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range r.Perm(len(s.Failures()))[:min(n, len(s.Failures()))] {
				agree(t, s, h, phase, sweep.Set{f})
			}
		}
	}
}
