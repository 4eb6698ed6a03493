package point_test

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/run"
)

func TestShow(t *testing.T) {
	ctx, b := context.Background(), corvane.Build(t, "")
	c, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for _, fail := range [][]string{{"tr_left", "tr_right"}, {"duct_burst"}, {"gen_left", "gen_right"}, {"engine_left", "engine_right"}, {"waste_blower"}, {"pitot_1"}, {"radio_alt_1", "radio_alt_2"}, {"cabin_seal"}} {
		s := run.Scenario{}
		for _, id := range fail {
			s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{{Unit: id}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}})
		}
		l, err := ledger.Answer(ctx, c, s)
		if err != nil {
			t.Fatal(err)
		}
		if err := known.Judge(ctx, l); err != nil {
			t.Fatal(err)
		}
		t.Log(fail)
		v := point.Of(l).View(l)
		for _, p := range v.Points {
			t.Log(p.Kind, p.Text)
		}
		t.Log(v.Nothing, v.Share)
	}
}
