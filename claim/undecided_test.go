package claim_test

import (
	"context"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/claim"
	"knockon/demo"
	"knockon/internal/corvane/islands"
)

// A flight that breaks off decides what has come by then, and nothing of what
// might have come after; what is undecided fails, with that as the reason. Without
// engines, generators and battery nothing moves the elevators.
func TestCheck_WhatAFlightThatBreaksOffLeavesUndecided(t *testing.T) {
	const yes, no, open = "holds", "fails", "undecided"
	cases := []struct{ expect, is string }{
		{"lost(cabin_pressure)", open}, {"kept(cabin_pressure)", open}, {"!lost(cabin_pressure)", open},
		{"lost(pitch_control)", yes}, {"kept(pitch_control)", no}, {"!lost(pitch_control)", no},
		{"not_told(pitch_control)", open}, {"told(pitch_control)", open}, {"told(air_left)", open}, {"told(thrust_fits)", open},
		{"given(left_engine_failed)", yes}, {"never_given(left_engine_failed)", no},
		{"given(smoke_in_hold)", open}, {"never_given(smoke_in_hold)", open}, {"held_back(smoke_in_hold)", open}, {"false_alarm(smoke_in_hold)", open},
		{"at(1, !engine_left)", yes}, {"at(1, engine_left)", no}, {"at(5000, !engine_left)", open},
		{"ever(!engine_left)", yes}, {"ever(!filling_valve)", open}, {"always(filling_valve)", open}, {"always(engine_left)", no},
		{"in_phase(climb, filling_valve)", yes}, {"in_phase(climb, engine_left)", no}, {"in_phase(approach, filling_valve)", open}, {"in_phase(landing_roll, filling_valve)", open}, {"in_phase(taxi_out, filling_valve)", no},
		{"first(!engine_left) == 0", yes}, {"first(!filling_valve) == 1000000", open}, {"last(!engine_left) > 10", open},
		{"times(!engine_left) == 1", open}, {"seconds(filling_valve) > 0", open},
		{"lost(pitch_control) || kept(cabin_pressure)", yes}, {"kept(pitch_control) && kept(cabin_pressure)", no},
		{"lost(pitch_control) && kept(cabin_pressure)", open}, {"at_least(2, lost(pitch_control), given(left_engine_failed), kept(cabin_pressure))", yes},
		{"in_order(!engine_left, !engine_right)", yes}, {"in_order(!engine_right, !engine_left)", no}, {"in_order(!engine_left, !filling_valve)", open}, {"in_order(!filling_valve, !engine_left)", no},
		{"by(1, !engine_left)", yes}, {"by(0.001, !engine_right)", no}, {"by(1, !filling_valve)", no}, {"by(9000, !filling_valve)", open},
		{"within(9000, !engine_left, !engine_right)", yes}, {"within(1, !engine_left, !filling_valve)", no}, {"within(9000, !engine_left, !filling_valve)", open}, {"within(1, !filling_valve, !engine_left)", open},
		{"arrives()", no}, {"never_arrives()", yes}, {`never_arrives("not_flyable")`, yes}, {`never_arrives("not_flyable", pitch_control)`, yes}, {`never_arrives("not_flyable", cabin_pressure)`, no}, {`never_arrives("cannot_stay_up")`, no}, {`never_arrives("out_of_fuel")`, no},
		{`flown("return")`, open}, {"read(cabin_high_list)", open}, {"about(first(!engine_left), 0, 1)", yes}, {"about(first(!filling_valve), 0, 1)", open},
		{"(kept(cabin_pressure) ? 1 : 2) > 0", open}, {"first(!filling_valve) + 1 > 0", open},
	}
	var all []string
	for _, c := range cases {
		all = append(all, c.expect)
	}
	o := onDemo(t, `fail = [engine_left, apu_gen, ram_gen, battery_main]
  at = "climb + 60 s"
  act "the wrong engine" {
    set = engine_right_switch
    to  = "off"
    when = real.time_s >= 562
  }`, all...)
	if o.Trouble != "" || !strings.Contains(o.BrokeOff, "breaks off") || o.Holds() {
		t.Fatalf("holds %v, trouble %q, broke off %q", o.Holds(), o.Trouble, o.BrokeOff)
	}
	for i, f := range o.Findings {
		is := map[bool]string{true: yes, false: no}[f.Holds]
		if f.Undecided {
			is = open
		}
		if is != cases[i].is || f.Undecided != strings.HasPrefix(f.Got, "undecided, since the flight breaks off") {
			t.Errorf("%s %s, want %s; got %q", cases[i].expect, is, cases[i].is, f.Got)
		}
	}
}

