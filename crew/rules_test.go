package crew_test

import (
	"strings"
	"testing"
)

func TestRules(t *testing.T) {
	for _, c := range []struct {
		name, book, at string
		what           []string
		want           string
	}{
		{
			name: "a list is found, then read line by line by the pilot monitoring",
			book: alert("x", "caution", "!a", "x_list") + `procedure "x_list" {
				do {
					says = "one two"
					set  = left
					to   = "off"
				}
				check { that = reads_lamp }
				do {
					says = "three"
					by   = "PF"
				}
				note { says = "four five six" }
			}`,
			what: []string{"a"},
			want: `
4-14 PM x_list list
14-18 PM x_list 1 left=off
18-19 PM x_list 2 no
19-21 PF x_list 3
21-24 PM x_list 4
`,
		},
		{
			name: "from memory each pilot begins as soon as he is free, and no list is needed",
			book: alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
				do {
					set         = right
					to          = "off"
					by          = "PM"
					from_memory = true
				}
				do {
					says        = "hold"
					by          = "both"
					from_memory = true
				}
			}`,
			what: []string{"a"},
			want: `
2-4 PF x_list 1 left=off
2-4 PM x_list 2 right=off
4-6 both x_list 3
6-26 PM x_list radio
`,
		},
		{
			name: "a decision is taken on the record of its moment, and a wait is kept",
			book: alert("x", "caution", "!a", "x_list") + `procedure "x_list" {
				do {
					set = left
					to  = "off"
					says = "off"
				}
				decide {
					that   = reads_lamp
					wait_s = 30
					by     = "both"
					then {
						note {
							says = "not this"
						}
					}
					else {
						decide {
							says = "nobody knows"
							then {
								note {
									says = "this"
								}
							}
						}
					}
				}
			}`,
			what: []string{"a"},
			want: `
4-14 PM x_list list
14-17 PM x_list 1 left=off
47-50 both x_list 2 no
50-54 PM x_list 2.else.1
54-55 PM x_list 2.else.1.then.1
`,
		},
		{
			name: "a warning interrupts a caution between two lines; after the radio call the caution is taken up again before others",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "warning", "held(!a, 12)", "y_list") + alert("z", "caution", "!b", "z_list") + `
			procedure "z_list" {
				note {
					says = "z"
				}
			}
			procedure "x_list" {
				priority = 1
				note { says = "one two three four" }
				note { says = "five" }
			}
			procedure "y_list" {
				note {
					says = "y"
				}
			}`,
			what: []string{"a", "b"},
			want: `
4-14 PM x_list list
14-24 PM y_list list
24-25 PM y_list 1
25-45 PM y_list radio
45-49 PM x_list 1
49-50 PM x_list 2
50-60 PM z_list list
60-61 PM z_list 1
`,
		},
		{
			name: "the radio waits until no line of a warning is under way",
			book: alert("x", "warning", "!a", "x_list") + alert("y", "warning", "!b", "y_list") + `
				procedure "x_list" {
					note {
						says = "x"
					}
				}
				procedure "y_list" {
					decide {
						that = reads_lamp
						then {
							note {
								says = "y"
							}
						}
					}
				}`,
			what: []string{"a", "b"},
			want: `
2-12 PM x_list list
12-13 PM x_list 1
13-23 PM y_list list
23-25 PM y_list 1 yes
25-26 PM y_list 1.then.1
26-46 PM x_list radio
`,
		},
		{
			name: "of one level the priority decides, then the place in the book",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!a", "y_list") + alert("z", "caution", "!a", "z_list") + `
			procedure "x_list" {
				note {
					says = "x"
				}
			}
			procedure "y_list" {
				note {
					says = "y"
				}
			}
			procedure "z_list" {
				priority = 10
				note { says = "z" }
			}`,
			what: []string{"a"},
			want: `
4-14 PM z_list list
14-15 PM z_list 1
15-25 PM x_list list
25-26 PM x_list 1
26-36 PM y_list list
36-37 PM y_list 1
`,
		},
		{
			name: "a consequence waits for its cause, whatever the priority, and is dropped when it goes with it",
			book: alert("x", "caution", "!c && left == \"on\"", "x_list") + alert("y", "caution", "!a", "y_list") + alert("z", "caution", "!c", "z_list") + `
			procedure "x_list" {
				priority = 1
				note { says = "x" }
			}
			procedure "z_list" {
				priority = 2
				note { says = "z" }
			}
			procedure "y_list" {
				do {
					says = "off"
					set  = left
					to   = "off"
				}
			}`,
			what: []string{"a"},
			want: `
4-14 PM y_list list
14-17 PM y_list 1 left=off
17-27 PM z_list list
27-28 PM z_list 1
`,
		},
		{
			name: "what stands in another way is no cause: g is down for want of b, since d stands in for a; h is down for want of a",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!g", "y_list") + alert("z", "caution", "!h", "z_list") + `
				unit "d" {}
				unit "g" { needs = (a || d) && b }
				unit "h" { needs = a && d }
				procedure "z_list" {
					note {
						says = "z"
					}
				}
				procedure "y_list" {
					note {
						says = "y"
					}
				}
				procedure "x_list" {
					note {
						says = "x"
					}
				}`,
			what: []string{"a", "b"},
			want: `
4-14 PM y_list list
14-15 PM y_list 1
15-25 PM x_list list
25-26 PM x_list 1
26-36 PM z_list list
36-37 PM z_list 1
`,
		},
		{
			name: "what is left for a phase is gathered, briefed once and done in order",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!b", "y_list") + `
			procedure "x_list" {
				later {
					in = down
					note { says = "x" }
				}
			}
			procedure "y_list" {
				priority = 1
				later {
					in = air
					note { says = "at once" }
				}
				later {
					in = down
					says = "then"
					note { says = "y" }
				}
			}`,
			at:   "down - 60 s",
			what: []string{"a", "b"},
			want: `
4-14 PM y_list list
14-15 PM y_list 1
15-17 PM y_list 1.later.1
17-19 PM y_list 2
19-29 PM x_list list
29-30 PM x_list 1
60-90 both y_list brief
90-91 PM y_list 2.later.1
91-92 PM x_list 1.later.1
`,
		},
		{
			name: "an alert whose procedure brings it back is answered so often and no more",
			book: alert("x", "caution", "!a && left == \"on\"", "x_list") + `procedure "x_list" {
				do {
					says = "off"
					set  = left
					to   = "off"
				}
				note { says = "now wait" }
				do {
					says = "on"
					set  = left
					to   = "on"
				}
			}`,
			what: []string{"a"},
			want: `
4-14 PM x_list list
14-17 PM x_list 1 left=off
17-19 PM x_list 2
19-22 PM x_list 3 left=on
26-36 PM x_list list
36-39 PM x_list 1 left=off
39-41 PM x_list 2
41-44 PM x_list 3 left=on
`,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			at := c.at
			if at == "" {
				at = "air + 60 s"
			}
			got, _ := lines(t, small(t, c.book), at, c.what...)
			if want := strings.TrimPrefix(c.want, "\n"); got != want {
				t.Errorf("got\n%swant\n%s", got, want)
			}
		})
	}
}
