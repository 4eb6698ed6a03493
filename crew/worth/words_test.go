package worth

import (
	"regexp"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestWords_SayTitles: no line of the demonstration says by program text where it
// belongs; and some say it word by word.
func TestWords_SayTitles(t *testing.T) {
	b := corvane.Build(t, "")
	tm, err := crew.NewTeam(b, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	w := &Worth{Right: &Flown{Plan: &crew.Plan{Record: &run.Record{Course: tm.Course()}}}}
	code := regexp.MustCompile(`[a-z]_[a-z]|&&|\|\||==|!|seen\.`)
	got := map[string]string{}
	for _, p := range b.Procedures {
		crew.Walk(p.Steps, func(s *book.Step, n string) {
			if s.If == nil {
				return
			}
			text := w.words(s.If)
			if got[s.If.String()] = text; code.MatchString(text) {
				t.Errorf("%s %s: %s", p.ID, n, text)
			}
		})
	}
	for text, want := range map[string]string{
		"seen.on_ground":                 "on the ground",
		"take_off_roll || take_off_fast": "in the phase “Take-off roll, up to 75 kt”, or in the phase “Take-off roll, from 75 kt”",
	} {
		if got[text] != want {
			t.Errorf("%s\n got %s\nwant %s", text, got[text], want)
		}
	}
}
