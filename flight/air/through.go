package air

import "math"

// CabinK is the temperature of the air that a hole lets through.
const CabinK = 294.0

// chokedRatio is the ratio of pressures, outside to inside, at which the air in a hole
// is as fast as sound: (2/2.4)^3.5.
var chokedRatio = 1 / (Impact(1) + 1)

// evenRatio is the ratio of pressures nearer to which air flows in proportion to their
// difference, in place of its root: two nearly equal pressures then come together at a
// pace that can be followed.
const evenRatio = 0.99

// AirThrough is the mass of air in kg/s that leaves through a square metre of
// effective area (area times discharge coefficient) from one pressure in hPa to
// another; less than 0 where it comes in. Isentropic flow through a nozzle, ratio of
// specific heats 1.4, at 294 K.
func AirThrough(insideHPa, outsideHPa float64) float64 {
	in, out := within(insideHPa, thinnestHPa, thickestHPa), within(outsideHPa, thinnestHPa, thickestHPa)
	if in < out {
		return -nozzle(out, in)
	}
	return nozzle(in, out)
}

func nozzle(high, low float64) float64 {
	r := low / high
	switch {
	case r > evenRatio:
		return 100 * high * ((1 - r) / (1 - evenRatio)) * speedEven
	case r <= chokedRatio:
		return 100 * high * speedChoked
	}
	return 100 * high * speedThrough(r)
}

// speedThrough is how fast air is in a hole, by the ratio of pressures.
func speedThrough(r float64) float64 {
	log := math.Log(r)
	return math.Sqrt(7 * (math.Exp(2/1.4*log) - math.Exp(2.4/1.4*log)) / (GasConstant * CabinK))
}

var speedEven, speedChoked = speedThrough(evenRatio), speedThrough(chokedRatio)

// Between reads a table x1, y1, x2, y2, … in straight lines between its rows, which
// rise in x; beyond its ends it stays at them.
func Between(x float64, table []float64) float64 {
	last := len(table) - 2
	if x <= table[0] {
		return table[1]
	}
	for i := 0; i < last; i += 2 {
		if a, b := table[i], table[i+2]; x < b {
			return table[i+1] + (table[i+3]-table[i+1])*((x-a)/(b-a))
		}
	}
	return table[last+1]
}
