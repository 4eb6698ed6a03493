package energy

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"knockon/flight"
	"knockon/internal/performance"
)

// twin is an invented jet with two engines.
func twin() *Aircraft {
	return &Aircraft{
		WingAreaM2: 100, Engines: 2, ThrustN: 90e3, DensityExponent: 0.8, MachLoss: 0.3, Climb: 0.9, Cruise: 0.85, Idle: 0.05, HighIdle: 0.09,
		FuelKgPerNS: 45.0 / 1000 / hour, FuelMachGain: 0.9, IdleFuelKgPerS: 200.0 / hour,
		GearDrag: 0.03, SpeedBrakeDrag: 0.03, EngineOutDrag: 0.006, IceDrag: 0.01, MaxKt: 330, MaxMach: 0.82, MaxGearKt: 250, MaxAltitudeFt: 39000,
		Settings: []Polar{{"up", 0.02, 0.04, 1.5, 0.1, 1e6}, {"mid", 0.035, 0.042, 2.1, 0.3, 220}, {"land", 0.075, 0.045, 2.7, 0.5, 170}},
	}
}

func twinPlan() Plan {
	return Plan{ClimbKt: 290, ClimbMach: 0.76, DescentKt: 290, ApproachKt: 135}
}

// levelFlight flies level at a held airspeed until the mass has fallen to some.
func levelFlight(a *Aircraft, s State, endKg, h float64) *Profile {
	c := Clean()
	p := newProfile(s)
	f := &flyer{a: a, c: &c, air: flight.Air{}, wind: still, law: law{pathGiven: true, needed: true, hold: holdCAS}}
	p.End = p.fly(f, h, []end{{Arrived, func(y *vector, _ float64) float64 { return y[iMass] - endKg }}})
	return p
}

// plain makes the fuel consumption hang on nothing but the temperature.
func plain() *Aircraft {
	a := twin()
	a.FuelMachGain, a.IdleFuelKgPerS = 0, 0
	return a
}

// TestLevelFlight_MeetsTheRangeEquation. Around the speed of the greatest ratio
// of lift to drag that ratio hardly changes with mass, and a level flight there
// must meet the range equation (Breguet; physics: V/c L/D ln(m0/m1)) to 0.1 %.
func TestLevelFlight_MeetsTheRangeEquation(t *testing.T) {
	a, air := plain(), flight.Air{}
	c := Clean()
	const ft, kg = 37000.0, 60000.0
	at := airAt(air, ft*feet)
	lift := math.Sqrt(0.02 / 0.04)
	v := math.Sqrt(2 * kg * g0 / (at.density * a.WingAreaM2 * lift))
	p := levelFlight(a, State{AltitudeFt: ft, TASKt: v / knot, MassKg: kg * 1.025, FuelKg: 20000}, kg*0.975, 60)
	closed := performance.Cruise{
		TASKt: v / knot, LiftToDrag: kg * g0 / a.drag(&c, at, v, kg), StartMassKg: kg * 1.025,
		PerHour: a.FuelKgPerNS * math.Sqrt(at.kelvin/seaK) * g0 * hour,
	}.RangeNM(kg * 0.975)
	got := p.Finish().DistanceM / 1852
	if off := got/closed - 1; math.Abs(off) > 1e-3 {
		t.Errorf("%.3f nm, the range equation gives %.3f: off by %.4f %%", got, closed, 100*off)
	} else {
		t.Logf("off by %.4f %%", 100*off)
	}
}

// TestLevelFlight_MeetsTheArcTangent: with the drag as A + B m2 the equation of
// level flight at constant speed has a solution in closed form over any range
// of masses.
func TestLevelFlight_MeetsTheArcTangent(t *testing.T) {
	a := plain()
	s := State{AltitudeFt: 37000, TASKt: 440, MassKg: 75000, FuelKg: 40000}
	at := airAt(flight.Air{}, s.AltitudeFt*feet)
	v := s.TASKt * knot
	qs := at.density / 2 * v * v * a.WingAreaM2
	A, B := qs*0.02, 0.04*g0*g0/qs
	perN := a.FuelKgPerNS * math.Sqrt(at.kelvin/seaK)
	root := math.Sqrt(B / A)
	seconds := (math.Atan(75000*root) - math.Atan(45000*root)) / (perN * math.Sqrt(A*B))
	p := levelFlight(a, s, 45000, 60)
	if off := p.Seconds()/seconds - 1; math.Abs(off) > 1e-6 {
		t.Errorf("%.3f s, not %.3f: off by %.2g", p.Seconds(), seconds, off)
	}
}

