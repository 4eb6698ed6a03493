package still_test

import (
	"context"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/ways/logic"
	"knockon/ways/still"
)

// toy is a book of a few lines that flies; each test adds what it asks about.
// The moment of the tests is 600 s: the cruise.
const toy = `
aircraft "toy" {
  title = "Toy"
  one_v = 1
}
phase "all" {}
phase "up" { begins = !real.on_ground }
phase "never" { begins = real.height_ft > 90000 }
flight "hop" {
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 9000
  distance_nm        = 90
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
  ACTS
}
unit "a" {}
unit "b" {}
unit "c" { needs = b }
unit "d" {
  fault "stuck" {}
}
event "storm" { fails = [a, c] }
`

const moment = 600 * book.Second

// sceneOf is the toy with more in it, held still at the moment.
func sceneOf(t *testing.T, acts, more string) *scene {
	t.Helper()
	return newScene(t, toyBuild(t, acts, more), moment)
}

func toyBuild(t *testing.T, acts, more string) *book.Build {
	t.Helper()
	loaded, ds := book.Load(context.Background(), fstest.MapFS{"toy.hcl": {Data: []byte(strings.Replace(toy, "ACTS", acts, 1) + more)}})
	if ds.HasErrors() {
		t.Fatal(ds)
	}
	return load(t, loaded, ds)
}

// everyPair are the sets of up to two failures of a book.
func everyPair(b *book.Build) (list [][]string) {
	all := failures(b)
	list = append(list, nil)
	for i, x := range all {
		list = append(list, []string{x})
		for _, y := range all[:i] {
			list = append(list, []string{x, y})
		}
	}
	return list
}

// TestOf_EveryOperatorIsWhatTheRunComesTo (docs/meaning.md, section 9): for each
// kind of memory, timer, number, word and act, and every one and two failures,
// the term is the value that the flight which stands still has in the end.
func TestOf_EveryOperatorIsWhatTheRunComesTo(t *testing.T) {
	const lever = "control \"lever\" {\n positions = [\"on\", \"off\", \"third\"]\n initial = \"on\"\n}\nsignal \"is_off\" { value = lever == \"off\" }\n"
	for name, c := range map[string]struct{ acts, more string }{
		"latches": {"", `
			signal "set_by_a" {
			  set   = !a
			  reset = !b
			}
			signal "reset_by_a" {
			  set     = !b && !d
			  reset   = !a
			  initial = true
			}
			signal "own_cause" {
			  set   = !a && !gone_on
			  reset = false
			}
			signal "gone_on" {
			  set   = own_cause && !b
			  reset = false
			}
			signal "set_before" {
			  set   = real.height_ft > 100 && a
			  reset = false
			}`},
		"timers": {"", `
			signal "lasts" { value = held(!a || !b, 20) }
			signal "stood" { value = held(a && b, 20) }
			signal "never_so_long" { value = held(!a, 9000) }
			signal "at_once" { value = held(!a, 0) }
			signal "short" { value = pulse(!a, 20) }
			signal "stands" { value = pulse(a, 20) }
			signal "long" { value = pulse(!a && b, 9000) }
			signal "still_long" { value = pulse(b, 9000) }
			signal "none" { value = pulse(!a, 0) }
			signal "caught" {
			  set   = pulse(!a, 20) && held(!b, 10)
			  reset = false
			}
			signal "missed" {
			  set   = pulse(!a, 10) && held(!b, 20)
			  reset = false
			}
			signal "not_yet" {
			  set   = held(real.time_s > 590 || !d, 30) && !held(!b, 10)
			  reset = false
			}
			signal "comes_in_time" { value = held(held(!a, 20), 8) }
			signal "starves_not" {
			  set   = held(held(!a, 20) && !comes_in_time, 30)
			  reset = false
			}
			signal "comes_late" { value = held(held(!b, 20), 40) }
			signal "starves" {
			  set   = held(held(!b, 20) && !comes_late, 30)
			  reset = false
			}
			signal "begins_anew" {
			  set   = held(!a && !pulse(held(!b, 5), 5), 8) && !held(!a, 12)
			  reset = false
			}
			signal "first" {
			  set   = held(!a, 10) && !second
			  reset = false
			}
			signal "second" {
			  set   = held(!b, 20) && !first
			  reset = false
			}`},
		"looking back": {"", `
			signal "was" { value = before(!a) }
			signal "fell" {
			  set   = before(a) && !a
			  reset = false
			}
			signal "not_fell" {
			  set   = before(b) && !a && !b
			  reset = false
			}
			signal "keeps" { value = frozen(b, !a) }
			signal "keeps_late" { value = frozen(b, held(!a, 10)) }
			signal "closed" { value = frozen(b, real.height_ft > 100) }
			signal "opens" { value = frozen(b, real.height_ft > 100 && a) }
			signal "how_ft" { value = frozen(b ? 100 : 200, !a) }
			signal "high" { value = how_ft > 150 }`},
		"frozen alone": {"", `
			signal "keeps" { value = frozen(b, !a) }`},
		"counts": {"", `
			signal "twice" { value = count(!a || held(!b, 10)) >= 2 }
			signal "once" { value = count(!a || held(!b, 10)) == 1 }
			signal "falls" { value = count(a) > 0 }
			signal "round" { value = count(pulse(!a, 5) || held(!a, 15)) == 2 }`},
		"numbers": {"", `
			signal "sum_v" { value = (a ? 10 : 1) + (b ? 20 : 2) * (d ? 1 : 3) - (d.stuck ? 5 : 0) }
			signal "over" { value = sum_v > 12 }
			signal "even" { value = sum_v == 30 }
			signal "down" { value = -sum_v < -16 }
			signal "part" { value = sum_v / 4 <= 4 }
			signal "least" { value = least_of(sum_v, a ? 7 : 50) < 10 }
			signal "most" { value = most_of(sum_v, a ? 7 : 50) >= 40 }
			signal "two" { value = at_least(2, !a, !b, d.stuck) }
			signal "three" { value = at_least(3, !a, !b, d.stuck, !c) }
			signal "way" { value = a ? b : d }
			signal "alike" { value = (a && b) == (real.height_ft > 100) }
			signal "not_alike" { value = (a || d) != !b }`},
		"acts": {`
			act "off with it" {
			  set  = lever
			  to   = "off"
			  when = !a
			}
			act "and on again" {
			  set  = lever
			  to   = "on"
			  when = !b
			}
			act "late" {
			  set  = lever
			  to   = "third"
			  when = held(!d, 10)
			}
			act "before it came" {
			  set  = lever
			  to   = "third"
			  when = real.height_ft > 100 && a
			}`, lever + `signal "third" { value = lever == "third" }
			signal "after" {
			  set   = is_off && !d
			  reset = false
			}
			signal "shown" { value = frozen(lever, !c) == "third" }`},
	} {
		t.Run(name, func(t *testing.T) {
			s := sceneOf(t, c.acts, c.more)
			for _, set := range everyPair(s.stood.Build) {
				compared, differ := s.check(t, set...)
				if compared < 10 || len(differ) > 0 {
					t.Errorf("%v: %d values compared; %v differ", set, compared, differ)
				}
			}
		})
	}
}

