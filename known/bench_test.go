package known_test

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
)

// BenchmarkJudge judges the second DC source with the first inoperative.
func BenchmarkJudge(b *testing.B) {
	c, err := run.NewCourse(corvane.Build(b, ""), nil, run.Setting{})
	if err != nil {
		b.Fatal(err)
	}
	s := run.Scenario{
		Inoperative: []book.FailureRef{{Unit: "tr_left"}},
		Strikes:     []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}}},
	}
	l, err := ledger.Answer(context.Background(), c, s)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := known.Judge(context.Background(), l); err != nil {
			b.Fatal(err)
		}
	}
}