// TestFly_IsOfTheFourthOrder: half the step, a sixteenth of the error.
func TestFly_IsOfTheFourthOrder(t *testing.T) {
	climb := func(h float64) *vector {
		a, c := twin(), Clean()
		p := newProfile(State{AltitudeFt: 2000, TASKt: 270, MassKg: 65000, FuelKg: 15000})
		f := &flyer{a: a, c: &c, air: flight.Air{}, wind: still, law: law{hold: holdCAS, lever: 0.9}}
		p.fly(f, h, []end{{Arrived, func(_ *vector, t float64) float64 { return 640 - t }}})
		return &p.now
	}
	exact := climb(0.25)
	for i, what := range map[int]string{iAltitude: "altitude", iSpeed: "speed", iMass: "mass"} {
		var before float64
		for _, h := range []float64{160, 80, 40} {
			off := math.Abs(climb(h)[i] - exact[i])
			if before > 0 && (before/off < 11 || before/off > 24) {
				t.Errorf("%s: a step of %g s is %.1f times as exact as twice that", what, h, before/off)
			}
			before = off
		}
	}
}

// TestFly_HoldsTheSpeed: the factor for a held airspeed or Mach number comes
// from its definition, so a climb and a descent keep it.
func TestFly_HoldsTheSpeed(t *testing.T) {
	for _, dev := range []float64{-20, 0, 25} {
		for _, lever := range []float64{0.05, 0.9} {
			a, c, air := twin(), Clean(), flight.Air{DeviationC: dev}
			p := newProfile(State{AltitudeFt: 33000, TASKt: air.TASOfCAS(260, 33000), MassKg: 50000, FuelKg: 9000})
			f := &flyer{a: a, c: &c, air: air, wind: still, law: law{hold: holdCAS, lever: lever}}
			p.fly(f, 10, []end{{Arrived, func(y *vector, t float64) float64 { return min(600-t, flight.TropopauseFt*feet-50-y[iAltitude]) }}})
			if kt := p.Finish().CASKt(air); math.Abs(kt-260) > 2e-3 {
				t.Errorf("%+.0f C, lever %g: 260 kt has become %.5f", dev, lever, kt)
			}
		}
	}
}

// TestFly_EventsAreExact: the altitude at which a stretch ends is met, whatever
// the step.
func TestFly_EventsAreExact(t *testing.T) {
	a, c := twin(), Clean()
	for _, h := range []float64{1, 7, 60} {
		p := newProfile(State{AltitudeFt: 2000, TASKt: 270, MassKg: 65000, FuelKg: 15000})
		f := &flyer{a: a, c: &c, air: flight.Air{}, wind: still, law: law{hold: holdCAS, lever: 0.9}}
		e := p.fly(f, h, []end{{levelled, func(y *vector, _ float64) float64 { return 3000 - y[iAltitude] }}})
		if e != levelled || math.Abs(p.now[iAltitude]-3000) > 1e-4 {
			t.Errorf("step %g s: %v at %.6f m", h, e, p.now[iAltitude])
		}
	}
}

// TestDivert_TheStepHardlyMatters compares 100 random diversions with the same
// in steps of a twentieth.
func TestDivert_TheStepHardlyMatters(t *testing.T) {
	worst := 0.0
	for seed := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, 11))
		a, c, s, plan, d := randomDiversion(rng)
		usual, err := divert(context.Background(), a, c, s, plan, d, 1)
		if err != nil {
			t.Fatal(err)
		}
		fine, err := divert(context.Background(), a, c, s, plan, d, 1.0/20)
		if err != nil {
			t.Fatal(err)
		}
		if usual.End != fine.End || usual.End == Lost {
			t.Errorf("seed %d: %v, with fine steps %v", seed, usual.End, fine.End)
			continue
		}
		off := math.Abs(usual.FuelKg()/fine.FuelKg() - 1)
		if fine.FuelKg() > 20 && off > 1e-3 {
			t.Errorf("seed %d: %.2f kg, with fine steps %.2f", seed, usual.FuelKg(), fine.FuelKg())
		}
		if fine.FuelKg() > 20 {
			worst = max(worst, off)
		}
	}
	t.Logf("worst of 100: %.4f %%", 100*worst)
}