// term is that of a signal of the scene.
func (s *scene) term(t *testing.T, id string) (logic.Term, error) {
	t.Helper()
	n, ok := s.c.Node(circuit.Value{Item: id})
	if !ok {
		t.Fatal("no", id)
	}
	return s.s.Term(n)
}

// TestTerm_RefusesWhatItCannotFollow, and says for which item: a number of 64
// values is followed, one of 128 is not, nor what is worked out from two of them
// by more than 2,048 combinations, nor any memory of such a value.
func TestTerm_RefusesWhatItCannotFollow(t *testing.T) {
	var units strings.Builder
	sum := func(ids string) string {
		var parts []string
		for i, id := range ids {
			parts = append(parts, "("+string(id)+" ? "+[]string{"1", "2", "4", "8", "16", "32", "64"}[i]+" : 0)")
		}
		return strings.Join(parts, " + ")
	}
	for _, id := range "efghijklmn" {
		units.WriteString("unit \"" + string(id) + "\" {}\n")
	}
	s := sceneOf(t, `
			act "with it" {
			  set  = lever
			  to   = "off"
			  when = too_many
			}`, units.String()+`
		control "lever" {
		  positions = ["on", "off"]
		  initial   = "on"
		}
		signal "six_v" { value = `+sum("efghij")+` }
		signal "five_v" { value = `+sum("klmna")+` }
		signal "other_v" { value = `+sum("klmnab")+` }
		signal "seven_v" { value = `+sum("efghijk")+` }
		signal "enough" { value = six_v > 30 }
		signal "too_many" { value = seven_v > 30 }
		signal "just" { value = six_v > five_v }
		signal "crossed" { value = six_v > other_v }
		signal "and_so" { value = too_many && !a }
		signal "or_so" { value = a ? b : too_many }
		signal "by_it" { value = too_many ? a : b }
		signal "later" { value = held(too_many, 3) }
		signal "set_by" {
			  set   = too_many
			  reset = false
			}
		signal "reset_by" {
		  set   = !a
		  reset = too_many
		}
		signal "back" { value = before(too_many) }
		signal "kept" { value = frozen(a, too_many) }
		signal "many" { value = count(too_many) > 1 }
		signal "moved" { value = lever == "off" }`)
	for id, item := range map[string]string{"enough": "", "just": "", "crossed": "crossed", "too_many": "seven_v", "and_so": "seven_v", "or_so": "seven_v", "by_it": "seven_v",
		"later": "seven_v", "set_by": "seven_v", "reset_by": "seven_v", "back": "seven_v", "kept": "seven_v", "many": "many", "moved": "seven_v"} {
		_, err := s.term(t, id)
		switch {
		case item == "" && err != nil:
			t.Errorf("%s: %v", id, err)
		case item != "" && (err == nil || !strings.Contains(err.Error(), "depends on "+item+",")):
			t.Errorf("%s: %v, want one that names %s", id, err, item)
		}
	}
	if _, err := s.term(t, "six_v"); err == nil {
		t.Error("a number has ways")
	}
}

