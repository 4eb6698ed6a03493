package still_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/ways"
	"knockon/ways/logic"
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

// TestLostUntoldWrong_ByTheirWords of docs/meaning.md, section 9: what is given,
// false or wrong without failures as well does not count.
func TestLostUntoldWrong_ByTheirWords(t *testing.T) {
	s := sceneOf(t, "", `
		function "f" { works = a && b }
		function "idle" { works = a && real.on_ground }
		alert "right" {
		  level   = "caution"
		  message = "RIGHT"
		  when    = !a
		  tells   = [f]
		}
		alert "always" {
		  level   = "caution"
		  message = "ALWAYS"
		  when    = real.height_ft > 100
		  tells   = [f]
		}
		alert "of_others" {
		  level   = "caution"
		  message = "OTHERS"
		  when    = !b
		  tells   = [idle]
		}
		signal "shown_v" { value = d.stuck ? 1 : (b ? 1 : 0) }
		signal "true_v" { value = b ? 1 : 0 }
		indication "gauge" {
		  shows = shown_v
		  means = true_v
		  tells = [f]
		}
		indication "askew" {
		  shows = 3 + true_v
		  means = true_v
		  tells = [f]
		}
		indication "other" {
		  shows = a ? 1 : 2
		  means = 1 * aircraft.one_v
		  tells = [idle]
		}
		`)
	type question struct {
		name string
		ask  func(string) (logic.Term, error)
		of   string
		want []string // sets that are lost, untold or wrong
		not  []string
	}
	for _, q := range []question{
		{"lost", s.s.Lost, "f", []string{"a", "b", "storm", "a c"}, []string{"", "c", "d"}},
		{"lost", s.s.Lost, "idle", nil, []string{"", "a"}},
		{"untold", s.s.Untold, "f", []string{"b", "b c"}, []string{"a", "a b", "storm", "c", ""}},
		{"wrong", s.s.Wrong, "f", []string{"b d.stuck"}, []string{"b", "d.stuck", "a d.stuck", "a b d.stuck", ""}},
	} {
		term, err := q.ask(q.of)
		if err != nil {
			t.Fatal(err)
		}
		for i, set := range append(append([]string{}, q.want...), q.not...) {
			happened := map[int]bool{}
			for _, name := range strings.Fields(set) {
				e, ok := s.s.Logic.Find(name)
				if !ok {
					t.Fatal("no event", name)
				}
				happened[s.s.Logic.K(e)] = true
			}
			if got := s.s.Logic.Eval(term, func(e int) bool { return happened[e] }); got != (i < len(q.want)) {
				t.Errorf("%s is %s by %q: %v", q.of, q.name, set, got)
			}
		}
	}
}
