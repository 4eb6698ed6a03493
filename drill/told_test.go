package drill_test

import (
	"fmt"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/drill"
)

// told is a debrief in lines, all moments in seconds from the failure.
func (p *trainee) told(d *drill.Debrief) (text string) {
	after := func(m drill.Moment) float64 { return m.TimeS - p.from.Seconds() }
	for _, e := range d.Events {
		text += fmt.Sprintf("%.1f %s %s\n", after(e.At), e.When, e.Text)
	}
	for _, a := range d.Alerts {
		text += fmt.Sprintf("alert %.1f %s: %s\n", after(a.Given), a.Message, a.Text)
	}
	for _, x := range d.Steps {
		text += fmt.Sprintf("step %s %s of %s, best %.1f: %s\n", x.Number, x.Moves, x.Procedure, after(x.Best), x.Text)
	}
	for _, m := range d.Others {
		text += fmt.Sprintf("other %s %d: %s\n", m.Title, m.Times, m.Text)
	}
	for _, u := range d.Unseen {
		text += fmt.Sprintf("unseen %.1f %s\n", after(u.Since), u.Text)
	}
	for _, l := range d.Looks {
		text += fmt.Sprintf("look %s by %s %d first %.1f\n", l.Indication, l.By, l.Times, after(l.First))
	}
	return text
}

