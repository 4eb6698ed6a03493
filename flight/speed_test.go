package flight

import (
	"testing"

	"knockon/flight/air"
	"knockon/internal/checks"
)

// ofCAS gives a quantity at a calibrated airspeed in knots and an altitude.
func ofCAS(of func(mach, cas, ft float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(MachOfCAS(n[0], n[1]), n[0], n[1]) })
}

// probed gives a quantity in the air of a probe's temperature.
func probed(of func(a Air, cas, ft, static float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 {
		static := StaticC(n[2], MachOfCAS(n[0], n[1]), n[3])
		return of(AirOfC(n[1], static), n[0], n[1], static)
	})
}

// The values and their sources stand in internal/checks/tables/airspeeds.tsv.
func TestSpeed_AgreesWithTheTables(t *testing.T) {
	two := func(of func(x, y float64) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return of(n[0], n[1]) })
	}
	checks.Run(t, "airspeeds", map[string]checks.How{
		"Mach number":                      two(MachOfCAS),
		"impact pressure, inHg":            ofCAS(func(mach, _, ft float64) float64 { return air.Impact(mach) * PressureHPa(ft) / hPaPerInHg }),
		"static pressure, inHg":            ofCAS(func(_, _, ft float64) float64 { return PressureHPa(ft) / hPaPerInHg }),
		"static temperature, C":            probed(func(_ Air, _, _, static float64) float64 { return static }),
		"TAS, kt, from a probe":            probed(func(a Air, cas, ft, _ float64) float64 { return a.TASOfCAS(cas, ft) }),
		"speed of sound, kt, from a probe": probed(func(a Air, _, ft, _ float64) float64 { return a.SoundKt(ft) }),
		"Mach number of a CAS in m/s":      two(func(ms, m float64) float64 { return MachOfCAS(ms*KnotsPerMS, m*FeetPerMetre) }),
		"TAS, m/s":                         two(func(ms, m float64) float64 { return Air{}.TASOfCAS(ms*KnotsPerMS, m*FeetPerMetre) / KnotsPerMS }),
		"crossover, m":                     two(func(ms, mach float64) float64 { return CrossoverFt(ms*KnotsPerMS, mach) / FeetPerMetre }),
		"TAS, kt":                          two(Air{}.TASOfCAS),
		"EAS, kt":                          ofCAS(func(mach, _, ft float64) float64 { return EASOfMach(mach, ft) }),
		"CAS, kt, of a TAS":                two(Air{}.CASOfTAS),
		"CAS, kt, of a Mach number":        two(CASOfMach),
		"TAS, kt, of a Mach number":        two(Air{}.TASOfMach),
		"EAS, kt, of a Mach number":        two(EASOfMach),
		"TAS, kt, off the standard":        checks.Of(func(n []float64) float64 { return Air{n[2]}.TASOfCAS(n[0], n[1]) }),
		"crossover, ft":                    two(CrossoverFt),
		"total temperature, C":             two(func(mach, ft float64) float64 { return TotalC(Air{}.TemperatureC(ft), mach, 1) }),
	})
}

func TestSpeed_ThereAndBack(t *testing.T) {
	for ft := -1000.0; ft <= 60000; ft += 250 {
		for cas := 20.0; cas < 400 && MachOfCAS(cas, ft) < 1; cas += 13 {
			within(t, "CAS to Mach to CAS", CASOfMach(MachOfCAS(cas, ft), ft), cas, 1e-6)
			within(t, "crossover", CrossoverFt(cas, MachOfCAS(cas, ft)), ft, 1e-4)
			within(t, "probe", TotalC(StaticC(2, MachOfCAS(cas, ft), 0.8), MachOfCAS(cas, ft), 0.8), 2, 1e-9)
		}
	}
}
