package performance

import (
	"math"
	"strings"
	"testing"

	"knockon/flight"
	"knockon/internal/checks"
)

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

var round = Polar{WingAreaM2: 125, ZeroLift: 0.020, Induced: 0.045}

var climbs = map[string]Climb{
	"take-off, gear down": GearDown, "take-off, gear up": GearUp, "final take-off": Final,
	"approach": Approach, "landing": Landing, "en route": EnRoute,
}

var engines = map[string]int{"two engines": 2, "three engines": 3, "four engines": 4}

func leastGradient(v checks.Value) any {
	cut := strings.LastIndex(v.Given, ", ")
	climb, known := climbs[v.Given[:cut]]
	pct, ok := MinimumPct(climb, engines[v.Given[cut+2:]])
	if !known || !ok {
		return nil
	}
	return pct
}

// The values and their sources stand in internal/checks/tables/performance.tsv.
func TestFigures_AgreeWithTheTables(t *testing.T) {
	one := func(of func(float64) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return of(n[0]) })
	}
	two := func(of func(x, y float64) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return of(n[0], n[1]) })
	}
	turn := func(of func(Turn) float64) checks.How {
		return two(func(kt, bank float64) float64 { return of(LevelTurn(kt, bank)) })
	}
	perMile := func(ft float64) float64 { return GradientPct(ft, 60) } // at 60 kt a mile takes a minute
	checks.Run(t, "performance", map[string]checks.How{
		"least gradient, %":                       leastGradient,
		"one knot, ft/min":                        func(checks.Value) any { return feetPerMinute },
		"gradient, %, of ft in a nautical mile":   one(perMile),
		"climb, ft/min, of ft in a nautical mile": two(func(ft, kt float64) float64 { return RateFtPerMin(perMile(ft), kt) }),
		"climb, ft/min, of a gradient":            two(RateFtPerMin),
		"path, ft in a nautical mile":             one(PathFtPerNM),
		"path, %":                                 one(PathPct),
		"VREF, kt":                                checks.Of(func(n []float64) float64 { return ReferenceKt(n[1]) }), // the first is the 0 of VSR0
		"VREF, kt, at another mass":               checks.Of(func(n []float64) float64 { return AtMass(n[0], n[1], n[2]) }),
		"1.3 over the factor of VREF":             one(func(x float64) float64 { return x / referenceFactor }),
		"bank of a turn of 3 degrees a second":    one(func(kt float64) float64 { return BankDeg(kt, 3) }),
		"radius of a turn, m":                     turn(func(t Turn) float64 { return t.RadiusM }),
		"radius of a turn, ft":                    turn(func(t Turn) float64 { return t.RadiusM * flight.FeetPerMetre }),
		"turn, degrees a second":                  turn(func(t Turn) float64 { return t.DegPerS }),
		"load factor":                             turn(func(t Turn) float64 { return t.LoadFactor }),
		"range, nm":                               one(worked.RangeNM),
		"fuel, kg":                                one(worked.FuelKg),
		"greatest lift to drag":                   func(checks.Value) any { return round.LiftToDrag() },
		"speed of the least drag, kt EAS":         one(round.LeastDragKt),
		"lift to drag off that speed":             one(round.OffSpeed),
		"height lost in a gliding half turn, ft":  two(round.TurnLossFt),
		"energy height, ft":                       two(func(ft, mach float64) float64 { return EnergyHeightFt(ft, mach*flight.Air{}.SoundKt(ft)) }),
		"drag coefficient of the gear, full flap": checks.Of(func(n []float64) float64 { return GearDragFullFlap(n[0], n[1]) }),
		"drag coefficient of the gear, flaps up":  checks.Of(func(n []float64) float64 { return GearDragFlapsUp(n[0], n[1]) }),
	})
}

func TestMinimum_OfNoSuchAircraft(t *testing.T) {
	for _, engines := range []int{-1, 0, 1, 5} {
		if _, ok := MinimumPct(GearUp, engines); ok {
			t.Errorf("a minimum for %d engines", engines)
		}
	}
	if _, ok := MinimumPct(Climb(9), 2); ok {
		t.Error("a minimum for no climb")
	}
}

func TestRate_ThereAndBack(t *testing.T) {
	for _, x := range []float64{1.2, 2.1, 3.2, 100, 200} {
		within(t, "gradient of the rate", GradientPct(RateFtPerMin(x, 140), 140), x, 1e-12)
		within(t, "rate of that bank", LevelTurn(x, BankDeg(x, 3)).DegPerS, 3, 1e-12)
	}
}

var worked = Cruise{TASKt: 449.607, PerHour: 0.60, LiftToDrag: 17, StartMassKg: 75000}

func TestRange_ThereAndBack(t *testing.T) {
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
