package crew_test

import (
	"context"
	"strings"
	"testing"

	"knockon/crew"
)

// gauge is a sender and what it shows: right, wrong while it sticks, dark without b.
const gauge = `
unit "sender" {
  fault "sticks" {}
}
signal "level_l" { value = a ? 12 : 3 }
indication "level" {
  title  = "Fluid"
  shows  = sender.sticks ? 12 : level_l
  means  = level_l
  within = 1
  lit_by = b
}
indication "lamp" {
  title  = "Lamp"
  shows  = !a
  means  = !a
  lit_by = c
}
signal "fault_seen" { value = !a }
function "g" { works = !fault_seen }
`

const askLevel = `
procedure "x_list" {
  check {
    that = level > 5
    says = "Fluid: above 5"
  }
  decide {
    that = level > 5
    says = "Fluid left?"
    then {
      note { says = "keep" }
    }
    else {
      note { says = "gone" }
    }
    unknown {
      note { says = "blind" }
    }
  }
}
`

// TestKnows_WhatIsShown: the crew answer by what a gauge shows, not by what is true.
func TestKnows_WhatIsShown(t *testing.T) {
	for _, c := range []struct {
		name, book string
		what       []string
		want       string
		found      string
	}{
		{"right", gauge + alert("x", "caution", "!a", "x_list") + askLevel, []string{"a"}, `
4-14 PM x_list list
14-18 PM x_list 1 no
18-22 PM x_list 2 no
22-23 PM x_list 2.else.1
`, `x list: "Fluid: above 5" is not as it should be`},
		{"it lies", gauge + alert("x", "caution", "!a", "x_list") + askLevel, []string{"a", "sender.sticks"}, `
4-14 PM x_list list
14-18 PM x_list 1 yes
18-22 PM x_list 2 yes
22-23 PM x_list 2.then.1
`, `x list: "Fluid: above 5": the crew saw Fluid at 12 l, while 3 l was true: they took it to be as it should be
x list: "Fluid left?": the crew saw Fluid at 12 l, while 3 l was true: they answered yes and went on with "keep", not with "gone"`},
		{"it is dark, and lies besides", gauge + alert("x", "caution", "!a", "x_list") + askLevel, []string{"a", "sender.sticks", "b"}, `
4-14 PM x_list list
14-18 PM x_list 1 cannot be seen
18-22 PM x_list 2 cannot be seen
22-23 PM x_list 2.unknown.1
`, `x list: "Fluid: above 5" cannot be seen, since Fluid is dark
x list: "Fluid left?" cannot be seen, since Fluid is dark: they went on with "blind"`},
		{"it is dark, and what they go on with is the first line that belongs", gauge + alert("x", "caution", "!a", "x_list") +
			strings.Replace(askLevel, "      note { says = \"blind\" }\n", "      note {\n        says = \"away\"\n        if   = left == \"off\"\n      }\n      note { says = \"blind\" }\n", 1), []string{"a", "b"}, `
4-14 PM x_list list
14-18 PM x_list 1 cannot be seen
18-22 PM x_list 2 cannot be seen
22-23 PM x_list 2.unknown.2
`, `x list: "Fluid: above 5" cannot be seen, since Fluid is dark
x list: "Fluid left?" cannot be seen, since Fluid is dark: they went on with "blind"`},
		{"it is dark and nothing is said for that", gauge + alert("x", "caution", "!a", "x_list") +
			strings.Replace(askLevel, "    unknown {\n      note { says = \"blind\" }\n    }\n", "", 1), []string{"a", "b"}, `
4-14 PM x_list list
14-18 PM x_list 1 cannot be seen
18-22 PM x_list 2 cannot be seen
22-23 PM x_list 2.else.1
`, `x list: "Fluid: above 5" cannot be seen, since Fluid is dark
x list: "Fluid left?" cannot be seen, since Fluid is dark: they went on with "gone"`},
		{"what decides alone is enough: a yes of an or beside what is dark, a no of an and", gauge + alert("x", "caution", "!b", "x_list") + `
procedure "x_list" {
  check { that = level > 5 || left == "on" }
  check { that = level > 5 && left == "off" }
  check { that = level > 5 && left == "on" }
  check { that = at_least(2, x, level > 5, !lamp) }
  check { that = left == "on" ? x : level > 5 }
  check { that = level > 5 ? x : x }
  check { that = !(size(level - 4) < 2) }
}
`, []string{"b"}, `
4-14 PM x_list list
14-15 PM x_list 1 yes
15-16 PM x_list 2 no
16-17 PM x_list 3 cannot be seen
17-18 PM x_list 4 yes
18-19 PM x_list 5 yes
19-20 PM x_list 6 cannot be seen
20-21 PM x_list 7 cannot be seen
`, "*"},
		{"what is seen without an instrument, alerts, controls, the phase, numbers of the aircraft", alert("x", "caution", "!a", "x_list") + `
procedure "x_list" {
  check { that = seen.on_ground }
  check { that = seen.icing }
  check { that = seen.outside_visible }
  check { that = x && air && left == "on" && !ground && 3 < 4 }
  check { that = held(x, 10) }
}
`, []string{"a"}, `
4-14 PM x_list list
14-15 PM x_list 1 no
15-16 PM x_list 2 no
16-17 PM x_list 3 yes
17-18 PM x_list 4 yes
18-19 PM x_list 5 yes
`, "*"},
	} {
		t.Run(c.name, func(t *testing.T) {
			tm := small(t, c.book)
			got, p := lines(t, tm, "air + 60 s", c.what...)
			if want := strings.TrimPrefix(c.want, "\n"); got != want {
				t.Errorf("got\n%swant\n%s", got, want)
			}
			v, err := tm.View(context.Background(), p)
			if err != nil {
				t.Fatal(err)
			}
			var found []string
			for _, f := range v.Findings {
				found = append(found, f.Text)
			}
			for i, f := range p.Findings {
				n := v.Findings[i]
				if n.Answer != f.Answer || len(n.Gauges) != len(f.Gauges) || n.Procedure != "x_list" || n.Number == "" {
					t.Errorf("%+v of %+v", n, f)
				}
				for j, g := range f.Gauges {
					if r := n.Gauges[j]; r.ID != g.Of.ID || (r.Shows == "") != (f.Kind == crew.CannotBeSeen) {
						t.Errorf("%+v", r)
					}
				}
			}
			if got := strings.Join(found, "\n"); c.found != "*" && got != c.found {
				t.Errorf("found\n%s\nwant\n%s", got, c.found)
			}
		})
	}
}

