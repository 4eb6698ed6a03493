package worth_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"slices"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/ledger"
	"knockon/run"
)

// TestAssess_AgainstThePlainRun recomputes, for the procedures of the
// demonstration book (see every) that a likely failure calls for, each omission in the plain
// way: the crew with that one change (for each eighth procedure flown the slow
// way), its actions given to run.Course.Fly, and the ledger of that beside the
// flight without failures and actions. The same ledgers, to the byte, come out,
// those of steps that Assess does not fly included.
func TestAssess_AgainstThePlainRun(t *testing.T) {
	tm := team(t, "", "short_hop")
	ctx := context.Background()
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		t.Fatal(err)
	}
	course, err := run.NewCourse(tm.Build(), tm.Course().Flight, run.Setting{Prescribed: true})
	if err != nil {
		t.Fatal(err)
	}
	procedures, steps := 0, 0
	for i, p := range tm.Build().Procedures {
		if each := every(); i%each != 0 {
			continue
		}
		s, ok, err := c.First(ctx, p, bounded(c.Likely(p), 60))
		if err != nil {
			t.Fatal(p.ID, err)
		}
		if !ok {
			continue
		}
		procedures++
		crewOf := tm.Fly
		if i%8 == 0 {
			crewOf = tm.FlySlowly
		}
		steps += againstPlain(t, tm, course, crewOf, s, p)
	}
	t.Logf("%d procedures, %d omissions", procedures, steps)
	if each := every(); procedures < 40/each || steps < 150/each {
		t.Errorf("only %d procedures with %d omissions were compared", procedures, steps)
	}
}

// every is which procedures are compared: all where KNOCKON_ALL is set (54 with 205
// omissions, more than a minute), else each fourth.
func every() int {
	if os.Getenv("KNOCKON_ALL") != "" {
		return 1
	}
	return 4
}

func bounded(list []run.Scenario, n int) []run.Scenario { return list[:min(n, len(list))] }

func againstPlain(t *testing.T, tm *crew.Team, course *run.Course, crewOf flies, s run.Scenario, p *book.Procedure) (steps int) {
	w, err := worth.Assess(context.Background(), tm, s, p)
	if err != nil {
		t.Fatal(p.ID, err)
	}
	for _, step := range w.Steps {
		if left := step.Left(); left != nil {
			steps++
			got, want := encoded(t, left.Flown.Ledger), encoded(t, plainly(t, course, crewOf, s, left.Change))
			if !bytes.Equal(got, want) {
				t.Errorf("%s step %s left out: the plain run has another ledger", p.ID, step.Number)
			}
		}
	}
	return steps
}

// flies is how the crew is flown: crew.Team.Fly, or in the slow way.
type flies func(context.Context, run.Scenario, ...crew.Change) (*crew.Plan, error)

// plainly flies a change without anything of package worth.
func plainly(t *testing.T, course *run.Course, crewOf flies, s run.Scenario, change crew.Change) *ledger.Ledger {
	t.Helper()
	ctx := context.Background()
	plan, err := crewOf(ctx, s, change)
	if err != nil {
		t.Fatal(err)
	}
	acted := s
	acted.Actions = append(slices.Clone(s.Actions), plan.Actions()...)
	here, err := course.Fly(ctx, acted)
	if err != nil {
		t.Fatal(err)
	}
	there, err := course.Fly(ctx, s.Healthy())
	if err != nil {
		t.Fatal(err)
	}
	return ledger.Of(here, there)
}

func encoded(t *testing.T, l *ledger.Ledger) []byte {
	t.Helper()
	b, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
