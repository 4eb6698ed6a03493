package crew_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/roll"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestDrop_WhatIsGoneWhenTheyWouldBegin is dropped, also at that very moment; what
// is there again stands.
func TestDrop_WhatIsGoneWhenTheyWouldBegin(t *testing.T) {
	for when, want := range map[string]string{"pulse(!a, 3)": "", "pulse(!a, 3) || held(!a, 4)": "4-14 PM x_list list\n14-15 PM x_list 1\n"} {
		tm := small(t, alert("x", "caution", when, "x_list")+note("x_list"))
		got, p := lines(t, tm, "air + 60 s", "a")
		if got != want || p.Calls[0].Dropped != (want == "") {
			t.Errorf("%s: dropped %v\n%s", when, p.Calls[0].Dropped, got)
		}
	}
}

// TestFly_AnAlertAtTheEnd of the flight is nobody's any more.
func TestFly_AnAlertAtTheEnd(t *testing.T) {
	end := small(t, "").Course().Path.End().Seconds()
	for before, calls := range map[float64]int{0: 0, 0.000001: 1} {
		tm := small(t, alert("x", "caution", fmt.Sprintf("real.time_s >= %.6f", end-before), "x_list")+note("x_list"))
		_, p := lines(t, tm, "air + 60 s", "a")
		slow, err := tm.FlySlowly(context.Background(), failing(t, tm.Build(), "air + 60 s", "a"))
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Calls) != calls || len(slow.Calls) != calls {
			t.Errorf("%g s before the end: %d calls, %d", before, len(p.Calls), len(slow.Calls))
		}
	}
}

