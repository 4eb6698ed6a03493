package flight

import "math"

// Constants of the standard atmosphere to 20 km (1976 atmosphere; the figures
// agree with ISO 2533 and the Aviation Formulary v1.42).
const (
	FeetPerMetre     = 1 / 0.3048
	MetresPerNM      = 1852.0
	Gravity          = 9.80665   // m/s2
	gasConstant      = 287.05287 // J/(kg K)
	seaLevelK        = 288.15
	seaLevelPa       = 101325.0
	lapseKPerM       = 0.0065
	tropopauseM      = 11000.0
	tropopauseK      = seaLevelK - lapseKPerM*tropopauseM
	TropopauseFt     = tropopauseM * FeetPerMetre
	zeroCelsiusK     = 273.15
	pressureExponent = Gravity / (gasConstant * lapseKPerM)
	densityExponent  = pressureExponent - 1
	scaleHeightM     = gasConstant * tropopauseK / Gravity
	temperatureTopM  = seaLevelK / lapseKPerM // where the lower layer's line reaches 0 K
)

// Ratios to the sea-level standard at the tropopause.
var (
	tropopausePressure = math.Pow(tropopauseK/seaLevelK, pressureExponent)
	tropopauseDensity  = math.Pow(tropopauseK/seaLevelK, densityExponent)
)

// Air is the International Standard Atmosphere, warmer everywhere by
// DeviationC. The pressure at a pressure altitude does not depend on it. The
// zero value is the standard itself. It holds up to 20 km (65,617 ft); above,
// the layer of constant temperature goes on.
type Air struct{ DeviationC float64 }

// power is x to the y for positive x, a few units in the last place less exact
// than math.Pow and several times faster.
func power(x, y float64) float64 { return math.Exp(y * math.Log(x)) }

// TemperatureK is the static air temperature in kelvin.
func (a Air) TemperatureK(altitudeFt float64) float64 {
	return standardK(altitudeFt) + a.DeviationC
}

// TemperatureC is the static air temperature in degrees Celsius.
func (a Air) TemperatureC(altitudeFt float64) float64 {
	return a.TemperatureK(altitudeFt) - zeroCelsiusK
}

func standardK(altitudeFt float64) float64 {
	return seaLevelK - lapseKPerM*min(altitudeFt/FeetPerMetre, tropopauseM)
}

// PressureRatio is the pressure at a pressure altitude, of 1013.25 hPa.
func PressureRatio(altitudeFt float64) float64 {
	m := altitudeFt / FeetPerMetre
	if m <= tropopauseM {
		return power(1-m/temperatureTopM, pressureExponent)
	}
	return tropopausePressure * math.Exp((tropopauseM-m)/scaleHeightM)
}

// AltitudeFt is the pressure altitude at which the pressure is ratio times
// 1013.25 hPa: the reverse of PressureRatio.
func AltitudeFt(ratio float64) float64 {
	if ratio >= tropopausePressure {
		return temperatureTopM * (1 - math.Pow(ratio, 1/pressureExponent)) * FeetPerMetre
	}
	return (tropopauseM - scaleHeightM*math.Log(ratio/tropopausePressure)) * FeetPerMetre
}

// PressureAltitudeFt is the pressure altitude of a place of the given
// elevation while the pressure setting there is qnhHPa.
func PressureAltitudeFt(elevationFt, qnhHPa float64) float64 {
	return elevationFt + AltitudeFt(qnhHPa*100/seaLevelPa)
}

// DensityKgPerM3 is the density of the air.
func (a Air) DensityKgPerM3(altitudeFt float64) float64 {
	return PressureRatio(altitudeFt) * seaLevelPa / (gasConstant * a.TemperatureK(altitudeFt))
}

// DensityRatio is the density of the air, of the sea-level standard.
func (a Air) DensityRatio(altitudeFt float64) float64 {
	return PressureRatio(altitudeFt) * seaLevelK / a.TemperatureK(altitudeFt)
}

// DensityAltitudeFt is the altitude at which the standard atmosphere has the
// density found here.
func (a Air) DensityAltitudeFt(altitudeFt float64) float64 {
	sigma := a.DensityRatio(altitudeFt)
	if sigma >= tropopauseDensity {
		return temperatureTopM * (1 - math.Pow(sigma, 1/densityExponent)) * FeetPerMetre
	}
	return (tropopauseM - scaleHeightM*math.Log(sigma/tropopauseDensity)) * FeetPerMetre
}

// AirOfC is the atmosphere that has the given temperature at the given
// altitude.
func AirOfC(altitudeFt, temperatureC float64) Air {
	return Air{DeviationC: temperatureC + zeroCelsiusK - standardK(altitudeFt)}
}
