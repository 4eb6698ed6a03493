package handout_test

import (
	"runtime"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/handout"
	"knockon/internal/corvane/answers"
	"knockon/point"
	"knockon/scenario"
)

// TestOf_TheHeadline: first what is denied, then what weighs most; no moment twice; lines
// that do something; every phase; and not a word of the machine.
func TestOf_TheHeadline(t *testing.T) {
	a := answers.Of(t, answers.Headline())
	v := a.Ledger.View()
	v.Worth = point.Of(a.Ledger).View(a.Ledger)
	b := &handout.Beside{}
	if err := b.Fly(t.Context(), a, runtime.GOMAXPROCS(0)); err != nil {
		t.Fatal(err)
	}
	h := handout.Of(a, v, b)
	if len(h.Keep) != 3 || !strings.Contains(h.Keep[0], "denies a loss") {
		t.Errorf("kept: %q", h.Keep)
	}
	seen := map[string]bool{}
	for _, r := range h.Rows {
		if seen[r.Clock] {
			t.Errorf("%s stands twice", r.Clock)
		}
		seen[r.Clock] = true
	}
	if len(h.Rows) < 3 || len(h.Rows) > 8 || !seen["+0:00"] || !seen["+10:00"] {
		t.Errorf("moments: %v", h.Rows)
	}
	lines := 0
	for _, l := range h.Lists {
		lines += len(l.Lines)
		for _, x := range l.Lines {
			if strings.HasPrefix(x.Worth, "Nothing in this model") {
				t.Errorf("%s: line %s does nothing", l.Title, x.Number)
			}
		}
	}
	if lines == 0 && b.Whole() {
		t.Error("no line of the lists is left")
	}
	if len(h.Worths) < 3 && b.Whole() {
		t.Errorf("%d lists", len(h.Worths))
	}
	if len(h.Phases) != len(a.There.Phases()) || h.Caution != book.Caution || !strings.HasPrefix(h.Question, "knockon handout tr_right ") {
		t.Errorf("%d phases; %s", len(h.Phases), h.Question)
	}
}

// TestOf_SaysWhatForbidsTheFlight: text and sheet open with what the deferrals do not
// allow, on the ground only where both come before the take-off.
func TestOf_SaysWhatForbidsTheFlight(t *testing.T) {
	for _, x := range []struct{ fail, at, want string }{
		{"tr_right", "taxi_out + 60 s", "“One DC source inoperative” does not allow all of it."},
		{"tr_right", "climb + 120 s", ""},
		{"tr_vital", "taxi_out + 60 s", "No deferral covers"},
	} {
		a := answers.Of(t, ask.Question{Fail: []scenario.Strike{{What: []string{x.fail}, At: x.at}}, Out: []string{"tr_left"}})
		v := a.Ledger.View()
		v.Worth = point.Of(a.Ledger).View(a.Ledger)
		var text strings.Builder
		if err := v.Write(&text, 2000); err != nil {
			t.Fatal(err)
		}
		opens := handout.Of(a, v, &handout.Beside{}).Opens
		if !strings.Contains(opens, x.want) || !strings.Contains(text.String(), x.want) || (x.want == "") == strings.Contains(opens, "deferrals") || (v.Forbidden == "") != (x.want == "") {
			t.Errorf("%v: %q", x, opens)
		}
	}
}
