package worth_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
)

// frame is a small aircraft with one procedure that does some of everything: a
// pump that comes back when its switch is cycled, a horn, and a tank that runs
// empty unless a valve is shut.
const frame = `
aircraft "small" { title = "Small" }
phase "ground" {}
phase "air" { begins = !real.on_ground }
phase "down" { begins = real.vertical_speed_ft_per_min < -200 }
flight "hop" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 8000
  distance_nm        = 90
  rotate_kt          = 140
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 135
}
unit "pump" { reset_by = pump_switch_left == "off" }
unit "line" {
  fault "leaks" { title = "leaks" }
}
control "pump_switch_left" {
  title     = "Left pump switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "panel"
}
control "pump_switch_right" {
  title     = "Right pump switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "panel"
}
control "valve" {
  title     = "Valve"
  positions = ["open", "shut"]
  initial   = "open"
  place     = "panel"
}
control "horn" {
  title     = "Horn button"
  positions = ["out", "pressed"]
  initial   = "out"
}
signal "oil_kg" {
  value = 300 - total(line.leaks && valve == "open" ? rate_kg_per_s : 0)
}
signal "rate_kg_per_s" { value = 1 }
function "flow" {
  title    = "Flow"
  works    = pump && pump_switch_left == "on"
  severity = "major"
}
function "other" {
  title    = "Other flow"
  works    = pump_switch_right == "on"
  severity = "hazardous"
}
function "gear" {
  title    = "Gear"
  works    = oil_kg > 0
  wanted   = down
  severity = "hazardous"
}
alert "pump_off" {
  title     = "Pump off"
  level     = "caution"
  message   = "Pump off"
  when      = !pump
  repeats_s = 10
  until     = horn == "pressed"
  tells     = flow
  procedure = pump_list
}
alert "leak" {
  title     = "Leak"
  level     = "caution"
  message   = "Leak"
  when      = line.leaks
  procedure = leak_list
}
procedure "pump_list" {
  title = "Pump list"
  do {
    says    = "Pump off"
    set     = pump_switch_left
    to      = "off"
    because = "So that it is reset."
  }
  do {
    says = "Pump on"
    set  = pump_switch_left
    to   = "on"
  }
  do {
    says = "Horn pressed"
    set  = horn
    to   = "pressed"
  }
  check {
    that = pump_runs
    says = "Pump runs"
  }
  note { says = "Tell the cabin." }
  do { says = "Take care." }
}
indication "pump_runs" {
  shows = pump
}
indication "oil_left" {
  shows = oil_kg
}
procedure "leak_list" {
  title = "Leak list"
  do {
    set = valve
    to  = "shut"
  }
  do {
    set = horn
    to  = "out"
  }
  decide {
    that = oil_left > 0
    says = "Anything left?"
    then {
      note { says = "Good." }
    }
    else {
      note { says = "Bad." }
    }
  }
}
`

func smallTeam(t *testing.T) *crew.Team {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame)}})
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

func procedure(t *testing.T, b *book.Build, id string) *book.Procedure {
	t.Helper()
	for _, p := range b.Procedures {
		if p.ID == id {
			return p
		}
	}
	t.Fatal("no procedure", id)
	return nil
}

