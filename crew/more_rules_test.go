package crew_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
)

// note is a list with one line of one word.
func note(id string) string {
	return "procedure \"" + id + "\" {\n note {\n says = \"" + id + "\"\n }\n}\n"
}

// TestRules_WhoWaitsForWhom: rules of docs/crew.md that TestRules does not meet.
func TestRules_WhoWaitsForWhom(t *testing.T) {
	for _, c := range []struct {
		name, book, at string
		what           []string
		want           string
	}{
		{"only what is done from memory is done at once: a check waits, and so does what follows a line that is read",
			alert("x", "warning", "!a", "x_list") + `procedure "x_list" {
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
				check {
					that        = reads_lamp
					from_memory = true
				}
				do {
					says = "read this"
				}
				do {
					set         = right
					to          = "off"
					by          = "PF"
					from_memory = true
				}
			}`, "air + 60 s", []string{"a"}, `
2-4 PF x_list 1 left=off
4-5 PM x_list 2 no
5-15 PM x_list list
15-18 PM x_list 3
18-20 PF x_list 4 right=off
20-40 PM x_list radio
`},
		{"what was left for a phase comes when nothing else is to be done, whatever its level",
			alert("x", "warning", "!a", "x_list") + alert("y", "caution", "!b && down", "y_list") + note("y_list") + `procedure "x_list" {
				later {
					in = down
					note { says = "x" }
					note { says = "more" }
				}
			}`, "down - 60 s", []string{"a", "b"}, `
2-12 PM x_list list
12-13 PM x_list 1
13-33 PM x_list radio
60-90 both x_list brief
90-100 PM y_list list
100-101 PM y_list 1
101-102 PM x_list 1.later.1
102-103 PM x_list 1.later.2
`},
		{"a consequence does not wait for what its cause has left for later",
			alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!c && down", "y_list") + note("y_list") + `procedure "x_list" {
				later {
					in = down
					note { says = "x" }
				}
			}`, "down - 60 s", []string{"a"}, `
4-14 PM x_list list
14-15 PM x_list 1
60-90 both x_list brief
90-100 PM y_list list
100-101 PM y_list 1
101-102 PM x_list 1.later.1
`},
		{"what stands by another is no cause, also where the number of them counts: g is down for want of c",
			alert("x", "caution", "!e", "x_list") + alert("y", "caution", "!g", "y_list") + note("x_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			unit "e" {}
			unit "d" { needs = at_least(1, e, b) }
			unit "g" { needs = at_least(2, c, d) }`, "air + 60 s", []string{"e", "a"}, `
4-14 PM y_list list
14-15 PM y_list 1
15-25 PM x_list list
25-26 PM x_list 1
`},
		{"a signal that remembers is held at no by what resets it",
			alert("x", "caution", "!a", "x_list") + alert("y", "caution", "!on", "y_list") + note("x_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			signal "on" {
				set     = b
				reset   = !a
				initial = true
			}`, "air + 60 s", []string{"a"}, `
4-14 PM x_list list
14-15 PM x_list 1
15-25 PM y_list list
25-26 PM y_list 1
`},
		{"and at yes by what set it, not by what would reset it",
			alert("x", "caution", "!b", "x_list") + alert("y", "caution", "stays", "y_list") + note("x_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			signal "stays" {
				set   = !a
				reset = b && !a && c
			}`, "air + 60 s", []string{"a", "b"}, `
4-14 PM y_list list
14-15 PM y_list 1
15-25 PM x_list list
25-26 PM x_list 1
`},
		{"of an and that is yes all is followed",
			alert("x", "caution", "!a", "x_list") + alert("y", "caution", "no_c && air", "y_list") + note("x_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			signal "no_c" { value = !c }`, "air + 60 s", []string{"a"}, `
4-14 PM x_list list
14-15 PM x_list 1
15-25 PM y_list list
25-26 PM y_list 1
`},
		{"of a choice only the way taken, of a comparison of words the hand",
			alert("x", "caution", "!a", "x_list") + alert("y", "caution", "left == \"on\" ? !b : !c", "y_list") + alert("z", "caution", "\"off\" == left ? !b : !c", "z_list") +
				alert("w", "caution", "word == \"bad\" && !c", "w_list") + note("x_list") + note("w_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			procedure "z_list" {
				priority = 2
				note { says = "z" }
			}
			signal "word" { value = a ? "good" : "bad" }`, "air + 60 s", []string{"a", "b"}, `
4-14 PM y_list list
14-15 PM y_list 1
15-25 PM x_list list
25-26 PM x_list 1
26-36 PM z_list list
36-37 PM z_list 1
37-47 PM w_list list
47-48 PM w_list 1
`},
		{"each pilot does one thing at a time, also from memory",
			alert("x", "caution", "!a", "x_list") + `procedure "x_list" {
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
			}`, "air + 60 s", []string{"a"}, `
4-6 PF x_list 1 left=off
6-8 PF x_list 2 right=off
`},
		{"the radio waits for no line of a caution",
			alert("x", "warning", "held(!a, 2.5)", "x_list") + alert("y", "caution", "!a", "y_list") + `procedure "x_list" {
				check {
					that        = reads_lamp
					from_memory = true
				}
			}
			procedure "y_list" {
				do {
					set         = left
					to          = "off"
					by          = "PF"
					from_memory = true
				}
			}`, "air + 60 s", []string{"a"}, `
4-6 PF y_list 1 left=off
4.5-5.5 PM x_list 1 yes
5.5-25.5 PM x_list radio
`},
		{"what compares two hands is not seen through; of what is always yes its way is taken",
			alert("x", "caution", "!a", "x_list") + alert("y", "caution", "left == right && !c", "y_list") + alert("z", "caution", "true ? !b : !c", "z_list") + note("x_list") + `procedure "y_list" {
				priority = 1
				note { says = "y" }
			}
			procedure "z_list" {
				priority = 2
				note { says = "z" }
			}`, "air + 60 s", []string{"a", "b"}, `
4-14 PM z_list list
14-15 PM z_list 1
15-25 PM x_list list
25-26 PM x_list 1
26-36 PM y_list list
36-37 PM y_list 1
`},
		{"an alert that comes back calls anew though a part of its list is left for later",
			alert("x", "caution", "!a && (left == \"on\" || right == \"off\")", "x_list") + alert("y", "caution", "held(!b, 30)", "y_list") + `procedure "x_list" {
				do {
					says = "off"
					set  = left
					to   = "off"
				}
				later {
					in = down
					note { says = "x" }
				}
			}
			procedure "y_list" {
				do {
					says = "off"
					set  = right
					to   = "off"
				}
			}`, "air + 60 s", []string{"a", "b"}, `
4-14 PM x_list list
14-17 PM x_list 1 left=off
17-18 PM x_list 2
34-44 PM y_list list
44-47 PM y_list 1 right=off
51-61 PM x_list list
61-64 PM x_list 1 left=off
64-65 PM x_list 2
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := lines(t, small(t, c.book), c.at, c.what...)
			if want := strings.TrimPrefix(c.want, "\n"); !strings.HasPrefix(got, want) {
				t.Errorf("got\n%swant\n%s", got, want)
			}
		})
	}
}

// TestFly_WithoutTheThingsThatTakeNoTime: a pace of 0 s leaves out the list, the
// radio call and the briefing; most_calls 0 sets no bound.
func TestFly_WithoutTheThingsThatTakeNoTime(t *testing.T) {
	build := small(t, alert("x", "warning", "!a && left == \"on\"", "x_list")+`procedure "x_list" {
		later {
			in = down
			note { says = "x" }
		}
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
	}`).Build()
	for name, c := range map[string]struct {
		change func(*crew.Pace)
		want   string
	}{
		"all":       {func(*crew.Pace) {}, "list step step step step radio list step step step step radio"},
		"no list":   {func(p *crew.Pace) { p.ListS, p.MostCalls = 0, 1 }, "step step step step radio brief step"},
		"no radio":  {func(p *crew.Pace) { p.RadioS, p.MostCalls = 0, 1 }, "list step step step step brief step"},
		"no brief":  {func(p *crew.Pace) { p.BriefS, p.MostCalls = 0, 1 }, "list step step step step radio step"},
		"no bounds": {func(p *crew.Pace) { p.MostCalls = 0 }, "list step step step step radio list step step step step radio list step step step step radio"},
	} {
		pace := round()
		c.change(pace)
		tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: pace})
		if err != nil {
			t.Fatal(err)
		}
		p, err := tm.Fly(context.Background(), failing(t, build, "air + 60 s", "a"))
		if err != nil {
			t.Fatal(err)
		}
		var kinds []string
		for _, l := range p.Lines {
			kinds = append(kinds, string(l.Kind))
		}
		if got := strings.Join(kinds, " "); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// TestChoices_AreThoseThatCouldBeBegun: not what is under way, nor what the crew
// have not noticed yet; who waits for a cause is there with it.
func TestChoices_AreThoseThatCouldBeBegun(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a", "x_list")+alert("y", "caution", "!a", "y_list")+alert("z", "caution", "!c", "z_list")+alert("v", "caution", "held(!a, 9)", "v_list")+
		note("x_list")+note("y_list")+note("z_list")+note("v_list"))
	_, p := lines(t, tm, "air + 60 s", "a")
	from, _ := p.Record.FirstStrike()
	var got string
	for _, c := range p.Choices {
		got += fmt.Sprintf("%g: %s of", (c.At - from).Seconds(), c.Chosen.ID)
		for _, x := range c.Of {
			got += " " + x.Procedure.ID
			if x.Under != nil {
				got += "<" + x.Under.ID
			}
			if x.Level != "caution" {
				t.Errorf("%s is of level %s", x.Procedure.ID, x.Level)
			}
		}
		got += "\n"
	}
	if want := "4: x_list of x_list y_list z_list<x\n15: y_list of y_list z_list<y v_list\n26: v_list of z_list<v v_list\n"; got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// TestFits_ByTheBounds: late by a microsecond and by a day; a swap of the last step
// changes nothing, since nothing is behind it.
func TestFits_ByTheBounds(t *testing.T) {
	tm := small(t, alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		note { says = "one" }
		note { says = "two three" }
	}`)
	s, steps := failing(t, tm.Build(), "air + 60 s", "a"), tm.Build().Procedures[0].Steps
	for by, ok := range map[book.Time]bool{0: false, 1: true, 86400 * book.Second: true, 86400*book.Second + 1: false, -1: false} {
		if _, err := tm.Fly(context.Background(), s, crew.Change{Kind: crew.Late, By: by, Step: steps[0]}); (err == nil) != ok {
			t.Errorf("late by %d: %v", by, err)
		}
	}
	p, err := tm.Fly(context.Background(), s, crew.Change{Kind: crew.Swap, Step: steps[1]})
	if err != nil || rest(p) != "14-15 PM x_list 1\n15-17 PM x_list 2\n" {
		t.Errorf("%v\n%s", err, rest(p))
	}
}

// TestPace_Bounds: nothing negative, nothing beyond a day or so, nothing that is no
// number; nobody reads no word in a minute; nobody is so fast that nothing takes time.
func TestPace_Bounds(t *testing.T) {
	p := crew.DefaultPace()
	for _, c := range []struct {
		name  string
		value float64
		ok    bool
	}{
		{"list_s", 0, true}, {"list_s", 1e5, true}, {"list_s", 1e5 + 1, false}, {"list_s", -0.1, false}, {"list_s", math.NaN(), false},
		{"aloud_per_min", 0, false}, {"aloud_per_min", 1, true}, {"aloud_per_min", 0.5, true}, {"press_s", 0, true}, {"most_calls", 0, true},
	} {
		if _, err := p.With(c.name, c.value); (err == nil) != c.ok {
			t.Errorf("%s %v: %v", c.name, c.value, err)
		}
	}
	still, err := p.With("mind_s", 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := still.With("press_s", 0); err == nil || !strings.Contains(err.Error(), "no time") {
		t.Errorf("no time at all: %v", err)
	}
}

// TestView_WhatBecameOfAnAlert, in words.
func TestView_WhatBecameOfAnAlert(t *testing.T) {
	atTheEnd := fmt.Sprintf("real.time_s > %g", small(t, "").Course().Path.End().Seconds()-5) // sooner than anybody notices an advisory
	tm := small(t, alert("x", "caution", "!a", "x_list")+alert("y", "caution", "!c", "y_list")+alert("same", "caution", "!a && air", "x_list")+
		alert("brief", "caution", "pulse(!a, 2)", "brief_list")+alert("late", "advisory", atTheEnd, "late_list")+
		"alert \"plain\" {\n level = \"advisory\"\n message = \"PLAIN\"\n when = !b\n}\n"+note("x_list")+note("y_list")+note("brief_list")+note("late_list"))
	_, p := lines(t, tm, "air + 60 s", "a", "b")
	v, err := tm.View(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, a := range v.Alerts {
		got[a.ID] = a.Text
	}
	for id, want := range map[string]string{
		"x": "its procedure is begun at +0:04", "same": "its procedure is in hand already", "y": "its procedure is begun at +0:15; follows from X",
		"brief": "gone again before its procedure was begun", "plain": "calls for no procedure", "late": "its procedure is not begun",
	} {
		if got[id] != want {
			t.Errorf("%s: %q, want %q", id, got[id], want)
		}
	}
}
