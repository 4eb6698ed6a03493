package worth_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/run"
)

// TestAssess_NothingOnlyOfAFlightThatArrives: where the flight breaks off, a step
// behind which nothing is seen is said to do nothing up to there, and not at all;
// what is a word or a check stays one. With the same step something follows on a
// flight that arrives.
func TestAssess_NothingOnlyOfAFlightThatArrives(t *testing.T) {
	const quarrel = "signal \"quarrel\" { value = real.time_s > 900 && !pump && !before(quarrel) }\n"
	for more, want := range map[string]string{
		"":      "Nothing in this model: nothing follows left pump switch with this failure.",
		quarrel: "Nothing in this model up to +6:40, where the flight breaks off; what would come after is not known.",
	} {
		b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + more)}})
		if diags.HasErrors() {
			t.Fatal(diags[0])
		}
		build, _ := b.Build("")
		tm, err := crew.NewTeam(build, nil, crew.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		s := worth.Failing(book.Moment{Offset: 500 * book.Second}, book.FailureRef{Unit: "pump"})
		w, err := worth.Assess(context.Background(), tm, s, procedure(t, build, "pump_list"))
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Steps[0]; got.Because != want || got.Nothing != (more == "") {
			t.Errorf("%q, nothing %v; want %q", got.Because, got.Nothing, want)
		}
		until := map[bool]string{true: "more, until the landing.", false: "more, until the flight breaks off."}[more == ""]
		if got := w.Steps[2]; !strings.HasPrefix(got.Because, "It ends: caution “Pump off” sounds ") || !strings.HasSuffix(got.Because, until) {
			t.Errorf("the horn: %q, want %q", got.Because, until)
		}
		if got := w.Steps[4]; got.Because != "Nothing in this model: it is a word to people and moves nothing." || !got.Nothing {
			t.Errorf("a word: %q", got.Because)
		}
		if err := w.AssessPairs(context.Background(), tm, s, 10); err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		if err := worth.WriteText(&text, worth.Alone(w), build, 400); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(text.String(), "none brings more") && strings.Contains(text.String(), "as far as they went: with pump fails the flight breaks off") == (more == "") {
			t.Errorf("pairs:\n%s", text.String())
		}
	}
}

// TestStudy_NothingCallsOnlyOfFlightsThatArrive: that no failure calls for a list is
// said as it is where all flights came to their end, is not said where one does, and
// is limited where some broke off; so is that a step is not reached.
func TestStudy_NothingCallsOnlyOfFlightsThatArrive(t *testing.T) {
	const lost = "alert \"never\" {\n level = \"caution\"\n message = \"NEVER\"\n when = !pump && real.height_ft > 60000\n procedure = lost_list\n}\nprocedure \"lost_list\" {\n note { says = \"Lost.\" }\n}\n"
	const quarrel = "signal \"quarrel\" { value = real.time_s > 620 && !pump && !before(quarrel) }\n"
	for _, x := range []struct {
		more, list, because string
		nothing             bool
	}{
		{lost, "lost_list", "No failure that was tried calls for the procedure.", true},
		{lost + quarrel, "lost_list", "No failure that was tried calls for the procedure, as far as they were flown: 1 of the flights breaks off, and what would come after is not known.", false},
		{lost, "pump_list", "Nothing in this model: it is a word to people and moves nothing.", true},
		{strings.Replace(quarrel, "620", "520", 1), "pump_list", "Not reached with this failure: the flight breaks off before it, and whether it would have come to it is not known.", false},
	} {
		b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + x.more)}})
		if diags.HasErrors() {
			t.Fatal(diags[0])
		}
		build, _ := b.Build("")
		tm, err := crew.NewTeam(build, nil, crew.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		c, err := worth.NewCaller(context.Background(), tm)
		if err != nil {
			t.Fatal(err)
		}
		p := procedure(t, build, x.list)
		s, err := c.Study(context.Background(), p, []run.Scenario{worth.Failing(book.Moment{Offset: 500 * book.Second}, book.FailureRef{Unit: "pump"})}, worth.DefaultBounds)
		if err != nil {
			t.Fatal(err)
		}
		steps := s.View(build, tm.Course().Flight).Steps
		if got := steps[min(4, len(steps)-1)]; got.Because != x.because || got.Nothing != x.nothing {
			t.Errorf("%s: %q, nothing %v", x.list, got.Because, got.Nothing)
		}
		var text strings.Builder
		if err := worth.WriteText(&text, s, build, 400); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(text.String(), x.because) || strings.Contains(text.String(), "None of 1 likely failure calls for it. ") != (x.more == lost && x.list == "lost_list") {
			t.Errorf("%s:\n%s", x.list, text.String())
		}
	}
}
