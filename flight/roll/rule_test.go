package roll

import (
	"math"
	"strings"
	"testing"
)

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

// 14 CFR 25.109(c)(1), polynomials from memory, so these values are from memory
// too (computed from them independently). Tolerance 5e-5.
func TestWetMu_FromMemory(t *testing.T) {
	speeds := []float64{0, 20, 50, 80, 100, 120, 140, 160}
	for psi, row := range map[float64][]float64{
		50:  {.8830, .7248, .5296, .3801, .3030, .2420, .1953, .1614},
		100: {.8040, .6555, .4760, .3424, .2753, .2233, .1843, .1562},
		150: {.7480, .6128, .4489, .3262, .2641, .2157, .1791, .1525},
		200: {.6920, .5702, .4219, .3099, .2529, .2081, .1739, .1487},
		300: {.6140, .5020, .3692, .2730, .2259, .1902, .1640, .1454},
	} {
		for i, want := range row {
			within(t, "wet coefficient", WetMu(psi, speeds[i]), want, 5.001e-5)
		}
	}
	// 200 psi at 100 kt with the three kinds of anti-skid.
	for anti, want := range map[AntiSkid]float64{OnOff: 0.0759, QuasiModulating: 0.1264, FullyModulating: 0.2023} {
		mu, err := Tyres{PSI: 200, AntiSkid: anti}.Mu(5, 100)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "with anti-skid", mu, want, 1e-4)
	}
}

// Properties that do not rest on memory: 14 CFR 25.109(c) gives the
// efficiencies and linear interpolation in pressure; grip falls with both.
func TestWetMu_Properties(t *testing.T) {
	within(t, "quasi over fully", QuasiModulating.share(), 0.625, 1e-12)
	within(t, "on-off over fully", OnOff.share(), 0.375, 1e-12)
	for kt := 0.0; kt < 215; kt += 5 {
		within(t, "interpolated", WetMu(250, kt), (WetMu(200, kt)+WetMu(300, kt))/2, 1e-12)
		for psi := 50.0; psi <= 300; psi += 10 {
			if !(WetMu(psi, kt+5) < WetMu(psi, kt)) {
				t.Errorf("%g psi: does not fall from %g to %g kt", psi, kt, kt+5)
			}
			if !(WetMu(psi+10, kt) < WetMu(psi, kt)) && psi < 300 && kt < 165 {
				t.Errorf("%g kt: does not fall from %g to %g psi", kt, psi, psi+10)
			}
		}
	}
	within(t, "below 50 psi", WetMu(30, 100), WetMu(50, 100), 0)
	within(t, "above 300 psi", WetMu(400, 100), WetMu(300, 100), 0)
}

// Runway condition assessment matrix for pilots and operators (pdfslide.net,
// "pilots runway condition assessment matrix"); 3 mm exactly and -15 C exactly
// are the boundary cases.
func TestCondition_Matrix(t *testing.T) {
	for _, row := range []struct {
		surface  Surface
		depth, c float64
		code     Code
		report   string
	}{
		{Dry, 0, 15, 6, ""},
		{Frost, 0, -2, 5, "good"},
		{Wet, 0, 15, 5, "good"},
		{Wet, 3, 15, 5, "good"},
		{Wet, 3.01, 15, 2, "medium to poor"},
		{Slush, 3, 0, 5, "good"},
		{Slush, 4, 0, 2, "medium to poor"},
		{DrySnow, 3, -10, 5, "good"},
		{DrySnow, 20, -30, 3, "medium"},
		{WetSnow, 3, -1, 5, "good"},
		{WetSnow, 10, -1, 3, "medium"},
		{CompactedSnow, 0, -15, 4, "good to medium"},
		{CompactedSnow, 0, -20, 4, "good to medium"},
		{CompactedSnow, 0, -14.9, 3, "medium"},
		{SlipperyWhenWet, 0, 15, 3, "medium"},
		{SnowOverCompactedSnow, 1, -20, 3, "medium"},
		{SnowOverCompactedSnow, 50, -20, 3, "medium"},
		{Ice, 0, -5, 1, "poor"},
		{WetIce, 0, 0, 0, "nil"},
		{SlushOverIce, 2, 0, 0, "nil"},
		{WaterOverCompactedSnow, 2, 0, 0, "nil"},
		{SnowOverIce, 2, -5, 0, "nil"},
	} {
		code, err := Condition(row.surface, row.depth, row.c)
		if err != nil || code != row.code || code.Report() != row.report {
			t.Errorf("%s, %g mm, %g C: code %d (%s), %v; want %d (%s)", row.surface, row.depth, row.c, code, code.Report(), err, row.code, row.report)
		}
	}
}

func TestCondition_CoversEverySurface(t *testing.T) {
	for _, s := range Surfaces() {
		for _, depth := range []float64{0, 3, 100} {
			for _, c := range []float64{-40, -15, 0, 30} {
				if code, err := Condition(s, depth, c); err != nil || code < 0 || code > 6 {
					t.Errorf("%s: code %d, %v", s, code, err)
				}
			}
		}
	}
	for _, bad := range []struct{ depth, c float64 }{{-1, 0}, {math.NaN(), 0}, {0, math.Inf(1)}, {5000, 0}} {
		if _, err := Condition(Wet, bad.depth, bad.c); err == nil {
			t.Errorf("no complaint about %v", bad)
		}
	}
	if _, err := Condition(Surface(99), 0, 0); err == nil || !strings.Contains(err.Error(), "99") {
		t.Errorf("got %v", err)
	}
	if Code(9).Report() != "" || Surface(99).String() == "" {
		t.Error("names of what does not exist")
	}
}

