package roll

import "math"

// Fluid is standing water or slush on the runway. The zero value is none.
type Fluid struct {
	DepthMM float64
	Gravity float64 // specific gravity: water 1, slush 0.85 (AMC 25.1591, from memory)
}

// Wheels is what ploughs through a fluid.
type Wheels struct {
	WidthM      float64 // of a tyre
	DeflectionM float64 // of a tyre under load
	Alike       float64 // how many single wheels' drag all wheels together have: a pair counts 2, a bogie of four 4
}

const (
	fluidCd    = 0.75 // of a tyre in water or slush, AMC 25.1591, from memory
	waterKgPM3 = 1000.0
	deepMM     = 3.0 // loose contaminant counts above this depth, AMC 25.1591
)

// fluidArea is half the density times drag coefficient times frontal area of
// all wheels: times the speed squared it is the displacement drag in newtons
// (AMC 25.1591, from memory).
func fluidArea(f Fluid, w Wheels) float64 {
	if f.DepthMM <= deepMM || w.WidthM <= 0 {
		return 0
	}
	depth := f.DepthMM / 1000
	sunk := min((w.DeflectionM+depth)/w.WidthM, 0.5) // beyond half its width a tyre is no wider
	width := 2 * w.WidthM * math.Sqrt(sunk-sunk*sunk)
	return 0.5 * waterKgPM3 * f.Gravity * fluidCd * depth * width * w.Alike
}
