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
// demonstration book, each omission in the plain way: the crew with that one
// change (for each eighth procedure flown the slow way), its actions given to
// run.Course.Fly, and the ledger of that beside the flight without failures and
// actions. The same ledgers, to the byte, come out, those of steps that Assess
// does not fly included. With KNOCKON_ALL set that is every procedure, on the
// first build on which a likely failure calls for it; else each ninth that one
// calls for on the short hop of the first build.
func TestAssess_AgainstThePlainRun(t *testing.T) {
	if os.Getenv("KNOCKON_ALL") == "" {
		b := newBrute(t, "first_series", "short_hop")
		steps, procedures := 0, 0
		for i := 0; i < len(b.tm.Build().Procedures); i += 9 {
			if n := b.compare(i, 60); n > 0 {
				steps, procedures = steps+n, procedures+1
			}
		}
		t.Logf("%d procedures, %d omissions", procedures, steps)
		if procedures < 4 || steps < 15 {
			t.Errorf("only %d procedures with %d omissions were compared", procedures, steps)
		}
		return
	}
	steps, done := 0, map[string]bool{}
	for _, v := range []string{"first_series", "second_series", "island_kit"} {
		b := newBrute(t, v, "northern_link")
		for i, p := range b.tm.Build().Procedures {
			if done[p.ID] {
				continue
			}
			n := b.compare(i, 1<<20)
			steps, done[p.ID] = steps+n, n > 0
		}
	}
	for id, compared := range done {
		if !compared {
			t.Errorf("%s was not compared on any build", id)
		}
	}
	t.Logf("%d procedures, %d omissions", len(done), steps)
}

// brute compares the procedures of one build on one flight.
type brute struct {
	*testing.T
	tm     *crew.Team
	caller *worth.Caller
	course *run.Course
}

func newBrute(t *testing.T, build, flight string) *brute {
	t.Helper()
	tm := team(t, build, flight)
	c, err := worth.NewCaller(context.Background(), tm)
	if err != nil {
		t.Fatal(err)
	}
	course, err := run.NewCourse(tm.Build(), tm.Course().Flight, run.Setting{Prescribed: true})
	if err != nil {
		t.Fatal(err)
	}
	return &brute{t, tm, c, course}
}

// compare compares the omissions of a procedure, by its place, with the first of
// so many likely failures that calls for it; how many there were is 0 if none does.
func (b *brute) compare(i, most int) (steps int) {
	p := b.tm.Build().Procedures[i]
	s, ok, err := b.caller.First(context.Background(), p, bounded(b.caller.Likely(p), most))
	if err != nil {
		b.Fatal(p.ID, err)
	}
	if !ok {
		return 0
	}
	crewOf := b.tm.Fly
	if i%8 == 0 {
		crewOf = b.tm.FlySlowly
	}
	return againstPlain(b.T, b.tm, b.course, crewOf, s, p)
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
	here.Crewed = true // it says who acted, and changes nothing else
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
