package sweep_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/sweep"
)

// What the sweep holds fixed matters now and then: on a flight that feels the
// systems some failures come to another outcome. This counts them, for the
// prescribed flight and for the flight that is flown with nothing failed; the
// figures stand in docs/sweep.md.
func TestRun_HoldsTheFlightFixed(t *testing.T) {
	n := many(t, "KNOCKON_SWEEP_LIVE", 8)
	build := corvane.Build(t, "")
	live, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	flown, err := live.Healthy(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		set  run.Setting
		most int // sets in a hundred that come to other rows
	}{
		{"the prescribed flight", run.Setting{Prescribed: true}, 20},
		{"the flight as flown with nothing failed", run.Setting{Path: flown.Path()}, 5},
	} {
		t.Run(c.name, func(t *testing.T) { feels(t, live, c.set, n, c.most) })
	}
}

func feels(t *testing.T, live *run.Course, set run.Setting, n, most int) {
	c, err := run.NewCourse(live.Build, nil, set)
	if err != nil {
		t.Fatal(err)
	}
	s, err := sweep.New(c, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(5, 5))
	all, rows, late := 0, 0, 0
	for phase := range s.Phases() {
		h, err := s.Run(context.Background(), phase, 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		for range n {
			set := sweep.Set{r.IntN(len(s.Failures()))}
			felt, err := outcomeOn(live, s, phase, set)
			if err != nil {
				t.Fatal(err)
			}
			held := h.Outcome(set)
			all++
			switch a, b := untimed(held), untimed(felt); {
			case !a.Equal(&b):
				rows++
				t.Logf("%s, %s:\n%s", h.Phase.ID, names(s, set), difference(text(s, a), text(s, b)))
			case !held.Equal(&felt):
				late++
			}
		}
	}
	t.Logf("of %d failures %d come to other rows on a flight that feels the systems, %d more are told earlier or later", all, rows, late)
	if 100*rows > most*all {
		t.Errorf("%d of %d, want at most %d in a hundred", rows, all, most)
	}
}

// untimed is an outcome without how late losses are told.
func untimed(o sweep.Outcome) sweep.Outcome {
	o.Lost = slices.Clone(o.Lost)
	for i := range o.Lost {
		o.Lost[i].LateS, o.Lost[i].KnownS = 0, 0
	}
	return o
}

func outcomeOn(c *run.Course, s *sweep.Sweep, phase int, set sweep.Set) (o sweep.Outcome, err error) {
	k := run.Strike{At: s.Phases()[phase].Moment}
	for _, f := range set {
		k.Fail = append(k.Fail, book.FailureRef{Unit: s.Failures()[f].Unit, Fault: s.Failures()[f].Fault})
	}
	l, err := ledger.Answer(context.Background(), c, run.Scenario{Strikes: []run.Strike{k}})
	if err != nil {
		return o, err
	}
	if err := known.Judge(context.Background(), l); err != nil {
		return o, err
	}
	return sweep.OutcomeOf(l), nil
}
