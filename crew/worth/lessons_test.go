package worth_test

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/ledger"
	"knockon/run"
)

// lesson is a step of the demonstration book whose omission teaches something.
type lesson struct {
	name, procedure, step string
	fail                  []book.FailureRef
	at                    book.Moment
	holds                 func(t *testing.T, w *worth.Worth, s *worth.Step) bool
}

func unit(id string) book.FailureRef { return book.FailureRef{Unit: id} }

var lessons = []lesson{
	{"a false warning during the approach", "too_low_drill", "3.then.1",
		[]book.FailureRef{{Unit: "radio_alt_1", Fault: "reads_low"}, {Unit: "radio_alt_2", Fault: "reads_low"}}, book.Moment{Phase: "descent", Offset: 120 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return falseIn(t, s.Left().Flown, "too_low", "approach") && !falseIn(t, w.Right, "too_low", "approach")
		}},
	{"a silent loss", "ram_gen_off_list", "1",
		[]book.FailureRef{unit("gen_left"), unit("gen_right"), unit("apu"), unit("ram_release"), {Unit: "battery_main", Fault: "weak"}}, book.Moment{Phase: "cruise", Offset: 30 * 60 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return has(s, func(h worth.Harm) bool {
				return h.Kind == worth.Loss && h.Item == "fuel_crossfeed" && h.Class == ledger.NotTold && h.Mattered && !h.Already
			})
		}},
	{"a longer stop", "hyd_both_low_list", "1",
		[]book.FailureRef{unit("pump_left"), unit("pump_right")}, book.Moment{Phase: "cruise", Offset: 30 * 60 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return has(s, func(h worth.Harm) bool { return h.Kind == worth.Stop && h.Here < h.Right })
		}},
	{"no flight", "hyd_both_low_list", "1",
		[]book.FailureRef{unit("pump_left"), unit("pump_right"), unit("elevator_electric_servo"), unit("aileron_electric_servo")}, book.Moment{Phase: "cruise", Offset: 30 * 60 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return has(s, func(h worth.Harm) bool {
				return h.Kind == worth.Breaks && strings.Contains(w.Say(h), "the aircraft can no longer be flown, without pitch control and roll control")
			}) && !has(s, func(h worth.Harm) bool { return h.From > s.Left().Flown.Plan.Record.End })
		}},
	{"less range", "fuel_leak_list", "3",
		[]book.FailureRef{{Unit: "feed_line_left", Fault: "leaks"}}, book.Moment{Phase: "cruise", Offset: 30 * 60 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return has(s, func(h worth.Harm) bool {
				return h.Kind == worth.Range && h.Item == book.EffectID("fuel_leak_kg_per_h") && h.Here > h.Right+1000
			})
		}},
	{"an alert that repeats for ever", "stall_list", "5.later.1.then.1",
		[]book.FailureRef{{Unit: "stall_vane_left", Fault: "reads_high"}}, book.Moment{Phase: "cruise", Offset: 30 * 60 * book.Second},
		func(t *testing.T, w *worth.Worth, s *worth.Step) bool {
			return has(s, func(h worth.Harm) bool { return h.Kind == worth.Repeats && h.Item == "stall" && h.Count > 300 })
		}},
}

// TestLessons: for each of six consequences the demonstration book has a step
// whose omission brings it, and which the procedure done right is free of.
func TestLessons(t *testing.T) {
	tm := team(t, "", "northern_link")
	for _, l := range lessons {
		t.Run(l.name, func(t *testing.T) { l.check(t, tm) })
	}
}

func (l lesson) check(t *testing.T, tm *crew.Team) {
	// Without hydraulics nobody steers, and the stop is looked at all the same.
	s := run.Scenario{Strikes: []run.Strike{{Fail: l.fail, At: l.at}}, FliesOn: l.name == "a longer stop"}
	w, err := worth.Assess(context.Background(), tm, s, procedure(t, tm.Build(), l.procedure))
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range w.Steps {
		if step.Number != l.step {
			continue
		}
		if !step.Reached {
			t.Fatalf("step %s: %s", l.step, step.Because)
		}
		t.Logf("%s: %s", worth.Words(tm.Build(), step.Step), step.Because)
		if !l.holds(t, w, step) {
			for _, h := range step.Left().Harms {
				t.Logf("%+v", h)
			}
			t.Error("its omission does not bring it")
		}
		return
	}
	t.Fatalf("no step %s", l.step)
}

// TestPrice_LessRangeIsFuel: the fire handle left in is not only fuel overboard
// in the ledger, but a flight that runs dry.
func TestPrice_LessRangeIsFuel(t *testing.T) {
	ctx := context.Background()
	tm := team(t, "", "northern_link")
	l := lessons[4]
	w, err := worth.Assess(ctx, tm, run.Scenario{Strikes: []run.Strike{{Fail: l.fail, At: l.at}}}, procedure(t, tm.Build(), l.procedure))
	if err != nil {
		t.Fatal(err)
	}
	live, err := crew.NewTeam(tm.Build(), tm.Course().Flight, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := worth.Alone(w).Price(ctx, live); err != nil {
		t.Fatal(err)
	}
	for _, s := range w.Steps {
		if s.Number == l.step {
			t.Log(s.Price)
			if s.Price == nil || s.Price.FuelKg > s.Price.RightKg-500 || s.Price.Ended == s.Price.Right {
				t.Errorf("%+v", s.Price)
			}
		} else if s.Price != nil && s.Step.Kind == "note" {
			t.Errorf("a note has a price: %+v", s.Price)
		}
	}
}

func has(s *worth.Step, what func(worth.Harm) bool) bool {
	for _, h := range s.Left().Harms {
		if !h.Better && what(h) {
			return true
		}
	}
	return false
}

// falseIn says that an alert is false at some moment of a phase.
func falseIn(t *testing.T, f *worth.Flown, alert, phase string) bool {
	t.Helper()
	r := f.Plan.Record
	n, ok := r.Circuit().Node(circuit.Value{Item: phase})
	if !ok {
		t.Fatal("no phase", phase)
	}
	for _, a := range f.Ledger.False {
		for _, s := range a.Spans {
			for _, p := range r.Spans(n) {
				if a.Alert.ID == alert && max(s.From, p.From) < min(s.To, p.To) {
					return true
				}
			}
		}
	}
	return false
}

// TestPrice_LongerStopIsMetres: a stop is priced by a landing whose devices come
// when the systems say so: on the accumulator alone it is longer by a fifth.
func TestPrice_LongerStopIsMetres(t *testing.T) {
	ctx := context.Background()
	tm := team(t, "", "northern_link")
	l := lessons[2]
	w, err := worth.Assess(ctx, tm, run.Scenario{Strikes: []run.Strike{{Fail: l.fail, At: l.at}}, FliesOn: true}, procedure(t, tm.Build(), l.procedure))
	if err != nil {
		t.Fatal(err)
	}
	live, err := crew.NewTeam(tm.Build(), tm.Course().Flight, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := worth.Alone(w).Price(ctx, live); err != nil {
		t.Fatal(err)
	}
	for _, s := range w.Steps {
		if s.Number != l.step {
			continue
		}
		t.Log(s.Price)
		if s.Price == nil || s.Price.RightStopM < 300 || s.Price.RightStopM > 3000 || s.Price.StopM < s.Price.RightStopM+100 {
			t.Errorf("%+v", s.Price)
		}
	}
}
