package roll

import "math"

// AntiSkid is the efficiency of an anti-skid system on a wet runway, 14 CFR
// 25.109(c)(2).
type AntiSkid float64

// Anti-skid systems by their kind.
const (
	OnOff           AntiSkid = 0.30
	QuasiModulating AntiSkid = 0.50
	FullyModulating AntiSkid = 0.80
)

// share is the efficiency, of that of a fully modulating system.
func (a AntiSkid) share() float64 { return float64(a / FullyModulating) }

// cubic is a polynomial in the ground speed over 100 kt, highest power first.
type cubic [4]float64

func (c cubic) at(kt float64) float64 {
	x := kt / 100
	return ((c[0]*x+c[1])*x+c[2])*x + c[3]
}

func (c cubic) times(f float64) cubic {
	return cubic{c[0] * f, c[1] * f, c[2] * f, c[3] * f}
}

// wetTable holds the coefficients of 14 CFR 25.109(c)(1) by maximum tyre
// pressure in psi. From memory.
var wetTable = [...]struct {
	psi float64
	mu  cubic
}{
	{50, cubic{-0.0350, 0.306, -0.851, 0.883}},
	{100, cubic{-0.0437, 0.320, -0.805, 0.804}},
	{200, cubic{-0.0331, 0.252, -0.658, 0.692}},
	{300, cubic{-0.0401, 0.263, -0.611, 0.614}},
}

// wetCubic is the polynomial for a tyre pressure, with linear interpolation
// between the four pressures of the rule; beyond them it stays at the last.
func wetCubic(psi float64) cubic {
	last := len(wetTable) - 1
	psi = max(wetTable[0].psi, min(wetTable[last].psi, psi))
	i := 0
	for i < last-1 && psi > wetTable[i+1].psi {
		i++
	}
	low, high := wetTable[i], wetTable[i+1]
	part := (psi - low.psi) / (high.psi - low.psi)
	var mix cubic
	for k := range mix {
		mix[k] = low.mu[k] + part*(high.mu[k]-low.mu[k])
	}
	return mix
}

// fastestKt is where the rule's polynomials are cut off: some rise again
// beyond.
const fastestKt = 220

// GroovedShare of the dry coefficient may be taken on a grooved or porous wet
// runway, 14 CFR 25.109(d)(1).
const GroovedShare = 0.70

// Tyres begin to float on standing water at the speed of Hydroplaning while
// they roll, and a wheel that stands does not begin to turn above that of
// SpinUp (the usual formulas after NASA TN D-2056; 9 for water deeper than the
// tread can drain).
const (
	hydroplaningFactor = 9.0
	spinUpFactor       = 7.7
	hydroplaningShare  = 0.85 // of Hydroplaning: AC 25-32, from memory
)

// Hydroplaning is the ground speed in knots at which a rolling tyre leaves the
// ground on a fluid of the given specific gravity (water 1, slush 0.85).
func Hydroplaning(psi, gravity float64) float64 {
	return hydroplaningFactor * math.Sqrt(psi/gravity)
}

// SpinUp is the ground speed in knots above which a standing wheel does not
// begin to turn on standing water.
func SpinUp(psi float64) float64 { return spinUpFactor * math.Sqrt(psi) }
