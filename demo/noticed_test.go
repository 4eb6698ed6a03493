package demo_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
)

// together are losses that no single failure brings with their sign: what fails and
// what is moved, both as that phase has begun.
var together = map[string]struct{ phase, fail, move string }{
	"airspeed_by_majority": {"taxi_out", "pitot_1.blocked pitot_2.blocked pitot_3.blocked", ""},
	"alert_messages":       {"cruise", "screen_1 screen_2 screen_3 screen_4 screen_5", ""},
	"altitudes_true":       {"climb", "static_left.blocked static_right.blocked", ""},
	"brakes":               {"cruise", "brake_left brake_right", ""},
	"cabin_temperature":    {"cruise", "pack_controller_left pack_controller_right", ""},
	"far_contact":          {"cruise", "far_radio data_link", ""},
	"gear_extension_any":   {"approach", "alternate_release gear_valve", "alternate_gear_handle pulled"},
	"gear_guard":           {"descent", "radio_alt_1.reads_low", "gear_horn_button pressed"},
	"ground_spoilers":      {"cruise", "spoilers_inner spoilers_outer", ""},
	"landing_lighting":     {"cruise", "landing_light_left landing_light_right", ""},
	"speed_brakes":         {"descent", "spoilers_inner spoilers_outer", "spoiler_lever half"},
	"window_any":           {"first_climb", "window_heat_left window_heat_right", ""},
	"yaw_control":          {"cruise", "rudder_upper_servo rudder_lower_servo rudder_electric_servo", ""},
	"yaw_damping":          {"cruise", "yaw_damper_1 yaw_damper_2", ""},
	"pitch_control":        {"cruise", "elevator_left_servo elevator_right_servo elevator_electric_servo", ""},
	"roll_control":         {"cruise", "aileron_left_servo aileron_right_servo aileron_electric_servo", ""},
}

// TestNoticed_EverySignFires flies failures until what each loss of the
// demonstration is noticed by has come in one that takes the function. A sign that is
// there on the flight without the failure too is none, and is easily written.
func TestNoticed_EverySignFires(t *testing.T) {
	b := corvane.Build(t, "")
	course, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	waiting := signs(b)
	for f, x := range together {
		if !waiting[f] || !slices.Contains(noticedIn(t, course, x.phase, x.fail, x.move), f) {
			t.Errorf("%s: its loss is not noticed where %q fail", f, x.fail)
		}
		delete(waiting, f)
	}
	for _, phase := range []string{"taxi_out", "cruise", "descent", "approach", "final", "landing_roll"} {
		singles(t, course, phase, waiting)
	}
	for f := range waiting {
		t.Errorf("%s: no single failure brings about what its loss is noticed by", f)
	}
}

// singles strikes out of a list what is noticed where one thing fails.
func singles(t *testing.T, course *run.Course, phase string, waiting map[string]bool) {
	for _, u := range course.Build.Units {
		ways := []string{u.ID}
		for _, f := range u.Faults {
			ways = append(ways, u.ID+"."+f.ID)
		}
		for _, w := range ways {
			if !reaches(known.WebOf(course), u.ID, waiting) {
				break
			}
			for _, f := range noticedIn(t, course, phase, w, "") {
				delete(waiting, f)
			}
		}
	}
}

// noticedIn flies failures and a move, and lists what is noticed to be lost.
func noticedIn(t *testing.T, course *run.Course, phase, fail, move string) (list []string) {
	t.Helper()
	m := book.Moment{Phase: phase, Offset: 5 * book.Second}
	s := run.Scenario{Strikes: []run.Strike{{At: m}}}
	for _, f := range strings.Fields(fail) {
		unit, fault, _ := strings.Cut(f, ".")
		s.Strikes[0].Fail = append(s.Strikes[0].Fail, book.FailureRef{Unit: unit, Fault: fault})
	}
	if control, to, ok := strings.Cut(move, " "); ok {
		s.Actions = []run.Action{{Control: control, Position: to, At: m}}
	}
	for _, x := range judged(t, course, s).Losses {
		if slices.ContainsFunc(x.Spans, func(p ledger.LossSpan) bool { return p.Known.Noticed != nil }) {
			list = append(list, x.Function.ID)
		}
	}
	return list
}

// judged flies a scenario with nobody's hands along the flight that feels nothing.
func judged(t *testing.T, course *run.Course, s run.Scenario) *ledger.Ledger {
	t.Helper()
	ctx := context.Background()
	there, err := course.Healthy(ctx, s)
	if err != nil {
		t.Fatal(err)
	}
	here, err := course.Along(there.Path()).Fly(ctx, s)
	if err != nil {
		t.Fatal(err)
	}
	l := ledger.Of(here, there)
	if err := known.Judge(ctx, l); err != nil {
		t.Fatal(err)
	}
	return l
}

// signs are the functions that are noticed by something.
func signs(b *book.Build) map[string]bool {
	list := map[string]bool{}
	for _, f := range b.Functions {
		if f.Noticed != nil && !f.Noticed.AtOnce {
			list[f.ID] = true
		}
	}
	return list
}

// reaches says that an item is read, by others in between too, by a function of the list.
func reaches(w *known.Web, unit string, list map[string]bool) bool {
	n, ok := w.Number(unit)
	if !ok {
		return false
	}
	met, next := map[int32]bool{n: true}, []int32{n}
	for len(next) > 0 {
		n, next = next[0], next[1:]
		if list[w.Items()[n]] {
			return true
		}
		for _, m := range w.ReadBy(n) {
			if !met[m] {
				met[m], next = true, append(next, m)
			}
		}
	}
	return false
}
