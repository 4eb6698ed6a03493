package rescue

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
)

// harmful is a small aircraft with a list that does harm: it shuts a valve which
// the tail needs within two minutes, and pulls a breaker for nothing.
const harmful = `
aircraft "small" {
  title = "Small"
}
phase "ground" {}
phase "air" {
  begins = !real.on_ground
}
flight "hop" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 8000
  distance_nm        = 100
  rotate_kt          = 140
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 135
}
unit "pump" {}
control "valve" {
  title     = "Valve"
  positions = ["open", "shut"]
  initial   = "open"
}
control "breaker" {
  title     = "Breaker"
  positions = ["in", "out"]
  initial   = "in"
}
signal "frozen_tail" {
  value = held(valve == "shut", 120)
}
function "tail" {
  title    = "Tail"
  works    = !frozen_tail
  severity = "major"
}
function "fluid" {
  title    = "Fluid"
  works    = pump || BACKUP
  severity = "major"
}
alert "pump_lost" {
  title     = "Pump lost"
  level     = "caution"
  message   = "Pump"
  when      = !pump
  tells     = [fluid]
  procedure = pump_list
}
procedure "pump_list" {
  title = "Pump list"
  do {
    set = breaker
    to  = "out"
  }
  do {
    set = valve
    to  = "shut"
  }
}
`

func harmed(t *testing.T, function, backup string) *View {
	t.Helper()
	ctx := context.Background()
	text := strings.Replace(harmful, "BACKUP", backup, 1)
	b, diags := book.Load(ctx, fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	team, err := crew.NewTeam(build, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := failing("air", 60, "pump")
	a, err := Of(ctx, team.Course(), Question{Scenario: s, Function: function, Order: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := a.WithCrew(ctx, team, s, 1); err != nil {
		t.Fatal(err)
	}
	return a.View()
}

// TestWithCrew_AListThatMakesItWorse: a function that nobody's hands would keep is
// lost by a line of the list that is called; the answer names it, and until when it
// can be undone: less than the 120 s that the tail takes to freeze.
func TestWithCrew_AListThatMakesItWorse(t *testing.T) {
	v := harmed(t, "tail", "false")
	if !strings.Contains(v.Lead, "is not lost while it is wanted if nobody does anything") || !strings.HasPrefix(v.Crew, "With a crew by the book it is lost, and wanted, from +2:") {
		t.Errorf("%s\n%s", v.Lead, v.Crew)
	}
	if len(v.Worse) != 1 {
		t.Fatalf("%q", v.Worse)
	}
	for _, want := range []string{"of “Pump list”, valve to “shut” at +0:", "makes it worse: without it, it is kept.", "Put back to “open” by +2:", "it is kept as well."} {
		if !strings.Contains(v.Worse[0], want) {
			t.Errorf("%q does not say %q", v.Worse[0], want)
		}
	}
}

// TestWithCrew_SoonerThanNobodysHands: what is lost anyway is lost sooner by a line.
func TestWithCrew_SoonerThanNobodysHands(t *testing.T) {
	v := harmed(t, "fluid", `held(pump, 1) || (breaker == "in" && !(total(!pump) > 900))`)
	if !strings.Contains(v.Crew, "it is lost sooner, from +0:") || len(v.Worse) != 1 || !strings.Contains(v.Worse[0], "breaker to “out”") || !strings.Contains(v.Worse[0], "makes it worse: without it, it is lost 14 min") {
		t.Errorf("%s\n%q", v.Crew, v.Worse)
	}
}

// TestSpare_HeldByHand: an act of the flight undoes a move, which is said; one that is
// held stands, as when it is flown from the start.
func TestSpare_HeldByHand(t *testing.T) {
	text := randomFrame(`real.height_ft > 15000`)
	c, _, ok := courseOf(t, text)
	if !ok {
		t.Fatal(text)
	}
	k, err := book.Find("control", "control_0", c.Build.Controls)
	if err != nil {
		t.Fatal(err)
	}
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "pump"}}, At: book.Moment{Offset: book.AtSeconds(60)}}}}
	for _, held := range []bool{false, true} {
		set := Set{{Move: Move{Control: k, Position: "second", Held: held}}}
		p, err := Spare(context.Background(), c, s, set)
		if err != nil {
			t.Fatal(err)
		}
		v := p.View()
		if len(v.Steps) != 1 || (v.Steps[0].Windows[0].From.S == 10) != held || (v.Undone == "") != held || strings.Contains(v.Cost, "break off") {
			t.Errorf("held %v: %+v", held, v)
		}
		w := newSlow(t, c, s, c.Build.Functions[0])
		if kind, _, _ := w.verdict(w.strike+10*book.Second, set); (kind != Fails) != held {
			t.Errorf("held %v: the slow way says %v", held, kind)
		}
	}
}

// randomFrame is a book whose flight sets its one control on when a condition comes.
func randomFrame(when string) string {
	return `control "control_0" {
  positions = ["off", "on", "second"]
  initial   = "off"
}
unit "pump" {}
function "pressure" {
  works  = pump || control_0 == "second"
  wanted = real.height_ft > 18000
}
` + strings.NewReplacer("ACT", when, "ABLE\n", "").Replace(frame)
}
