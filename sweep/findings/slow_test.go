package findings_test

import (
	"math"
	"reflect"
	"testing"

	"knockon/book"
	"knockon/internal/booktest"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// TestTogether_EqualsSetBySet goes through all sets of up to three failures of
// a made-up book, those of no interest included, and looks every function up
// in every part.
func TestTogether_EqualsSetBySet(t *testing.T) {
	b, diags := book.Load(t.Context(), booktest.Synthetic(16, 200))
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	w, err := sweep.Of(t.Context(), build, nil, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := &findings.Swept{Build: build, Failures: w.Failures()}
	for i := range w.Phases() {
		sheet, err := w.Run(t.Context(), i, 3, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Sheets = append(s.Sheets, sheet)
	}
	want := map[uint64]float64{}
	for _, sheet := range s.Sheets {
		each(len(s.Failures), func(set sweep.Set) {
			if x := slowExcess(s, sheet, set); x > want[set.Key()] {
				want[set.Key()] = x
			}
		})
	}
	got := map[uint64]float64{}
	all := s.Together(0)
	for _, f := range all {
		for _, set := range append([]sweep.Set{f.Set}, f.Also...) {
			got[set.Key()] = f.Excess
		}
	}
	if len(got) != len(want) || len(want) == 0 {
		t.Errorf("%d sets with an excess, want %d", len(got), len(want))
	}
	for key, x := range want {
		if math.Abs(got[key]-x) > 1e-9 {
			t.Errorf("%v: %g, want %g", sweep.SetOf(key), got[key], x)
		}
	}
	if few := s.Together(5); len(few) != min(5, len(all)) || !reflect.DeepEqual(few, all[:len(few)]) {
		t.Errorf("the first five are not the first five of all")
	}
	t.Logf("%d sets with an excess in %d findings", len(want), len(all))
}

func each(n int, visit func(sweep.Set)) {
	for a := range n {
		for b := a + 1; b < n; b++ {
			visit(sweep.Set{a, b})
			for c := b + 1; c < n; c++ {
				visit(sweep.Set{a, b, c})
			}
		}
	}
}

func slowExcess(s *findings.Swept, sheet *sweep.Sheet, set sweep.Set) (sum float64) {
	var chapters []int
	for _, n := range set {
		item, _ := s.Build.Item(s.Failures[n].Unit)
		chapters = append(chapters, item.Named().Chapter)
	}
	o := sheet.Outcome(set)
	for f := range s.Build.Functions {
		l, lost := o.Loss(int32(f))
		if !lost {
			continue
		}
		most := 0.0
		for i := range set {
			var part sweep.Set
			for j, n := range set {
				if j != i {
					part = append(part, n)
				}
			}
			less := sheet.Outcome(part)
			if had, ok := less.Loss(int32(f)); ok {
				most = max(most, s.Weight(had, chapters))
			}
		}
		sum += max(0, s.Weight(l, chapters)-most)
	}
	return sum
}
