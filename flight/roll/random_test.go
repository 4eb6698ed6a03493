package roll

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/flight"
)

func contains(s, part string) bool { return strings.Contains(s, part) }

// randomLanding is a landing of an airliner of any size with any of its
// devices late, weak or missing.
func randomLanding(r *rand.Rand) Landing {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	mass := math.Exp(in(math.Log(15e3), math.Log(250e3)))
	cas := in(110, 160)
	v := cas / knotsPerMS
	area := mass * flight.Gravity / (0.5 * 1.225 * v * v) / in(1.3, 1.9)
	l := Landing{
		MassKg: mass, ThresholdKt: cas,
		Airframe: Airframe{
			WingAreaM2: area, Lift: in(0.1, 0.9), Drag: in(0.05, 0.12), SpoilerDrag: in(0.02, 0.08),
			BrakedShare: in(0.85, 0.95), RollingMu: in(0.01, 0.02),
			Idle: Thrust{mass * 0.15, mass * 0.1}, Reverse: Thrust{mass * in(0, 0.6), mass * in(0.3, 1.2)}, ReverseOutKt: in(30, 75),
			Tyres:  Tyres{PSI: in(100, 230), AntiSkid: []AntiSkid{OnOff, QuasiModulating, FullyModulating}[r.IntN(3)], DryMu: in(0.35, 0.5)},
			Wheels: Wheels{WidthM: in(0.2, 0.5), DeflectionM: in(0.02, 0.05), Alike: in(2, 10)},
		},
		Runway: Runway{
			AltitudeFt: in(-500, 8000), Air: flight.Air{DeviationC: in(-20, 30)}, SlopePct: in(-1.5, 1.5), HeadwindKt: in(-15, 30), Code: Code(1 + r.IntN(6)),
		},
	}
	l.Airframe.SpoilerLift = -l.Airframe.Lift * in(0.5, 1.1)
	if r.IntN(2) == 0 {
		l.Airframe.MostBrakeN = mass * in(2, 5)
	}
	if l.Runway.Code == 2 {
		l.Runway.Fluid = Fluid{DepthMM: in(3, 15), Gravity: in(0.8, 1)}
	}
	for d := Spoilers; d <= Reverse; d++ {
		if d == Brakes || r.IntN(4) > 0 { // some brakes there are
			l.Changes = append(l.Changes, Change{d, in(0, 4), in(0, 3), in(0.4, 1)})
		}
	}
	if r.IntN(3) == 0 {
		l.Changes = append(l.Changes, Change{Autobrake, 0, 0, in(1, 3.5)}, Change{Autobrake, in(6, 15), 0, 0})
	}
	return l
}

// slow is the same landing by brute force: all forces written out again, in
// steps of a millisecond that take no heed of events.
func slow(l Landing) (total float64, stops bool) {
	air, kt := AirDistance(l.groundKt())
	s := slowState{l: l, reversing: true, rho: l.Runway.Air.DensityKgPerM3(l.Runway.AltitudeFt), wet: wetCubic(l.Airframe.Tyres.PSI)}
	s.sin, s.cos = math.Sincos(math.Atan(l.Runway.SlopePct / 100))
	for _, c := range l.Changes {
		s.changes[c.Device] = append(s.changes[c.Device], c)
	}
	x, v, t := 0.0, kt/knotsPerMS, 0.0
	const h = 0.001
	for ; v > 0 && t < 600 && x < 20000; t += h {
		s.reversing = s.reversing && v*knotsPerMS > l.Airframe.ReverseOutKt
		a := s.acceleration(t, v)
		b := s.acceleration(t+h/2, v+h/2*a)
		c := s.acceleration(t+h/2, v+h/2*b)
		d := s.acceleration(t+h, v+h*c)
		x += h*v + h*h/6*(a+b+c)
		v += h / 6 * (a + 2*b + 2*c + d)
	}
	return air + x, v <= 0
}

