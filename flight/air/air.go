// Package air is the standard atmosphere as pressures, and what pitot and static
// pressure say of a flight: the laws that a book's expressions may call, and that
// the flight itself is flown by.
//
// Invariant: every function is pure, monotone in each argument, and gives a finite
// number for any finite argument; outside its range a law keeps the value of the
// edge. Sources: the 1976 standard atmosphere (the figures agree with ISO 2533 and
// the Aviation Formulary v1.42), and the compressible relations below Mach 1.
//
// Start reading at PressureRatio, then Law (laws.go).
package air

import "math"

// Constants of the standard atmosphere to 20 km.
const (
	FeetPerMetre     = 1 / 0.3048
	Gravity          = 9.80665   // m/s2
	GasConstant      = 287.05287 // J/(kg K)
	SeaLevelK        = 288.15
	SeaLevelPa       = 101325.0
	LapseKPerM       = 0.0065
	TropopauseM      = 11000.0
	TropopauseK      = SeaLevelK - LapseKPerM*TropopauseM
	PressureExponent = Gravity / (GasConstant * LapseKPerM)
	ScaleHeightM     = GasConstant * TropopauseK / Gravity
	TemperatureTopM  = SeaLevelK / LapseKPerM // where the lower layer's line reaches 0 K
)

// tropopausePressure is the ratio to the sea-level standard at the tropopause.
var tropopausePressure = math.Pow(TropopauseK/SeaLevelK, PressureExponent)

// Power is x to the y for positive x, a few units in the last place less exact
// than math.Pow and several times faster.
func Power(x, y float64) float64 { return math.Exp(y * math.Log(x)) }

// PressureRatio is the pressure at a pressure altitude, of 1013.25 hPa.
func PressureRatio(altitudeFt float64) float64 {
	m := altitudeFt / FeetPerMetre
	if m <= TropopauseM {
		return Power(1-m/TemperatureTopM, PressureExponent)
	}
	return tropopausePressure * math.Exp((TropopauseM-m)/ScaleHeightM)
}

// AltitudeFt is the pressure altitude at which the pressure is ratio times
// 1013.25 hPa: the reverse of PressureRatio.
func AltitudeFt(ratio float64) float64 {
	if ratio >= tropopausePressure {
		return TemperatureTopM * (1 - Power(ratio, 1/PressureExponent)) * FeetPerMetre
	}
	return (TropopauseM - ScaleHeightM*math.Log(ratio/tropopausePressure)) * FeetPerMetre
}

// Impact is the impact pressure at a Mach number below 1, of the static pressure.
// The ratio of specific heats 1.4 is written out as in the usual formulas:
// 0.2 = (1.4-1)/2, 3.5 = 1.4/(1.4-1).
func Impact(mach float64) float64 {
	x := 1 + 0.2*mach*mach
	return x*x*x*math.Sqrt(x) - 1
}

// MachOfImpact is the reverse of Impact.
func MachOfImpact(q float64) float64 { return math.Sqrt(5 * (Power(q+1, 1/3.5) - 1)) }
