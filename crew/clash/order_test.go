package clash

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// An order that is not settled becomes one conflict, however often it is seen.
func TestSurvey_OrderThatIsNotSettled(t *testing.T) {
	build := corvane.Build(t, "")
	tm, err := crew.NewTeam(build, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := newSurvey(tm)
	x, y := build.Procedures[3], build.Procedures[5]
	cause := build.Alerts[0]
	for i, chosen := range []*book.Procedure{x, y, y} {
		plan, err := tm.Fly(context.Background(), run.Scenario{})
		if err != nil {
			t.Fatal(err)
		}
		of := []crew.Candidate{{Procedure: x, Level: "caution"}, {Procedure: y, Level: "caution"}}
		if i > 0 {
			of[0].Under = cause
		}
		plan.Choices = []crew.Choice{{Of: of, Chosen: chosen}}
		s.ordered(plan)
	}
	list := s.report.Conflicts
	if len(list) != 1 || list[0].Kind != Unsettled || list[0].Seen != 2 || !strings.Contains(list[0].Says, "give one of them a priority") {
		t.Errorf("%d conflicts: %+v", len(list), list)
	}
	if list[0].Subject() != x.Range {
		t.Errorf("it is about %s, want %s", list[0].Subject(), x.Range)
	}
}