type slowState struct {
	l             Landing
	reversing     bool
	rho, sin, cos float64
	wet           cubic
	changes       [devices][]Change
}

// mu is the coefficient by the codes' table (AC 25-32, from memory), written
// out once more.
func (s *slowState) mu(kt float64) float64 {
	y := s.l.Airframe.Tyres
	part := float64(y.AntiSkid) / 0.8
	switch s.l.Runway.Code {
	case 6:
		return 0.9 * y.DryMu * part
	case 5:
		return s.wet.at(kt) * float64(y.AntiSkid)
	case 4:
		return 0.20 * part
	case 3:
		return 0.16 * part
	case 2:
		if kt >= 0.85*9*math.Sqrt(y.PSI) {
			return 0.05 * part
		}
		return min(0.16*part, 0.5*s.wet.at(kt)*float64(y.AntiSkid))
	}
	return 0.08 * part
}

// level of a device at a time; each has at most one change in a random
// landing, the autobrake two without a ramp.
func (s *slowState) level(d Device, t float64) float64 {
	v := 0.0
	for _, c := range s.changes[d] {
		if t >= c.At {
			v = c.To
			if t < c.At+c.Over {
				v = c.To * (t - c.At) / c.Over
			}
		}
	}
	return v
}

func (s *slowState) acceleration(t, v float64) float64 {
	a, r, m := &s.l.Airframe, &s.l.Runway, s.l.MassKg
	kt := v * 3600 / 1852
	air := v + r.HeadwindKt*1852/3600
	rho := s.rho
	spoilers, brakes := s.level(Spoilers, t), s.level(Brakes, t)
	lift := 0.5 * rho * air * air * a.WingAreaM2 * (a.Lift + spoilers*a.SpoilerLift)
	drag := 0.5 * rho * air * math.Abs(air) * a.WingAreaM2 * (a.Drag + spoilers*a.SpoilerDrag)
	load := max(0, m*9.80665*s.cos-lift)
	reverse := 0.0
	if s.reversing {
		reverse = s.level(Reverse, t)
	}
	airKt := air * 3600 / 1852
	thrust := (1-reverse)*a.Idle.at(airKt) - reverse*a.Reverse.at(airKt)
	other := drag + m*9.80665*s.sin - thrust + a.RollingMu*load
	if f := r.Fluid; f.DepthMM > 3 && kt < 9*math.Sqrt(a.Tyres.PSI/f.Gravity) {
		e := min(0.5, (a.Wheels.DeflectionM+f.DepthMM/1000)/a.Wheels.WidthM)
		other += 0.5 * 1000 * f.Gravity * 0.75 * v * v * f.DepthMM / 1000 * 2 * a.Wheels.WidthM * math.Sqrt(e-e*e) * a.Wheels.Alike
	}
	brake := max(0, s.mu(kt)-a.RollingMu) * a.BrakedShare * load * brakes
	if a.MostBrakeN > 0 {
		brake = min(brake, a.MostBrakeN*brakes)
	}
	if aim := s.level(Autobrake, t); aim > 0 {
		brake = min(brake, max(0, m*aim-other))
	}
	return -(brake + other) / m
}

// The integrator agrees with brute force at 1 ms. The brute force is itself off
// by up to a step's distance where a force jumps.
func TestStop_AgreesWithBruteForce(t *testing.T) {
	landings := 1000
	if testing.Short() {
		landings = 100
	}
	random := rand.New(rand.NewPCG(7, 8))
	worst, stopping := 0.0, 0
	for range landings {
		l := randomLanding(random)
		fast := mustStop(t, l)
		total, stops := slow(l)
		if fast.Stops != stops {
			t.Fatalf("stops %v, by brute force %v: %+v", fast.Stops, stops, l)
		}
		if stops {
			stopping++
			off := math.Abs(fast.TotalM - total)
			worst = max(worst, off)
			if off > 0.1 {
				t.Errorf("%.3f m, by brute force %.3f m: %+v", fast.TotalM, total, l)
			}
		}
	}
	t.Logf("worst difference %.4f m over %d landings that stop", worst, stopping)
}