// TestKnows_InTheCloud: the icing layer is the one cloud of a flight.
func TestKnows_InTheCloud(t *testing.T) {
	cloudy := strings.Replace(frame, "cruise_altitude_ft = 8000", "cruise_altitude_ft = 8000\n  icing_from_ft = 500\n  icing_to_ft = 9000", 1)
	got, _ := lines(t, smallOf(t, cloudy+alert("x", "caution", "!a", "x_list")+`
procedure "x_list" {
  check { that = seen.icing }
  check { that = seen.outside_visible }
}
`), "air + 60 s", "a")
	if want := "4-14 PM x_list list\n14-15 PM x_list 1 yes\n15-16 PM x_list 2 no\n"; got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// TestKnows_ALieThatChangesNothing is no finding: the answer is the same.
func TestKnows_ALieThatChangesNothing(t *testing.T) {
	tm := small(t, gauge+alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		check { that = level > 2 }
	}`)
	_, p := lines(t, tm, "air + 60 s", "a", "sender.sticks")
	if len(p.Findings) > 0 || p.Lines[1].Answer != crew.Yes {
		t.Errorf("%v; %q", p.Findings, p.Lines[1].Answer)
	}
}

// TestKnows_AComparisonFindsOut: two gauges of one thing held against each other.
func TestKnows_AComparisonFindsOut(t *testing.T) {
	second := "indication \"second\" {\n shows = level_l\n means = level_l\n}\n"
	for that, kinds := range map[string]string{
		"size(level - second) < 2":                 "check_fails",
		"level > 5 && second > 5":                  "check_fails",
		"size(level - second) < 2 && level > 5":    "check_fails",
		"size(level - second) > 20 || level > 5":   "misled",
		"(level > 5) == (second > 5)":              "check_fails",
		"level - level == 0 && level + second < 9": "check_fails misled",
	} {
		tm := small(t, gauge+second+alert("x", "caution", "!a", "x_list")+"procedure \"x_list\" {\n check { that = "+that+" }\n}")
		_, p := lines(t, tm, "air + 60 s", "a", "sender.sticks")
		var got []string
		for _, f := range p.Findings {
			got = append(got, string(f.Kind))
		}
		if strings.Join(got, " ") != kinds {
			t.Errorf("%s: %v, want %s", that, got, kinds)
		}
	}
}

// TestMemory_BeforeAnyList: what is done from memory begins at once, whatever the
// order of the alerts, and before the notes that stand among it; the list comes in
// its order.
func TestMemory_BeforeAnyList(t *testing.T) {
	for _, c := range []struct {
		name, book string
		what       []string
		want       string
	}{
		{"a caution's memory item beside a warning's list; its list waits", alert("x", "warning", "!a", "x_list") + alert("y", "caution", "!b", "y_list") + `
			procedure "x_list" {
				note { says = "one two three" }
			}
			procedure "y_list" {
				note { says = "first" }
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
				note { says = "y" }
			}`, []string{"a", "b"}, `
2-12 PM x_list list
4-6 PF y_list 2 left=off
12-15 PM x_list 1
15-35 PM x_list radio
35-45 PM y_list list
45-46 PM y_list 1
46-47 PM y_list 3
`},
		{"a consequence's memory item does not wait for its cause's list, its list does", alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!c", "y_list") + `
			procedure "y_list" {
				priority = 1
				do {
					set         = left
					to          = "off"
					by          = "PM"
					from_memory = true
				}
				note { says = "y" }
			}
			procedure "x_list" {
				note { says = "x" }
			}`, []string{"a"}, `
4-6 PM y_list 1 left=off
6-16 PM x_list list
16-17 PM x_list 1
17-27 PM y_list list
27-28 PM y_list 2
`},
		{"no list is begun while a memory item waits for its pilot", alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!b", "y_list") + `
			procedure "x_list" {
				note { says = "x" }
			}
			procedure "y_list" {
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
				do {
					set         = right
					to          = "off"
					by          = "PF"
					from_memory = true
				}
			}`, []string{"a", "b"}, `
4-6 PF y_list 1 left=off
6-8 PF y_list 2 right=off
6-16 PM x_list list
16-17 PM x_list 1
`},
		{"a line from memory that waits lets lists go on", alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!b", "y_list") + `
			procedure "x_list" {
				note { says = "x" }
			}
			procedure "y_list" {
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
				check {
					that        = seen.on_ground
					by          = "PF"
					from_memory = true
					wait_s      = 30
				}
			}`, []string{"a", "b"}, `
4-6 PF y_list 1 left=off
4-14 PM x_list list
14-15 PM x_list 1
36-37 PF y_list 2 no
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := lines(t, small(t, c.book), "air + 60 s", c.what...)
			if want := strings.TrimPrefix(c.want, "\n"); got != want {
				t.Errorf("got\n%swant\n%s", got, want)
			}
		})
	}
}

