package booktest

import (
	"context"
	"testing"

	"knockon/book"
)

func TestSynthetic_Loads(t *testing.T) {
	for _, size := range []struct{ units, items int }{{0, 0}, {0, 100}, {1, 40}, {500, 2000}} {
		b, problems := book.Load(context.Background(), Synthetic(size.units, size.items))
		if problems.HasErrors() {
			t.Fatalf("%v: %s", size, problems[0])
		}
		build, _ := b.Build("")
		if len(build.Units) != size.units {
			t.Errorf("%d units, want %d", len(build.Units), size.units)
		}
		others := len(build.Signals) + len(build.Functions) + len(build.Alerts) + len(build.Indications)
		if others != size.items {
			t.Errorf("%d items, want %d", others, size.items)
		}
	}
}

func BenchmarkLoad5000Units(b *testing.B)  { benchmarkLoad(b, 5000, 0) }
func BenchmarkLoad25000Items(b *testing.B) { benchmarkLoad(b, 5000, 20000) }

func benchmarkLoad(b *testing.B, units, items int) {
	files := Synthetic(units, items)
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := book.Load(context.Background(), files); problems.HasErrors() {
			b.Fatal(problems[0])
		}
	}
}
