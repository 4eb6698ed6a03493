package roll

import "math"

// What the rules make of a distance. Lengths are metres.

// Part of the runway within which a landing must come to a full stop, for
// dispatch: 14 CFR 121.195(b) and (c), CAT.POL.A.230.
const (
	Turbojet  = 0.60
	Turboprop = 0.70
)

const (
	wetFactor     = 1.15 // 14 CFR 121.195(d), CAT.POL.A.235
	arrivalFactor = 1.15 // CAT.OP.MPA.303(a); FAA policy of 2006
)

// DryDispatch is the runway needed for dispatch to a dry runway, from the
// unfactored landing distance. part is Turbojet or Turboprop. It divides by
// the part; the rounded factors 1.67 and 1.43 in some guidance are not the
// rule.
func DryDispatch(landing, part float64) float64 { return landing / part }

// WetDispatch is the same where the runway may be wet or slippery on arrival.
func WetDispatch(landing, part float64) float64 { return DryDispatch(landing, part) * wetFactor }

// AtArrival is the runway needed in flight, from the landing distance for the
// conditions on arrival.
func AtArrival(landing float64) float64 { return landing * arrivalFactor }

// Air distance of AC 25-32, from memory: so long at so much of the ground
// speed over the threshold, touching down with so much of it.
const (
	airSeconds     = 7.0
	airShare       = 0.98
	touchdownShare = 0.96
)

// AirDistance is the distance from the threshold to touchdown, in metres, and
// the ground speed at touchdown in knots, from the ground speed over the
// threshold in knots: AC 25-32, from memory.
func AirDistance(thresholdKt float64) (metres, touchdownKt float64) {
	return airSeconds * airShare * thresholdKt / knotsPerMS, touchdownShare * thresholdKt
}

// Transition is the time from touchdown to the last of so many manual
// decelerating actions: the measured time to the first, but at least a second,
// and a second for each further one. AC 25-32, from memory.
func Transition(firstS float64, actions int) float64 {
	return max(1, firstS) + float64(max(0, actions-1))
}

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