// TestSides_EachThatCalls: a list that asks called_by is done for each alert; one
// that does not, once.
func TestSides_EachThatCalls(t *testing.T) {
	const calls = `
		procedure "x_list" {
			decide {
				that = CALL
				then {
					do {
						set  = left
						to   = "off"
						says = "left"
					}
				}
				else {
					do {
						set  = right
						to   = "off"
						says = "right"
					}
				}
			}
			later {
				in = down
				check { that = CALL }
			}
		}`
	two := alert("xl", "caution", "!a", "x_list") + alert("xr", "caution", "!b", "x_list")
	got, _ := lines(t, small(t, two+strings.ReplaceAll(calls, "CALL", "called_by(xl)")), "down - 60 s", "a", "b")
	if want := `4-14 PM x_list list
14-16 PM x_list 1 yes
16-19 PM x_list 1.then.1 left=off
19-20 PM x_list 2
20-30 PM x_list list
30-32 PM x_list 1 no
32-35 PM x_list 1.else.1 right=off
35-36 PM x_list 2
60-90 both x_list brief
90-91 PM x_list 2.later.1 yes
91-92 PM x_list 2.later.1 no
`; got != want {
		t.Errorf("each side: got\n%swant\n%s", got, want)
	}
	got, _ = lines(t, small(t, two+strings.ReplaceAll(calls, "CALL", "xl")), "down - 60 s", "a", "b")
	if n := strings.Count(got, "list list"); n != 1 || !strings.Contains(got, "1.then.1 left=off") || strings.Contains(got, "right=off") {
		t.Errorf("%d lists:\n%s", n, got)
	}
}

// TestLater_WaitsForACondition: until what is waited for is seen; what is dark is
// not seen; what is so already is done at once; no briefing.
func TestLater_WaitsForACondition(t *testing.T) {
	const rest = `
		procedure "x_list" {
			later {
				when = left == "on"
				note { says = "now" }
			}
			later {
				when = lamp
				note { says = "lit" }
			}
			later {
				when = low
				note { says = "low" }
				note { says = "still" }
			}
			note { says = "end" }
		}
		indication "lamp" {
			shows  = !a
			means  = !a
			lit_by = b
		}
		indication "low" {
			shows = real.height_ft < 5000
			means = real.height_ft < 5000
		}`
	got, _ := lines(t, small(t, alert("x", "caution", "!a", "x_list")+rest), "down - 20 s", "a", "b")
	const to = `4-14 PM x_list list
14-15 PM x_list 1
15-16 PM x_list 1.later.1
16-17 PM x_list 2
17-18 PM x_list 3
18-19 PM x_list 4
`
	after, ok := strings.CutPrefix(got, to)
	if !ok || !strings.Contains(after, "PM x_list 3.later.1\n") || !strings.Contains(after, "PM x_list 3.later.2\n") || strings.Contains(after, "brief") || strings.Contains(after, "2.later") {
		t.Errorf("got\n%s", got)
	}
	got, _ = lines(t, small(t, alert("x", "caution", "!a", "x_list")+rest), "down - 20 s", "a")
	if !strings.Contains(got, "16-17 PM x_list 2\n17-18 PM x_list 2.later.1\n") {
		t.Errorf("lit: got\n%s", got)
	}
}
