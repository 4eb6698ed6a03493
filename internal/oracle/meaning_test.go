package oracle_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/oracle"
)

func sortTimes(t []book.Time) { slices.Sort(t) }

// example is a rule of docs/meaning.md with a worked example.
type example struct {
	name     string
	book     string
	path     string // see newScript
	end      float64
	scenario oracle.Scenario
	want     map[string]string // by item and aspect: "no 3:yes 5:no"
}

func check(t *testing.T, examples []example) {
	t.Helper()
	for _, ex := range examples {
		t.Run(ex.name, func(t *testing.T) {
			trace, err := fly(t, load(t, ex.book), ex.path, ex.end, ex.scenario)
			if err != nil {
				t.Fatal(err)
			}
			for name, want := range ex.want {
				item, of, _ := strings.Cut(name, " ")
				if got := told(trace.History(item, of)); got != want {
					t.Errorf("%s: got %s, want %s", name, got, want)
				}
			}
		})
	}
}

func TestTotals(t *testing.T) {
	b := load(t, `
signal "rate_ratio" { value = real.icing ? -2 : (real.braking ? 1 : 0) }
signal "tank_kg" { value = total(rate_ratio, 8, 0, 10) }
signal "empty" { value = tank_kg <= 0 }
signal "full" { value = tank_kg >= 10 }
signal "iced_s" { value = total(real.icing) }
signal "area_ratio" { value = total(real.height_ft) }
signal "twice_ratio" { value = total(area_ratio) }
`)
	trace, err := fly(t, b, "icing 4-12 20-23; braking 1-4 13-30; height_ft 0:0 10:100 30:100", 30, oracle.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	// 8 kg; +1 from 1 s, full at 3; -2 from 4, empty at 9; +1 from 13: 7 at 20; -2: 1 at 23; 8 at 30.
	for name, want := range map[string]string{"full": "no 3:yes 4.05:no", "empty": "no 9:yes 13.05:no"} {
		if got := told(trace.History(name, oracle.Value)); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
	for _, c := range []struct {
		name     string
		at, want float64
	}{
		{"tank_kg", 2, 9}, {"tank_kg", 4, 10}, {"tank_kg", 6, 6}, {"tank_kg", 12, 0}, {"tank_kg", 20, 7}, {"tank_kg", 23, 1}, {"tank_kg", 30, 8},
		{"iced_s", 3, 0}, {"iced_s", 6, 2}, {"iced_s", 30, 11},
		{"area_ratio", 10, 500}, {"area_ratio", 20, 1500}, // a triangle, then a rectangle
		{"twice_ratio", 10, 10 * 1000 / 6.0}, // 10 t^3 / 6
	} {
		got := numberAt(t, trace.History(c.name, oracle.Value), c.at)
		if d := got - c.want; d > 1e-3*c.want+1e-9 || -d > 1e-3*c.want+1e-9 {
			t.Errorf("%s at %g s: got %g, want %g", c.name, c.at, got, c.want)
		}
	}
}

func TestInstant(t *testing.T) {
	check(t, []example{
		{
			name: "a chain of latches falls in one instant",
			book: `
signal "first" {
  set     = false
  reset   = real.icing
  initial = true
}
signal "second" {
  set     = false
  reset   = !first
  initial = true
}
signal "third" {
  set     = false
  reset   = !second
  initial = true
}`,
			path: "icing 3-4", end: 5,
			want: map[string]string{"first value": "yes 3:no", "second value": "yes 3:no", "third value": "yes 3:no"},
		},
		{
			name: "two that hold each other fall together",
			book: `
unit "box" {}
signal "mode" {
  set     = real.braking && engaged
  reset   = !engaged
}
signal "engaged" {
  set   = real.icing && box
  reset = !box || (real.on_ground && !mode)
}`,
			path: "icing 1-2; braking 3-4; on_ground 5-20", end: 9,
			scenario: oracle.Scenario{Failures: []oracle.Failure{{Ref: book.FailureRef{Unit: "box"}, At: 7 * book.Second}}},
			want:     map[string]string{"engaged value": "no 1:yes 7:no", "mode value": "no 3:yes 7:no"},
		},
		{
			name: "timers settle before latches turn",
			book: `
signal "late" { value = held(real.icing, 3) }
signal "kept" {
  set   = real.icing && !pulse(real.icing, 3) && !late
  reset = false
}`,
			path: "icing 1-9", end: 10,
			want: map[string]string{"late value": "no 4:yes 9:no", "kept value": "no"},
		},
		{
			name: "a flicker inside an instant does not break a timer or a frozen value",
			book: `
signal "armed" {
  set   = real.braking
  reset = false
}
signal "flicker" { value = real.icing && (!real.braking || armed) }
signal "long" { value = held(flicker, 5) }
signal "kept_ft" { value = frozen(real.height_ft, flicker) }
signal "still_one" { value = kept_ft < 11 }`,
			path: "icing 1-20; braking 4-5; height_ft 0:0 20:200", end: 20,
			want: map[string]string{"flicker value": "no 1:yes 20:no", "long value": "no 6:yes 20:no", "still_one value": "yes 20:no"},
		},
		{
			name: "phases go on one after the other, as far as they can, and never back",
			book: `
phase "one" {}
phase "two" { begins = real.icing }
phase "three" { begins = real.braking }
phase "four" { begins = !real.icing }`,
			path: "icing 2-8; braking 0-3", end: 10,
			want: map[string]string{"one active": "yes 2:no", "two active": "no", "three active": "no 2:yes 8:no", "four active": "no 8:yes"},
		},
		{
			name: "a crossing is seen at the first step after it",
			book: `signal "high" { value = real.height_ft > 100 }`,
			path: "height_ft 0:0 30:300 60:0", end: 60,
			want: map[string]string{"high value": "no 10.05:yes 50:no"},
		},
	})
}

func TestLoopsAreReported(t *testing.T) {
	for _, c := range []struct {
		name, book string
		at         float64
		items      []string
	}{
		{"latch", `
signal "turns" {
  set   = real.icing && !turns
  reset = turns
}
signal "reads" { value = turns }
signal "rests" { value = real.icing }`, 3, []string{"turns", "reads"}},
		{"before", `signal "turns" { value = real.icing && !before(turns) }`, 3, []string{"turns"}},
		{"count", `
signal "number_count" { value = count(even) }
signal "even" { value = real.icing && size(number_count - before(number_count)) < 0.5 }`, 3, []string{"number_count", "even"}},
		{"frozen", `
signal "level_count" { value = real.icing ? 1 : 0 }
signal "kept_count" { value = frozen(level_count, high) }
signal "high" { value = kept_count > 0 }`, 3, []string{"kept_count", "high"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			trace, err := fly(t, load(t, c.book), "icing 3-5", 6, oracle.Scenario{})
			var loop *oracle.LoopError
			if !errors.As(err, &loop) || loop.At != book.AtSeconds(c.at) || !slices.Equal(loop.Items, c.items) {
				t.Fatalf("got %v, want a loop of %v at %g s", err, c.items, c.at)
			}
			if trace == nil || trace.History(c.items[0], oracle.Value) == nil {
				t.Error("the trace up to the loop is missing")
			}
		})
	}
}

func TestOperators(t *testing.T) {
	for text, want := range map[string]float64{
		"1 + 2 * 3 - 4 / 8": 6.5,
		"-(2 - 5)":          3,
		"0 / (3 - 3)":       0,
		"size(-7 / (3 - 3)) > 1000000000000000 ? 1 : 0": 1,
		"-7 / (3 - 3) < -1000000000000000 ? 1 : 0":      1,
		"7 / (3 - 3) * 2 - 7 / (3 - 3)":                 0,
		"least_of(3, 1, 2) + 10 * most_of(3, 1)":        31,
		"at_least(2, true, false, true) ? 1 : 0":        1,
		"at_least(3, true, false, true) ? 1 : 0":        0,
		"any(false, false) || all(true, true)":          1,
		"any(false, true) && all(true, false)":          0,
		"(2 <= 2) == (3 != 4)":                          1,
		"(2 < 2) || (3 > 3) || !(2 >= 2) || 1 > 2":      0,
		"(true ? \"up\" : \"down\") == \"up\"":          1,
	} {
		e := expr(t, text)
		b := load(t, `unit "box" {}`)
		trace, err := oracle.Fly(b, nil, newScript(t, "", 1), oracle.Scenario{}, step, e)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if got := trace.History("0", oracle.Watch).Changes[0].Value.Number; got != want {
			t.Errorf("%s: got %g, want %g", text, got, want)
		}
	}
}

func TestWrongArguments(t *testing.T) {
	b := load(t, `
unit "box" {}
control "lever" {
  positions = ["up", "down"]
  initial   = "up"
}`)
	box := book.FailureRef{Unit: "box"}
	for want, s := range map[string]oracle.Scenario{
		"no such unit":       {Failures: []oracle.Failure{{Ref: book.FailureRef{Unit: "bix"}}}},
		"fault or event":     {Inoperative: []book.FailureRef{{Unit: "box", Fault: "stuck"}}},
		"before the start":   {Failures: []oracle.Failure{{Ref: box, At: -1}}},
		"no control":         {Actions: []oracle.Action{{Control: "box", Position: "up"}}},
		"has no position":    {Actions: []oracle.Action{{Control: "lever", Position: "left"}}},
		"a time before the ": {Actions: []oracle.Action{{Control: "lever", Position: "up", At: -5}}},
	} {
		if _, err := fly(t, b, "", 1, s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want an error with %q", err, want)
		}
	}
	if _, err := oracle.Fly(b, nil, newScript(t, "", 1), oracle.Scenario{}, 0); err == nil {
		t.Error("a step of 0 was taken")
	}
}
