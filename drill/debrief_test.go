package drill_test

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/drill"
)

// trainee is somebody who acts at moments counted from the failure.
type trainee struct {
	t      *testing.T
	s      *drill.Session
	build  *book.Build
	from   book.Time
	number int
}

func (p *trainee) at(seconds float64, in drill.Input) {
	p.t.Helper()
	p.number++
	in.Client, in.Number, in.Who, in.At = "one", p.number, drill.Alone, p.from+book.AtSeconds(seconds)
	if _, err := p.s.Accept(context.Background(), in); err != nil {
		p.t.Fatal(err)
	}
}

func move(id, to string) drill.Input { return drill.Input{Do: drill.Move, ID: id, To: to} }

// begin opens a drill in which the left generator fails in the cruise.
func begin(t *testing.T) *trainee {
	t.Helper()
	d := deck(t, "northern_link")
	s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"gen_left"}, At: "cruise + 60 s"}}})
	from, err := d.Course().Resolve(context.Background(), book.Moment{Phase: "cruise", Offset: 60 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	return &trainee{t: t, s: s, build: d.Build(), from: from}
}

func (p *trainee) debrief(seconds float64) *drill.Debrief {
	p.t.Helper()
	if err := p.s.Advance(context.Background(), p.from+book.AtSeconds(seconds)); err != nil {
		p.t.Fatal(err)
	}
	d, err := p.s.Debrief(context.Background(), nil)
	if err != nil {
		p.t.Fatal(err)
	}
	return d
}

func stepOf(t *testing.T, d *drill.Debrief, moves string, nth int) drill.Done {
	t.Helper()
	for _, x := range d.Steps {
		if x.Moves == moves {
			if nth--; nth < 0 {
				return x
			}
		}
	}
	t.Fatalf("the debrief has no step %s: %+v", moves, d.Steps)
	return drill.Done{}
}

// TestDebrief_DoneRight: what is done as a crew would do it is said to be so.
func TestDebrief_DoneRight(t *testing.T) {
	p := begin(t)
	p.at(12, drill.Input{Do: drill.Call, ID: "left_generator_off"})
	p.at(18, move("gen_left_switch", "off"))
	p.at(22, move("gen_left_switch", "on"))
	d := p.debrief(40)
	for i, want := range []string{"gen_left_switch=off", "gen_left_switch=on"} {
		if x := stepOf(t, d, want, 0); x.At == nil || x.Early || x.LateS > 10 || x.Text != "done in time" {
			t.Errorf("step %d: %+v", i+1, x)
		}
	}
	i := slices.IndexFunc(d.Alerts, func(a drill.Story) bool { return a.ID == "left_gen_off" })
	if i < 0 || d.Alerts[i].Answered == nil || d.Alerts[i].AfterS < 11.9 || d.Alerts[i].AfterS > 12.1 || d.Alerts[i].BestS != 5 {
		t.Errorf("alerts: %+v", d.Alerts)
	}
	if len(d.Others) > 0 {
		t.Errorf("nothing else was moved: %+v", d.Others)
	}
}

// TestDebrief_DoneWrong: the wrong switch, what was left out, what was swapped
// and what was late are named with their consequences.
func TestDebrief_DoneWrong(t *testing.T) {
	p := begin(t)
	p.at(20, move("gen_right_switch", "off")) // the wrong side
	p.at(40, move("gen_right_switch", "on"))  // much later the engines would have starved
	p.at(70, move("gen_left_switch", "on"))
	p.at(90, move("gen_left_switch", "off"))
	d := p.debrief(5000)
	i := slices.IndexFunc(d.Others, func(m drill.Moved) bool { return m.Control == "gen_right_switch" })
	if i < 0 || len(d.Others[i].Turns) != 2 || d.Others[i].Turns[0].To != "off" || !strings.Contains(d.Others[i].Text, " lost from ") {
		t.Errorf("the wrong switch: %+v", d.Others)
	}
	if x := stepOf(t, d, "gen_left_switch=off", 0); x.At == nil || x.LateS < 60 || !strings.Contains(x.Text, " late") {
		t.Errorf("late: %+v", x)
	}
	if x := stepOf(t, d, "gen_left_switch=on", 0); x.At == nil || !x.Early {
		t.Errorf("swapped: %+v", x)
	}
	left := slices.IndexFunc(d.Steps, func(x drill.Done) bool { return x.Moves == "apu_switch=run" })
	if left < 0 || d.Steps[left].At != nil || !strings.HasPrefix(d.Steps[left].Text, "left out: ") {
		t.Errorf("left out: %+v", d.Steps)
	}
	if d.ThisRun == d.BestRun || d.ThisRun == "" || d.Caution != book.Caution {
		t.Errorf("this run: %s; the best: %s", d.ThisRun, d.BestRun)
	}
	kinds := map[string]int{}
	for i, e := range d.Events {
		kinds[e.When]++
		if i > 0 && e.At.TimeS < d.Events[i-1].At.TimeS {
			t.Error("the events are not in order")
		}
	}
	if kinds["true"] == 0 || kinds["told"] == 0 || kinds["done"] != 4 {
		t.Errorf("events: %v", kinds)
	}
}

// TestDebrief_OfALog: a drill that is replayed has the same debrief to the byte.
func TestDebrief_OfALog(t *testing.T) {
	p := begin(t)
	p.at(20, move("gen_left_switch", "off"))
	p.at(25, drill.Input{Do: drill.Look, ID: p.s.Screen(drill.Instructor).Truth[3].ID})
	one := p.debrief(600)
	fresh := open(t, deck(t, "northern_link"), p.s.Script())
	for _, in := range p.s.Log() {
		if _, err := fresh.Accept(context.Background(), in); err != nil {
			t.Fatal(err)
		}
	}
	if err := fresh.Advance(context.Background(), p.s.Now()); err != nil {
		t.Fatal(err)
	}
	two, err := fresh.Debrief(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := json.Marshal(one)
	b, _ := json.Marshal(two)
	if string(a) != string(b) {
		t.Errorf("%s", firstDifference(string(a), string(b)))
	}
	if len(one.Looks) != 1 || one.Looks[0].Times != 1 {
		t.Errorf("looks: %+v", one.Looks)
	}
}

// TestDebrief_WhatNobodyLookedAt: a loss that only an indication shows is named
// until somebody looks.
func TestDebrief_WhatNobodyLookedAt(t *testing.T) {
	d := deck(t, "northern_link")
	s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}})
	if err := s.Advance(context.Background(), 6000*book.Second); err != nil {
		t.Fatal(err)
	}
	blind, err := s.Debrief(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(blind.Unseen) == 0 {
		t.Fatal("nothing was there to be seen: the test shows nothing")
	}
	var id string
	for _, i := range d.Build().Indications {
		if i.Title == blind.Unseen[0].Indication {
			id = i.ID
		}
	}
	s = open(t, d, s.Script())
	at := book.AtSeconds(blind.Unseen[0].Since.TimeS) + 30*book.Second
	if _, err := s.Accept(context.Background(), drill.Input{Client: "a", Number: 1, Who: drill.PilotMonitoring, At: at, Do: drill.Look, ID: id}); err != nil {
		t.Fatal(err)
	}
	if err := s.Advance(context.Background(), 6000*book.Second); err != nil {
		t.Fatal(err)
	}
	seen, err := s.Debrief(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(seen.Unseen) >= len(blind.Unseen) {
		t.Errorf("%d unseen with a look, %d without", len(seen.Unseen), len(blind.Unseen))
	}
}
