package crew_test

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
)

// frame is a small aircraft: units that fail, alerts that call, and a flight of
// some minutes. Each test adds what it needs.
const frame = `
aircraft "small" { title = "Small" }
phase "ground" {}
phase "air" { begins = !real.on_ground }
phase "down" { begins = real.vertical_speed_ft_per_min < -200 }
flight "hop" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 8000
  distance_nm        = 60
  rotate_kt          = 140
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 135
}
unit "a" {}
unit "b" {}
unit "c" { needs = a }
control "left" {
  positions = ["on", "off"]
  initial   = "on"
}
control "right" {
  positions = ["on", "off"]
  initial   = "on"
}
signal "reads" { value = left == "on" && right == "on" }
function "f" { works = reads }
`

// round is a pace of whole seconds: a line that is read takes a second a word
// and one to look, a hand one more.
func round() *crew.Pace {
	return &crew.Pace{WarningS: 2, CautionS: 4, AdvisoryS: 8, AloudPerMin: 60, MindS: 1, ReachS: 1, ListS: 10, RadioS: 20, BriefS: 30,
		ReadAboveFt: 400, ReadBelowKt: 60, MostCalls: 2}
}

func small(t *testing.T, more string) *crew.Team {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + more)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: round()})
	if err != nil {
		t.Fatal(err)
	}
	return tm
}

// lines is a plan with its times in seconds from the failure, which comes 60 s
// after the phase "air" begins unless at says otherwise.
func lines(t *testing.T, tm *crew.Team, at string, what ...string) (string, *crew.Plan) {
	t.Helper()
	p, err := tm.Fly(context.Background(), failing(t, tm.Build(), at, what...))
	if err != nil {
		t.Fatal(err)
	}
	slow, err := tm.FlySlowly(context.Background(), failing(t, tm.Build(), at, what...))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "slowly", p, slow)
	from, _ := p.Record.FirstStrike()
	var s strings.Builder
	for _, l := range p.Lines {
		what := l.Number
		if what == "" {
			what = string(l.Kind)
		}
		if l.Control != "" {
			what += " " + l.Control + "=" + l.Position
		}
		if l.Answer != crew.None {
			what += " " + string(l.Answer)
		}
		fmt.Fprintf(&s, "%g-%g %s %s %s\n", (l.From - from).Seconds(), (l.To - from).Seconds(), l.By, l.Procedure.ID, what)
	}
	return s.String(), p
}

func alert(id, level, when, list string) string {
	return fmt.Sprintf("alert %q {\n level = %q\n message = %q\n when = %s\n procedure = %s\n}\n", id, level, strings.ToUpper(id), when, list)
}

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
				check { that = reads }
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
					that   = reads
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
						that = reads
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

// TestRules_ABulletinInForce: its steps come where it says, on its days only.
func TestRules_ABulletinInForce(t *testing.T) {
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + alert("x", "caution", "!a", "x_list") + `
		procedure "x_list" {
			note { says = "one" }
			note { says = "two" }
		}
		bulletin "winter" {
			procedure = x_list
			from      = "2026-11-01"
			until     = "2027-03-31"
			replaces  = 1
			check { that = reads }
		}`)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	for day, want := range map[string]string{
		"":           "14-15 PM x_list 1\n15-16 PM x_list 2\n",
		"2027-03-31": "14-15 PM x_list winter.1 yes\n15-16 PM x_list 2\n",
		"2027-04-01": "14-15 PM x_list 1\n15-16 PM x_list 2\n",
	} {
		tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: round(), Day: day})
		if err != nil {
			t.Fatal(err)
		}
		p, err := tm.Fly(context.Background(), failing(t, build, "air + 60 s", "a"))
		if err != nil {
			t.Fatal(err)
		}
		if got := rest(p); got != want {
			t.Errorf("on %q: got\n%swant\n%s", day, got, want)
		}
	}
	if _, err := crew.NewTeam(build, nil, crew.Setting{Day: "tomorrow"}); err == nil {
		t.Error("tomorrow is taken as a day")
	}
}

// TestFindings: what goes round and round, what is tried too often, and what is
// not as a list expects are said.
func TestFindings(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a && left == \"on\"", "x_list")+`
		unit "d" {
			reset_by    = left == "off"
			reset_tries = 1
		}
		signal "uses_d" { value = d }
		procedure "x_list" {
			do {
				set = left
				to  = "off"
			}
			check { that = left == "on" }
			do {
				set = left
				to  = "on"
			}
		}`)
	_, p := lines(t, tm, "air + 60 s", "a", "d")
	count := map[crew.FindingKind]int{}
	for _, f := range p.Findings {
		count[f.Kind]++
	}
	if count[crew.AgainAndAgain] != 1 || count[crew.TooManyTries] != 1 || count[crew.NotAsItShould] != 2 {
		t.Errorf("found %v", count)
	}
}

