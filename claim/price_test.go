package claim_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/costs"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/run"
	"knockon/scenario"
)

// TestPrice_IsThatOfCosts: what a claim says of an airfield is, to the digit, what
// the costs of the same question say of it, with a crew and without, turned or not.
func TestPrice_IsThatOfCosts(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands.Region(t))
	for name, q := range map[string]struct {
		given string
		ask   ask.Question
		turn  string
	}{
		"by the book": {"inoperative = [tr_left]\nfail = [tr_right]\nat = \"climb + 120 s\"\ncrew = \"by_the_book\"",
			ask.Question{Crew: "by_the_book", Out: []string{"tr_left"}, Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}}, ""},
		"hands off, later": {"fail = [gear_valve]\nat = \"cruise\"\nturn = \"cruise + 600 s\"",
			ask.Question{Crew: "none", Fail: []scenario.Strike{{What: []string{"gear_valve"}, At: "cruise"}}}, "cruise + 600 s"},
	} {
		a, err := desk.Answer(t.Context(), q.ask)
		if err != nil {
			t.Fatal(name, err)
		}
		c, err := a.Costs(t.Context(), islands.Region(t), ask.Price{Turn: q.turn})
		if err != nil {
			t.Fatal(name, err)
		}
		var expects []string
		for i := range c.Places {
			expects = append(expects, priced(&c.Places[i])...)
		}
		o := onDemo(t, q.given, expects...)
		if o.Trouble != "" {
			t.Fatal(name, o.Trouble)
		}
		for _, f := range o.Findings {
			if !f.Holds {
				t.Errorf("%s: %s, got %s", name, f.Expect, f.Got)
			}
		}
		if len(o.Findings) < 60 {
			t.Errorf("%s: only %d expectations", name, len(o.Findings))
		}
	}
}

// priced is what holds of an airfield, as a claim says it.
func priced(p *costs.Place) (list []string) {
	say := func(format string, a ...any) { list = append(list, fmt.Sprintf(format, a...)) }
	at, s, h := p.Airfield.Ident, &p.Failed, &p.Healthy
	same := func(word string, v float64) { say("about(%s(%q), %.9f, 0.000001)", word, at, v) }
	switch {
	case s.Good():
		say("open(%q) && !closed(%q)", at, at)
	case s.Unjudged():
		say("!open(%q) && !closed(%q)", at, at)
		return list
	default:
		say("!open(%q) && closed(%q, %q)", at, at, s.Reasons[0].Kind)
	}
	if !s.Arrives {
		same("short_of", max(s.ShortNM, -s.ShortNM))
		return list
	}
	same("fuel_to", s.FuelKg)
	same("minutes_to", s.Minutes)
	same("short_of", 0)
	if h.Arrives {
		same("extra_fuel", s.FuelKg-h.FuelKg)
		same("extra_minutes", s.Minutes-h.Minutes)
	}
	if l := s.Landings[0]; l.Stops {
		say("lands_on(%q, %q) && !lands_on(%q, \"99\")", at, l.End, at)
		same("landing_at", l.RequiredM)
		if l.ManualM > 0 {
			same("manual_landing_at", l.ManualM)
		}
		if h.Arrives && h.Landings[0].Stops {
			same("extra_landing", l.RequiredM-h.Landings[0].RequiredM)
		}
	}
	return list
}

// What there is no number for is said, and the claim fails.
func TestPrice_WhatThereIsNoNumberFor(t *testing.T) {
	o := onDemo(t, "fail = [engine_left]\nat = \"climb + 60 s\"", `fuel_to("QSXX") > 0`, `open("QSEL")`, `about(manual_landing_at("QSKE"), 1, 1)`, `lands_on("QSKE", "99")`)
	for i, want := range []string{"QSXX", "QSEL was not looked at", "", "runway"} {
		if f := o.Findings[i]; f.Holds || !strings.Contains(f.Got, want) {
			t.Errorf("%s: holds %v, got %q", f.Expect, f.Holds, f.Got)
		}
	}
}

// The words that a book checks are those that runs and costs use.
func TestWords_AreThoseOfWhatTheyName(t *testing.T) {
	how := []string{"overruns"}
	for _, h := range []run.How{run.OutOfFuel, run.CannotStayUp, run.MakesNoWay, run.NoWayOn, run.DoesNotStop, run.Stalled, run.CannotSlow, run.NotFlyable} {
		how = append(how, string(h))
	}
	for _, w := range how {
		if !slices.Contains(book.Endings, w) {
			t.Errorf("no claim can say %q", w)
		}
	}
	if len(how) != len(book.Endings) {
		t.Errorf("%v, want %v", book.Endings, how)
	}
	kinds := []string{costs.NoArrival, costs.Time, costs.Gear, costs.Approach, costs.Surface, costs.Crosswind, costs.Tailwind, costs.Length, costs.Reserve}
	if !slices.Equal(kinds, book.Reasons) {
		t.Errorf("%v, want %v", book.Reasons, kinds)
	}
}
