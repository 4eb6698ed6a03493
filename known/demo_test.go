package known_test

import (
	"context"
	"testing"
	"time"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
)

func TestTry(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := run.Scenario{Inoperative: []book.FailureRef{{Unit: "tr_left"}}, Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}}}}
	l, err := ledger.Answer(context.Background(), c, s)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		at := time.Now()
		if err := known.Judge(context.Background(), l); err != nil {
			t.Fatal(err)
		}
		t.Log(time.Since(at))
	}
	n := map[ledger.Word]int{}
	for _, x := range l.Losses {
		if x.Mattered {
			n[x.Known]++
		}
		k := x.Spans[0].Known
		if f := k.Follows; f != nil {
			t.Log(x.Function.ID, x.Known, x.Class, k.Also, f.From, f.Steps, f.At, f.Claimed, f.Alert.ID)
		} else {
			t.Log(x.Function.ID, x.Known, x.Class, k.Also)
		}
	}
	t.Log(n, l.Concluded)
}