// TestDebrief_InWords: the small book, with the crew of docs/crew.md beside the
// trainees: what was true, told and done in one list, then each alert, step, other
// move, look, and what nobody looked at.
func TestDebrief_InWords(t *testing.T) {
	look := func(id string) drill.Input { return drill.Input{Do: drill.Look, ID: id} }
	call := drill.Input{Do: drill.Call, ID: "water_list"}
	for name, c := range map[string]struct {
		fail []string
		do   func(*trainee)
		to   float64
		want string
	}{
		"done in time, by two": {[]string{"a"}, func(p *trainee) {
			p.as(drill.PilotMonitoring, -8, call)
			p.as(drill.PilotMonitoring, 12, call)
			p.as(drill.PilotFlying, 14, look("press"))
			p.as(drill.PilotMonitoring, 16, look("press"))
			p.as(drill.PilotMonitoring, 17, look("press"))
			p.as(drill.PilotMonitoring, 20, move("left", "off"))
			p.as(drill.PilotMonitoring, 21, drill.Input{Do: drill.Tick, ID: "water_list", Step: "2"})
		}, 60, `-8.0 done PM: calls for the list “Water low”
0.0 true Pump fails
0.0 true lost: Water (follows)
0.0 told warning “WATER”
12.0 done PM: calls for the list “Water low”
14.0 done PF: looks at Pressure: 7 psi
16.0 done PM: looks at Pressure: 7 psi
17.0 done PM: looks at Pressure: 7 psi
20.0 done PM: Left switch to off
20.0 told “WATER” goes out
21.0 done PM: finishes line 2 of “Water low”
alert 0.0 WATER: was answered after 12 s; a crew by the book begin with it after 3 s
step 1 left=off of Water low, best 17.0: done in time
look Pressure by PF 1 first 14.0
look Pressure by PM 2 first 16.0
`},
		"at the very moment": {[]string{"a"}, func(p *trainee) { p.as(drill.Alone, 0, call) }, 0, `0.0 true Pump fails
0.0 told warning “WATER”
0.0 done pilot: calls for the list “Water low”
alert 0.0 WATER: was answered after 0 s; a crew by the book begin with it after 3 s
`},
		"the step is not due yet": {[]string{"a"}, func(p *trainee) { p.as(drill.Alone, 1, move("left", "off")) }, 17, `0.0 true Pump fails
0.0 true lost: Water (follows)
0.0 told warning “WATER”
1.0 done pilot: Left switch to off
1.0 told “WATER” goes out
alert 0.0 WATER: was answered after 1 s; a crew by the book begin with it after 3 s
other Left switch 1: nothing that lasts followed from it in this model
`},
		"and is": {[]string{"a"}, func(p *trainee) { p.as(drill.Alone, 1, move("left", "off")) }, 17.1, `0.0 true Pump fails
0.0 true lost: Water (follows)
0.0 told warning “WATER”
1.0 done pilot: Left switch to off
1.0 told “WATER” goes out
alert 0.0 WATER: was answered after 1 s; a crew by the book begin with it after 3 s
step 1 left=off of Water low, best 17.0: done in time
`},
		"wrong order, late, already, left out": {[]string{"a", "b"}, func(p *trainee) {
			p.as(drill.Alone, 14, move("right", "off"))
			p.as(drill.Alone, 28, move("left", "off"))
			p.as(drill.Alone, 28, look("hand"))
			p.as(drill.Alone, 30, move("spare", "on"))
		}, 90, `0.0 true Pump fails
0.0 true Fan fails
0.0 true lost: Water (follows) and Air (told)
0.0 told warning “WATER”
0.0 told caution “AIR”
14.0 done pilot: Right switch to off
14.0 told caution “RIGHT OFF”
28.0 done pilot: Left switch to off
28.0 done pilot: looks at Hand: off
28.0 told “WATER” goes out
30.0 done pilot: Spare switch to on
alert 0.0 WATER: was answered after 14 s; a crew by the book begin with it after 3 s
alert 0.0 AIR: calls for no procedure
alert 14.0 RIGHT OFF: was never answered; a crew by the book begin with it after 21 s
step 1 left=off of Water low, best 17.0: done 11 s late
step 3.else.1 right=off of Water low, best 26.4: done in time, before the step in front of it
step 1 right=on of Right off, best 61.8: left out: nothing that lasts followed from it in this model
other Spare switch 1: the control stood there already
look Hand by both 1 first 28.0
`},
		"nobody": {[]string{"a", "b"}, func(p *trainee) {}, 90, `0.0 true Pump fails
0.0 true Fan fails
0.0 true lost: Water (follows) and Air (told)
0.0 told warning “WATER”
0.0 told caution “AIR”
alert 0.0 WATER: was never answered; a crew by the book begin with it after 3 s
alert 0.0 AIR: calls for no procedure
step 1 left=off of Water low, best 17.0: left out: warning “WATER” sounding 7 times more
step 3.else.1 right=off of Water low, best 26.4: left out: nothing that lasts followed from it in this model
step 1 right=on of Right off, best 61.8: the control stood there already
`},
		"what nobody looks at": {[]string{"c"}, func(p *trainee) { p.as(drill.PilotFlying, -5, look("light_seen")) }, 900, `-5.0 done PF: looks at Light seen: 1
0.0 true Lamp fails
0.0 true lost: Light (hidden)
unseen 0.0 Light seen would have shown that Light is lost; nobody looked
look Light seen by PF 1 first -5.0
`},
		"the instructor, and a look in time": {nil, func(p *trainee) {
			p.as(drill.Instructor, 5, drill.Input{Do: drill.Inject, Strike: &drill.Strike{What: []string{"c.dim", "c"}}})
			p.as(drill.PilotFlying, 700, look("light_seen"))
			p.as(drill.PilotFlying, 701, move("left", "off"))
			p.as(drill.PilotFlying, 705, move("left", "on"))
		}, 900, `5.0 done the instructor lets fail: Lamp: Lamp dim, Lamp
5.0 true Lamp: Lamp dim fails
5.0 true Lamp fails
5.0 true lost: Light (hidden)
700.0 done PF: looks at Light seen: 0
701.0 done PF: Left switch to off
701.0 true lost: Water (follows)
705.0 done PF: Left switch to on
other Left switch 2: Water lost from 13:24 to 13:28
look Light seen by PF 1 first 700.0
`},
	} {
		t.Run(name, func(t *testing.T) {
			p := small(t, c.fail...)
			c.do(p)
			if got := p.told(p.debrief(c.to)); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// TestDebrief_WhatFollows: a loss counts that is more than ten seconds longer, or
// is not there otherwise; an alert that is not given otherwise, or sounds three
// times less; five are named and the rest counted.
func TestDebrief_WhatFollows(t *testing.T) {
	var more strings.Builder
	for i := range 6 {
		fmt.Fprintf(&more, "function \"more_%d\" {\n title = \"More %d\"\n works = spare == \"on\"\n severity = \"minor\"\n}\n", i, i)
	}
	fail := drill.Script{Fail: []drill.Strike{{What: []string{"b"}, At: "air + 60 s", ForS: 60}}}
	for _, c := range []struct {
		control string
		from    float64
		to      float64
		want    string
	}{
		{"spare", 5, 8, "More 0 lost from 1:48 to 1:51, More 1 lost from 1:48 to 1:51, More 2 lost from 1:48 to 1:51, More 3 lost from 1:48 to 1:51, More 4 lost from 1:48 to 1:51 and 1 more"},
		{"right", 55, 69, "caution “RIGHT OFF” from 2:38"},
		{"right", 55, 71, "Air lost for 11 s longer and caution “RIGHT OFF” from 2:38"},
		{"right", 5, 6, "caution “RIGHT OFF” from 1:48"},
	} {
		p := smallWith(t, more.String(), fail)
		p.as(drill.PilotFlying, c.from, move(c.control, "off"))
		p.as(drill.PilotFlying, c.to, move(c.control, "on"))
		if d := p.debrief(100); len(d.Others) != 1 || d.Others[0].Text != c.want {
			t.Errorf("%s off from %g to %g: %+v\nwant %s", c.control, c.from, c.to, d.Others, c.want)
		}
	}
}

// TestDebrief_UnseenIsWhatWasWanted, and has come: a loss that passes before the
// function is called for is not held against anybody, nor one to come.
func TestDebrief_UnseenIsWhatWasWanted(t *testing.T) {
	for _, c := range []struct {
		lasts, at float64
		want      int
	}{{0, 900, 1}, {0, -5, 0}, {60, 900, 0}} {
		p := smallWith(t, "", drill.Script{Fail: []drill.Strike{{What: []string{"c"}, At: "air + 60 s", ForS: c.lasts}}})
		if d := p.debrief(c.at); len(d.Unseen) != c.want {
			t.Errorf("for %g s, at %g s: %+v", c.lasts, c.at, d.Unseen)
		}
	}
}

// TestDebrief_ALookAtTheVeryMoment sees the loss: it is read when that is over.
func TestDebrief_ALookAtTheVeryMoment(t *testing.T) {
	for before, want := range map[float64]int{1.35: 0, 1.36: 1} {
		p := small(t, "c")
		p.as(drill.PilotFlying, -before, drill.Input{Do: drill.Look, ID: "light_seen"})
		if d := p.debrief(900); len(d.Unseen) != want {
			t.Errorf("looked %g s before: %+v", before, d.Unseen)
		}
	}
	if mind := book.AtSeconds(crew.DefaultPace().MindS); drill.LookTakes != mind {
		t.Errorf("a look takes %d, docs/crew.md says %d", drill.LookTakes, mind)
	}
}

// TestDebrief_MovedToWhereItStoodAmongOthers: where something else was done in the
// same moment the control may have moved in between, so it is flown without it.
func TestDebrief_MovedToWhereItStoodAmongOthers(t *testing.T) {
	for look, want := range map[float64]string{20: "nothing that lasts followed from it in this model", 19: "the control stood there already"} {
		p := small(t, "b")
		p.as(drill.Alone, look, drill.Input{Do: drill.Look, ID: "press"})
		p.as(drill.Alone, 20, move("spare", "on"))
		if d := p.debrief(60); len(d.Others) != 1 || d.Others[0].Text != want {
			t.Errorf("a look at %g s: %+v", look, d.Others)
		}
	}
}

// TestDebrief_NextToAnotherMove: with something else moved in the same moment, before
// or behind it, the control may have moved in between.
func TestDebrief_NextToAnotherMove(t *testing.T) {
	for _, first := range []string{"spare", "left"} {
		p := small(t, "b")
		for _, id := range []string{first, map[string]string{"spare": "left", "left": "spare"}[first]} {
			p.as(drill.Alone, 20, move(id, "on"))
		}
		d := p.debrief(60)
		if len(d.Others) != 2 || d.Others[0].Text != "nothing that lasts followed from it in this model" || d.Others[1].Text != d.Others[0].Text {
			t.Errorf("%s first: %+v", first, d.Others)
		}
	}
}

// TestDebrief_EachControlForItself: what follows from one is not laid to another
// that was moved too, nor what a list called for to what it did not.
func TestDebrief_EachControlForItself(t *testing.T) {
	p := small(t, "a")
	p.as(drill.Alone, 20, move("left", "off")) // called for
	p.as(drill.Alone, 25, move("spare", "off"))
	p.as(drill.Alone, 30, move("left", "on")) // not called for
	p.as(drill.Alone, 33, move("left", "off"))
	p.as(drill.Alone, 40, move("right", "off"))
	text := map[string]string{}
	for _, m := range p.debrief(58).Others {
		text[m.Control] = m.Text
	}
	want := map[string]string{"spare": "nothing that lasts followed from it in this model", "left": "nothing that lasts followed from it in this model", "right": `Air lost from 2:23 and caution “RIGHT OFF” from 2:23`}
	for id, w := range want {
		if text[id] != w {
			t.Errorf("%s: %q, want %q", id, text[id], w)
		}
	}
}

// TestDebrief_AlreadyThere: moved before the alert came, the step is neither done
// nor left out.
func TestDebrief_AlreadyThere(t *testing.T) {
	p := small(t, "a")
	p.as(drill.Alone, 1, move("spare", "off"))
	x := stepOf(t, p.debrief(900), "spare=off", 0)
	if !x.Already && x.At == nil || x.Text == "" {
		t.Errorf("%+v", x)
	}
	p = small(t, "a", "b")
	if x := stepOf(t, p.debrief(90), "right=on", 0); !x.Already || x.At != nil || x.Text != "the control stood there already" {
		t.Errorf("%+v", x)
	}
	if x := stepOf(t, p.debrief(90), "left=off", 0); x.Already || x.At != nil {
		t.Errorf("left out: %+v", x)
	}
}

// TestDebrief_OneMoveIsOneStep: a list that calls for the same move twice is not
// done with it once.
func TestDebrief_OneMoveIsOneStep(t *testing.T) {
	p := smallWith(t, `
alert "cold" {
  level     = "caution"
  message   = "COLD"
  when      = !b
  procedure = cold_list
}
procedure "cold_list" {
  title = "Cold"
  do {
    set = spare
    to  = "off"
  }
  do {
    set = spare
    to  = "on"
  }
  do {
    set = spare
    to  = "off"
  }
}
`, drill.Script{Fail: []drill.Strike{{What: []string{"b"}, At: "air + 60 s"}}})
	p.as(drill.Alone, 20, move("spare", "off"))
	p.as(drill.Alone, 22, move("spare", "on"))
	d := p.debrief(90)
	first, second := stepOf(t, d, "spare=off", 0), stepOf(t, d, "spare=off", 1)
	if first.At == nil || second.At != nil || second.Already || !strings.HasPrefix(second.Text, "left out: ") {
		t.Errorf("first %+v\nsecond %+v", first, second)
	}
}
