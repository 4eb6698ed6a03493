package drill_test

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/drill"
)

// smallBook is a hop of some minutes with one of everything that a screen and a
// debrief speak of. Invented.
const smallBook = `
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
  icing_from_ft      = 3000
  icing_to_ft        = 5000
}
unit "a" { title = "Pump" }
unit "b" { title = "Fan" }
unit "c" {
  title = "Lamp"
  fault "dim" { title = "Lamp dim" }
}
control "left" {
  title     = "Left switch"
  positions = ["on", "off"]
  initial   = "on"
}
control "right" {
  title     = "Right switch"
  positions = ["on", "off"]
  initial   = "on"
}
control "spare" {
  title     = "Spare switch"
  positions = ["on", "off"]
  initial   = "on"
}
function "water" {
  title    = "Water"
  works    = a && left == "on"
  severity = "major"
}
function "air_flow" {
  title    = "Air"
  works    = b && right == "on"
  severity = "minor"
}
function "light" {
  title    = "Light"
  works    = c
  wanted   = down
  severity = "minor"
}
alert "water_low" {
  level     = "warning"
  message   = "WATER"
  when      = !a && left == "on"
  repeats_s = 10
  procedure = water_list
}
alert "air_low" {
  level     = "caution"
  message   = "AIR"
  when      = !b
  tells     = [air_flow]
}
alert "right_off" {
  level     = "caution"
  message   = "RIGHT OFF"
  when      = right == "off"
  procedure = right_list
}
signal "press_psi" { value = a ? 50 : 7 }
indication "press" {
  title = "Pressure"
  shows = press_psi
}
indication "hand" {
  title = "Hand"
  shows = left
}
indication "lamp" {
  title  = "Lamp"
  shows  = a
  lit_by = c
}
indication "lamp_a" {
  shows = a
}
indication "lamp_b" {
  shows = b
}
indication "light_seen" {
  title = "Light seen"
  shows = c ? 1 : 0
  means = c ? 1 : 0
  tells = [light]
}
procedure "water_list" {
  title = "Water low"
  do {
    set    = left
    to     = "off"
    sensed = true
  }
  check {
    says   = "No water"
    that   = !lamp_a
    sensed = true
  }
  decide {
    says = "Air there"
    that = lamp_b
    then {
      note {
        says = "Keep it"
      }
    }
    else {
      do {
        set = right
        to  = "off"
      }
    }
  }
  later {
    in = down
    do {
      set = spare
      to  = "off"
    }
  }
}
procedure "right_list" {
  title = "Right off"
  do {
    set = right
    to  = "on"
  }
}
`

// small is a drill of the small book in which things fail 60 s into the air, and
// that moment.
func small(t *testing.T, fail ...string) *trainee {
	t.Helper()
	var script drill.Script
	if len(fail) > 0 {
		script.Fail = []drill.Strike{{What: fail, At: "air + 60 s"}}
	}
	return smallWith(t, "", script)
}

