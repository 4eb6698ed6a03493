package still_test

import (
	"context"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/ways"
)

// TestUntold_FalseAlarmTellsNothing: the alert believes in the pump and speaks of
// the brakes, which the valve takes too: with the pump alone it is right, with the
// valve and its sensor it is false, and so the loss is untold.
func TestUntold_FalseAlarmTellsNothing(t *testing.T) {
	loaded, ds := book.Load(context.Background(), fstest.MapFS{"toy.hcl": {Data: []byte(`
aircraft "toy" { title = "Toy" }
phase "all" {}
flight "hop" {
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
unit "pump" {}
unit "valve" {}
unit "sensor" {}
function "brakes" { works = pump && valve }
alert "pump_low" {
  level     = "caution"
  message   = "PUMP"
  when      = !pump || !sensor
  true_when = !pump
  tells     = [brakes]
}
`)}})
	s := newScene(t, load(t, loaded, ds), 100*book.Second)
	top, err := s.s.Untold("brakes")
	if err != nil {
		t.Fatal(err)
	}
	w, err := ways.Find(context.Background(), s.s.Logic, top, ways.Options{Order: 2})
	if err != nil {
		t.Fatal(err)
	}
	if list, all := w.List(1, 9); !all || len(list) != 1 || w.Names(list[0])[0] != "valve" {
		t.Errorf("alone: %v", list)
	}
	happened := func(names ...string) func(int) bool {
		return func(e int) bool {
			for _, n := range names {
				if x, ok := s.s.Logic.Find(n); ok && s.s.Logic.K(x) == e {
					return true
				}
			}
			return false
		}
	}
	if !s.s.Logic.Eval(top, happened("valve", "sensor")) {
		t.Error("a false alarm tells of the brakes")
	}
	if s.s.Logic.Eval(top, happened("pump")) {
		t.Error("a true alert does not")
	}
}
