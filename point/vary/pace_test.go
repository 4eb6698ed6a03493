package vary

import (
	"slices"
	"strings"
	"testing"

	"knockon/internal/corvane/answers"
	"knockon/ledger"
	"knockon/scenario"
)

// TestOf_SaysWhatHangsOnThePace: trim that runs is cut in time by a crew as quick as it
// is supposed; a slower one lose what this one keep, and that is a point. A pump that
// nobody has to do anything about is lost alike, and that is none.
func TestOf_SaysWhatHangsOnThePace(t *testing.T) {
	for what, point := range map[string]bool{"trim_motor_1.runs": true, "waste_blower": false} {
		a := answers.Of(t, failing("cruise + 60 s", what))
		q := a.Question
		q.Crew = scenario.Slowly
		slow := answers.Of(t, q)
		lines := Of(t.Context(), a, 2)
		i := slices.IndexFunc(lines, func(v ledger.Varied) bool { return v.Axis == Pace })
		if i < 0 {
			t.Fatalf("%s: no line of the pace", what)
		}
		v := lines[i]
		if v.Point != point || v.Open || !strings.HasPrefix(v.Text, "With a crew who take twice as long over everything ") {
			t.Errorf("%s: %+v", what, v)
		}
		if more := len(compare(a.Ledger, slow.Ledger).more); point != (more > 0) || point && v.Change != "crew=slowly" {
			t.Errorf("%s: %d lost as well, %+v", what, more, v)
		}
	}
}

// TestAxes_OfASlowCrew: of a crew who are slow already nothing slower is asked, and of
// nobody neither.
func TestAxes_OfASlowCrew(t *testing.T) {
	for _, crew := range []string{scenario.Slowly, scenario.Nobody} {
		q := failing("cruise + 60 s", "waste_blower")
		q.Crew = crew
		if slices.Contains(Axes(answers.Of(t, q)), Pace) {
			t.Errorf("%s has a pace", crew)
		}
	}
}
