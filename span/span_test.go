package span

import (
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

// moments is a set of moments the slow way: one bool for each.
type moments [30]bool

func (m moments) spans() Set {
	var s Set
	for i := 0; i < len(m); i++ {
		if j := i; m[i] {
			for i < len(m) && m[i] {
				i++
			}
			s = append(s, circuit.Span{From: book.Time(j), To: book.Time(i)})
		}
	}
	return s
}

func random(r *rand.Rand) (m moments) {
	for i := range m {
		m[i] = r.IntN(3) > 0 == (i/5%2 == 0)
	}
	return m
}

// The operations on stretches do to them what the words say of their moments.
func TestSpans_AreSetsOfMoments(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		a, b := random(r), random(r)
		var and, or, minus moments
		for i := range a {
			and[i], or[i], minus[i] = a[i] && b[i], a[i] || b[i], a[i] && !b[i]
		}
		same(t, "and", a.spans().And(b.spans()), and.spans())
		same(t, "or", a.spans().Or(b.spans()), or.spans())
		same(t, "minus", a.spans().Minus(b.spans()), minus.spans())
		for i := range a {
			if a.spans().Has(book.Time(i)) != a[i] {
				t.Fatalf("has(%d) in %v", i, a.spans())
			}
		}
	}
}

func same(t *testing.T, what string, got, want Set) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: got %v, want %v", what, got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Fatalf("%s: got %v, want %v", what, got, want)
		}
	}
}

func TestLasting_JoinsWhatTouches(t *testing.T) {
	same(t, "lasting", Lasting([]circuit.Span{{From: 1, To: 1}, {From: 2, To: 4}, {From: 4, To: 4}, {From: 4, To: 6}, {From: 7, To: 8}}), Set{{From: 2, To: 6}, {From: 7, To: 8}})
}

// Two runs locate one crossing from sums added up in different pieces, so that
// they may be a microsecond apart.
func TestBeyond_LeavesRoundingOut(t *testing.T) {
	here := Set{{From: 100, To: 5000}, {From: 10_000, To: 20_000}}
	there := Set{{From: 101, To: 4999}, {From: 10_000, To: 18_999}}
	same(t, "beyond", here.Beyond(there), Set{{From: 18_999, To: 20_000}})
}

func TestOnlyHere_LeavesRoundingOut(t *testing.T) {
	here := []circuit.Span{{From: 5000, To: 5000}, {From: 9000, To: 9000}}
	there := []circuit.Span{{From: 5001, To: 5001}}
	if got := OnlyHere(here, there); len(got) != 1 || got[0] != 9000 {
		t.Errorf("got %v", got)
	}
}