// AC 25-32 of 22 December 2015, from memory.
func TestMu_CodesFromMemory(t *testing.T) {
	tyres := Tyres{PSI: 200, AntiSkid: FullyModulating, DryMu: 0.40}
	limit := 0.85 * 9 * math.Sqrt(200)
	for _, row := range []struct {
		code   Code
		kt, mu float64
	}{
		{6, 100, 0.36}, {5, 100, 0.2023}, {4, 100, 0.20}, {4, 20, 0.20}, {3, 140, 0.16}, {1, 60, 0.08},
		{2, limit + 0.01, 0.05}, {2, limit, 0.05}, {2, limit - 0.01, 0.5 * 0.8 * WetMu(200, limit)}, {2, 20, 0.16},
	} {
		mu, err := tyres.Mu(row.code, row.kt)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "coefficient", mu, row.mu, 1e-4)
		for _, anti := range []AntiSkid{QuasiModulating, OnOff} {
			less := tyres
			less.AntiSkid = anti
			part, _ := less.Mu(row.code, row.kt)
			within(t, "with a lesser anti-skid", part, mu*float64(anti)/0.8, 1e-12)
		}
	}
	tyres.Grooved = true
	mu, _ := tyres.Mu(5, 100)
	within(t, "grooved", mu, 0.7*0.40, 1e-12) // 14 CFR 25.109(d)(1)
	for _, code := range []Code{0, -1, 7} {
		if _, err := tyres.Mu(code, 50); err == nil {
			t.Errorf("code %d can be landed on", code)
		}
	}
}

// The factors 9 and 7.7: encyclopedia2.thefreedictionary.com, "dynamic
// hydroplaning"; values computed. Tolerance 0.05 kt.
func TestHydroplaning_Speeds(t *testing.T) {
	for _, row := range []struct{ psi, rolling, standing, limit float64 }{
		{100, 90.00, 77.00, 76.50},
		{150, 110.23, 94.31, 93.69},
		{180, 120.75, 103.31, 102.64},
		{200, 127.28, 108.89, 108.19},
		{220, 133.49, 114.21, 113.47},
	} {
		within(t, "rolling", Hydroplaning(row.psi, 1), row.rolling, 0.05)
		within(t, "standing", SpinUp(row.psi), row.standing, 0.05)
		g, err := Tyres{PSI: row.psi, AntiSkid: FullyModulating}.grip(2)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "limit of code 2", g.limit, row.limit, 0.05)
	}
	// Published example, rounded: 150 psi, 110 kt (aopa.org, April 2015).
	within(t, "published example", Hydroplaning(150, 1), 110, 0.5)
	within(t, "slush floats later", Hydroplaning(150, 0.85)/Hydroplaning(150, 1), 1/math.Sqrt(0.85), 1e-12)
}

// 14 CFR 121.195, 135.387; CAT.POL.A.230, .235; CAT.OP.MPA.303. Tolerance 0.1 m.
func TestFactors_OfTheRules(t *testing.T) {
	within(t, "dry, turbojet", DryDispatch(1500, Turbojet), 2500, 0.1)
	within(t, "wet, turbojet", WetDispatch(1500, Turbojet), 2875, 0.1)
	within(t, "dry multiplier", DryDispatch(1, Turbojet), 1.66667, 1e-5)
	within(t, "wet multiplier", WetDispatch(1, Turbojet), 1.91667, 1e-5)
	within(t, "dry, turboprop", DryDispatch(1, Turboprop), 1.42857, 1e-5)
	within(t, "wet, turboprop", WetDispatch(1, Turboprop), 1.64286, 1e-5)
	within(t, "at arrival", AtArrival(2000), 2300, 0.1)
	// CAT.POL.A.330.
	within(t, "headwind", CreditedWind(20), 10, 0)
	within(t, "tailwind", CreditedWind(-10), -15, 0)
}

// AC 25-32, from memory; values computed. Tolerance 0.1 m.
func TestAirDistance_FromMemory(t *testing.T) {
	metres, touchdown := AirDistance(140)
	within(t, "air distance", metres, 494.07, 0.1)
	within(t, "touchdown", touchdown, 134.4, 1e-9)
	within(t, "first action early", Transition(0.3, 1), 1, 0)
	within(t, "first action late, two more", Transition(1.8, 3), 3.8, 1e-12)
	within(t, "a second at touchdown speed", touchdown/knotsPerMS, 69.14, 0.1)
}

// AMC 25.1591, from memory: 0.5 rho V^2 S Cd with S depth times the width at
// the surface of the fluid.
func TestFluid_FromMemory(t *testing.T) {
	wheels := Wheels{WidthM: 0.30, DeflectionM: 0.03, Alike: 4}
	sunk := (0.03 + 0.010) / 0.30
	width := 2 * 0.30 * math.Sqrt(sunk-sunk*sunk)
	want := 0.5 * 850 * 0.75 * 0.010 * width * 4
	within(t, "slush of 10 mm", fluidArea(Fluid{10, 0.85}, wheels), want, 1e-9)
	within(t, "3 mm do not count", fluidArea(Fluid{3, 1}, wheels), 0, 0)
	within(t, "no tyre", fluidArea(Fluid{10, 1}, Wheels{}), 0, 0)
	deep := fluidArea(Fluid{200, 1}, wheels)
	within(t, "never wider than the tyre", deep, 0.5*1000*0.75*0.2*0.30*4, 1e-9)
}
