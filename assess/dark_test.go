package assess

import (
	"testing"

	"knockon/sweep"
)

// TestCountDark_EachOnce: a pair left for two cleared failures is one, and one that is
// flown for the other is none.
func TestCountDark_EachOnce(t *testing.T) {
	key := func(p, q int) uint64 { return sweep.Set{p, q}.Key() }
	b := ByBook{dark: []uint64{key(0, 1), key(0, 1), key(0, 2), key(1, 3)}, Pairs: []Cut{{Set: sweep.Set{0, 2}}}}
	if b.countDark(); b.Dark != 2 {
		t.Errorf("%d, want 2", b.Dark)
	}
}
