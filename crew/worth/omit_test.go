package worth

import (
	"strings"
	"testing"

	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/scenario"
)

// TestOmissions_SayWhatAssessSays: each step that a crew come to has the worth that
// Assess gives it, and the heaviest weighs no less than any other.
func TestOmissions_SayWhatAssessSays(t *testing.T) {
	b := corvane.Build(t, "")
	team, err := crew.NewTeam(b, corvane.Flight(t, b, "short_hop"), crew.Setting{Run: run.Setting{Prescribed: true}})
	if err != nil {
		t.Fatal(err)
	}
	s, err := scenario.Typed{Fail: []scenario.Strike{{What: []string{"gen_left"}, At: "cruise + 60 s"}}}.Read(team.Build())
	if err != nil {
		t.Fatal(err)
	}
	list, err := Omissions(t.Context(), team, s)
	if err != nil || len(list) == 0 {
		t.Fatalf("%v, %v", list, err)
	}
	all := Heaviest(list)
	if len(all) == 0 {
		t.Fatal("nothing weighs most")
	}
	best := all[0].Step
	reached := 0
	for _, w := range list {
		same, err := Assess(t.Context(), team, s, w.Procedure)
		if err != nil {
			t.Fatal(err)
		}
		for i, x := range w.Steps {
			if x.Because != same.Steps[i].Because || x.Reached != same.Steps[i].Reached {
				t.Errorf("%s %s: %q, and assessed %q", w.Procedure.ID, x.Number, x.Because, same.Steps[i].Because)
			}
			if x.Reached {
				reached++
			}
			if x.Weight() > 0 && x.Weight() > best.Weight() {
				t.Errorf("%s is heavier than %s", x.Number, best.Number)
			}
		}
	}
	if reached == 0 || best.Left() == nil {
		t.Fatalf("%d steps, heaviest %v", reached, best)
	}
	v := OmittedView(list)
	if !strings.Contains(v.Most, "Most hangs on") || !strings.Contains(v.Most, best.Because) || len(v.Steps) != reached {
		t.Errorf("%d steps of %d: %s", len(v.Steps), reached, v.Most)
	}
	if none := OmittedView(nil); none.Most != "No list is done, so no step matters." || len(none.Steps) != 0 {
		t.Errorf("where nothing is done: %+v", none)
	}
}
