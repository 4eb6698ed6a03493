package flight

import (
	"math"

	"knockon/flight/air"
)

// Constants of the standard atmosphere, see package air.
const (
	FeetPerMetre     = air.FeetPerMetre
	MetresPerNM      = 1852.0
	Gravity          = air.Gravity // m/s2
	gasConstant      = air.GasConstant
	seaLevelK        = air.SeaLevelK
	seaLevelPa       = air.SeaLevelPa
	lapseKPerM       = air.LapseKPerM
	tropopauseM      = air.TropopauseM
	tropopauseK      = air.TropopauseK
	TropopauseFt     = tropopauseM * FeetPerMetre
	zeroCelsiusK     = 273.15
	pressureExponent = air.PressureExponent
	densityExponent  = pressureExponent - 1
	scaleHeightM     = air.ScaleHeightM
	temperatureTopM  = air.TemperatureTopM
)

// tropopauseDensity is the ratio to the sea-level standard at the tropopause.
var tropopauseDensity = math.Pow(tropopauseK/seaLevelK, densityExponent)

// Air is the International Standard Atmosphere, warmer everywhere by
// DeviationC. The pressure at a pressure altitude does not depend on it. The
// zero value is the standard itself. It holds up to 20 km (65,617 ft); above,
// the layer of constant temperature goes on.
type Air struct{ DeviationC float64 }

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
func PressureRatio(altitudeFt float64) float64 { return air.PressureRatio(altitudeFt) }

// AltitudeFt is the pressure altitude at which the pressure is ratio times
// 1013.25 hPa: the reverse of PressureRatio.
func AltitudeFt(ratio float64) float64 { return air.AltitudeFt(ratio) }

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