// TestDivert_ASlowIntegratorAgrees flies 100 random diversions down to the gate
// again with thrust and path as the profile has them, and everything else its
// own: the equations of motion written out once more from the drag polar and
// the fuel consumption, by the midpoint rule in steps of a tenth of a second.
func TestDivert_ASlowIntegratorAgrees(t *testing.T) {
	for seed := range uint64(100) {
		a, c, s, plan, d := randomDiversion(rand.New(rand.NewPCG(seed, 11)))
		p, err := divert(context.Background(), a, c, s, plan, d, 1)
		if err != nil {
			t.Fatal(err)
		}
		until := s.TimeS
		for until < p.t-1 && (until < p.t/2 || p.At(until).AltitudeFt > plan.ElevationFt+gateFt+50) {
			until += 5
		}
		got := bruteForce(a, &c, s, plan, p, until)
		want := p.At(until)
		tells := func(what string, x, y, tol float64) {
			if math.Abs(x-y) > tol {
				t.Errorf("seed %d after %.0f s: %s %.3f, the slow integrator %.3f", seed, until, what, y, x)
			}
		}
		tells("altitude (ft)", got.AltitudeFt, want.AltitudeFt, 150)
		tells("speed (kt)", got.TASKt, want.TASKt, 1.5)
		tells("mass (kg)", got.MassKg, want.MassKg, 1+0.001*p.FuelKg())
		tells("distance (nm)", got.DistanceM/1852, want.DistanceM/1852, 0.05+0.0015*want.DistanceM/1852)
	}
}

func bruteForce(a *Aircraft, c *Config, s State, plan Plan, p *Profile, until float64) State {
	zero := a.Settings[0].ZeroLift
	if c.GearOut {
		zero += a.GearDrag
	}
	engines := 2.0
	for _, share := range c.Engines {
		if share == 0 {
			zero, engines = zero+a.EngineOutDrag, engines-1
		}
	}
	rates := func(h, v, m, thrust, sine float64) (dh, dv, dm, dx float64) {
		ft := h / 0.3048
		kelvin, rho := plan.Air.TemperatureK(ft), plan.Air.DensityKgPerM3(ft)
		qs := 0.5 * rho * v * v * a.WingAreaM2
		drag := qs*zero + a.Settings[0].Induced*math.Pow(m*9.80665, 2)/qs
		mach := v / math.Sqrt(1.4*287.05287*kelvin)
		flow := a.FuelKgPerNS * (1 + a.FuelMachGain*mach) * math.Sqrt(kelvin/288.15) * thrust
		flow = max(flow, engines*a.IdleFuelKgPerS*flight.PressureRatio(ft))
		return v * sine * (kelvin - plan.Air.DeviationC) / kelvin, (thrust-drag)/m - 9.80665*sine, -flow, v - plan.Wind(ft)*1852/3600
	}
	h, v, m, x := s.AltitudeFt*0.3048, s.TASKt*1852/3600, s.MassKg, s.DistanceM
	const dt = 0.1
	for t := s.TimeS; t < until-1e-9; t += dt {
		q := p.Forces(t + dt/2)
		dh, dv, dm, _ := rates(h, v, m, q.ThrustN, q.SinePath)
		dh, dv, dm, dx := rates(h+dh*dt/2, v+dv*dt/2, m+dm*dt/2, q.ThrustN, q.SinePath)
		h, v, m, x = h+dh*dt, v+dv*dt, m+dm*dt, x+dx*dt
	}
	return State{DistanceM: x, AltitudeFt: h / 0.3048, TASKt: v * 3600 / 1852, MassKg: m}
}

// randomDiversion is a diversion of a random aircraft in random shape.
func randomDiversion(r *rand.Rand) (*Aircraft, Config, State, Plan, float64) {
	between := func(a, b float64) float64 { return a + r.Float64()*(b-a) }
	a, c, plan := twin(), Clean(), twinPlan()
	a.GearDrag = between(0.01, 0.05)
	a.Settings[0].ZeroLift, a.ThrustN = between(0.016, 0.026), between(80e3, 120e3)
	plan.Air.DeviationC, plan.ElevationFt = between(-20, 20), between(0, 5000)
	head := between(-60, 60)
	plan.Wind = func(ft float64) float64 { return head * ft / 30000 }
	c.GearOut, c.HighIdle = r.IntN(4) == 0, r.IntN(4) == 0
	if r.IntN(4) == 0 {
		c.Engines[r.IntN(2)] = 0
	}
	if r.IntN(4) == 0 {
		c.MostFt = between(9000, 25000)
	}
	ft := between(3000, 37000) + plan.ElevationFt/10
	s := State{AltitudeFt: max(ft, plan.ElevationFt+2000), MassKg: between(45000, 65000)}
	s.FuelKg = between(3000, 12000)
	s.TASKt = plan.Air.TASOfCAS(between(210, 240), s.AltitudeFt)
	return a, c, s, plan, between(10, 900) * 1852
}

// An event nearer than a microsecond once gave a stretch without length: the
// flight stood still before it and was given up, with no number for its end.
func TestWhole_IsNeverNothing(t *testing.T) {
	for _, at := range []float64{0, 2548.238243, 4303.098577} {
		p := &Profile{t: at, exact: true}
		for _, length := range []float64{0, 1e-10, 4e-7, 1e-6} {
			if got := p.whole(length); math.Abs(got-1e-6) > 1e-12 {
				t.Errorf("%g s after %g s: a stretch of %g s", length, at, got)
			}
		}
	}
}
