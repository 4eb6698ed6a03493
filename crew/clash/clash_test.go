package clash_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/clash"
	"knockon/internal/corvane"
	"knockon/run"
)

// frame is a small aircraft; each test adds units, alerts and procedures.
const frame = `
aircraft "small" { title = "Small" }
phase "ground" {}
phase "air" { begins = !real.on_ground }
flight "hop" {
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
unit "a" {}
control "left" {
  positions = ["on", "off"]
  initial   = "on"
}
control "right" {
  positions = ["on", "off"]
  initial   = "on"
}
signal "reads" { value = left == "on" && right == "on" }
function "f" { works = reads }
`

func small(t *testing.T, more string) *crew.Team {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + more)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	tm, err := crew.NewTeam(build, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return tm
}

// found lists the conflicts of a small book as "kind line: text".
func found(t *testing.T, more string) (list []string) {
	t.Helper()
	r, err := clash.Survey(context.Background(), small(t, more), clash.Bounds{Phases: 1, More: 50})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range r.Conflicts {
		if c.Subject().Line == 0 {
			t.Errorf("%q has no place", c.Says)
		}
		list = append(list, string(c.Kind)+": "+c.Says)
	}
	return list
}

func want(t *testing.T, list []string, parts ...string) {
	t.Helper()
	for _, part := range parts {
		if !strings.Contains(strings.Join(list, "\n"), part) {
			t.Errorf("no conflict says %q; there are:\n%s", part, strings.Join(list, "\n"))
		}
	}
}

func TestSurvey_OneControlTwoPositions(t *testing.T) {
	list := found(t, `
alert "x" {
  level = "warning"
  message = "X"
  when = !a
  procedure = first
}
alert "y" {
  level = "caution"
  message = "Y"
  when = !a
  procedure = second
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}
procedure "second" {
  do {
    set = left
    to  = "on"
  }
}`)
	want(t, list, `against: “first” puts left to "off" (step 1), then “second” puts it to "on" (step 1).`)
}

func TestSurvey_AgreeingProceduresAreQuiet(t *testing.T) {
	list := found(t, `
alert "x" {
  level = "warning"
  message = "X"
  when = !a && left == "on"
  procedure = first
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}`)
	if len(list) > 0 {
		t.Errorf("a procedure that ends its alert has conflicts:\n%s", strings.Join(list, "\n"))
	}
}

func TestSurvey_AnAlertWithoutEnd(t *testing.T) {
	list := found(t, `
alert "x" {
  level = "warning"
  message = "X"
  when = !a && !pulse(left == "off", 5)
  procedure = first
}
procedure "first" {
  do {
    set = left
    to  = "on"
  }
  do {
    set = left
    to  = "off"
  }
}`)
	want(t, list, "endless: “x” comes back each time that “first” has been done")
}

func TestSurvey_WhatTheFailureHasTaken(t *testing.T) {
	list := found(t, `
function "pump" { works = a && left == "on" }
alert "x" {
  level = "caution"
  message = "X"
  when = !a
  procedure = first
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}`)
	want(t, list, "stands: “x” stands to the end of the flight in the one flight")
	list = found(t, `
unit "b" {}
function "pump" { works = b && a && right == "on" }
control "lamp" {
  positions = ["on", "off"]
  initial   = "on"
}
signal "shines" { value = a && lamp == "on" }
indication "light" { shows = shines }
alert "x" {
  level = "caution"
  message = "X"
  when = !a
  procedure = first
}
procedure "first" {
  do {
    set = lamp
    to  = "off"
  }
}`)
	want(t, list, "taken: Step 1 of “first” moves lamp, and nothing follows in the one flight in which it is done; with nothing failed it would reach")
}

func TestSurvey_NothingCalls(t *testing.T) {
	list := found(t, `
unit "b" {}
unit "c" {}
unit "d" {}
alert "x" {
  level = "caution"
  message = "X"
  when = !b && !c
  procedure = first
}
alert "y" {
  level = "caution"
  message = "Y"
  when = !b && !c && !d
  procedure = third
}
procedure "first" {
  note { says = "So it is." }
}
procedure "second" {
  note { says = "Nobody reads this." }
}
procedure "third" {
  note { says = "Three must fail." }
}`)
	want(t, list, "uncalled: No alert names the procedure “second”", "uncalled: None of 6 single failures, 3 pairs and 0 slips of the hand on which its alerts hang calls for “third”")
	if strings.Contains(strings.Join(list, "\n"), "calls for “first”") {
		t.Error("a pair calls for the first procedure")
	}
}

