package roll

import (
	"math"
	"strings"
	"testing"

	"knockon/internal/checks"
)

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

var antiSkids = map[string]AntiSkid{"on-off": OnOff, "quasi-modulating": QuasiModulating, "fully modulating": FullyModulating}

var parts = map[string]float64{"turbojet": Turbojet, "turboprop": Turboprop}

// wetMu gives what the tyres of an anti-skid have on a wet runway, of 200 psi
// at 100 kt.
func wetMu(of func(mu float64) float64) checks.How {
	return func(v checks.Value) any {
		mu, err := Tyres{PSI: 200, AntiSkid: antiSkids[v.Given]}.Mu(5, 100)
		if err != nil {
			return err
		}
		return of(mu)
	}
}

// dispatch gives something of a landing distance of a metre, by the aircraft.
func dispatch(of func(part float64) float64) checks.How {
	return func(v checks.Value) any { return of(parts[v.Given]) }
}

// one and two give a quantity of one number and of two.
func one(of func(x float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(n[0]) })
}

func two(of func(x, y float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(n[0], n[1]) })
}

func conditionCode(v checks.Value) any {
	name, _, _ := strings.Cut(v.Given, ", ")
	for _, s := range Surfaces() {
		if s.String() == name {
			code, err := Condition(s, v.Numbers()[0], v.Numbers()[1])
			if err != nil {
				return err
			}
			return int(code)
		}
	}
	return nil
}

// coefficient is the mu of tyres of 200 psi by code and speed.
func coefficient(code, kt float64) float64 {
	mu, err := Tyres{PSI: 200, AntiSkid: FullyModulating, DryMu: 0.40}.Mu(Code(code), kt)
	if err != nil {
		return math.NaN()
	}
	return mu
}

// thinnest is the depth of water above which it drags.
func thinnest(checks.Value) any {
	low, high := 0.0, 100.0
	for range 60 {
		if mid := (low + high) / 2; fluidArea(Fluid{mid, 1}, Wheels{WidthM: 0.3, Alike: 1}) > 0 {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

func codeTwoLimit(psi float64) float64 {
	g, err := Tyres{PSI: psi, AntiSkid: FullyModulating}.grip(2)
	if err != nil {
		return math.NaN()
	}
	return g.limit
}

// The values and their sources stand in internal/checks/tables/landing.tsv.
func TestLanding_AgreesWithTheTables(t *testing.T) {
	air := func(of func(metres, touchdown float64) float64) checks.How {
		return one(func(kt float64) float64 { return of(AirDistance(kt)) })
	}
	rolled := func(of func(Roll) float64) checks.How {
		return one(func(code float64) float64 { return of(mustStop(t, bare(Code(code)))) })
	}
	const before = 494.07 + 69.14 // m in the air, and in the second before the brakes
	checks.Run(t, "landing", map[string]checks.How{
		"runway condition code":                      conditionCode,
		"braking action of a code":                   func(v checks.Value) any { return Code(v.Numbers()[0]).Report() },
		"efficiency of an anti-skid on a wet runway": wetMu(func(mu float64) float64 { return mu / WetMu(200, 100) }),
		"wet coefficient, 200 psi at 100 kt":         wetMu(func(mu float64) float64 { return mu }),
		"share of the dry coefficient on a grooved wet runway": func(checks.Value) any {
			mu, _ := Tyres{PSI: 200, AntiSkid: FullyModulating, DryMu: 0.40, Grooved: true}.Mu(5, 100)
			return mu / 0.40
		},
		"kt of hydroplaning over the root of psi": func(v checks.Value) any {
			return map[string]float64{"rolling": Hydroplaning(144, 1), "standing": SpinUp(144)}[v.Given] / 12
		},
		"hydroplaning, kt":                         one(func(psi float64) float64 { return Hydroplaning(psi, 1) }),
		"spin-up, kt":                              one(SpinUp),
		"limit of code 2, kt":                      one(codeTwoLimit),
		"part of the runway for dispatch":          dispatch(func(part float64) float64 { return 1 / DryDispatch(1, part) }),
		"wet runway over dry for dispatch":         dispatch(func(part float64) float64 { return WetDispatch(1, part) / DryDispatch(1, part) }),
		"runway over landing distance, dry":        dispatch(func(part float64) float64 { return DryDispatch(1, part) }),
		"runway over landing distance, wet":        dispatch(func(part float64) float64 { return WetDispatch(1, part) }),
		"runway over landing distance, at arrival": func(checks.Value) any { return AtArrival(1) },
		"credited wind, kt":                        one(CreditedWind),
		"depth from which a fluid drags, mm":       thinnest,
		"wet coefficient before the anti-skid":     two(WetMu),
		"braking coefficient":                      two(coefficient),
		"air distance, m":                          air(func(metres, _ float64) float64 { return metres }),
		"touchdown, kt":                            air(func(_, touchdown float64) float64 { return touchdown }),
		"a second at touchdown, m":                 air(func(_, touchdown float64) float64 { return touchdown / knotsPerMS }),
		"last action, s":                           two(func(first, actions float64) float64 { return Transition(first, int(actions)) }),
		"energy of all brakes, MJ":                 two(brakesMJ),
		"energy of one of 4 brakes, MJ":            two(func(kg, kt float64) float64 { return brakesMJ(kg, kt) / 4 }),
		"braking distance, m":                      rolled(func(r Roll) float64 { return r.TotalM - before }),
		"landing distance, m":                      rolled(func(r Roll) float64 { return r.TotalM }),
		"runway at arrival, m":                     rolled(func(r Roll) float64 { return AtArrival(r.TotalM) }),
		"brake energy, MJ": one(func(code float64) float64 {
			l := bare(Code(code))
			l.Changes[0].At = 0
			return mustStop(t, l).BrakeJ / 1e6
		}),
	})
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

// A lesser anti-skid has its share of everything, and code 2 changes its law at
// the limit itself (AC 25-32, from memory).
func TestMu_OfALesserAntiSkidAndAtTheLimit(t *testing.T) {
	limit := 0.85 * 9 * math.Sqrt(200)
	for _, anti := range []AntiSkid{FullyModulating, QuasiModulating, OnOff} {
		tyres, part := Tyres{PSI: 200, AntiSkid: anti, DryMu: 0.40}, float64(anti)/0.8
		for code := 1.0; code <= 6; code++ {
			mu, err := tyres.Mu(Code(code), 60)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "with a lesser anti-skid", mu, coefficient(code, 60)*part, 1e-12)
		}
		at, _ := tyres.Mu(2, limit)
		below, _ := tyres.Mu(2, limit-1e-6)
		within(t, "at the limit", at, 0.05*part, 1e-12)
		within(t, "just below", below, 0.5*float64(anti)*WetMu(200, limit), 1e-6)
	}
	for _, code := range []Code{0, -1, 7} {
		if _, err := (Tyres{PSI: 200, AntiSkid: FullyModulating}).Mu(code, 50); err == nil {
			t.Errorf("code %d can be landed on", code)
		}
	}
}

func TestHydroplaning_SlushFloatsLater(t *testing.T) {
	within(t, "slush over water", Hydroplaning(150, 0.85)/Hydroplaning(150, 1), 1/math.Sqrt(0.85), 1e-12)
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

// brakesMJ is what the brakes take up that alone stop a mass from a ground speed.
func brakesMJ(kg, kt float64) float64 {
	l := bare(6)
	l.MassKg, l.FromKt, l.ThresholdKt = kg, kt, 0
	l.Changes[0].At = 0
	r, err := Stop(l)
	if err != nil {
		return math.NaN()
	}
	return r.BrakeJ / 1e6
}
