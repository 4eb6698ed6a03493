package rescue

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
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
