package ask_test

import (
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane/answers"
	"knockon/scenario"
)

// TestView_SaysWhatIsDoneForAFalseAlert: hail bends both stall vanes; a crew by the book do
// the list of a stall that is none, and with hands off nobody does.
func TestView_SaysWhatIsDoneForAFalseAlert(t *testing.T) {
	for crew, want := range map[string]bool{"": true, scenario.Nobody: false} {
		q := ask.Question{Fail: []scenario.Strike{{What: []string{"hail"}, At: "approach + 20 s"}}, Crew: crew}
		a, says := answers.Of(t, q), ""
		for _, p := range a.View().Worth.Points {
			if p.Kind == "false" {
				says += p.Text
			}
		}
		if !strings.Contains(says, "“Stall” is false from +0:00") || strings.Contains(says, "the crew do its list") != want {
			t.Errorf("crew %q: %s", crew, says)
		}
	}
}
