package crew_test

import (
	"strings"
	"testing"
)

// What a warning waited to see goes before a caution that is not begun, what it left
// for a phase does not; and a warning breaks a briefing off.
func TestBriefing_AWarningComesFirst(t *testing.T) {
	warning := func(left string) string {
		return alert("x", "warning", "!a", "x_list") + alert("y", "caution", "!a", "y_list") + note("y_list") + `
		procedure "x_list" {
			later {
				` + left + `
				note { says = "one two three" }
				note { says = "four" }
			}
			do {
				set = left
				to  = "off"
			}
		}
		`
	}
	for _, c := range []struct{ name, book, at, want string }{
		{"what a warning waited to see", warning(`when = left == "off"`), "air + 20 s", `
2-12 PM x_list list
12-13 PM x_list 1
13-17 PM x_list 2 left=off
17-20 PM x_list 1.later.1
20-21 PM x_list 1.later.2
21-41 PM x_list radio
41-51 PM y_list list
51-52 PM y_list 1
`},
		{"what a warning left for a phase", warning("in = down"), "down - 60 s", `
2-12 PM x_list list
12-13 PM x_list 1
13-17 PM x_list 2 left=off
17-37 PM x_list radio
37-47 PM y_list list
47-48 PM y_list 1
60-90 both x_list brief
90-93 PM x_list 1.later.1
93-94 PM x_list 1.later.2
`},
		{"a briefing is broken off", warning("in = down") + alert("z", "warning", "held(!a, 70)", "z_list") + `procedure "z_list" {
			do {
				set         = right
				to          = "off"
				by          = "PF"
				from_memory = true
			}
		}`, "down - 60 s", `
2-12 PM x_list list
12-13 PM x_list 1
13-17 PM x_list 2 left=off
17-37 PM x_list radio
37-47 PM y_list list
47-48 PM y_list 1
60-72 both x_list brief
72-74 PF z_list 1 right=off
74-92 both x_list brief
92-95 PM x_list 1.later.1
95-96 PM x_list 1.later.2
96-116 PM z_list radio
`},
	} {
		if got, _ := lines(t, small(t, c.book), c.at, "a"); got != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s: got\n%s", c.name, got)
		}
	}
}
