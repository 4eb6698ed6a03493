package ledger

import "testing"

func TestApart_LeavesRoundingOut(t *testing.T) {
	third := 1.0 / 3
	for _, c := range []struct {
		x, y, within float64
		want         bool
	}{
		{0.1 + 0.2, 0.3, 0, false}, {third * 3e6, 1e6 * (1 - 1e-12), 0, false}, {1, 1.001, 0, true},
		{10, 12, 2, false}, {10, 12.1, 2, true}, {-5, 5, 9, true}, {0, 0, 0, false},
	} {
		if got := (difference{within: c.within}).apart(c.x, c.y); got != c.want {
			t.Errorf("apart(%v, %v) within %v is %v", c.x, c.y, c.within, got)
		}
	}
}
