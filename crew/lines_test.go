package crew_test

import (
	"strings"
	"testing"

	"knockon/crew"
)

// A line with if belongs only while that is so; a line that sends to another list
// has it done; a line that tells somebody takes a radio call.
func TestLinesThatBelongSendAndTell(t *testing.T) {
	next := `procedure "next" {
		do {
			set = right
			to  = "off"
		}
	}
	`
	for _, c := range []struct {
		name, book, want string
		what             []string
	}{
		{
			name: "a line that does not belong is not said and costs nothing",
			book: alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				decide {
					if          = ground
					says        = "on the roll?"
					from_memory = true
					then { 
						note { says = "stop" }
					}
				}
				note {
					if   = ground || down
					says = "one two three"
				}
				do {
					if  = air
					set = left
					to  = "off"
				}
			}`,
			what: []string{"a"},
			want: `
2-12 PM x_list list
12-16 PM x_list 3 left=off
16-36 PM x_list radio
`,
		},
		{
			name: "a list of which no line belongs is never begun",
			book: alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				note {
					if   = ground
					says = "stop"
				}
			}`,
			what: []string{"a"},
			want: "\n",
		},
		{
			name: "a line looks at whether it belongs when its turn comes",
			book: alert("x", "caution", "!a", "x_list") + `procedure "x_list" {
				do {
					set  = left
					to   = "off"
				}
				note {
					if   = left == "on"
					says = "still on"
				}
				note {
					if   = left == "off"
					says = "off it is"
				}
			}`,
			what: []string{"a"},
			want: `
4-14 PM x_list list
14-18 PM x_list 1 left=off
18-21 PM x_list 3
`,
		},
		{
			name: "what is dark does not belong",
			book: `indication "lamp" {
				shows  = reads
				means  = reads
				lit_by = b
			}
` + alert("x", "caution", "!a", "x_list") + `procedure "x_list" {
				note {
					if   = lamp
					says = "lit"
				}
				note {
					if   = !lamp
					says = "not lit"
				}
				note { says = "neither" }
			}`,
			what: []string{"a", "b"},
			want: `
4-14 PM x_list list
14-15 PM x_list 3
`,
		},
		{
			name: "a list that a line sends to is done after its own, before others of the level",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!b", "y_list") + next + `procedure "x_list" {
				priority = 1
				note {
					says  = "go"
					go_to = next
				}
				note { says = "end" }
			}
			procedure "y_list" {
				priority = 2
				note { says = "why" }
			}`,
			what: []string{"a", "b"},
			want: `
4-14 PM x_list list
14-15 PM x_list 1
15-16 PM x_list 2
16-26 PM next list
26-30 PM next 1 right=off
30-40 PM y_list list
40-41 PM y_list 1
`,
		},
		{
			name: "one that leaves its list begins the other at once",
			book: alert("x", "caution", "!a", "x_list") + next + `procedure "x_list" {
				note {
					says  = "go"
					go_to = next
					leave = true
				}
				note { says = "end" }
			}`,
			what: []string{"a"},
			want: `
4-14 PM x_list list
14-15 PM x_list 1
15-25 PM next list
25-29 PM next 1 right=off
`,
		},
		{
			name: "a list that is in hand is not done a second time",
			book: alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!b", "next") + next + `procedure "x_list" {
				priority = 1
				note {
					says  = "go"
					go_to = next
				}
			}`,
			what: []string{"a", "b"},
			want: `
4-14 PM x_list list
14-15 PM x_list 1
15-25 PM next list
25-29 PM next 1 right=off
`,
		},
		{
			name: "telling takes a radio call, and control is not told twice",
			book: alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				tell {
					whom = "cabin"
					says = "we land"
				}
				tell {
					whom = "control"
					says = "mayday"
				}
			}`,
			what: []string{"a"},
			want: `
2-12 PM x_list list
12-32 PM x_list 1
32-52 PM x_list 2
`,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, p := lines(t, small(t, c.book), "air + 60 s", c.what...)
			if "\n"+got != c.want {
				t.Errorf("got\n%s\nwanted%s", got, c.want)
			}
			for _, k := range p.Calls {
				if k.From != nil && k.From.ID != "x_list" {
					t.Errorf("sent from %s", k.From.ID)
				}
			}
		})
	}
}

// The decision speed is the flight's: the line goes by it, and by the speed of the
// rotation where the flight gives none.
func TestDecisionSpeedIsTheFlights(t *testing.T) {
	for number, want := range map[string]crew.Answer{"": crew.Yes, "decision_kt = 139": crew.Yes, "decision_kt = 1": crew.No} {
		book := `indication "speed" {
			shows = real.airspeed_kt
			means = real.airspeed_kt
		}
` + alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
			decide {
				that        = speed < flight.decision_kt
				from_memory = true
				then { 
					note { says = "stop" }
				}
			}
		}`
		tm := smallOf(t, strings.Replace(frame, "rotate_kt          = 140", "rotate_kt          = 140\n"+number, 1)+book)
		_, p := lines(t, tm, "5 s", "a")
		if len(p.Lines) == 0 || p.Lines[0].Answer != want {
			t.Errorf("%q: %+v", number, p.Lines)
		}
	}
}
