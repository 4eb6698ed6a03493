package still_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/ways"
	"knockon/ways/sets"
)

// outcome is what a run comes to once all has settled, asked of it in the plain
// words of docs/meaning.md, section 9.
type outcome struct {
	*testing.T
	b           *book.Build
	here, there *run.Record
}

func (o outcome) is(r *run.Record, id string, a circuit.Aspect) bool {
	n, ok := r.Circuit().Node(circuit.Value{Item: id, Aspect: a})
	return ok && r.At(n, r.End) != 0
}

func (o outcome) lost(f *book.Function) bool {
	return o.is(o.there, f.ID, circuit.Main) && !o.is(o.here, f.ID, circuit.Main)
}

func (o outcome) told(f *book.Function) bool {
	return slices.ContainsFunc(o.b.Alerts, func(a *book.Alert) bool {
		return slices.Contains(a.Tells, f.ID) && o.is(o.here, a.ID, circuit.Main) && !o.is(o.here, a.ID, circuit.False) && !o.is(o.there, a.ID, circuit.Main)
	})
}

func (o outcome) liedAbout(f *book.Function) bool {
	return slices.ContainsFunc(o.b.Indications, func(i *book.Indication) bool {
		return slices.Contains(o.b.Covers(i), f.ID) && o.is(o.here, i.ID, circuit.Wrong) && !o.is(o.there, i.ID, circuit.Wrong)
	})
}

// TestWrong_ConfirmedByRuns finds the smallest sets, up to two failures, by which
// each function of the demonstration book is lost and told wrong in the cruise,
// and flies each, and each with a member left out.
func TestWrong_ConfirmedByRuns(t *testing.T) {
	s, _, _ := demoWays(t)
	there, err := s.stood.Fly(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	fly := func(set []string) outcome {
		r, err := s.stood.Fly(context.Background(), newRuns(s, s.stood).scenario(t, set))
		if err != nil {
			t.Fatal(err)
		}
		return outcome{t, s.stood.Build, r, there}
	}
	found, functions := 0, 0
	for _, f := range s.stood.Build.Functions {
		c := sets.Condition{Functions: []*book.Function{f}, Told: sets.Wrong}
		top, err := c.Term(s.s)
		if err != nil {
			continue
		}
		w, err := ways.Find(context.Background(), s.s.Logic, top, ways.Options{Order: 2})
		if err != nil {
			t.Fatal(err)
		}
		before := found
		for order := 1; order <= 2; order++ {
			list, _ := w.List(order, 12)
			for _, set := range list {
				found++
				names := w.Names(set)
				if o := fly(names); !o.lost(f) || o.told(f) || !o.liedAbout(f) {
					t.Errorf("%s by %v: lost %v, told %v, lied about %v", f.ID, names, o.lost(f), o.told(f), o.liedAbout(f))
				}
				for i := range names {
					part := slices.Delete(slices.Clone(names), i, i+1)
					if o := fly(part); o.lost(f) && !o.told(f) && o.liedAbout(f) {
						t.Errorf("%s by %v: a part of it, %v, suffices", f.ID, names, part)
					}
				}
			}
		}
		if found > before {
			functions++
		}
	}
	t.Logf("%d sets of %d functions", found, functions)
	if functions < 3 {
		t.Error("the test shows little")
	}
}

// Two functions together, and one with an expression, are what their parts are.
func TestCondition_OfMoreThanOne(t *testing.T) {
	s, _, _ := demoWays(t)
	r := rand.New(rand.NewPCG(8, 8))
	all := s.stood.Build.Functions
	for range 300 {
		a, b := all[r.IntN(len(all))], all[r.IntN(len(all))]
		top, err := sets.Condition{Functions: []*book.Function{a, b}}.Term(s.s)
		if err != nil {
			continue
		}
		x, _ := s.s.Lost(a.ID)
		y, _ := s.s.Lost(b.ID)
		for range 20 {
			happened := map[int]bool{}
			for range 1 + r.IntN(4) {
				happened[r.IntN(len(s.s.Logic.Events()))] = true
			}
			is := func(e int) bool { return happened[e] }
			if got := s.s.Logic.Eval(top, is); got != (s.s.Logic.Eval(x, is) && s.s.Logic.Eval(y, is)) {
				t.Errorf("%s and %s: %v", a.ID, b.ID, got)
			}
		}
	}
}
