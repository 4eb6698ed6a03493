package performance

import (
	"math"
	"testing"

	"knockon/flight"
)

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

// 14 CFR 25: 121(a), (b) as of April 2026 (lexbuild.dev), 121(c) and 119 from
// an older copy (pilotfriend.com), 121(d) and 123(b) faraim.org.
func TestMinimum_OfTheRule(t *testing.T) {
	for _, row := range []struct {
		climb            Climb
		two, three, four float64
	}{
		{GearDown, 0, 0.3, 0.5}, {GearUp, 2.4, 2.7, 3.0}, {Final, 1.2, 1.5, 1.7},
		{Approach, 2.1, 2.4, 2.7}, {Landing, 3.2, 3.2, 3.2}, {EnRoute, 1.1, 1.4, 1.6},
	} {
		for i, want := range []float64{row.two, row.three, row.four} {
			got, ok := MinimumPct(row.climb, i+2)
			if !ok {
				t.Errorf("no minimum for %d engines", i+2)
			}
			within(t, "gradient", got, want, 0)
		}
	}
	for _, engines := range []int{-1, 0, 1, 5} {
		if _, ok := MinimumPct(GearUp, engines); ok {
			t.Errorf("a minimum for %d engines", engines)
		}
	}
	if _, ok := MinimumPct(Climb(9), 2); ok {
		t.Error("a minimum for no climb")
	}
}

// Computed: gradient times true airspeed, 140 kt, still air. Tolerance 0.5 ft/min.
func TestRate_OfAGradient(t *testing.T) {
	for pct, want := range map[float64]float64{2.1: 297.7, 2.4: 340.3, 3.2: 453.7, 1.2: 170.1} {
		within(t, "rate", RateFtPerMin(pct, 140), want, 0.5)
		within(t, "back", GradientPct(RateFtPerMin(pct, 140), 140), pct, 1e-12)
	}
	within(t, "one knot in ft/min", feetPerMinute, 101.2686, 1e-4) // Aviation Formulary v1.42
}

// Computed. Tolerance 0.01.
func TestPath_OfThreeDegrees(t *testing.T) {
	within(t, "ft per nm", PathFtPerNM(3), 318.44, 0.01)
	within(t, "percent", PathPct(3), 5.241, 0.01)
}

// CS 25.125(b)(2)(i) for the factor; values computed. Tolerance 0.01 kt.
func TestReference_Speed(t *testing.T) {
	within(t, "VREF", ReferenceKt(110), 135.30, 0.01)
	within(t, "at 60 t", AtMass(135.30, 65000, 60000), 129.99, 0.01)
	within(t, "1.3 over 1.23", 1.3/referenceFactor, 1.0569, 1e-4)
}

// Computed from V^2/(g tan b). Tolerance 0.1 percent.
func TestTurn_Level(t *testing.T) {
	for _, row := range []struct{ kt, bank, radius, rate float64 }{
		{250, 25, 3617.1, 2.0372}, {210, 30, 2061.4, 3.0028},
	} {
		turn := LevelTurn(row.kt, row.bank)
		within(t, "radius", turn.RadiusM/row.radius, 1, 1e-3)
		within(t, "rate", turn.DegPerS/row.rate, 1, 1e-3)
	}
	within(t, "radius at 180 kt", LevelTurn(180, 25).RadiusM/1875.1, 1, 1e-3)
	within(t, "radius in nm", LevelTurn(250, 25).RadiusM/1852, 1.9531, 2e-3)
	within(t, "load at 25 degrees", LevelTurn(250, 25).LoadFactor, 1.1034, 1e-4)
	within(t, "load at 30 degrees", LevelTurn(250, 30).LoadFactor, 1.1547, 1e-4)
}

// Bank of a standard-rate turn, 3 degrees in a second. 100 kt: published as
// 15.4 (Aviation Formulary v1.42); the others computed.
func TestTurn_StandardRate(t *testing.T) {
	within(t, "published", BankDeg(100, 3), 15.4, 0.05)
	for kt, want := range map[float64]float64{100: 15.36, 150: 22.39, 200: 28.78} {
		within(t, "bank", BankDeg(kt, 3), want, 0.01)
		within(t, "rate of that bank", LevelTurn(kt, BankDeg(kt, 3)).DegPerS, 3, 1e-12)
	}
}

