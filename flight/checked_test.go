package flight

import "math"

// What tables give beside what the program uses.

// PressureHPa is the pressure at a pressure altitude in hectopascals.
func PressureHPa(altitudeFt float64) float64 {
	return PressureRatio(altitudeFt) * seaLevelPa / 100
}

// EASOfMach is the equivalent airspeed in knots at a Mach number.
func EASOfMach(mach, altitudeFt float64) float64 {
	return seaLevelSound * mach * math.Sqrt(PressureRatio(altitudeFt))
}

// StaticC is the reverse of TotalC.
func StaticC(totalC, mach, recovery float64) float64 {
	return (totalC+zeroCelsiusK)/(1+0.2*recovery*mach*mach) - zeroCelsiusK
}
