package ask_test

import (
	"context"
	"fmt"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/scenario"
)

func desk(tb testing.TB) *ask.Desk {
	tb.Helper()
	b := corvane.Book(tb)
	return ask.NewDesk(b)
}

// BenchmarkAnswer is one flight of about 100 minutes with its failures, and its
// ledger; the flight without them is kept.
func BenchmarkAnswer(b *testing.B) {
	d := desk(b)
	ctx := context.Background()
	for i := 0; b.Loop(); i++ {
		q := ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: fmt.Sprintf("climb + %d s", i%600)}}, Out: []string{"tr_left"}}
		if _, err := d.Answer(ctx, q); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLoad reads and checks the demonstration book.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, diags := book.Load(context.Background(), demo.Book()); diags.HasErrors() {
			b.Fatal(diags[0].Summary)
		}
	}
}