// Published example: 100 kt at 45 degrees, 891 ft (Aviation Formulary v1.42).
// It uses a rounded constant; exact is 885.4 ft. Tolerance 1 percent.
func TestTurn_PublishedExample(t *testing.T) {
	feet := LevelTurn(100, 45).RadiusM / 0.3048
	within(t, "radius over the published", feet/891, 1, 0.01)
	within(t, "radius", feet, 885.4, 0.1)
}

var worked = Cruise{TASKt: 449.607, PerHour: 0.60, LiftToDrag: 17, StartMassKg: 75000}

// Breguet's formula (university lecture notes, scribd.com 159544087) with round
// numbers of no aircraft; values computed. Tolerance 0.1.
func TestRange_Breguet(t *testing.T) {
	within(t, "range, nm", worked.RangeNM(65000), 1822.9, 0.1)
	within(t, "fuel for 1,000 nm", worked.FuelKg(1000), 5662.3, 0.1)
	for nm := 1.0; nm < 8000; nm *= 1.7 {
		within(t, "there and back", worked.RangeNM(worked.StartMassKg-worked.FuelKg(nm)), nm, 1e-6)
	}
}

// A plain stepwise sum of the fuel comes to the same, the nearer the finer.
func TestRange_AgreesWithSteps(t *testing.T) {
	c := worked
	c.HeadwindKt = 40
	stepwise := func(steps int) float64 {
		mass := c.StartMassKg
		hours := 1000 / (c.TASKt - c.HeadwindKt) / float64(steps)
		for range steps {
			mass -= mass / c.LiftToDrag * c.PerHour * hours
		}
		return c.StartMassKg - mass
	}
	coarse, fine := stepwise(100)-c.FuelKg(1000), stepwise(200)-c.FuelKg(1000)
	within(t, "error halves with the step", coarse/fine, 2, 0.01)
	within(t, "a million steps", stepwise(1_000_000), c.FuelKg(1000), 0.001)
}

func TestRange_AgainstTheWind(t *testing.T) {
	c := worked
	c.HeadwindKt = 500
	within(t, "all of it", c.FuelKg(100), c.StartMassKg, 0)
	within(t, "nothing for nowhere", c.FuelKg(0), 0, 0)
	if c.RangeNM(70000) >= 0 {
		t.Error("goes forward against a stronger wind")
	}
	c.HeadwindKt = 0
	still := c.FuelKg(500)
	c.HeadwindKt = 50
	if c.FuelKg(500) <= still {
		t.Error("a headwind costs nothing")
	}
}

// Mair and Birdsall, equation 6.1: worked for 75,000 kg and 125 m2. The flaps-up
// factor is from memory. Tolerance 1e-5.
func TestGearDrag_Worked(t *testing.T) {
	within(t, "full flap", GearDragFullFlap(75000, 125), 0.01664, 1e-5)
	within(t, "flaps up", GearDragFlapsUp(75000, 125), 0.03060, 1e-5)
}

// The band for the drag of a cruise with the gear out, computed with an
// invented polar: 1.83 times clean by the flaps-up factor, 1.45 by the other.
func TestGearDrag_InCruise(t *testing.T) {
	const cd0, k, area, mass = 0.020, 0.045, 125.0, 65000.0
	air := flight.Air{}
	rho, tas := air.DensityKgPerM3(20000), air.TASOfCAS(230, 20000)/flight.KnotsPerMS
	q := rho / 2 * tas * tas
	cl := mass * 9.80665 / (q * area)
	clean := cd0 + k*cl*cl
	within(t, "flaps up", (clean+GearDragFlapsUp(75000, area))/clean, 1.83, 0.02)
	within(t, "full flap", (clean+GearDragFullFlap(75000, area))/clean, 1.45, 0.02)
}
