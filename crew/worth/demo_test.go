package worth_test

import (
	"context"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/internal/corvane"
	"knockon/run"
)

func team(tb testing.TB, variant, flight string) *crew.Team {
	tb.Helper()
	build := corvane.Build(tb, variant)
	var f *book.Flight
	if flight != "" {
		f = corvane.Flight(tb, build, flight)
	}
	t, err := crew.NewTeam(build, f, crew.Setting{Run: run.Setting{Prescribed: true}})
	if err != nil {
		tb.Fatal(err)
	}
	return t
}

// TestStudy_EveryStepHasItsReason studies every procedure of the demonstration
// book, on all builds where KNOCKON_ALL is set, else every 24th on the first:
// each step is either worth something or says why not.
func TestStudy_EveryStepHasItsReason(t *testing.T) {
	builds, each, most := []string{"first_series"}, 24, worth.Bounds{Flown: 60, Assessed: 2}
	if os.Getenv("KNOCKON_ALL") != "" {
		builds, each, most = []string{"first_series", "second_series", "island_kit"}, 1, worth.Bounds{Flown: 400, Assessed: 4}
	}
	for _, v := range builds {
		t.Run(v, func(t *testing.T) { reasons(t, team(t, v, "northern_link"), each, most) })
	}
}

func reasons(t *testing.T, tm *crew.Team, each int, most worth.Bounds) {
	ctx := context.Background()
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		t.Fatal(err)
	}
	var called, steps, something, nothing, past int
	for i, p := range tm.Build().Procedures {
		if i%each != 0 {
			continue
		}
		s, err := c.Study(ctx, p, c.Likely(p), most)
		if err != nil {
			t.Fatal(p.ID, err)
		}
		if len(s.Worths) == 0 {
			t.Logf("none of %d likely failures calls for %s", s.Tried, p.ID)
			continue
		}
		called++
		for _, f := range s.Best {
			steps++
			switch {
			case f.Step.Because == "" || !strings.HasSuffix(f.Step.Because, "."):
				t.Errorf("%s step %s has no reason: %q", p.ID, f.Step.Number, f.Step.Because)
			case !f.Step.Nothing:
				something++
			case !f.Step.Reached:
				past++
			default:
				nothing++
			}
		}
	}
	t.Logf("%d procedures called for, %d steps: %d worth something, %d nothing in this model, %d never reached", called, steps, something, nothing, past)
	if something == 0 || called == 0 {
		t.Error("no step is worth anything")
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

// TestCaller_EveryProcedureIsCalledFor: for each fourth procedure of the demonstration
// book, and each where KNOCKON_ALL is set, there is a build, and on it a likely failure or slip, or failures that a
// claim of the book gives for it, in which the crew begin it.
func TestCaller_EveryProcedureIsCalledFor(t *testing.T) {
	var callers []*worth.Caller
	builds := map[string][]int{} // of a procedure: where it is
	for i, v := range []string{"first_series", "second_series", "island_kit"} {
		tm := team(t, v, "northern_link")
		c, err := worth.NewCaller(t.Context(), tm)
		if err != nil {
			t.Fatal(err)
		}
		callers = append(callers, c)
		for _, p := range tm.Build().Procedures {
			builds[p.ID] = append(builds[p.ID], i)
		}
	}
	if len(builds) < 80 {
		t.Errorf("%d procedures", len(builds))
	}
	each := 4
	if os.Getenv("KNOCKON_ALL") != "" {
		each = 1
	}
	for i, id := range slices.Sorted(maps.Keys(builds)) {
		on := builds[id]
		if i%each != 0 {
			continue
		}
		t.Run(id, func(t *testing.T) {
			t.Parallel()
			if !slices.ContainsFunc(on, func(i int) bool { return callsFor(t, callers[i], id) }) {
				t.Error("nothing that is likely or stated calls for it on any build")
			}
		})
	}
}

// callsFor says that something which is stated or likely calls for a procedure.
// What is nearest is tried first, then the rest in long steps: where the order
// means nothing, that finds one of a group soonest.
func callsFor(t *testing.T, c *worth.Caller, id string) bool {
	const near, step = 20, 11
	p := procedure(t, c.Build(), id)
	list := append(c.Stated(p), c.Likely(p)...)
	first, rest := bounded(list, near), list[min(near, len(list)):]
	for i := range step {
		for j := i; j < len(rest); j += step {
			first = append(first[:len(first):len(first)], rest[j])
		}
	}
	_, ok, err := c.First(t.Context(), p, first)
	if err != nil {
		t.Error(id, err)
	}
	return ok
}

// TestStudy_KnowsBulletins: a step that a bulletin adds on a day is assessed like
// the others, and only then.
func TestStudy_KnowsBulletins(t *testing.T) {
	ctx := context.Background()
	build := corvane.Build(t, "first_series")
	for day, want := range map[string]bool{"": false, "2026-12-24": true, "2026-07-01": false} {
		tm, err := crew.NewTeam(build, nil, crew.Setting{Run: run.Setting{Prescribed: true}, Day: day})
		if err != nil {
			t.Fatal(err)
		}
		p := procedure(t, build, "apu_no_start_drill")
		s := worth.Failing(book.Moment{Offset: 1119 * book.Second}, book.FailureRef{Unit: "drive_right", Fault: "runs_hot"})
		w, err := worth.Assess(ctx, tm, s, p)
		if err != nil {
			t.Fatal(day, err)
		}
		found := false
		for _, step := range w.Steps {
			if step.Number == "starter_winter.1" {
				found = step.Reached && step.Because != ""
			}
		}
		if found != want {
			t.Errorf("on %q the step of the bulletin is assessed: %v", day, found)
		}
	}
}
