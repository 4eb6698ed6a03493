package worth_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
)

// twice is the small aircraft with a list of which one of two steps is enough.
const twice = `
control "cock_a" {
  positions = ["open", "shut"]
  initial   = "open"
}
control "cock_b" {
  positions = ["open", "shut"]
  initial   = "open"
}
unit "bottle" {}
function "breath" {
  title    = "Breath"
  works    = bottle || held(cock_a == "shut" || cock_b == "shut", 1) || !held(!bottle, 60)
  severity = "hazardous"
}
alert "bottle_low" {
  level     = "caution"
  message   = "Bottle low"
  when      = !bottle
  procedure = bottle_list
}
procedure "bottle_list" {
  title = "Bottle list"
  do {
    set = cock_a
    to  = "shut"
  }
  do {
    set = cock_b
    to  = "shut"
  }
  note { says = "Breathe." }
}
`

func TestAssessPairs_WhatNeitherBringsAlone(t *testing.T) {
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + twice)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	tm, err := crew.NewTeam(build, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := worth.Failing(book.Moment{Offset: 500 * book.Second}, book.FailureRef{Unit: "bottle"})
	w, err := worth.Assess(context.Background(), tm, s, procedure(t, build, "bottle_list"))
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range w.Steps[:2] {
		if _, bad := step.Left().Worst(); bad {
			t.Errorf("step %s alone brings %v", step.Number, step.Left().Harms)
		}
	}
	if err := w.AssessPairs(context.Background(), tm, s, 10); err != nil {
		t.Fatal(err)
	}
	found := w.Together()
	if len(w.Pairs) != 1 || len(found) != 1 || found[0].Harms[0].Item != "breath" || found[0].Harms[0].Kind != worth.Loss {
		t.Fatalf("%d pairs, %d of them bring something", len(w.Pairs), len(found))
	}
	var text strings.Builder
	if err := worth.WriteText(&text, worth.Alone(w), build, 100); err != nil || !strings.Contains(text.String(), "steps 1 and 2: Breath lost") {
		t.Errorf("%v\n%s", err, text.String())
	}
	if err := w.AssessPairs(context.Background(), tm, s, 0); err != nil || w.PairsLeft != 1 || len(w.Pairs) != 0 {
		t.Errorf("a bound of none: %d flown, %d left, %v", len(w.Pairs), w.PairsLeft, err)
	}
}

// TestAssessPairs_AreThePlainFlights: on the demonstration a pair is the flight of
// the crew with both steps left out, and what is said to be new stands in neither
// of the flights with one left out.
func TestAssessPairs_AreThePlainFlights(t *testing.T) {
	ctx := context.Background()
	tm := team(t, "first_series", "northern_link")
	c, err := worth.NewCaller(ctx, tm)
	if err != nil {
		t.Fatal(err)
	}
	flown := 0
	for _, id := range []string{"vital_battery_drill", "engine_failed", "hyd_right_low_list"} {
		p := procedure(t, tm.Build(), id)
		s, ok, err := c.First(ctx, p, c.Likely(p))
		if err != nil || !ok {
			t.Fatal(id, err)
		}
		w, err := worth.Assess(ctx, tm, s, p)
		if err != nil {
			t.Fatal(err)
		}
		if err := w.AssessPairs(ctx, tm, s, 12); err != nil {
			t.Fatal(err)
		}
		for _, x := range w.Pairs {
			flown++
			plan, err := tm.Fly(ctx, s, crew.Change{Kind: crew.Omit, Step: x.First.Step}, crew.Change{Kind: crew.Omit, Step: x.Second.Step})
			if err != nil {
				t.Fatal(err)
			}
			if len(plan.Record.Changes()) != len(x.Flown.Plan.Record.Changes()) {
				t.Errorf("%s without %s and %s: another flight", id, x.First.Number, x.Second.Number)
			}
			for _, h := range x.Harms {
				for _, one := range []*worth.Step{x.First, x.Second} {
					for _, k := range one.Left().Harms {
						if k.Kind == h.Kind && k.Item == h.Item && k.Better == h.Better && k.Class == h.Class && k.Mattered == h.Mattered {
							t.Errorf("%s without %s and %s: %s is there without %s alone", id, x.First.Number, x.Second.Number, h.Item, one.Number)
						}
					}
				}
			}
		}
	}
	if flown < 8 {
		t.Errorf("%d pairs show little", flown)
	}
}
