package drill_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/drill"
	"knockon/internal/corvane/islands"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/region"
	"knockon/run"
)

// TestProgramme_IsOfItsScript: what comes stands at its moment, what to watch for is the
// points of the answer, what a crew move is what they move in a flight of their own.
func TestProgramme_IsOfItsScript(t *testing.T) {
	d, ctx := deck(t, "northern_link"), context.Background()
	p, err := d.Programme(ctx, drill.Script{Fail: []drill.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}})
	if err != nil {
		t.Fatal(err)
	}
	at, err := d.Course().Resolve(ctx, book.Moment{Phase: "climb", Offset: 120 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Comes) != 1 || p.Comes[0].At.TimeS != at.Seconds() || p.Comes[0].Text != d.Build().FailureTitle("tr_right")+" fails" {
		t.Errorf("comes: %+v", p.Comes)
	}
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}}}, Inoperative: []book.FailureRef{{Unit: "tr_left"}}}
	l, err := ledger.Answer(ctx, d.Course(), s)
	if err != nil || known.Judge(ctx, l) != nil {
		t.Fatal(err)
	}
	points := point.Of(l).View(l).Points
	if len(p.Watch) != len(points) || len(points) < 3 {
		t.Errorf("%d to watch for, %d points", len(p.Watch), len(points))
	}
	for i, x := range p.Watch {
		if i > 0 && x.At.TimeS < p.Watch[i-1].At.TimeS || !slices.ContainsFunc(points, func(y ledger.Point) bool { return y.Text == x.Text }) {
			t.Errorf("to watch for, not in order or no point: %+v", x)
		}
	}
	plan, err := crewOf(t, d).FlySlowly(ctx, s)
	if err != nil {
		t.Fatal(err)
	}
	if moves := plan.Actions(); len(moves) != len(p.Crew) || len(moves) == 0 {
		t.Errorf("a crew move %d controls, the programme has %d", len(moves), len(p.Crew))
	}
	if p.Ends.TimeS != l.Here.End.Seconds() {
		t.Errorf("it ends at %v, the flight at %v", p.Ends, l.Here.End)
	}
}

// crewOf is a crew on the flight deck of a drill.
func crewOf(t *testing.T, d *drill.Deck) *crew.Team {
	t.Helper()
	team, err := crew.NewTeam(d.Build(), d.Course().Flight, crew.Setting{Run: run.Setting{Router: region.Router{Region: islands.Region(t)}}})
	if err != nil {
		t.Fatal(err)
	}
	return team
}

// TestProgramme_OfNothing says why there is nothing to watch for.
func TestProgramme_OfNothing(t *testing.T) {
	d := deck(t, "northern_link")
	p, err := d.Programme(context.Background(), drill.Script{})
	if err != nil || len(p.Comes)+len(p.Watch) != 0 || p.Nothing == "" {
		t.Errorf("%+v %v", p, err)
	}
	var no *drill.Refusal
	if _, err := d.Programme(context.Background(), drill.Script{Fail: []drill.Strike{{What: []string{"gen_lft"}}}}); !errors.As(err, &no) {
		t.Errorf("of what is not there: %v", err)
	}
}

func note(says string) drill.Input { return drill.Input{Do: drill.Note, Says: says} }

// TestNote_GoesIntoTheDebrief with its moment: also one that was made while the clock
// stood, before a rewind, and after the end. The crew see none of it on their screens.
func TestNote_GoesIntoTheDebrief(t *testing.T) {
	p := small(t, "a")
	p.as(drill.Instructor, 10, note("slow"))
	p.as(drill.Instructor, 20, drill.Input{Do: drill.Clock, Rate: 0})
	p.as(drill.Instructor, 20, note("held, to talk"))
	p.as(drill.Instructor, 20, drill.Input{Do: drill.Rewind, Back: p.from + 5*book.Second})
	p.as(drill.Instructor, 30, drill.Input{Do: drill.Finish})
	p.as(drill.Instructor, 30, note("well ended"))
	d := p.debrief(30)
	var got []string
	for _, n := range d.Notes {
		got = append(got, n.At.Clock+" "+n.Text)
	}
	if want := []string{"1:53 slow", "2:03 held, to talk", "2:13 well ended"}; !slices.Equal(got, want) {
		t.Errorf("notes: %q, want %q", got, want)
	}
	if !slices.ContainsFunc(d.Lanes(), func(l drill.Lane) bool {
		return l.At.Clock == "2:13" && slices.Contains(l.Done, "the instructor notes: well ended")
	}) {
		t.Errorf("not in the lanes: %+v", d.Lanes())
	}
	if n := p.s.Screen(drill.Instructor).Notes; len(n) != 3 {
		t.Errorf("the instructor sees %+v", n)
	}
	if n := p.s.Screen(drill.PilotFlying).Notes; n != nil {
		t.Errorf("a pilot sees %+v", n)
	}
}

// TestNote_Refused in words, and the drill is as before.
func TestNote_Refused(t *testing.T) {
	for name, c := range map[string]struct {
		who drill.Role
		in  drill.Input
		why drill.Why
	}{
		"of a pilot":       {drill.PilotFlying, note("me too"), drill.NotAllowed},
		"empty":            {drill.Instructor, note(" \n"), drill.Garbage},
		"endless":          {drill.Instructor, note(strings.Repeat("x", drill.MostNote+1)), drill.Garbage},
		"a move that says": {drill.Alone, drill.Input{Do: drill.Move, ID: "left", To: "off", Says: "x"}, drill.Garbage},
	} {
		p := small(t, "a")
		before := screens(t, p.s)
		c.in.Client, c.in.Number, c.in.Who, c.in.At = "n", 1, c.who, p.from
		_, err := p.s.Accept(context.Background(), c.in)
		var no *drill.Refusal
		if !errors.As(err, &no) || no.Why != c.why || no.Text == "" || screens(t, p.s) != before {
			t.Errorf("%s: %v", name, err)
		}
	}
	p := small(t, "a")
	for i := range drill.MostNotes + 1 {
		in := note("again")
		in.Client, in.Number, in.Who, in.At = "n", i+1, drill.Instructor, p.from
		_, err := p.s.Accept(context.Background(), in)
		var no *drill.Refusal
		if refused := errors.As(err, &no); refused != (i == drill.MostNotes) || refused && no.Why != drill.TooMany {
			t.Fatalf("note %d: %v", i+1, err)
		}
	}
}

// TestDebrief_WhatWasDueBeforeItBegan is nobody's: a drill that begins in the climb owes
// nothing of what a crew do on the ground.
func TestDebrief_WhatWasDueBeforeItBegan(t *testing.T) {
	d, ctx := deck(t, "northern_link"), context.Background()
	at, err := d.Course().Resolve(ctx, book.Moment{Phase: "climb", Offset: 120 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	steps := func(begins bool) (before, all int) {
		s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}})
		if begins {
			if _, err := s.Accept(ctx, drill.Input{Client: "h", Number: 1, Who: drill.Instructor, Do: drill.Clock, Rate: 1, At: at - 45*book.Second}); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Advance(ctx, at+60*book.Second); err != nil {
			t.Fatal(err)
		}
		v, err := s.Debrief(ctx, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range v.Steps {
			if x.Best.TimeS < at.Seconds()-45 {
				before++
			}
		}
		return before, len(v.Steps)
	}
	if before, all := steps(true); before != 0 || all == 0 {
		t.Errorf("%d of %d steps were due before it began", before, all)
	}
	if before, _ := steps(false); before == 0 {
		t.Error("nothing is ever due before: the test shows nothing")
	}
}
