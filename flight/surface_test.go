package flight

import "testing"

// The wind near the ground is worked by hand from the rule of docs/meaning.md, section
// 8: 2,000 ft and the straight line are common practice.
func TestWindAt_GoesOverFromTheSurfaceToTheWindAloft(t *testing.T) {
	rising := func(ft float64) float64 { return ft / 100 }
	for _, x := range []struct {
		name                           string
		ft, ground, surface, aloft, kt float64
	}{
		{"on the runway", 140, 140, 5, 35, 5},
		{"below it, as pressure has it", 100, 140, 5, 35, 5},
		{"half way", 1140, 140, 5, 35, 20},
		{"a tenth of the way", 340, 140, 0, 35, 3.5},
		{"at the top", 2140, 140, 5, 35, 35},
		{"aloft", 30000, 140, 5, 35, 35},
		{"from behind on the runway", 540, 40, -8, 12, -3},
	} {
		within(t, x.name, WindAt(x.ft, x.ground, x.surface, func(float64) float64 { return x.aloft }), x.kt, 1e-9)
	}
	within(t, "the wind at the top counts below it", Over(1000, 10, rising)(2000), 20, 1e-9) // 10 and 30 at 3,000 ft
	within(t, "and that of the level above it", Over(1000, 10, rising)(5000), 50, 1e-9)
}
