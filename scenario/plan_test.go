package scenario_test

import (
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/scenario"
)

// TestRead_Plans: each leg as it is written, and its moment; one without begins
// when the first failure comes.
func TestRead_Plans(t *testing.T) {
	b := corvane.Build(t, "")
	cruise := book.Moment{Phase: "cruise", Offset: 60 * book.Second}
	for text, want := range map[string]run.Leg{
		"divert QSVA @ cruise + 60 s":    {Do: run.Divert, To: "QSVA", At: cruise},
		"divert QSVA/17@cruise + 60 s":   {Do: run.Divert, To: "QSVA/17", At: cruise},
		"return@cruise + 60 s":           {Do: run.Return, At: cruise},
		"hold 20 min @ cruise + 60 s":    {Do: run.Hold, For: 1200 * book.Second, At: cruise},
		"hold 21,000 kg @ cruise + 60 s": {Do: run.Hold, MassKg: 21000, At: cruise},
		"descend 10000 @ cruise + 60 s":  {Do: run.Descend, LevelFt: 10000, At: cruise},
		"go_around @ cruise + 60 s":      {Do: run.GoAround, At: cruise},
		"land":                           {Do: run.Land, At: book.Moment{Offset: 90 * book.Second}},
	} {
		s, err := scenario.Typed{Plan: []string{text}, Fail: []scenario.Strike{{What: []string{"tr_left"}, At: "90 s"}}}.Read(b)
		if err != nil || len(s.Plan) != 1 || s.Plan[0] != want {
			t.Errorf("%q: %+v, %v", text, s.Plan, err)
		}
	}
	s, err := scenario.Typed{Plan: []string{"land @ when real.height_ft > 500"}}.Read(b)
	if err != nil || s.Plan[0].When == nil {
		t.Errorf("on a condition: %+v, %v", s.Plan, err)
	}
}

// TestRead_PlansThatMeanNothing are refused with what to write.
func TestRead_PlansThatMeanNothing(t *testing.T) {
	b := corvane.Build(t, "")
	for text, says := range map[string]string{
		"turn @ cruise":            `did you mean "return"?`,
		"divert @ cruise":          "divert AIRFIELD@moment",
		"hold @ cruise":            "hold 20 min@moment",
		"hold -5 min @ cruise":     "hold 20 min@moment",
		"descend @ cruise":         "descend 10000@moment",
		"descend 90000 @ cruise":   "60,000 ft",
		"return QSVA @ cruise":     "stands alone",
		"land @ cruize":            "cruise",
		"land @ when real.mass_kg": "yes/no",
	} {
		_, err := scenario.Typed{Plan: []string{text}}.Read(b)
		if err == nil || !strings.HasPrefix(err.Error(), "plan: ") || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, err := (scenario.Typed{Crew: "nobody"}).Read(b); err == nil || !strings.Contains(err.Error(), "none") {
		t.Errorf("conduct: %v", err)
	}
}
