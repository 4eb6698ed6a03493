package flight

import (
	"math"
	"testing"
)

// within fails the test unless got is within tol of want.
func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

// Computed independently from the constants of the Aviation Formulary v1.42
// (E. Williams), atmosphere section. Tolerances: 0.01 K, 0.01 hPa, 1e-5 kg/m3, 0.01 kt.
func TestAir_AgreesWithTheFormularyConstants(t *testing.T) {
	for _, row := range []struct{ ft, k, hPa, rho, sound float64 }{
		{0, 288.150, 1013.250, 1.225000, 661.479},
		{1500, 285.178, 959.518, 1.172127, 658.059},
		{5000, 278.244, 843.073, 1.055546, 650.009},
		{10000, 268.338, 696.816, 0.904637, 638.333},
		{15000, 258.432, 571.819, 0.770816, 626.440},
		{20000, 248.526, 465.632, 0.652694, 614.317},
		{25000, 238.620, 376.009, 0.548946, 601.949},
		{30000, 228.714, 300.896, 0.458312, 589.322},
		{35000, 218.808, 238.423, 0.379597, 576.419},
		{36089.24, 216.650, 226.320, 0.363918, 573.569},
		{41000, 216.650, 178.738, 0.287407, 573.569},
	} {
		within(t, "temperature", Air{}.TemperatureK(row.ft), row.k, 0.01)
		within(t, "pressure", PressureHPa(row.ft), row.hPa, 0.01)
		within(t, "density", Air{}.DensityKgPerM3(row.ft), row.rho, 1e-5)
		within(t, "speed of sound", Air{}.SoundKt(row.ft), row.sound, 0.01)
	}
}

// Handbook table of the ICAO atmosphere, four decimals
// (hotlib.net/htrd/1015159/p19). Tolerance 6e-5.
func TestAir_AgreesWithTheHandbookTable(t *testing.T) {
	for _, row := range []struct{ ft, sigma, delta, theta float64 }{
		{5000, 0.8617, 0.8320, 0.9656},
		{10000, 0.7385, 0.6877, 0.9312},
		{15000, 0.6292, 0.5643, 0.8969},
		{20000, 0.5328, 0.4595, 0.8625},
		{25000, 0.4481, 0.3711, 0.8281},
		{30000, 0.3741, 0.2970, 0.7937},
		{35000, 0.3099, 0.2353, 0.7594},
		{36089, 0.2971, 0.2234, 0.7519},
		{40000, 0.2462, 0.1851, 0.7519},
		{45000, 0.1936, 0.1455, 0.7519},
	} {
		within(t, "sigma", Air{}.DensityRatio(row.ft), row.sigma, 6e-5)
		within(t, "delta", PressureRatio(row.ft), row.delta, 6e-5)
		within(t, "theta", Air{}.TemperatureK(row.ft)/288.15, row.theta, 6e-5)
	}
}

// Layer bounds: 1976 atmosphere layer table (fxsolver.com, preset table 1),
// tolerance 0.1 Pa; the other rows: tests of the open library ISAtmosphere.jl
// (github.com/rjdverbeek-tud), tolerance 0.1 Pa and 0.1 m/s.
func TestAir_AgreesWithMetricTables(t *testing.T) {
	for _, row := range []struct{ m, pa float64 }{
		{11000, 22632.10}, {20000, 5474.89}, {9000, 30742.5}, {13000, 16510.4},
	} {
		within(t, "pressure in Pa", PressureHPa(row.m*FeetPerMetre)*100, row.pa, 0.1)
	}
	within(t, "sound at 216.65 K", Air{}.SoundKt(40000)/KnotsPerMS, 295.07, 0.1)
	within(t, "sound at 228.15 K", AirOfC(30000, -45).SoundKt(30000)/KnotsPerMS, 302.8, 0.1)
	within(t, "sound at sea level", Air{}.SoundKt(0), 661.4786, 1e-3)
	within(t, "knots per root of kelvin", knotsPerRootK, 38.967854, 1e-5)
}

// Exponents and ratios: Aviation Formulary v1.42.
func TestAir_HasTheFormularyRatios(t *testing.T) {
	within(t, "pressure ratio at 11 km", tropopausePressure, 0.2233609, 1e-6)
	within(t, "density ratio at 11 km", tropopauseDensity, 0.2970756, 1e-6)
	within(t, "pressure exponent", pressureExponent, 5.2558797, 1e-6)
	within(t, "density exponent", densityExponent, 4.2558797, 1e-6)
	within(t, "per foot below", 1/(temperatureTopM*FeetPerMetre), 6.8755856e-6, 1e-12)
	within(t, "per foot above", 1/(scaleHeightM*FeetPerMetre), 4.806346e-5, 1e-10)
	within(t, "tropopause", TropopauseFt, 36089.24, 0.01)
}

// Formula of the Aviation Formulary v1.42, values computed from it. Tolerance 0.5 ft.
func TestPressureAltitude_FollowsTheSetting(t *testing.T) {
	const hPaPerInHg = 33.863886
	for _, row := range []struct{ qnh, ft float64 }{
		{29.42 * hPaPerInHg, 466.8}, {30.42 * hPaPerInHg, -458.2}, {28.92 * hPaPerInHg, 938.8},
		{1003, 281.1}, {983, 836.3}, {1033, -535.2}, {1013.25, 0},
	} {
		within(t, "pressure altitude", PressureAltitudeFt(0, row.qnh), row.ft, 0.5)
		within(t, "with elevation", PressureAltitudeFt(1200, row.qnh), row.ft+1200, 0.5)
	}
}

// First row: published example of the Aviation Formulary v1.42 (10,145 ft);
// the others computed from its formula. Tolerance 1 ft.
func TestDensityAltitude_FollowsTheTemperature(t *testing.T) {
	for _, row := range []struct{ ft, c, want float64 }{
		{8000, 18, 10145}, {5000, 30, 7800.7}, {0, 35, 2275.3}, {2000, -10, -615.8},
	} {
		within(t, "density altitude", AirOfC(row.ft, row.c).DensityAltitudeFt(row.ft), row.want, 1)
	}
	for ft := -1000.0; ft < 60000; ft += 500 {
		within(t, "density altitude in standard air", Air{}.DensityAltitudeFt(ft), ft, 1e-6)
		within(t, "altitude of its own pressure", AltitudeFt(PressureRatio(ft)), ft, 1e-6)
	}
}