func TestSurvey_TriesAndOneWay(t *testing.T) {
	list := found(t, `
unit "b" {
  reset_by    = right == "off"
  reset_tries = 1
}
alert "x" {
  level = "caution"
  message = "X"
  when = !b
  procedure = first
}
procedure "first" {
  do {
    set = right
    to  = "off"
  }
  do {
    set = right
    to  = "on"
  }
  do {
    set = right
    to  = "off"
  }
}`)
	want(t, list, "tries: b may be tried 1 time, and is tried more often; the model lets every try reset it.")
}

func TestRead_SoundsOn(t *testing.T) {
	tm := small(t, `
alert "x" {
  level = "warning"
  message = "X"
  when = !a
  repeats_s = 10
  procedure = first
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}`)
	list := clash.Advise(tm.Build().Book)
	if len(list) != 1 || list[0].Code != "conflict-uncleared" || !strings.Contains(list[0].Detail, "sounds every 10 s") || list[0].Severity != book.Advice {
		t.Errorf("advice: %v", list)
	}
}

// TestSurvey_FliesNothing with no bounds, and then says only what can be read.
func TestSurvey_FliesNothing(t *testing.T) {
	r, err := clash.Survey(context.Background(), small(t, `
procedure "nobody" {
  note { says = "Nobody reads this." }
}`), clash.Bounds{})
	if err != nil || r.Flights != 0 || len(r.Conflicts) != 1 || r.Conflicts[0].Kind != clash.Uncalled {
		t.Errorf("%v: %+v", err, r)
	}
}

// TestSurvey_IsTheSameTwice, whichever processor flies what.
func TestSurvey_IsTheSameTwice(t *testing.T) {
	const book = `
unit "b" {}
alert "x" {
  level = "warning"
  message = "X"
  when = !a || !b
  procedure = first
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}
alert "y" {
  level = "caution"
  message = "Y"
  when = !a
  procedure = second
}
procedure "second" {
  do {
    set = left
    to  = "on"
  }
}`
	if a, b := found(t, book), found(t, book); strings.Join(a, "\n") != strings.Join(b, "\n") {
		t.Errorf("first:\n%s\nthen:\n%s", strings.Join(a, "\n"), strings.Join(b, "\n"))
	}
}

// TestSurvey_TheDemonstration flies every single failure in the cruise: an engine is
// shut down by one list and tried again by another, a generator put on by the list of
// both and off by its own, and no alert calls for its procedure without end. The list
// for no pressure reads the fluid, so it does not undo what those for fluid did.
func TestSurvey_TheDemonstration(t *testing.T) {
	if testing.Short() {
		t.Skip("flies 400 flights")
	}
	build := corvane.Build(t, "")
	tm, err := crew.NewTeam(build, nil, crew.Setting{Run: run.Setting{Prescribed: true}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := clash.Survey(context.Background(), tm, clash.Bounds{Phases: 1})
	if err != nil {
		t.Fatal(err)
	}
	pulls := map[string]bool{}
	for _, c := range r.Conflicts {
		switch c.Kind {
		case clash.Against:
			pulls[c.Procedure.ID+" "+c.Other.ID+" "+c.Step.Set] = true
		case clash.Endless, clash.Tries:
			t.Errorf("%s: %s", c.Subject(), c.Says)
		}
	}
	for _, want := range []string{
		"engine_failed relight_list engine_left_switch",
		"engine_failed relight_list engine_right_switch",
		"all_generators_off left_generator_off gen_left_switch",
		"all_generators_off right_generator_off gen_right_switch",
	} {
		if !pulls[want] {
			t.Errorf("no conflict %s; there are %v", want, pulls)
		}
	}
	for _, gone := range []string{"fluid_left_low_list hyd_both_low_list transfer_switch", "fluid_right_low_list hyd_both_low_list standby_pump_switch"} {
		if pulls[gone] {
			t.Errorf("the list for no pressure undoes what was done for the fluid: %s", gone)
		}
	}
	if pulls["fluid_right_low_list hyd_right_low_list standby_pump_switch"] {
		t.Error("the list for right pressure switches on what the list for right fluid switched off")
	}
}

// TestSurvey_TwoThatCallEachOther: what one procedure does calls for the other.
func TestSurvey_TwoThatCallEachOther(t *testing.T) {
	list := found(t, `
alert "x" {
  level = "caution"
  message = "X"
  when = !a && left == "on"
  procedure = first
}
alert "y" {
  level = "caution"
  message = "Y"
  when = !a && left == "off"
  procedure = second
}
procedure "first" {
  do {
    set = left
    to  = "off"
  }
}
procedure "second" {
  do {
    set = left
    to  = "on"
  }
}`)
	want(t, list, "endless: “x” comes back", `against: “first” puts left to "off" (step 1), then “second” puts it to "on"`, `against: “second” puts left to "on"`)
}
