package claim_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/rescue"
	"knockon/scenario"
)

// TestRescue_IsThatOfTheSearch: what a claim says of two moves is what the whole
// search finds of them.
func TestRescue_IsThatOfTheSearch(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands.Region(t))
	q := ask.Question{Crew: scenario.Nobody, Fail: []scenario.Strike{{What: []string{"duct_burst"}, At: "cruise + 60 s"}}}
	a, err := desk.Answer(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	all, err := rescue.Of(t.Context(), a.Course, rescue.Question{Scenario: a.Scenario, Function: "sound_wing", Order: 2, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	pair := func(x, y string) string { return fmt.Sprintf("rescued(sound_wing, %q, %q)", min(x, y), max(x, y)) }
	for _, r := range all.Rescues {
		if r.Counts && len(r.Set) == 2 && !r.Set[0].Back && !r.Set[1].Back {
			found[pair(r.Set[0].Control.ID+"="+r.Set[0].Position, r.Set[1].Control.ID+"="+r.Set[1].Position)] = true
		}
	}
	first := []string{"bleed_left_switch=off", "cross_bleed_selector=shut"}
	expects := slices.Sorted(maps.Keys(found))
	for i, c := range all.Controls {
		x := pair(c.ID+"="+c.Positions[len(c.Positions)-1], first[i%2])
		if i%4 < 2 && !found[x] && !strings.HasPrefix(first[i%2], c.ID) {
			expects = append(expects, "!"+x)
		}
	}
	if len(found) < 2 || len(expects) < 8 {
		t.Fatalf("%d rescue, %d expectations", len(found), len(expects))
	}
	for _, f := range onDemo(t, "fail = [duct_burst]\nat = \"cruise + 60 s\"", expects...).Findings {
		if !f.Holds {
			t.Errorf("%s, got %s", f.Expect, f.Got)
		}
	}
}

// What cannot be asked of a rescue is said.
func TestRescue_WhatCannotBeAsked(t *testing.T) {
	const fail = "fail = [duct_burst]\nat = \"cruise + 60 s\"\n"
	for name, c := range map[string]struct{ given, expect, says string }{
		"with a crew":     {fail + "crew = \"by_the_book\"", "no_rescue(1, sound_wing)", "nobody's hands"},
		"of what is kept": {fail, "no_rescue(1, radio_contact)", "radio_contact is not lost while it is wanted"},
		"of no rescue":    {fail, `rescue_until(sound_wing, "bleed_left_switch=off") > 0`, "bleed_left_switch=off does not rescue it"},
		"not alone":       {fail, `rescued(sound_wing, "bleed_left_switch=off")`, "at none of the moments tried"},
	} {
		f := onDemo(t, c.given, c.expect).Findings[0]
		if f.Holds || !strings.Contains(f.Got, c.says) {
			t.Errorf("%s: holds %v, got %q", name, f.Holds, f.Got)
		}
	}
}