// smallWith is a drill of a script on the small book with more in it.
func smallWith(t *testing.T, more string, script drill.Script) *trainee {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(smallBook + more)}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	d, err := drill.NewDeck(b, "", "", nil)
	if err != nil {
		t.Fatal(err)
	}
	from, err := d.Course().Resolve(context.Background(), book.Moment{Phase: "air", Offset: 60 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	return &trainee{t: t, s: open(t, d, script), build: d.Build(), from: from}
}

// as takes an input of one of several people.
func (p *trainee) as(who drill.Role, seconds float64, in drill.Input) {
	p.t.Helper()
	in.Client, in.Number, in.Who, in.At = string(who), 1, who, p.from+book.AtSeconds(seconds)
	for _, was := range p.s.Log() {
		if was.Client == in.Client {
			in.Number++
		}
	}
	if _, err := p.s.Accept(context.Background(), in); err != nil {
		p.t.Fatal(err)
	}
}

func (p *trainee) to(seconds float64) {
	p.t.Helper()
	if err := p.s.Advance(context.Background(), p.from+book.AtSeconds(seconds)); err != nil {
		p.t.Fatal(err)
	}
}

// TestScreen_Alerts: those that are given, with since when and when they sounded
// last; the highest level first, then the latest (docs/drill.md).
func TestScreen_Alerts(t *testing.T) {
	p := small(t, "a")
	p.as(drill.PilotFlying, 3, move("right", "off"))
	p.as(drill.Instructor, 7, drill.Input{Do: drill.Inject, Strike: &drill.Strike{What: []string{"b"}}})
	shown := func() (text string) {
		for _, a := range p.s.Screen(drill.PilotFlying).Alerts {
			text += fmt.Sprintf("%s %s %.0f %.0f\n", a.Level, a.Message, (a.SinceUS - p.from).Seconds(), (a.SoundUS - p.from).Seconds())
		}
		return text
	}
	for _, c := range []struct {
		at   float64
		want string
	}{
		{9.5, "warning WATER 0 0\ncaution AIR 7 7\ncaution RIGHT OFF 3 3\n"},
		{10, "warning WATER 0 10\ncaution AIR 7 7\ncaution RIGHT OFF 3 3\n"},
		{39.5, "warning WATER 0 30\ncaution AIR 7 7\ncaution RIGHT OFF 3 3\n"},
	} {
		if p.to(c.at); shown() != c.want {
			t.Errorf("after %g s:\n%swant\n%s", c.at, shown(), c.want)
		}
	}
	p.as(drill.PilotFlying, 40, move("left", "off"))
	p.as(drill.PilotFlying, 41, move("right", "on"))
	if p.to(42); shown() != "caution AIR 7 7\n" {
		t.Errorf("afterwards:\n%s", shown())
	}
}

// TestScreen_Situation: where, how far, and ice; never speed and height.
func TestScreen_Situation(t *testing.T) {
	p := small(t)
	text := func() (list string) {
		for _, f := range p.s.Screen(drill.PilotFlying).Situation {
			list += f.Title + ": " + f.Text + "\n"
		}
		return list
	}
	if got := text(); got != "Where: on the ground\nTo go: 60.5 NM\n" {
		t.Errorf("before the start:\n%s", got)
	}
	seen := map[bool]bool{}
	for s := -50.0; s < 400; s += 10 {
		p.to(s)
		ice := strings.Contains(text(), "Weather: in cloud or rain cold enough for ice")
		seen[ice] = true
		if !strings.Contains(text(), "Where: in the air\n") || strings.Contains(text(), "Weather") != ice {
			t.Fatalf("%g s:\n%s", s, text())
		}
	}
	if len(seen) != 2 {
		t.Errorf("ice: %v", seen)
	}
}

// TestScreen_Readings: a number with its unit, a word, a yes or no; one that is
// dark is looked at and shows nothing; and only to who looked.
func TestScreen_Readings(t *testing.T) {
	p := small(t, "a", "c")
	for i, id := range []string{"press", "hand", "lamp"} {
		p.as(drill.PilotFlying, -20+float64(i), drill.Input{Do: drill.Look, ID: id})
		p.as(drill.Instructor, -20+float64(i), drill.Input{Do: drill.Look, ID: id})
	}
	read := func(list []drill.Reading) (text string) {
		for _, r := range list {
			text += fmt.Sprintf("%s %v %v %q; ", r.ID, r.Ready, r.Lit, r.Text)
		}
		return text
	}
	p.to(-16)
	if got := read(p.s.Screen(drill.PilotFlying).Looked); got != `press true true "50 psi"; hand true true "on"; lamp true true "on"; ` {
		t.Errorf("before: %s", got)
	}
	p.to(10)
	for i, id := range []string{"press", "lamp"} {
		p.as(drill.PilotFlying, 10+float64(i), drill.Input{Do: drill.Look, ID: id})
	}
	p.to(20)
	if got := read(p.s.Screen(drill.PilotFlying).Looked); got != `hand true true "on"; press true true "7 psi"; lamp true false ""; ` {
		t.Errorf("after: %s", got)
	}
	if got := p.s.Screen(drill.PilotMonitoring); len(got.Looked) != 0 || got.Truth != nil || got.Failed != nil || got.Inputs != 0 {
		t.Errorf("the other: %+v", got)
	}
	all := p.s.Screen(drill.Instructor)
	if got := read(all.Truth); got != `press true true "7 psi"; hand true true "on"; lamp true false ""; lamp_a true true "off"; lamp_b true true "on"; light_seen true true "0"; ` {
		t.Errorf("the truth: %s", got)
	}
	if strings.Join(all.Failed, " ") != "a c" || all.Inputs != 8 {
		t.Errorf("failed %v, %d inputs", all.Failed, all.Inputs)
	}
	p.as(drill.Instructor, 30, drill.Input{Do: drill.Inject, Strike: &drill.Strike{What: []string{"c.dim"}}})
	p.to(31)
	if got := p.s.Screen(drill.Instructor).Failed; strings.Join(got, " ") != "a c c.dim" {
		t.Errorf("with a fault: %v", got)
	}
}

// TestScreen_Lists: what is sensed goes out by itself, a decision opens the lines
// of its answer, what is left for later is there; one procedure called for twice
// is two lists, and a tick is of the last.
func TestScreen_Lists(t *testing.T) {
	p := small(t, "a")
	rows := func(i int) (text string) {
		for _, r := range p.s.Screen(drill.PilotFlying).Lists[i].Lines {
			text += fmt.Sprintf("%s %s %q %s done=%v %s\n", r.Number, r.Do, r.Says, r.Set, r.Done, r.Way)
		}
		return text
	}
	const tail = "4 later \"\"  done=false \n4.later.1 do \"Spare switch: off\" spare done=false \n"
	p.as(drill.PilotFlying, -30, drill.Input{Do: drill.Call, ID: "water_list"})
	p.to(-29)
	if got := rows(0); got != "1 do \"Left switch: off\" left done=false \n2 check \"No water\"  done=false \n3 decide \"Air there\"  done=false \n"+tail {
		t.Errorf("before:\n%s", got)
	}
	p.as(drill.PilotMonitoring, 5, move("left", "off"))
	p.as(drill.PilotMonitoring, 6, drill.Input{Do: drill.Tick, ID: "water_list", Step: "3", To: "yes"})
	p.to(7)
	const head = "1 do \"Left switch: off\" left done=true \n2 check \"No water\"  done=true \n"
	if got := rows(0); got != head+"3 decide \"Air there\"  done=true yes\n3.then.1 note \"Keep it\"  done=false \n"+tail {
		t.Errorf("with yes:\n%s", got)
	}
	p.as(drill.PilotMonitoring, 8, drill.Input{Do: drill.Call, ID: "right_list"})
	p.as(drill.PilotMonitoring, 9, drill.Input{Do: drill.Call, ID: "water_list"})
	p.as(drill.PilotMonitoring, 10, drill.Input{Do: drill.Tick, ID: "water_list", Step: "3", To: "no"})
	p.to(11)
	if got := rows(2); got != head+"3 decide \"Air there\"  done=true no\n3.else.1 do \"Right switch: off\" right done=false \n"+tail {
		t.Errorf("the second time, with no:\n%s", got)
	}
	if got := rows(0); !strings.Contains(got, "done=true yes") {
		t.Errorf("the first list has changed:\n%s", got)
	}
	for step, to := range map[string]string{"9": "", "3": "maybe"} {
		in := drill.Input{Client: "x", Number: 1, At: p.s.Now(), Who: drill.PilotFlying, Do: drill.Tick, ID: "water_list", Step: step, To: to}
		if _, err := p.s.Accept(context.Background(), in); why(err) != drill.Garbage {
			t.Errorf("line %s answered %q: %v", step, to, err)
		}
	}
}

// TestInventory: all that there is, in the order of the book, and the caution.
func TestInventory(t *testing.T) {
	b, _ := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(smallBook)}})
	d, err := drill.NewDeck(b, "", "hop", nil)
	if err != nil {
		t.Fatal(err)
	}
	v := d.Inventory()
	ids := func(list []drill.Thing) (s string) {
		for _, x := range list {
			s += x.ID + " "
		}
		return s
	}
	if ids(v.Indications) != "press hand lamp lamp_a lamp_b light_seen " || ids(v.Controls) != "left right spare " || ids(v.Lists) != "water_list right_list " || v.Caution != book.Caution {
		t.Errorf("%+v", v)
	}
	if len(v.Controls[0].Positions) != 2 || v.Aircraft != "Small" {
		t.Errorf("%+v", v)
	}
	if _, err := json.Marshal(v); err != nil {
		t.Error(err)
	}
}
