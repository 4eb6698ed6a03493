package run_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/run"
)

// scenarios are random failures of one to three units at random moments.
func scenarios(b *book.Build, end book.Time, n int) (list []run.Scenario) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range n {
		var s run.Scenario
		for range 1 + rng.IntN(3) {
			u := b.Units[rng.IntN(len(b.Units))]
			ref := book.FailureRef{Unit: u.ID}
			if len(u.Faults) > 0 && rng.IntN(2) == 0 {
				ref.Fault = u.Faults[rng.IntN(len(u.Faults))].ID
			}
			at := book.Time(rng.Int64N(int64(end)))
			s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{ref}, At: book.Moment{Offset: at}})
		}
		list = append(list, s)
	}
	return list
}

// same compares two records change by change, to the microsecond.
func same(a, b *run.Record) error {
	x, y := a.Changes(), b.Changes()
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			item, _, _ := a.Circuit().Source(x[i].Node)
			return fmt.Errorf("change %d, of %s: %+v and %+v", i, item, x[i], y[i])
		}
	}
	if len(x) != len(y) {
		return fmt.Errorf("%d and %d changes", len(x), len(y))
	}
	return nil
}

// TestFly_TheStepOfTheSearchChangesNothing: the same changes at the same
// microseconds, whether crossings are looked for every 0.1 s, 1 s, 5 s or 20 s.
func TestFly_TheStepOfTheSearchChangesNothing(t *testing.T) {
	for _, c := range []struct {
		flight string
		n      int
		steps  []book.Time
	}{
		{"short_hop", 12, []book.Time{book.Second / 10, book.Second, 5 * book.Second}},
		{"northern_link", 3, []book.Time{book.Second, 5 * book.Second}},
	} {
		t.Run(c.flight, func(t *testing.T) {
			b := corvane.Build(t, "")
			f := corvane.Flight(t, b, c.flight)
			usual, err := run.NewCourse(b, f, run.Setting{})
			if err != nil {
				t.Fatal(err)
			}
			list := scenarios(b, usual.Path.End(), c.n)
			for _, step := range c.steps {
				other, err := run.NewCourse(b, f, run.Setting{Step: step})
				if err != nil {
					t.Fatal(err)
				}
				for _, s := range list {
					compareRuns(t, usual, other, s, step)
				}
			}
		})
	}
}

func compareRuns(t *testing.T, usual, other *run.Course, s run.Scenario, step book.Time) {
	t.Helper()
	a, err := usual.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	b, err := other.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	if a.Fault != nil || b.Fault != nil {
		t.Errorf("%+v: %v, %v", s.Strikes, a.Fault, b.Fault)
	}
	if err := same(a, b); err != nil {
		t.Errorf("step %v s, %+v: %v", step.Seconds(), s.Strikes, err)
	}
}

// TestFly_TheSameScenarioGivesTheSameRecord, whatever ran before or beside it.
func TestFly_TheSameScenarioGivesTheSameRecord(t *testing.T) {
	b := corvane.Build(t, "")
	course, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	list := scenarios(b, course.Path.End(), 8)
	records := make([]*run.Record, len(list))
	for i, s := range list {
		if records[i], err = course.Fly(context.Background(), s); err != nil {
			t.Fatal(err)
		}
	}
	for i := range list {
		t.Run(fmt.Sprintf("scenario of %s", list[i].Strikes[0].Fail[0]), func(t *testing.T) {
			t.Parallel()
			again, err := course.Fly(context.Background(), list[i])
			if err != nil {
				t.Fatal(err)
			}
			if err := same(records[i], again); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestFly_RefusesWhatDoesNotFit(t *testing.T) {
	b := corvane.Build(t, "")
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	unit := []book.FailureRef{{Unit: b.Units[0].ID}}
	for name, s := range map[string]run.Scenario{
		"a unit that this build does not have":  {Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "nothing"}}}}},
		"a moment after the end":                {Strikes: []run.Strike{{Fail: unit, At: book.Moment{Offset: 1e6 * book.Second}}}},
		"a moment before the start":             {Strikes: []run.Strike{{Fail: unit, At: book.Moment{Offset: -book.Second}}}},
		"a phase that there is not":             {Strikes: []run.Strike{{Fail: unit, At: book.Moment{Phase: "nowhere"}}}},
		"a control that there is not":           {Actions: []run.Action{{Control: "nothing", Position: "on"}}},
		"a position that there is not":          {Actions: []run.Action{{Control: b.Controls[0].ID, Position: "nowhere"}}},
		"an inoperative unit that there is not": {Inoperative: []book.FailureRef{{Unit: "nothing"}}},
	} {
		if _, err := course.Fly(context.Background(), s); err == nil {
			t.Errorf("%s was flown", name)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := course.Fly(ctx, run.Scenario{}); err != context.Canceled {
		t.Errorf("a cancelled run gave %v", err)
	}
}

// TestFly_WhatOtherRunsFoundChangesNothing: a course remembers when comparisons
// change; a run on one on which many others were flown is the run on one of its
// own, to the microsecond.
func TestFly_WhatOtherRunsFoundChangesNothing(t *testing.T) {
	b := corvane.Build(t, "")
	f := corvane.Flight(t, b, "short_hop")
	for _, prescribed := range []bool{true, false} {
		set := run.Setting{Prescribed: prescribed}
		course := func() *run.Course {
			c, err := run.NewCourse(b, f, set)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		shared := course()
		list := scenarios(b, shared.Path.End(), 40)
		var records []*run.Record
		for range 2 { // the second time, all is known
			records = flyAll(t, shared, list)
		}
		for i, s := range list {
			if i%4 != 0 {
				continue
			}
			alone, err := course().Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			if err := same(alone, records[i]); err != nil {
				t.Errorf("prescribed %v, scenario %d %v: alone and after others: %v", prescribed, i, s, err)
			}
		}
	}
}

// flyAll flies scenarios, several at once, the last first.
func flyAll(t *testing.T, c *run.Course, list []run.Scenario) []*run.Record {
	t.Helper()
	records, done := make([]*run.Record, len(list)), make(chan error)
	for w := range 4 {
		go func() {
			var failed error
			for i := len(list) - 1 - w; i >= 0; i -= 4 {
				r, err := c.Fly(context.Background(), list[i])
				if err != nil {
					failed = err
				}
				records[i] = r
			}
			done <- failed
		}()
	}
	for range 4 {
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
	return records
}

// TestAlong_IsTheCourseOfThatPath: a course along a path that is given is what a
// course compiled for that path would be.
func TestAlong_IsTheCourseOfThatPath(t *testing.T) {
	b := corvane.Build(t, "")
	live, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	set := run.Setting{Path: live.Path}
	compiled, err := run.NewCourse(live.Build, live.Flight, set)
	if err != nil {
		t.Fatal(err)
	}
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb"}}}}
	var flown [2]*run.Record
	for i, c := range []*run.Course{compiled, live.Along(live.Path)} {
		if flown[i], err = c.Fly(t.Context(), s); err != nil {
			t.Fatal(err)
		}
	}
	if err := same(flown[0], flown[1]); err != nil || len(flown[0].Changes()) == 0 {
		t.Error(err)
	}
}