// TestChanges: a step that is left out, late, wrong or swapped, and a decision
// taken the other way, leave all other lines at their times.
func TestChanges(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		do {
			says = "off"
			set  = left
			to   = "off"
		}
		decide {
			that = reads
			then {
				note {
					says = "yes"
				}
			}
			else {
				note {
					says = "no"
				}
			}
		}
		note { says = "one two three" }
	}`)
	steps := tm.Build().Procedures[0].Steps
	for _, c := range []struct {
		change crew.Change
		want   string
	}{
		{crew.Change{Kind: crew.Omit, Step: steps[0]}, "14-17 PM x_list 1\n17-19 PM x_list 2 yes\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Omit, Step: steps[1]}, "14-17 PM x_list 1 left=off\n17-19 PM x_list 2\n19-22 PM x_list 3\n"},
		{crew.Change{Kind: crew.Otherwise, Step: steps[1]}, "14-17 PM x_list 1 left=off\n17-19 PM x_list 2 no\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Late, By: 30 * book.Second, Step: steps[0]}, "14-17 PM x_list 1\n17-19 PM x_list 2 yes\n19-20 PM x_list 2.then.1\n20-23 PM x_list 3\n44-47 PM x_list 1 left=off\n"},
		{crew.Change{Kind: crew.Wrong, Control: "right", Position: "off", Step: steps[0]}, "14-17 PM x_list 1 right=off\n17-19 PM x_list 2 no\n19-20 PM x_list 2.else.1\n20-23 PM x_list 3\n"},
		{crew.Change{Kind: crew.Swap, Step: steps[0]}, "14-16 PM x_list 2 yes\n16-17 PM x_list 2.then.1\n17-20 PM x_list 1 left=off\n20-23 PM x_list 3\n"},
	} {
		ctx, s := context.Background(), failing(t, tm.Build(), "air + 60 s", "a")
		p, err := tm.Fly(ctx, s, c.change)
		if err != nil {
			t.Fatal(err)
		}
		slow, err := tm.FlySlowly(ctx, s, c.change)
		if err != nil {
			t.Fatal(err)
		}
		same(t, string(c.change.Kind), p, slow)
		if got := rest(p); got != c.want {
			t.Errorf("%s of %s: got\n%swant\n%s", c.change.Kind, c.change.Step.Kind, got, c.want)
		}
	}
	for _, c := range []crew.Change{
		{Kind: crew.Omit, Step: &book.Step{}}, {Kind: crew.Late, Step: steps[0]}, {Kind: crew.Wrong, Step: steps[0], Control: "middle", Position: "off"},
		{Kind: crew.Wrong, Step: steps[0], Control: "left", Position: "half"}, {Kind: crew.Wrong, Step: steps[2], Control: "left", Position: "off"},
	} {
		if _, err := tm.Fly(context.Background(), failing(t, tm.Build(), "air + 60 s", "a"), c); err == nil {
			t.Errorf("%v: no error", c)
		}
	}
}

// rest is the lines behind the first, which finds the list.
func rest(p *crew.Plan) string {
	from, _ := p.Record.FirstStrike()
	var s strings.Builder
	for _, l := range p.Lines[1:] {
		moved := ""
		if l.Control != "" {
			moved = " " + l.Control + "=" + l.Position
		}
		if l.Answer != crew.None {
			moved += " " + string(l.Answer)
		}
		fmt.Fprintf(&s, "%g-%g %s %s %s%s\n", (l.From - from).Seconds(), (l.To - from).Seconds(), l.By, l.Procedure.ID, l.Number, moved)
	}
	return s.String()
}

// TestRules_NothingIsReadNearTheGround: an alert at lift-off waits with its list
// until 400 ft, and what is done from memory does not.
func TestRules_NothingIsReadNearTheGround(t *testing.T) {
	tm := small(t, `signal "high" { value = real.height_ft >= 400 }
		function "g" { works = high }
		`+alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		do {
			says        = "hold"
			by          = "PF"
			from_memory = true
		}
		note { says = "x" }
	}`)
	_, p := lines(t, tm, "air", "a")
	from, _ := p.Record.FirstStrike()
	if got := p.Lines[0].From - from; got != 4*book.Second {
		t.Errorf("from memory after %g s", got.Seconds())
	}
	n, _ := p.Record.Circuit().Node(circuit.Value{Item: "high"})
	if got, want := p.Lines[1].From, p.Record.Spans(n)[0].From; got != want || got <= p.Lines[0].To {
		t.Errorf("the list is taken up at %g s; 400 ft are passed at %g s", got.Seconds(), want.Seconds())
	}
}

func TestPace(t *testing.T) {
	p, err := crew.DefaultPace().With("list_s", 3)
	if err != nil || p.ListS != 3 {
		t.Errorf("list_s: %v, %v", p.ListS, err)
	}
	for _, f := range p.Figures() {
		if _, err := p.With(f.Name, 7); err != nil || f.Source == "" || f.Is == "" {
			t.Errorf("%s: %v; source %q", f.Name, err, f.Source)
		}
		if _, err := p.With(f.Name, -1); err == nil {
			t.Errorf("%s may be -1", f.Name)
		}
	}
	if _, err := p.With("speed", 1); err == nil || !strings.Contains(err.Error(), "warning_s, caution_s") {
		t.Errorf("an unknown name: %v", err)
	}
	if _, err := crew.NewTeam(demoBuild(t, ""), nil, crew.Setting{Pace: &crew.Pace{}}); err == nil {
		t.Error("a crew that needs no time is taken")
	}
}

// TestDocs_GiveTheDefaults holds the table of docs/crew.md to the code.
func TestDocs_GiveTheDefaults(t *testing.T) {
	text, err := os.ReadFile("../docs/crew.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range crew.DefaultPace().Figures() {
		value := strings.TrimSpace(fmt.Sprintf("%g %s", f.Value, f.Unit))
		if row := fmt.Sprintf("| `%s` | %s | %s | %s |\n", f.Name, value, f.Is, f.Source); !strings.Contains(string(text), row) {
			t.Errorf("docs/crew.md lacks the row\n%s", row)
		}
	}
}
