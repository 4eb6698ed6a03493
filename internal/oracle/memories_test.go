package oracle_test

import "testing"

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
signal "iced_once" { value = real.icing && presses_count == 0 }`,
			path: "icing 1-2 3-4 6-7", end: 8,
			want: map[string]string{"third value": "no 6:yes", "iced_once value": "no 1:yes 1:no"},
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