// TestStill_SaysWhatIsNotThere: moments outside of the run, phases that there are
// not or that never come, items and expressions that nobody observes.
func TestStill_SaysWhatIsNotThere(t *testing.T) {
	b := toyBuild(t, "", "function \"f\" { works = a }\n")
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := course.Healthy(t.Context(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	for at, ok := range map[book.Time]bool{-1: false, 0: true, r.End: true, r.End + 1: false} {
		if _, err := still.Of(r.Trace, at); (err == nil) != ok {
			t.Errorf("at %d of %d: %v", at, r.End, err)
		}
	}
	for phase, says := range map[string]string{"a": "there is no phase", "nowhere": "there is no phase", "never": "never comes to phase never"} {
		if _, err := still.Middle(r.Trace, phase); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", phase, err)
		}
	}
	from, _ := r.PhaseBegins("up")
	if at, err := still.Middle(r.Trace, "up"); err != nil || at != (from+r.End)/2 {
		t.Errorf("the middle of %d to %d is %d, %v", from, r.End, at, err)
	}
	s, _ := still.Of(r.Trace, moment)
	for _, f := range []func(string) (logic.Term, error){s.Lost, s.Untold, s.Wrong} {
		if _, err := f("g"); err == nil || !strings.Contains(err.Error(), `"g"`) {
			t.Errorf("a function that there is not: %v", err)
		}
	}
	if _, err := s.Holds(b.Functions[0].Works); err == nil {
		t.Error("an expression that nobody observes holds")
	}
	if !s.Before("f") || !s.Before("up") || s.Before("all") || s.Before("nothing") {
		t.Error("what is so with nothing failed is not said right")
	}
}

// TestOf_ALoopThatDoesNotSettleIsAnError, and no term.
func TestOf_ALoopThatDoesNotSettleIsAnError(t *testing.T) {
	b := toyBuild(t, "", "signal \"flips\" { value = !a && !before(flips) }\n")
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := course.Healthy(t.Context(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := still.Of(r.Trace, moment); err == nil || !strings.Contains(err.Error(), "at 600 s") {
		t.Errorf("%v", err)
	}
}

// TestBuiltUp_IsWhatReadsATotalThatFailuresMove, at any remove, by way of acts
// too; a total that nothing moves is none.
func TestBuiltUp_IsWhatReadsATotalThatFailuresMove(t *testing.T) {
	s := sceneOf(t, `
			act "when low" {
			  set  = lever
			  to   = "off"
			  when = empty
			}`, `
		control "lever" {
		  positions = ["on", "off"]
		  initial   = "on"
		}
		signal "charge_s" { value = total(a ? 0 : -1, 900, 0, 900) }
		signal "empty" { value = charge_s <= 0 }
		signal "after" { value = held(empty, 5) && b }
		signal "moved" { value = lever == "off" }
		signal "hours_s" { value = total(real.on_ground) }
		signal "old" { value = hours_s > 5 || !b }
		signal "plain" { value = !a }`)
	for id, want := range map[string]bool{"empty": true, "after": true, "moved": true, "old": false, "plain": false} {
		n, _ := s.c.Node(circuit.Value{Item: id})
		if s.s.BuiltUp(n) != want {
			t.Errorf("%s: built up %v", id, !want)
		}
	}
}

// TestOf_ProbabilitiesAreOfTheWholeFlight: p = 1 − e^(−rt) for units, faults and
// events that have a rate, t the hours of the flight; none for others.
func TestOf_ProbabilitiesAreOfTheWholeFlight(t *testing.T) {
	b := toyBuild(t, "", `
		unit "u" {
		  rate_per_hour = 1e-3
		  fault "low" {
			    rate_per_hour = 2e-3
			  }
		}
		event "both" {
		  fails         = [u, b]
		  rate_per_hour = 5e-3
		}`)
	s := newScene(t, b, moment)
	r, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	hours := r.Path.End().Seconds() / 3600
	for name, rate := range map[string]float64{"u": 1e-3, "u.low": 2e-3, "both": 5e-3, "a": 0} {
		e, ok := s.s.Logic.Find(name)
		if !ok {
			t.Fatal("no event", name)
		}
		p, want := s.s.Logic.Events()[s.s.Logic.K(e)].P, 1-math.Exp(-rate*hours)
		if rate == 0 && !math.IsNaN(p) || rate > 0 && !(math.Abs(p-want) < 1e-12) {
			t.Errorf("%s: %g, want %g; without a rate none is known", name, p, want)
		}
	}
}
