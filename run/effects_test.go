package run_test

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/flight/energy"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestRecord_Effects of the demonstration book: in the climb the gear and the
// flaps are in; an engine that fails gives nothing from then on.
func TestRecord_Effects(t *testing.T) {
	b := corvane.Build(t, "")
	a, err := energy.Decode(b.Aircraft)
	if err != nil {
		t.Fatal(err)
	}
	course, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	at := book.Moment{Phase: "cruise", Offset: 60 * book.Second}
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "engine_left"}}, At: at}}}
	r, err := course.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	strike := r.Struck[0].At
	start, before, after := r.Effects(a, 0), r.Effects(a, strike-book.Second), r.Effects(a, strike+book.Second)
	if !start.GearOut || start.Setting != 1 || before.GearOut || before.Setting != 0 {
		t.Errorf("gear and flaps: at the start %v, %d; in the cruise %v, %d", start.GearOut, start.Setting, before.GearOut, before.Setting)
	}
	if before.Engines != [2]float64{1, 1} || after.Engines != [2]float64{0, 1} {
		t.Errorf("engines before %v and after %v", before.Engines, after.Engines)
	}
	if before.MostKt != 315 || before.MostFt != 37000 || before.LeakKgPerS != 0 || !before.AntiSkid {
		t.Errorf("in the cruise: %+v", before)
	}
}
