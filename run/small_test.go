package run_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/run"
)

// hop is a small book that flies by its profile; each test adds what it needs.
const hop = `
aircraft "small" { title = "Small" }
phase "ground" {}
phase "air" { begins = !real.on_ground }
phase "space" { begins = real.height_ft > 99000 }
flight "hop" {
  to                 = "There"
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 8000
  distance_nm        = 60
  rotate_kt          = 140
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 135
}
control "left" {
  positions = ["on", "off"]
  initial   = "on"
}
unit "a" {}
unit "b" {}
`

func hopCourse(t *testing.T, more string) *run.Course {
	t.Helper()
	return courseOf(t, hop+more)
}

func courseOf(t *testing.T, text string) *run.Course {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	build, _ := b.Build("")
	c, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func at(s float64) book.Moment { return book.Moment{Offset: book.AtSeconds(s)} }

func strike(s float64, lasts book.Time, units ...string) run.Strike {
	k := run.Strike{At: at(s), Lasts: lasts}
	for _, u := range units {
		k.Fail = append(k.Fail, book.FailureRef{Unit: u})
	}
	return k
}

// spans are when a yes/no is yes, in seconds.
func spans(t *testing.T, r *run.Record, v circuit.Value) (text string) {
	t.Helper()
	n, ok := r.Circuit().Node(v)
	if !ok {
		t.Fatal("no", v)
	}
	for _, s := range r.Spans(n) {
		text += fmt.Sprintf("%g-%g ", s.From.Seconds(), s.To.Seconds())
	}
	return text
}

// TestFly_PassingFailures: they end when they should, to the microsecond; of two
// that overlap the unit has failed as long as one stands; on a condition they come
// at every rise and end so long after the latest (docs/meaning.md, section 4).
func TestFly_PassingFailures(t *testing.T) {
	c := hopCourse(t, "signal \"knock\" { value = (real.time_s >= 100 && real.time_s < 110) || (real.time_s >= 120 && real.time_s < 130) }\n")
	failed := circuit.Value{Item: "a", Aspect: circuit.Failed}
	knock := c.Build.Signals[0].Value
	for _, x := range []struct {
		strikes []run.Strike
		want    string
	}{
		{[]run.Strike{strike(100, 40*book.Second, "a")}, "100-140 "},
		{[]run.Strike{strike(100, 1, "a")}, "100-100.000001 "},
		{[]run.Strike{strike(0, 40*book.Second, "a")}, "0-40 "},
		{[]run.Strike{strike(100, 40*book.Second, "a"), strike(120, 40*book.Second, "a")}, "100-160 "},
		{[]run.Strike{strike(100, 40*book.Second, "a"), strike(300, 10*book.Second, "a", "b")}, "100-140 300-310 "},
		{[]run.Strike{{Fail: []book.FailureRef{{Unit: "a"}}, When: knock, Lasts: 30 * book.Second}}, "100-150 "},
		{[]run.Strike{{Fail: []book.FailureRef{{Unit: "a"}}, When: knock, Lasts: 5 * book.Second}}, "100-105 120-125 "},
	} {
		r := flown(t, c, run.Scenario{Strikes: x.strikes})
		if got := spans(t, r, failed); got != x.want {
			t.Errorf("%+v: %s, want %s", x.strikes, got, x.want)
		}
	}
}

// TestRecord_WhenStrikesCame: each in the order of the scenario, the first of all,
// and nothing of one that never came.
func TestRecord_WhenStrikesCame(t *testing.T) {
	c := hopCourse(t, "signal \"never\" { value = real.height_ft > 99000 }\n")
	never := run.Strike{Fail: []book.FailureRef{{Unit: "b"}}, When: c.Build.Signals[0].Value}
	for _, x := range []struct {
		strikes []run.Strike
		first   float64
	}{
		{[]run.Strike{strike(200, 0, "a"), strike(100, 0, "b")}, 100},
		{[]run.Strike{strike(100, 0, "a"), strike(200, 0, "b")}, 100},
		{[]run.Strike{never, strike(300, 0, "a"), strike(0, 0, "b")}, 0},
		{[]run.Strike{never}, -1},
		{nil, -1},
	} {
		r := flown(t, c, run.Scenario{Strikes: x.strikes, Inoperative: []book.FailureRef{{Unit: "b"}}})
		got, ok := r.FirstStrike()
		if ok != (x.first >= 0) || ok && got != book.AtSeconds(x.first) {
			t.Errorf("%+v: first at %v, %v", x.strikes, got.Seconds(), ok)
		}
		for i, k := range x.strikes {
			if s := r.Struck[i]; s.Came != (k.When == nil) || s.Came && s.At != k.At.Offset {
				t.Errorf("%+v: %+v", k, s)
			}
		}
	}
}

// TestRecord_Phases: in their order, one at a time; one that never comes does not
// begin.
func TestRecord_Phases(t *testing.T) {
	r := flown(t, hopCourse(t, ""), run.Scenario{})
	list := r.Phases()
	if len(list) != 2 || list[0].ID != "ground" || list[0].From != 0 || list[1].ID != "air" || list[1].From != list[0].To || list[1].To != r.End {
		t.Fatalf("%+v", list)
	}
	up := list[1].From
	if at, ok := r.PhaseBegins("air"); !ok || at != up {
		t.Errorf("air begins at %d, %v", at, ok)
	}
	if _, ok := r.PhaseBegins("space"); ok {
		t.Error("it reached space")
	}
	if r.PhaseAt(0) != "ground" || r.PhaseAt(up-1) != "ground" || r.PhaseAt(up) != "air" || r.PhaseAt(r.End) != "air" {
		t.Error("the phase at a moment is another")
	}
}

// TestRecord_Sounds: when it is given, and every so often while it stays so, at
// most once at a moment, and at the very end too if it stands there.
func TestRecord_Sounds(t *testing.T) {
	end := flown(t, hopCourse(t, ""), run.Scenario{}).End.Seconds()
	for _, x := range []struct {
		repeats, when string
		want          string
	}{
		{"", "real.time_s >= 100 && real.time_s < 130", "100 "},
		{"repeats_s = 10", "real.time_s >= 100 && real.time_s < 130", "100 110 120 "},
		{"repeats_s = 10", "real.time_s >= 100 && real.time_s < 129", "100 110 120 "},
		{"repeats_s = 10", "(real.time_s >= 100 && real.time_s < 115) || (real.time_s >= 120 && real.time_s < 125)", "100 110 120 "},
		{"repeats_s = 40", fmt.Sprintf("real.time_s >= %.6f", end-80), fmt.Sprintf("%g %g %g ", end-80, end-40, end)},
		{"repeats_s = 40", fmt.Sprintf("real.time_s >= %.6f && real.time_s < %.6f", end-80, end), fmt.Sprintf("%g %g ", end-80, end-40)},
	} {
		c := hopCourse(t, fmt.Sprintf("alert \"x\" {\n level = \"caution\"\n message = \"X\"\n when = %s\n %s\n}\n", x.when, x.repeats))
		r := flown(t, c, run.Scenario{})
		var got string
		for _, s := range r.Sounds(c.Build.Alerts[0]) {
			got += fmt.Sprintf("%g ", s.Seconds())
		}
		if got != x.want {
			t.Errorf("%s %s: %s, want %s", x.when, x.repeats, got, x.want)
		}
	}
	other := hopCourse(t, "alert \"y\" {\n level = \"caution\"\n message = \"Y\"\n when = !a\n}\n")
	if list := flown(t, hopCourse(t, ""), run.Scenario{}).Sounds(other.Build.Alerts[0]); list != nil {
		t.Errorf("an alert of another book sounds at %v", list)
	}
}

// TestEnding_OfALoop names what never settles: all of it, or the first twelve and
// how many more; what comes later did not come.
func TestEnding_OfALoop(t *testing.T) {
	for _, n := range []int{1, 11, 12, 40} {
		more := "signal \"s0\" {\n title = \"First\"\n value = !a && !before(s" + fmt.Sprint(n-1) + ")\n}\n"
		for i := 1; i < n; i++ {
			more += fmt.Sprintf("signal \"s%d\" { value = s%d }\n", i, i-1)
		}
		c := hopCourse(t, more)
		r, err := c.Fly(t.Context(), run.Scenario{Strikes: []run.Strike{strike(100, 0, "a"), strike(200, 0, "b")}})
		if err != nil {
			t.Fatal(err)
		}
		e := r.Ending()
		if e.Arrived() || e.How != run.NeverSettles || e.At != r.End || r.End.Seconds() < 100 || r.End.Seconds() > 101 || r.Struck[1].Came || !r.Struck[0].Came {
			t.Errorf("%d: %+v, struck %+v", n, e, r.Struck)
		}
		if !strings.HasPrefix(e.Why, "these keep changing each other and never settle: ") || !strings.Contains(e.Why, "First") {
			t.Errorf("%d: %s", n, e.Why)
		}
		if names := strings.Count(e.Why, ", ") + 1; names > 13 || (names == 13) != strings.HasSuffix(e.Why, " more") || n <= 12 && strings.HasSuffix(e.Why, " more") {
			t.Errorf("%d: %s", n, e.Why)
		}
	}
	if e := flown(t, hopCourse(t, ""), run.Scenario{}).Ending(); !e.Arrived() && e.How != "" || e.Why != "" {
		t.Errorf("%+v", e)
	}
}

// TestEnding_OfAFlightThatFalls says how far before its runway, and what thrust it
// had left.
func TestEnding_OfAFlightThatFalls(t *testing.T) {
	c := liveCourse(t, "northern_link", 0)
	falls := fail(during("cruise", 60), "engine_left", "engine_right")
	falls.FliesOn = true // nobody steers it, and it is looked at all the same
	both, err := c.Fly(t.Context(), falls)
	if err != nil {
		t.Fatal(err)
	}
	if e := both.Ending(); e.How != run.CannotStayUp || e.Arrived() || e.At != both.End || !strings.Contains(e.Why, " NM ") || !strings.HasSuffix(e.Why, ", with no engine giving thrust") {
		t.Errorf("%+v", e)
	}
	if e := flown(t, c, fail(during("cruise", 60), "engine_left")).Ending(); !e.Arrived() || e.Why != "" || both.Ended == energy.Arrived {
		t.Errorf("on one engine: %+v", e)
	}
}

// TestWith_PutsInAndStops: the run once more with a failure from one moment to
// another, and a control moved, as far as it was asked; also where nothing failed.
func TestWith_PutsInAndStops(t *testing.T) {
	c := hopCourse(t, "")
	off, to, ok := c.Circuit().Control("left", "off")
	if !ok {
		t.Fatal("no position")
	}
	a := book.FailureRef{Unit: "a"}
	for _, s := range []run.Scenario{{}, {Strikes: []run.Strike{strike(50, 0, "b")}}} {
		r := flown(t, c, s)
		w, err := r.With(t.Context(), []run.Put{
			{Way: &a, From: book.AtSeconds(100), To: book.AtSeconds(140)},
			{Way: &a, From: book.AtSeconds(180), To: book.Never},
			{Control: circuit.Input{Strike: -1, End: -1, Control: off, To: to}, From: book.AtSeconds(120)},
		}, book.AtSeconds(200))
		if err != nil {
			t.Fatal(err)
		}
		if got := spans(t, w, circuit.Value{Item: "a", Aspect: circuit.Failed}); got != "100-140 180-200 " || w.End != book.AtSeconds(200) {
			t.Errorf("%s, to %v", got, w.End.Seconds())
		}
		n, _ := w.Circuit().Node(circuit.Value{Item: "left"})
		if h := w.History(n); w.Circuit().WordText(w.At(n, book.AtSeconds(119))) != "on" || w.Circuit().WordText(w.At(n, book.AtSeconds(120))) != "off" {
			t.Errorf("%+v", h)
		}
		if first, ok := w.FirstStrike(); !ok || first > book.AtSeconds(100) {
			t.Errorf("first at %v", first)
		}
		whole, err := r.With(t.Context(), nil, book.Never)
		if err != nil || whole.End != r.End || same(whole, r) != nil {
			t.Errorf("with nothing put in: %v, %v", err, same(whole, r))
		}
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		if _, err := r.With(ctx, nil, book.Never); err != context.Canceled {
			t.Errorf("cancelled: %v", err)
		}
	}
}

// TestFlying_ShowsEachMomentOnce, when it is over, and no earlier one again.
func TestFlying_ShowsEachMomentOnce(t *testing.T) {
	c := hopCourse(t, "signal \"echo\" { value = before(!a) }\n")
	f, err := c.Begin(t.Context(), run.Scenario{Strikes: []run.Strike{strike(100, 40*book.Second, "a")}})
	if err != nil {
		t.Fatal(err)
	}
	echo, _ := c.Circuit().Node(circuit.Value{Item: "echo"})
	var seen []string
	last := book.Time(-1)
	see := func(v run.View) {
		if v.Now() <= last {
			t.Errorf("%d after %d", v.Now(), last)
		}
		last = v.Now()
		if v.Now() == book.AtSeconds(100) || v.Now() == book.AtSeconds(140) {
			seen = append(seen, fmt.Sprint(v.Now().Seconds(), v.Value(echo)))
		}
	}
	for _, s := range []float64{50, 100, 120, 130, 150} {
		if err := f.Until(t.Context(), book.AtSeconds(s), see); err != nil || f.Now() != book.AtSeconds(s) || f.Ended() {
			t.Fatalf("%v at %v: %v", err, f.Now().Seconds(), f.Ended())
		}
	}
	if got := strings.Join(seen, ", "); got != "100 1, 140 0" {
		t.Errorf("seen: %s", got)
	}
	if err := f.Until(t.Context(), book.Never, nil); err != nil || !f.Ended() || f.Now() != f.End() {
		t.Errorf("%v, ended %v", err, f.Ended())
	}
}
