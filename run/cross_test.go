package run

import "testing"

// TestRolled_Across: more wind across than can be landed in, and nothing said where no
// limit is known.
func TestRolled_Across(t *testing.T) {
	for _, c := range []struct {
		cross, most float64
		want        bool
	}{{26, 20, true}, {20, 20, false}, {12, 20, false}, {40, 0, false}} {
		if got := (Rolled{CrossKt: c.cross, MostCrossKt: c.most}).Across(); got != c.want {
			t.Errorf("%v kt of %v: %v", c.cross, c.most, got)
		}
	}
}