// TestPace_OneSecond is a second, and none is none: of finding a list, of a briefing.
func TestPace_OneSecond(t *testing.T) {
	build := small(t, alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		note { says = "now" }
		later {
			in = down
			note { says = "then" }
		}
	}`).Build()
	for _, x := range []struct {
		list, brief float64
		want        string
	}{{1, 1, "x_list list 4-5, brief 0-1, 1-2"}, {0, 0, "0-1"}} {
		pace := round()
		pace.ListS, pace.BriefS = x.list, x.brief
		tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: pace})
		if err != nil {
			t.Fatal(err)
		}
		p, err := tm.Fly(context.Background(), failing(t, build, "air + 60 s", "a"))
		if err != nil {
			t.Fatal(err)
		}
		from, _ := p.Record.FirstStrike()
		down, _ := p.Record.PhaseBegins("down")
		var got []string
		for _, l := range p.Lines {
			switch {
			case l.Kind == crew.ListLine:
				got = append(got, fmt.Sprintf("x_list list %g-%g", (l.From-from).Seconds(), (l.To-from).Seconds()))
			case l.Kind == crew.BriefLine:
				got = append(got, fmt.Sprintf("brief %g-%g", (l.From-down).Seconds(), (l.To-down).Seconds()))
			case l.Deferred:
				got = append(got, fmt.Sprintf("%g-%g", (l.From-down).Seconds(), (l.To-down).Seconds()))
			}
		}
		if all := strings.Join(got, ", "); all != x.want {
			t.Errorf("%g and %g s: %s, want %s", x.list, x.brief, all, x.want)
		}
	}
}

// TestFollows_ThroughWhatHoldsAValue (docs/crew.md): y is first in the book, so it
// is done first unless it follows from x, which cannot be done before.
func TestFollows_ThroughWhatHoldsAValue(t *testing.T) {
	const hum = "unit \"h\" {\n fault \"hums\" {}\n}\n"
	for name, c := range map[string]struct {
		book, x, y string
		what       []string
		first      string
	}{
		"of two that must be, not the one that is":      {hum + "signal \"sa\" { value = a }\nsignal \"sh\" { value = h }\nfunction \"g\" { works = sa && sh }\n", "h.hums", "!g", []string{"a", "h.hums"}, "y"},
		"of two that must be, the one that is not":      {hum + "signal \"sa\" { value = a }\nsignal \"sh\" { value = h }\nfunction \"g\" { works = sa && sh }\n", "!a", "!g", []string{"a", "h.hums"}, "x"},
		"a memory that could not be set":                {"signal \"m\" {\n set = c && down\n reset = !b\n}\n", "!a && held(down, 1)", "!m && held(down, 1)", []string{"a"}, "x"},
		"a memory that is set":                          {"signal \"m\" {\n set = !c\n reset = !b\n}\n", "!a", "m", []string{"a"}, "x"},
		"a choice that takes what is not":               {"unit \"e\" {}\nfunction \"g\" { works = e && (left == \"off\" ? b : c) }\n", "!a", "!g", []string{"a", "e"}, "x"},
		"a choice that takes what is":                   {"unit \"e\" {}\nfunction \"g\" { works = e && (left == \"on\" ? b : c) }\n", "!a", "!g", []string{"a", "e"}, "y"},
		"a choice between two, decided by what is down": {"unit \"e\" {}\nfunction \"g\" { works = e && (b ? c : true) }\n", "!a", "!g", []string{"a", "e"}, "x"},
	} {
		tm := small(t, c.book+alert("x", "caution", c.x, "x_list")+alert("y", "caution", c.y, "y_list")+note("y_list")+note("x_list"))
		got, p := lines(t, tm, "air + 60 s", c.what...)
		if first := p.Lines[0].Procedure.ID; first != c.first+"_list" || len(p.Lines) != 4 {
			t.Errorf("%s: first %s\n%s", name, first, got)
		}
	}
}

// TestTries_OnlyThoseOfAUnitThatFailed: where its control stood at the start is no
// try, and one that lasts is one.
func TestTries_OnlyThoseOfAUnitThatFailed(t *testing.T) {
	for tries, found := range map[int]int{1: 1, 2: 0} {
		tm := small(t, alert("x", "caution", "!a", "x_list")+fmt.Sprintf(`
			unit "d" {
				reset_by    = left == "on"
				reset_tries = %d
			}
			signal "uses_d" { value = d }
			procedure "x_list" {
				do {
					set = left
					to  = "off"
				}
				do {
					set = left
					to  = "on"
				}
				note { says = "a while in which it stays there" }
				do {
					set = left
					to  = "off"
				}
				do {
					set = left
					to  = "on"
				}
			}`, tries))
		s := failing(t, tm.Build(), "air + 60 s", "a")
		s.Inoperative = []book.FailureRef{{Unit: "d"}}
		p, err := tm.Fly(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Findings) != found || found > 0 && (p.Findings[0].Kind != crew.TooManyTries || p.Findings[0].Unit.ID != "d") {
			t.Errorf("two tries, %d allowed: %+v", tries, p.Findings)
		}
		v, err := tm.View(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		if found > 0 && v.Findings[0].Text != "d is reset more often than the book allows; the model lets every try reset it" {
			t.Error(v.Findings[0].Text)
		}
	}
}

// TestChanges_LateWhenTheAlertIsGone: the step is done all the same, and its
// procedure was begun when it was; a swap of the last two steps swaps them.
func TestChanges_LateWhenTheAlertIsGone(t *testing.T) {
	tm := small(t, alert("x", "caution", "pulse(!a, 20)", "x_list")+`procedure "x_list" {
		do {
			says = "off"
			set  = left
			to   = "off"
		}
		note { says = "one" }
		note { says = "two three" }
	}`)
	s, steps := failing(t, tm.Build(), "air + 60 s", "a"), tm.Build().Procedures[0].Steps
	p, err := tm.Fly(context.Background(), s, crew.Change{Kind: crew.Late, By: 60 * book.Second, Step: steps[0]})
	if err != nil {
		t.Fatal(err)
	}
	from, _ := p.Record.FirstStrike()
	if want := "14-17 PM x_list 1\n17-18 PM x_list 2\n18-20 PM x_list 3\n74-77 PM x_list 1 left=off\n"; rest(p) != want || p.Calls[0].Begun-from != 4*book.Second || len(p.Choices) != 0 {
		t.Errorf("begun at %g s, %d choices, got\n%swant\n%s", (p.Calls[0].Begun - from).Seconds(), len(p.Choices), rest(p), want)
	}
	if p, err = tm.Fly(context.Background(), s, crew.Change{Kind: crew.Swap, Step: steps[1]}); err != nil {
		t.Fatal(err)
	}
	if want := "14-17 PM x_list 1 left=off\n17-19 PM x_list 3\n19-20 PM x_list 2\n"; rest(p) != want {
		t.Errorf("the last two swapped: got\n%swant\n%s", rest(p), want)
	}
}

// TestView_BegunAndDone are shown where they were.
func TestView_BegunAndDone(t *testing.T) {
	end := small(t, "").Course().Path.End().Seconds()
	tm := small(t, alert("x", "caution", "!a", "x_list")+alert("late", "caution", fmt.Sprintf("real.time_s > %g", end-16), "late_list")+
		note("x_list")+"procedure \"late_list\" {\n note { says = \"more than can be read before the end of it all\" }\n}\n")
	_, p := lines(t, tm, "air + 60 s", "a")
	v, err := tm.View(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	if len(v.Alerts) != 2 || v.Alerts[0].Begun == nil || v.Alerts[0].Done == nil || v.Alerts[0].Begun.Clock != "+0:04" || v.Alerts[0].Done.Clock != "+0:15" {
		t.Errorf("%+v", v.Alerts[0])
	}
	if a := v.Alerts[1]; a.Begun == nil || a.Done != nil {
		t.Errorf("what is under way at the end: %+v", a)
	}
}

// oneField is a ground with one field, so many miles from wherever a flight is.
type oneField struct{ nm float64 }

func (oneField) Track(*book.Flight) (run.Track, error) { return run.Track{To: geo.Place{Lon: 1}}, nil }

func (g oneField) Route(run.Leg, run.Whereabouts) (run.Route, error) {
	return run.Route{Field: "ONE", Name: "Onefield", End: "09", LengthM: 3000, Turn: energy.Turn{To: energy.Diversion{DistanceM: g.nm * geo.MetresPerNM, Runway: roll.Runway{Code: 6}}}}, nil
}

func (g oneField) Fields(w run.Whereabouts) ([]run.Route, error) {
	r, err := g.Route(run.Leg{}, w)
	return []run.Route{r}, err
}

func (oneField) Suits(run.Route, run.Whereabouts) bool { return true }

// TestHand_ForkedInTheMiddleOfAList: a crew that are held with their flight and
// flown on do, every time, what they do on the flight with that leg in its plan;
// and the flight is turned by that and by the lines of their lists alone.
func TestHand_ForkedInTheMiddleOfAList(t *testing.T) {
	b, ctx := corvane.Build(t, ""), context.Background()
	tm := team(t, b, "northern_link", crew.Setting{Run: run.Setting{Router: oneField{120}}})
	for _, what := range []string{"engine_left", "tr_right"} {
		s := failing(t, b, "cruise", what)
		first, err := tm.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		legs := 0
		for _, l := range first.Lines {
			if l.Step != nil && l.Step.Leg != "" {
				legs++
			}
		}
		for _, x := range first.Record.Turns {
			if x.Leg.Do == "" || len(first.Record.Turns) > legs {
				t.Errorf("%s: turned by %+v; %d lines do that", what, x.Leg, legs)
			}
		}
		var middle book.Time // of the second line that moves something
		for i, l := range first.Lines {
			if i > 1 && l.Control != "" {
				middle = (l.From + l.To) / 2
				break
			}
		}
		leg := run.Leg{Do: run.Divert, To: "ONE", At: book.Moment{Offset: middle}}
		s.Plan = []run.Leg{leg}
		plan, err := tm.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		plain := s
		plain.Plan = nil
		held, err := tm.Course().HoldWith(ctx, plain, middle, tm.Hand(tm.Course(), s))
		if err != nil {
			t.Fatal(err)
		}
		for i := range 2 {
			r, err := held.Goes(ctx, leg)
			if err != nil {
				t.Fatal(err)
			}
			got, want := moves(r), moves(plan.Record)
			if !slices.Equal(got, want) || r.End != plan.Record.End || len(got) < 2 {
				t.Errorf("%s, time %d: %v to %d, flown at once %v to %d", what, i, got, r.End, want, plan.Record.End)
			}
		}
	}
}

func moves(r *run.Record) (list []string) {
	for _, a := range r.Scenario.Actions {
		list = append(list, fmt.Sprintf("%s=%s@%d", a.Control, a.Position, a.At.Offset))
	}
	return list
}
