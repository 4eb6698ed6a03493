package handout_test

import (
	"runtime"
	"strings"
	"testing"

	"knockon/book"
	"knockon/handout"
	"knockon/internal/corvane/answers"
	"knockon/point"
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
