package oracle_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/oracle"
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

func TestMemories(t *testing.T) {
	check(t, []example{
		{
			name: "a latch keeps what it was, and reset wins",
			book: `
signal "kept" {
  set   = real.icing
  reset = real.braking
}`,
			path: "icing 1-4 6-9; braking 3-5 7-8", end: 12,
			want: map[string]string{"kept value": "no 1:yes 3:no 6:yes 7:no 8:yes"},
		},
		{
			name: "a latch may start set",
			book: `
signal "kept" {
  set     = false
  reset   = real.braking
  initial = true
}`,
			path: "braking 3-5", end: 8,
			want: map[string]string{"kept value": "yes 3:no"},
		},
		{
			name: "held runs out s after the rise and begins again after a break",
			book: `signal "long" { value = held(real.icing, 5) }`,
			path: "icing 1-8 10-13 14-30", end: 32,
			want: map[string]string{"long value": "no 6:yes 8:no 19:yes 30:no"},
		},
		{
			name: "held of nothing is x",
			book: `signal "long" { value = held(real.icing, 0) }`,
			path: "icing 1-8", end: 10,
			want: map[string]string{"long value": "no 1:yes 8:no"},
		},
		{
			name: "pulse lasts s, and no longer than x",
			book: `signal "short" { value = pulse(real.icing, 5) }`,
			path: "icing 1-8 10-12 20-30", end: 32,
			want: map[string]string{"short value": "no 1:yes 6:no 10:yes 12:no 20:yes 25:no"},
		},
		{
			name: "what is yes at the start has been so for long",
			book: `
signal "long" { value = held(real.icing, 5) }
signal "short" { value = pulse(real.icing, 5) }
signal "rise" { value = long && !before(long) }
signal "times_count" { value = count(real.icing) }
signal "often" { value = times_count > 0 }`,
			path: "icing 0-2 3-20", end: 22,
			want: map[string]string{
				"long value": "yes 2:no 8:yes 20:no", "short value": "no 3:yes 8:no",
				"rise value": "no 8:yes 8:no", "often value": "no 3:yes",
			},
		},
		{
			name: "frozen keeps the left limit, also when x jumps with the condition",
			book: `
signal "level_count" { value = real.icing ? 20 : 10 }
signal "kept_count" { value = frozen(level_count, real.icing) }
signal "ten" { value = kept_count == 10 }
signal "way" { value = frozen(real.icing ? "out" : "in", real.braking) }`,
			path: "icing 4-8 12-20; braking 14-18", end: 20,
			want: map[string]string{"ten value": "yes", "way value": "in 4:out 8:in 12:out 20:in"},
		},
		{
			name: "frozen stays closed while its condition lasts",
			book: `signal "kept" { value = frozen(real.icing, real.braking) }`,
			path: "icing 2-4 7-9; braking 3-6 9-11", end: 12,
			want: map[string]string{"kept value": "no 2:yes 6:no 7:yes 11:no"},
		},
		{
			name: "frozen from the start keeps what x is at the start",
			book: `
signal "late" {
  set   = real.icing
  reset = false
}
signal "kept" { value = frozen(late, real.braking) }`,
			path: "icing 0-1 5-6; braking 0-4", end: 8,
			want: map[string]string{"kept value": "yes"},
		},
		{
			name: "before shows a rise, which has no duration but sets a latch",
			book: `
signal "rise" { value = real.icing && !before(real.icing) }
signal "fall" { value = !real.icing && before(real.icing) }
signal "kept" {
  set   = rise
  reset = fall
}`,
			path: "icing 2-5 7-8", end: 9,
			want: map[string]string{
				"rise value": "no 2:yes 2:no 7:yes 7:no",
				"fall value": "no 5:yes 5:no 8:yes 8:no",
				"kept value": "no 2:yes 5:no 7:yes 8:no",
			},
		},
		{
			name: "nothing has risen at the start",
			book: `
signal "rise" { value = real.icing && !before(real.icing) }
signal "fall" { value = !real.braking && before(!real.icing) }`,
			path: "icing 0-5", end: 6,
			want: map[string]string{"rise value": "no", "fall value": "no 5:yes"},
		},
		{
			name: "a number before this instant does not go stale",
			book: `
signal "moves" { value = real.height_ft != before(real.height_ft) }
signal "jump_ft" { value = real.icing ? 2 * real.height_ft : real.height_ft }
signal "jumps" { value = jump_ft - before(jump_ft) > 40 }`,
			path: "height_ft 0:0 10:100; icing 5-8", end: 10,
			want: map[string]string{"moves value": "no", "jumps value": "no 5:yes 5:no"},
		},
		{
			name: "in a second instant the left limit is what the first one settled",
			book: `
signal "x" { value = frozen(before(real.icing), before(real.braking)) }
signal "level_ft" { value = real.icing ? 10 : 20 }
signal "y_ft" { value = frozen(before(level_ft), before(real.braking)) }
signal "ten" { value = y_ft == 10 }`,
			path: "icing 0-5; braking 5-9", end: 12,
			want: map[string]string{"x value": "yes 9:no", "ten value": "yes 9:no"},
		},
		{
			name: "before the first evaluation a word is the first of its words",
			book: `
control "lever" {
  positions = ["up", "down", "middle"]
  initial   = "up"
}
signal "last" { value = real.icing ? lever : before(last) }`,
			path: "icing 2-4", end: 6,
			want: map[string]string{"last value": "down 2:up"},
		},
		{
			name: "a button that toggles",
			book: `
signal "press" { value = real.icing && !before(real.icing) }
signal "on" { value = press ? !before(on) : before(on) }`,
			path: "icing 2-3 5-6 8-9", end: 10,
			want: map[string]string{"on value": "no 2:yes 5:no 8:yes"},
		},
		{
			name: "count goes up when the instant is over",
			book: `
signal "presses_count" { value = count(real.icing) }
signal "third" { value = presses_count >= 3 }
signal "seen" { value = real.icing && presses_count == 0 }`,
			path: "icing 1-2 3-4 6-7", end: 8,
			want: map[string]string{"third value": "no 6:yes", "seen value": "no 1:yes 1:no"},
		},
		{
			name: "count(x) of a rise that has no duration",
			book: `
signal "rise" { value = real.icing && !before(real.icing) }
signal "second" { value = count(rise) >= 2 }`,
			path: "icing 1-2 3-4 6-7", end: 8,
			want: map[string]string{"second value": "no 3:yes"},
		},
	})
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