// assessed is what a procedure of the small book is worth with a failure that
// comes 500 s into the flight.
func assessed(t *testing.T, id, unit, fault string, resettable bool) *worth.Worth {
	t.Helper()
	tm := smallTeam(t)
	s := worth.Failing(book.Moment{Offset: 500 * book.Second}, book.FailureRef{Unit: unit, Fault: fault})
	s.Strikes[0].Resettable = resettable
	w, err := worth.Assess(context.Background(), tm, s, procedure(t, tm.Build(), id))
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func because(t *testing.T, w *worth.Worth, want map[string]string) {
	t.Helper()
	for _, s := range w.Steps {
		if part, ok := want[s.Number]; ok && !strings.Contains(s.Because, part) {
			t.Errorf("step %s: %q, want %q", s.Number, s.Because, part)
		}
	}
}

func TestAssess_Reset(t *testing.T) {
	w := assessed(t, "pump_list", "pump", "", true)
	because(t, w, map[string]string{
		"1": "It brings back: Flow lost",
		"2": "It brings back: Flow lost",
		"3": "Nothing in this model",
		"4": "Nothing in this model: it moves nothing, and finds that all is as it should be.",
		"5": "Nothing in this model: it is a word to people",
		"6": "Nothing in this model: it names nothing that the book knows.",
	})
}

// TestAssess_ForGood: a failure that no reset clears. The switch is then worth
// nothing, and the horn sounds on to the end without the third step.
func TestAssess_ForGood(t *testing.T) {
	w := assessed(t, "pump_list", "pump", "", false)
	because(t, w, map[string]string{
		"1": "Nothing",
		"3": "caution “Pump off” sounds",
		"4": "It finds that it is not so",
	})
	left := w.Steps[2].Left()
	if h, ok := left.Worst(); !ok || h.Kind != worth.Repeats || h.Count < 20 {
		t.Errorf("without the horn button: %+v", left.Harms)
	}
}

// TestAssess_LateAndWrong: five minutes are what the tank holds, so a valve that
// is shut five minutes late is shut too late; on the switch beside it something
// else is lost.
func TestAssess_LateAndWrong(t *testing.T) {
	w := assessed(t, "leak_list", "line", "leaks", false)
	step := w.Steps[0]
	because(t, w, map[string]string{
		"1":        "It prevents: Gear lost",
		"2":        "Nothing in this model: horn button is at “out” already",
		"3":        "Nothing in this model: both ways lead to words",
		"3.then.1": "it is a word to people",
		"3.else.1": "Not reached with this failure: the answer at 3 is yes",
	})
	if h, _ := step.Left().Worst(); h.Item != "gear" || !h.Mattered || h.Bites <= h.From {
		t.Errorf("the gear is wanted in the descent only: %+v", h)
	}
	late := map[book.Time]bool{}
	var wrong []string
	for _, tr := range step.Trials {
		_, bad := tr.Worst()
		switch tr.Change.Kind {
		case crew.Late:
			late[tr.Change.By/book.Second] = bad
		case crew.Wrong:
			wrong = append(wrong, tr.Change.Control+"="+tr.Change.Position)
		}
	}
	if late[10] || late[120] || !late[300] {
		t.Errorf("late: %v", late)
	}
	if strings.Join(wrong, " ") != "pump_switch_right=off" {
		t.Errorf("wrong switches: %v", wrong)
	}
}

func TestAssess_TheMirrorIsTheWrongSwitch(t *testing.T) {
	w := assessed(t, "pump_list", "pump", "", false)
	for _, tr := range w.Steps[0].Trials {
		if tr.Change.Kind == crew.Wrong && tr.Change.Control == "pump_switch_right" {
			if h, ok := tr.Worst(); !ok || h.Item != "other" || h.Kind != worth.Loss {
				t.Errorf("the right switch: %+v", tr.Harms)
			}
			return
		}
	}
	t.Error("the mirror image of the left switch is not tried")
}

func TestAssess_NotCalled(t *testing.T) {
	tm := smallTeam(t)
	_, err := worth.Assess(context.Background(), tm, worth.Failing(book.Moment{}, book.FailureRef{Unit: "line"}), procedure(t, tm.Build(), "pump_list"))
	var not *worth.NotCalled
	if !errors.As(err, &not) {
		t.Errorf("error %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := worth.Assess(stopped, tm, worth.Failing(book.Moment{Offset: 800 * book.Second}, book.FailureRef{Unit: "pump"}), procedure(t, tm.Build(), "pump_list")); err == nil {
		t.Error("no error though it was stopped")
	}
}

// TestTraps_TheSilentFirst: the gear that will not come down, of which nothing
// tells and which comes late, before the horn, which tells of itself.
func TestTraps_TheSilentFirst(t *testing.T) {
	traps := worth.Traps(assessed(t, "pump_list", "pump", "", false), assessed(t, "leak_list", "line", "leaks", false))
	if len(traps) < 2 || traps[0].Harm.Item != "gear" || traps[len(traps)-1].Harm.Kind != worth.Repeats {
		t.Errorf("traps: %+v", traps)
	}
	for _, tr := range traps {
		if tr.After < 0 {
			t.Errorf("step %s bites %v before it is due", tr.Step.Number, tr.After)
		}
	}
}

// TestStudy_FindsWhatCalls and chooses, for each step, the failure in which it
// does most: for the switch the one that a reset clears, for the horn the other.
func TestStudy_FindsWhatCalls(t *testing.T) {
	tm := smallTeam(t)
	ctx := context.Background()
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		t.Fatal(err)
	}
	p := procedure(t, tm.Build(), "pump_list")
	s, err := c.Study(ctx, p, c.Likely(p), worth.DefaultBounds)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Worths) != 2 || len(s.Best) != 6 {
		t.Fatalf("%d worths, %d steps", len(s.Worths), len(s.Best))
	}
	if s.Best[0].Step.Nothing || s.Best[2].Step.Nothing || s.Best[0].Worth == s.Best[2].Worth {
		t.Errorf("step 1: %s step 3: %s", s.Best[0].Step.Because, s.Best[2].Step.Because)
	}
	none, err := c.Study(ctx, p, nil, worth.DefaultBounds)
	if err != nil || len(none.Worths) != 0 || none.Best[0].Worth != nil {
		t.Errorf("with nothing to try: %v %v", none, err)
	}
}
