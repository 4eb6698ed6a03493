package flight

import (
	"math"
	"testing"

	"knockon/internal/checks"
)

// within fails the test unless got is within tol of want.
func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

const hPaPerInHg = 33.863886

// metres gives a quantity at an altitude in metres.
func metres(of func(ft float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(n[0] * FeetPerMetre) })
}

// feet gives a quantity at an altitude in feet.
func feet(of func(ft float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(n[0]) })
}

func fixed(x float64) checks.How { return func(checks.Value) any { return x } }

// The values and their sources stand in internal/checks/tables/atmosphere.tsv.
func TestAir_AgreesWithTheTables(t *testing.T) {
	still := Air{}
	checks.Run(t, "atmosphere", map[string]checks.How{
		"density ratio":                         feet(still.DensityRatio),
		"pressure ratio":                        feet(PressureRatio),
		"temperature ratio":                     feet(func(ft float64) float64 { return still.TemperatureK(ft) / 288.15 }),
		"temperature, K":                        metres(still.TemperatureK),
		"pressure, Pa":                          metres(func(ft float64) float64 { return PressureHPa(ft) * 100 }),
		"density, kg/m3":                        metres(still.DensityKgPerM3),
		"speed of sound, m/s":                   metres(func(ft float64) float64 { return still.SoundKt(ft) / KnotsPerMS }),
		"speed of sound, m/s, at a temperature": checks.Of(func(n []float64) float64 { return AirOfC(30000, n[0]-zeroCelsiusK).SoundKt(30000) / KnotsPerMS }),
		"lapse of the temperature, K/km": checks.Of(func(n []float64) float64 {
			return (still.TemperatureK(n[0]) - still.TemperatureK(n[1]*FeetPerMetre)) / (n[1] - n[0]) * 1000
		}),
		"exponent of the pressure":                                  fixed(pressureExponent),
		"exponent of the density":                                   fixed(densityExponent),
		"share of the sea-level temperature lost in a foot":         fixed(1 / (temperatureTopM * FeetPerMetre)),
		"share of the pressure lost in a foot":                      fixed(1 / (scaleHeightM * FeetPerMetre)),
		"tropopause, ft":                                            fixed(TropopauseFt),
		"speed of sound, kt, over the root of the temperature in K": fixed(knotsPerRootK),
		"metres in a nautical mile":                                 fixed(MetresPerNM),
		"metres in a foot":                                          fixed(1 / FeetPerMetre),
		"density altitude, ft":                                      checks.Of(func(n []float64) float64 { return AirOfC(n[0], n[1]).DensityAltitudeFt(n[0]) }),
		"temperature at a pressure altitude, K":                     feet(still.TemperatureK),
		"pressure, hPa":                                             feet(PressureHPa),
		"density at a pressure altitude, kg/m3":                     feet(still.DensityKgPerM3),
		"speed of sound, kt":                                        feet(still.SoundKt),
		"pressure altitude, ft":                                     checks.Of(func(n []float64) float64 { return PressureAltitudeFt(n[0], n[1]) }),
		"pressure altitude, ft, at an elevation and a setting in inHg": checks.Of(func(n []float64) float64 {
			return PressureAltitudeFt(n[0], n[1]*hPaPerInHg)
		}),
	})
}

func TestDensityAltitude_IsTheAltitudeInStandardAir(t *testing.T) {
	for ft := -1000.0; ft < 60000; ft += 500 {
		within(t, "density altitude in standard air", Air{}.DensityAltitudeFt(ft), ft, 1e-6)
		within(t, "altitude of its own pressure", AltitudeFt(PressureRatio(ft)), ft, 1e-6)
	}
}
