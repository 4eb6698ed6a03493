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
