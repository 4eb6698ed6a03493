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

// TestPrice_LessRangeIsFuel: the fire handle left in is not only fuel overboard in
// the ledger, but fuel that a flight does not have at its end; and with the spoilers
// left out after an emergency descent it runs dry.
func TestPrice_LessRangeIsFuel(t *testing.T) {
	leak := priced(t, lessons[4])
	if p := leak[lessons[4].step]; p == nil || p.FuelKg > p.RightKg-500 || p.Ended != "arrives" || strings.Contains(p.String(), "nothing is known") {
		t.Errorf("%+v", p)
	}
	for number, p := range leak {
		if p != nil && number != lessons[4].step {
			t.Errorf("step %s has a price: %+v", number, p)
		}
	}
	low := priced(t, lesson{procedure: "cabin_high_list", fail: []book.FailureRef{{Unit: "cabin_wall", Fault: "leaks"}}, at: book.Moment{Phase: "cruise", Offset: 25 * 60 * book.Second}})
	// Without the descent the passengers have their oxygen and no more, which a comparison
	// along one path does not see.
	if p := low["2"]; p == nil || len(p.Lost) != 1 || !strings.Contains(p.String(), "without the step Passengers can breathe lost from ") {
		t.Errorf("%+v", p)
	}
	if p := low["5.later.1"]; p == nil || p.RightKg < 500 || p.Right != "arrives" || !strings.Contains(p.Ended, "the fuel is used up") {
		t.Errorf("%+v", p)
	}
}

// priced gives, by the numbers of its steps, what the omissions of a procedure cost.
func priced(t *testing.T, l lesson) map[string]*worth.Price {
	t.Helper()
	tm := team(t, "", "northern_link")
	s := run.Scenario{Strikes: []run.Strike{{Fail: l.fail, At: l.at}}, FliesOn: l.name == "a longer stop"}
	w, err := worth.Assess(t.Context(), tm, s, procedure(t, tm.Build(), l.procedure))
	if err != nil {
		t.Fatal(err)
	}
	live, err := crew.NewTeam(tm.Build(), tm.Course().Flight, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := worth.Alone(w).Price(t.Context(), live); err != nil {
		t.Fatal(err)
	}
	prices := map[string]*worth.Price{}
	for _, s := range w.Steps {
		if prices[s.Number] = s.Price; s.Price != nil {
			t.Logf("%s %s: %s", l.procedure, s.Number, s.Price)
		}
	}
	return prices
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
// when the systems say so: on the accumulator instead of the standby pump it is some
// metres longer, and without any generator, whose place the APU could take, by more
// than half.
func TestPrice_LongerStopIsMetres(t *testing.T) {
	dark := lesson{procedure: "all_generators_off", step: "7.later.1", fail: []book.FailureRef{unit("gen_left"), unit("gen_right")}, at: book.Moment{Phase: "cruise", Offset: 25 * 60 * book.Second}}
	for least, l := range map[float64]lesson{20: lessons[2], 300: dark} {
		p := priced(t, l)[l.step]
		if p == nil || p.RightStopM < 300 || p.RightStopM > 3000 || p.StopM < p.RightStopM+least {
			t.Errorf("%s: %+v", l.procedure, p)
		}
	}
}
