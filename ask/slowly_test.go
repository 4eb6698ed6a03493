package ask_test

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// times are the lines of a plan with when each began and was finished.
func times(p *crew.Plan) (list []string) {
	for _, l := range p.Lines {
		list = append(list, fmt.Sprint(l.Kind, l.Number, l.By, l.From, l.To))
	}
	return list
}

// TestAnswer_Slowly: a crew who act slowly are a crew every time of whose pace is given
// as twice the usual one, line by line, and the answer says at which pace they act.
func TestAnswer_Slowly(t *testing.T) {
	g := islands(t)
	desk := ask.NewDesk(corvane.Book(t)).Over(g)
	q := ask.Question{Crew: scenario.Slowly, Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}}
	a, err := desk.Answer(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	pace := crew.DefaultPace()
	for name, value := range map[string]float64{"warning_s": 6, "caution_s": 10, "advisory_s": 30, "roll_s": 2, "aloud_per_min": 91.5, "mind_s": 2.7, "reach_s": 3, "press_s": 0.4, "list_s": 20, "radio_s": 40, "brief_s": 120} {
		if pace, err = pace.With(name, value); err != nil {
			t.Fatal(err)
		}
	}
	team, err := crew.NewTeam(a.Course.Build, a.Course.Flight, crew.Setting{Pace: &pace, Run: run.Setting{Router: region.Router{Region: g}}})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := team.Fly(context.Background(), a.Scenario)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Lines) < 10 || !reflect.DeepEqual(times(plan), times(a.Crew)) {
		t.Errorf("%v\n%v", times(plan), times(a.Crew))
	}
	q.Crew = ""
	usual, err := desk.Answer(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	if reflect.DeepEqual(times(usual.Crew), times(a.Crew)) || strings.Contains(usual.Ledger.View().Setting, "pace") {
		t.Error("the usual crew act as slowly")
	}
	if v := a.Ledger.View(); !strings.Contains(v.Setting, "a crew by the book at half the usual pace act on it") || !strings.Contains(v.Asked, "at half the usual pace") {
		t.Errorf("%s\n%s", v.Setting, v.Asked)
	}
}