// onDemo flies one given on the demonstration.
func onDemo(t *testing.T, text string, expect ...string) claim.Outcome {
	t.Helper()
	files := fstest.MapFS{"claims/zz.hcl": {Data: []byte(given("it", text, strings.Join(expect, ",\n")))}}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			data, _ := fs.ReadFile(demo.Book(), name)
			files[name] = &fstest.MapFile{Data: data}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	b, diags := book.Load(context.Background(), files)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	for _, c := range claim.All(b) {
		if c.ID == "it" {
			r, err := claim.Watch(t.Context(), b, islands.Region(t), []*book.Claim{c}, nil)
			if err != nil {
				t.Fatal(err)
			}
			return r.Results[0].Givens[0]
		}
	}
	t.Fatal("the claim is not there")
	return claim.Outcome{}
}

// chase never settles in the flight without the failure, 200 s into it.
const chase = "signal \"chase\" { value = pump && real.time_s >= 200 && !before(chase) }\n"

// What the other flight leaves open are the rows; what is observed is of this one.
func TestCheck_TheOtherFlightBreaksOff(t *testing.T) {
	r := check(t, toy+chase+given("it", "fail = [pump]\nat = \"120 s\"", "kept(pressure), at(300, !pump), always(!pump), lost(brakes)"))
	var got []string
	for _, f := range r.Results[0].Givens[0].Findings {
		got = append(got, fmt.Sprint(f.Holds, f.Undecided))
	}
	if want := "[false true true false true false true false]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %s: %+v", got, want, r.Results[0].Givens[0])
	}
}

// A stretch that is over, mattered and is told worse decides the class; one that was
// too brief to matter does not.
func TestCheck_AStretchThatIsOverDecides(t *testing.T) {
	const gap = `
unit "valve" {}
function "cooling" { works = !pulse(!valve, %s) && !held(!valve, 50) }
`
	for length, want := range map[string]string{"2": "[false true]", "5": "[false false]"} {
		flies := strings.Replace(toy, "limit_kt = 30", "limit_kt = 30\n  flyable  = !held(!valve, 60)", 1)
		r := check(t, flies+fmt.Sprintf(gap, length)+given("it", "fail = [valve]\nat = \"120 s\"", "told(cooling)"))
		f := r.Results[0].Givens[0].Findings[0]
		if got := fmt.Sprint([]bool{f.Holds, f.Undecided}); got != want {
			t.Errorf("a gap of %s s: %s, want %s: %q", length, got, want, f.Got)
		}
	}
}

// "All claims hold" is said of claims of which each was judged and holds.
func TestWriteText_ThatAllHoldCanBeFalse(t *testing.T) {
	good := given("good", "fail = [pump]\nat = \"120 s\"", "lost(brakes)")
	for name, c := range map[string]struct {
		text string
		want bool
	}{
		"all hold":           {good + given("too", "fail = [pump]\nat = \"120 s\"", "kept(pressure)"), true},
		"one fails":          {good + given("bad", "fail = [pump]\nat = \"120 s\"", "lost(pressure)"), false},
		"one is undecided":   {chase + good + given("bad", "fail = [pump]\nat = \"120 s\"", "kept(pressure)"), false},
		"one was not flown":  {good + given("bad", "fail = [pump]\nat = \"nowhere\"", "lost(brakes)"), false},
		"one expects a step": {good + given("bad", "fail = [pump]\nat = \"120 s\"", "at(50000, !pump)"), false},
		"none are made":      {"", false},
	} {
		var w strings.Builder
		if err := claim.WriteText(&w, check(t, toy+c.text)); err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(w.String(), "All 2 claims hold."); got != c.want {
			t.Errorf("%s: %s", name, w.String())
		}
	}
}
