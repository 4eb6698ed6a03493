package point_test

import (
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/run"
)

// BenchmarkOf finds the points of the second DC source with the first inoperative.
func BenchmarkOf(b *testing.B) {
	c, err := run.NewCourse(corvane.Build(b, ""), nil, run.Setting{})
	if err != nil {
		b.Fatal(err)
	}
	l, err := ledger.Answer(b.Context(), c, run.Scenario{
		Inoperative: []book.FailureRef{{Unit: "tr_left"}},
		Strikes:     []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: 120 * book.Second}}},
	})
	if err == nil {
		err = known.Judge(b.Context(), l)
	}
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		point.Of(l)
	}
}