// A tenth of the step must give the same roll.
func TestStop_DoesNotDependOnTheStep(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	worst := 0.0
	for range 300 {
		l := randomLanding(random)
		coarse := mustStop(t, l)
		fine, _ := stop(l, longestStep/10)
		if coarse.Stops && fine.Stops {
			worst = max(worst, math.Abs(coarse.TotalM-fine.TotalM))
		}
	}
	t.Logf("worst difference %.6f m", worst)
	if worst > 1e-4 {
		t.Errorf("off by up to %g m", worst)
	}
}

// compare fails if changed is shorter than base.
func compare(t *testing.T, what string, base Landing, change func(*Landing)) {
	t.Helper()
	changed := base
	changed.Changes = append([]Change(nil), base.Changes...)
	change(&changed)
	a, _, err := Careful(base)
	b, _, err2 := Careful(changed)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	if a.Stops && b.Stops && b.TotalM < a.TotalM-1e-6 || !a.Stops && b.Stops {
		t.Errorf("%s: shorter, %g instead of %g m: %+v", what, b.TotalM, a.TotalM, base)
	}
}

func TestCareful_IsNeverShorterWhenThingsAreWorse(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for range 400 {
		l := randomLanding(random)
		if l.Runway.Code > 1 {
			compare(t, "a lower code", l, func(l *Landing) { l.Runway.Code-- })
		}
		compare(t, "more tailwind", l, func(l *Landing) { l.Runway.HeadwindKt -= 5 })
		if r := mustStop(t, l); r.TotalM < 5000 {
			// In a longer roll what counts is the idle thrust, which does not
			// grow with the mass.
			compare(t, "more mass, with the speed that goes with it", l, func(l *Landing) {
				l.MassKg *= 1.05
				l.ThresholdKt *= math.Sqrt(1.05)
			})
		}
		compare(t, "a lesser anti-skid", l, func(l *Landing) { l.Airframe.Tyres.AntiSkid *= 0.6 })
		compare(t, "higher", l, func(l *Landing) { l.Runway.AltitudeFt += 1000 })
		compare(t, "warmer", l, func(l *Landing) { l.Runway.Air.DeviationC += 10 })
		compare(t, "down a steeper slope", l, func(l *Landing) { l.Runway.SlopePct -= 0.5 })
		for i := range l.Changes {
			if l.Changes[i].Device != Autobrake {
				compare(t, "without "+l.Changes[i].Device.String(), l, func(l *Landing) { l.Changes[i].To = 0 })
				compare(t, "later "+l.Changes[i].Device.String(), l, func(l *Landing) { l.Changes[i].At++ })
			}
		}
	}
}

// WheelsTurn stops where nobody asks further; the whole roll says the same.
func TestWheelsTurn_IsTheEventOfTheWholeRoll(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 7))
	turned := 0
	for range 2000 {
		l := randomLanding(r)
		l.Runway.Code = 2
		if r.IntN(4) > 0 {
			l.Runway.Fluid = Fluid{DepthMM: 3 + 12*r.Float64(), Gravity: 0.8 + 0.2*r.Float64()}
		}
		if r.IntN(40) == 0 {
			l.MassKg = -1
		}
		want := 0.0
		if whole, err := Stop(l); err == nil {
			want = when(whole.Events, "wheels turn")
		}
		if got := WheelsTurn(l); got != want {
			t.Fatalf("the wheels turn at %v s, in the whole roll at %v s: %+v", got, want, l)
		}
		if want > 0 {
			turned++
		}
	}
	if turned < 500 {
		t.Errorf("the wheels turned late in %d of 2,000 rolls", turned)
	}
}

func when(events []Event, what string) float64 {
	for _, e := range events {
		if e.What == what {
			return e.Seconds
		}
	}
	return 0
}
