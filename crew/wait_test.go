package crew_test

import (
	"strings"
	"testing"
)

// A warning that waits is made late by nothing less; a line waits while it is seen
// that its time has not come; what is left already is not left twice.
func TestLinesThatWait(t *testing.T) {
	caution := alert("y", "caution", "!a", "y_list") + `procedure "y_list" {
		note { says = "one two" }
		note { says = "one two three four five six seven eight nine ten" }
		later {
			in = down
			note { says = "land" }
		}
	}
	`
	for _, c := range []struct {
		name, book, want string
		left             int // lines that were left for later, and done
	}{
		{
			name: "while a warning waits its list is found, and of a caution only that is begun which ends before",
			book: caution + alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				do {
					set         = left
					to          = "off"
					from_memory = true
				}
				decide {
					that   = reads_lamp
					wait_s = 30
					then {
						note { says = "good" }
					}
				}
			}`,
			want: `
2-4 PM x_list 1 left=off
4-14 PM x_list list
14-24 PM y_list list
24-26 PM y_list 1
34-36 PM x_list 2 no
36-56 PM x_list radio
56-66 PM y_list 2
66-67 PM y_list 3
`,
			left: 1,
		},
		{
			name: "no caution is begun whose list and first line would make it late",
			book: caution + alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				do {
					set         = left
					to          = "off"
					from_memory = true
				}
				check {
					that        = reads_lamp
					wait_s      = 21
				}
			}`,
			want: `
2-4 PM x_list 1 left=off
4-14 PM x_list list
25-26 PM x_list 2 no
26-46 PM x_list radio
46-56 PM y_list list
56-58 PM y_list 1
58-68 PM y_list 2
68-69 PM y_list 3
`,
			left: 1,
		},
		{
			name: "behind a wait whose end nobody knows nothing less is begun, and what was done from memory by another list is",
			book: caution + alert("x", "warning", "!a", "x_list") + alert("z", "caution", "!a", "z_list") + `signal "time" { value = held(!a, 40) }
			indication "clock" {
				shows = time
				means = time
			}
			procedure "x_list" {
				do {
					set         = left
					to          = "off"
					from_memory = true
					wait_for    = clock
				}
				note { says = "off" }
			}
			procedure "z_list" {
				do {
					set         = right
					to          = "off"
					by          = "PF"
					from_memory = true
				}
			}`,
			want: `
4-6 PF z_list 1 right=off
40-42 PM x_list 1 left=off
42-52 PM x_list list
52-53 PM x_list 2
53-73 PM x_list radio
73-83 PM y_list list
83-85 PM y_list 1
85-95 PM y_list 2
95-96 PM y_list 3
`,
			left: 1,
		},
		{
			name: "what cannot be seen holds no line up",
			book: alert("x", "warning", "!a", "x_list") + `indication "clock" {
				shows  = a
				means  = a
				lit_by = a
			}
			procedure "x_list" {
				do {
					set         = left
					to          = "off"
					from_memory = true
					wait_for    = clock
				}
			}`,
			want: `
2-4 PM x_list 1 left=off
4-24 PM x_list radio
`,
		},
		{
			name: "what a list has left already it does not leave a second time",
			book: alert("x", "caution", `!a && left == "on"`, "x_list") + `procedure "x_list" {
				do {
					says = "off"
					set  = left
					to   = "off"
				}
				later {
					in = down
					note { says = "land" }
				}
				do {
					says = "on"
					set  = left
					to   = "on"
				}
			}`,
			want: `
4-14 PM x_list list
14-17 PM x_list 1 left=off
17-18 PM x_list 2
18-21 PM x_list 3 left=on
25-35 PM x_list list
35-38 PM x_list 1 left=off
38-39 PM x_list 2
39-42 PM x_list 3 left=on
`,
			left: 1,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			all, _ := lines(t, small(t, c.book), "air + 60 s", "a")
			var got strings.Builder
			for _, l := range strings.SplitAfter(all, "\n") {
				if !strings.Contains(l, "later") && !strings.Contains(l, "brief") {
					got.WriteString(l)
				}
			}
			if want := strings.TrimPrefix(c.want, "\n"); got.String() != want {
				t.Errorf("got\n%swant\n%s", got.String(), want)
			}
			if n := strings.Count(all, "later"); n != c.left {
				t.Errorf("%d lines were left for later, want %d:\n%s", n, c.left, all)
			}
		})
	}
}
