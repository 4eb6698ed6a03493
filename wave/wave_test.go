package wave_test

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/wave"
)

func TestOf_Headline(t *testing.T) {
	ctx, b := context.Background(), corvane.Build(t, "")
	c, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for _, fail := range [][]string{{"tr_left", "tr_right"}, {"duct_burst"}, {"gen_left", "gen_right"}, {"engine_left", "engine_right"}} {
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
		for _, w := range wave.Of(l) {
			cause := "the failures"
			if w.Cause != nil {
				cause = w.Cause.Label + " " + w.Cause.Says
			}
			t.Logf("%v %s (later %v): %d", (w.At - l.Strike).Seconds(), cause, w.Later, len(w.Losses))
			for _, x := range w.Losses[:min(4, len(w.Losses))] {
				t.Log("      ", x.Function.Title, x.Word())
			}
		}
	}
}
