package energy_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/book"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/internal/corvane"
)

func aircraft(tb testing.TB) *energy.Aircraft {
	tb.Helper()
	build := corvane.Build(tb, "")
	a, err := energy.Decode(build.Aircraft)
	if err != nil {
		tb.Fatal(err)
	}
	return a
}

var usual = energy.Plan{ClimbKt: 280, ClimbMach: 0.74, DescentKt: 280, ApproachKt: 128}

func divert(tb testing.TB, a *energy.Aircraft, c energy.Config, s energy.State, plan energy.Plan, nm float64) *energy.Profile {
	tb.Helper()
	p, err := energy.Divert(context.Background(), a, c, s, plan, nm*1852)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// TestBestCruise_GearOutCostsTwoToThreeTimesTheFuel. Crews who had to cruise
// with the gear stuck out report two to three times the usual fuel for a mile
// (common practice, no source; a published crew report of a small jet gives
// + 80 % at one level and speed). It is more than the drag alone, because speed
// and level are limited too. The invented aircraft was drawn to fall in that
// band; this test holds it there.
func TestBestCruise_GearOutCostsTwoToThreeTimesTheFuel(t *testing.T) {
	a := aircraft(t)
	for _, kg := range []float64{27000, 32000, 36000} {
		clean, ok := energy.BestCruise(a, energy.Clean(), kg, flight.Air{})
		if !ok {
			t.Fatal("no cruise")
		}
		c := energy.Clean()
		c.GearOut, c.MostFt = true, 20000 // the limit with gear out, see the book's effects
		out, ok := energy.BestCruise(a, c, kg, flight.Air{})
		if times := out.KgPerNM / clean.KgPerNM; !ok || times < 2 || times > 3 {
			t.Errorf("%g kg: %.2f times the fuel for a mile, outside 2 to 3", kg, times)
		} else {
			t.Logf("%g kg: %.2f times", kg, times)
		}
	}
}

// TestDivert_EnergyCloses: what the thrust puts in less what the drag takes is
// the gain in height and speed, over whole flights, to 0.1 % of the work done.
func TestDivert_EnergyCloses(t *testing.T) {
	a := aircraft(t)
	for _, dev := range []float64{-15, 0, 20} {
		plan := usual
		plan.Air.DeviationC = dev
		s := energy.State{AltitudeFt: 3000, TASKt: 240, MassKg: 36000, FuelKg: 7000}
		p := divert(t, a, energy.Clean(), s, plan, 400)
		b := balance{}
		steps := p.Steps()
		for i := range steps[1:] {
			b.add(p, steps[i], steps[i+1])
		}
		end := p.Finish()
		gain := end.MassKg*b.potential(end) - s.MassKg*b.start(s)
		if off := (b.work + b.carried - gain) / b.thrust; math.Abs(off) > 1e-3 {
			t.Errorf("%+.0f C: the energy is off by %.3f %% of the work of the thrust", dev, 100*off)
		} else {
			t.Logf("%+.0f C: off by %.4f %%", dev, 100*off)
		}
	}
}

// balance integrates energies by Simpson's rule, apart from the flight's own method.
type balance struct {
	work, carried, thrust float64 // J
	z                     float64 // m climbed, geometric
}

const knot = 1852.0 / 3600

func (b *balance) start(s energy.State) float64 { return square(s.TASKt*knot) / 2 }

func (b *balance) potential(s energy.State) float64 {
	return flight.Gravity*b.z + square(s.TASKt*knot)/2
}

func square(x float64) float64 { return x * x }

func (b *balance) add(p *energy.Profile, from, to float64) {
	h := to - from
	const inside = 1e-9 // forces are asked for within the step
	rise := func(t float64) float64 { return p.At(t).TASKt * knot * p.Forces(t).SinePath }
	z0 := b.z
	mid := (from + to) / 2
	zm := z0 + h/2*(rise(from+h*inside)+4*rise((from+mid)/2)+rise(mid))/6
	z1 := z0 + h*(rise(from+h*inside)+4*rise(mid)+rise(to-h*inside))/6
	sum := func(of func(t, z float64) float64) float64 {
		return h / 6 * (of(from+h*inside, z0) + 4*of(mid, zm) + of(to-h*inside, z1))
	}
	b.work += sum(func(t, _ float64) float64 {
		f := p.Forces(t)
		return (f.ThrustN - f.DragN) * p.At(t).TASKt * knot
	})
	b.thrust += sum(func(t, _ float64) float64 { return p.Forces(t).ThrustN * p.At(t).TASKt * knot })
	b.carried -= sum(func(t, z float64) float64 {
		return p.Forces(t).FuelKgPerS * (flight.Gravity*z + square(p.At(t).TASKt*knot)/2)
	})
	b.z = z1
}

// TestDivert_MoreOfABurdenNeverCostsLess on random diversions of the
// demonstration aircraft, and the gear out never reaches farther.
func TestDivert_MoreOfABurdenNeverCostsLess(t *testing.T) {
	a := aircraft(t)
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 5))
		between := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
		s := energy.State{AltitudeFt: between(4000, 36000), MassKg: between(28000, 36000), FuelKg: 8000}
		s.TASKt = usual.Air.TASOfCAS(230, s.AltitudeFt)
		nm := between(30, 600)
		plain := divert(t, a, energy.Clean(), s, usual, nm)
		if plain.Finish().DistanceM > (nm+0.5)*1852 {
			continue // too near and too high: there drag helps
		}
		burdens := map[string]func(*energy.Config, *energy.State, *energy.Plan){
			"gear out":   func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.GearOut = true },
			"extra drag": func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.ExtraDrag = between(0.001, 0.03) },
			"ice":        func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.Iced = true },
			"low":        func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.MostFt = 10000 },
			"headwind": func(_ *energy.Config, _ *energy.State, p *energy.Plan) {
				kt := between(5, 80)
				p.Wind = func(float64) float64 { return kt }
			},
			"leak":         func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.LeakKgPerS = 0.2 },
			"heavier":      func(_ *energy.Config, s *energy.State, _ *energy.Plan) { s.MassKg += between(200, 2000) },
			"speed brakes": func(c *energy.Config, _ *energy.State, _ *energy.Plan) { c.SpeedBrakes = 1 },
		}
		for name, put := range burdens {
			c, s, plan := energy.Clean(), s, usual
			put(&c, &s, &plan)
			p := divert(t, a, c, s, plan, nm)
			least := 0.9999
			switch name {
			case "heavier": // glides as far at a higher speed, so that a descent may cost a little less
				least = 0.95
			case "low": // a short flight may be cheaper low
				least = 0.98
			}
			if p.End == energy.Arrived && plain.End == energy.Arrived && p.FuelKg() < plain.FuelKg()*least {
				t.Errorf("seed %d, %.0f nm from %.0f ft: %s costs %.1f kg, without %.1f", seed, nm, s.AltitudeFt, name, p.FuelKg(), plain.FuelKg())
			}
			if p.End == energy.Lost {
				t.Errorf("seed %d, %.0f nm: %s never ends", seed, nm, name)
			}
			if plain.End != energy.Arrived && p.End == energy.Arrived {
				t.Errorf("seed %d: %s arrives, without it the flight %v", seed, name, plain.End)
			}
		}
	}
}

// glides is the most that a clean aircraft without engines glides, in metres for
// each metre of height: at the greatest ratio of lift to drag, which a parabolic
// polar has where both parts of the drag are alike (1/(2 sqrt(cd0 k)), Anderson,
// "Aircraft Performance and Design", section 5.4), from its height and its speed.
func glides(a *energy.Aircraft, s energy.State) float64 {
	clean := a.Settings[0]
	speed, height := s.TASKt*1852/3600, s.AltitudeFt*0.3048
	return (1 + speed*speed/(2*9.80665*height)) / (2 * math.Sqrt((clean.ZeroLift+a.Engines*a.EngineOutDrag)*clean.Induced))
}

// TestDivert_EndsWithAnEvent: what an aircraft cannot do is no error.
func TestDivert_EndsWithAnEvent(t *testing.T) {
	a := aircraft(t)
	s := energy.State{AltitudeFt: 20000, TASKt: 330, MassKg: 33000, FuelKg: 600}
	if p := divert(t, a, energy.Clean(), s, usual, 500); p.End != energy.Dry || p.Finish().FuelKg > 1e-3 {
		t.Errorf("with 600 kg for 500 nm: %v with %.1f kg left", p.End, p.Finish().FuelKg)
	}
	none := energy.Clean()
	none.Engines = [2]float64{}
	if p := divert(t, a, none, s, usual, 300); p.End != energy.Sinks {
		t.Errorf("without engines over 300 nm: %v", p.End)
	} else if ratio, best := p.Finish().DistanceM/(20000*0.3048), glides(a, s); ratio < 0.8*best || ratio > best {
		t.Errorf("it glides %.1f m for each metre, outside the %.1f that the polar allows", ratio, best)
	}
	gale := usual
	gale.Wind = func(float64) float64 { return 600 }
	if p := divert(t, a, energy.Clean(), s, gale, 50); p.End != energy.TooFar && p.End != energy.Dry {
		t.Errorf("against 600 kt: %v", p.End)
	}
}

// TestDivert_RefusesNonsense with every number that is wrong named.
func TestDivert_RefusesNonsense(t *testing.T) {
	a := aircraft(t)
	good := energy.State{AltitudeFt: 20000, TASKt: 330, MassKg: 33000, FuelKg: 600}
	for name, wrong := range map[string]func(*energy.State, *energy.Plan, *float64){
		"mass": func(s *energy.State, _ *energy.Plan, _ *float64) { s.MassKg = -1 }, "fuel": func(s *energy.State, _ *energy.Plan, _ *float64) { s.FuelKg = -5 },
		"speed": func(s *energy.State, _ *energy.Plan, _ *float64) { s.TASKt = math.NaN() }, "distance": func(_ *energy.State, _ *energy.Plan, d *float64) { *d = -1 },
		"climb": func(_ *energy.State, p *energy.Plan, _ *float64) { p.ClimbKt = 0 },
	} {
		s, plan, d := good, usual, 1e5
		wrong(&s, &plan, &d)
		if _, err := energy.Divert(context.Background(), a, energy.Clean(), s, plan, d); err == nil {
			t.Errorf("a wrong %s was flown", name)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := energy.Divert(ctx, a, energy.Clean(), good, usual, 1e5); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled diversion gave %v", err)
	}
}

// TestDecode_NamesWhatIsMissing.
func TestDecode_NamesWhatIsMissing(t *testing.T) {
	_, err := energy.Decode(&book.Aircraft{Numbers: []book.Named{{Name: "wing_area_m2", Value: 100}, {Name: "gear_drag_ratio", Value: -3}}})
	var missing *energy.Missing
	if !errors.As(err, &missing) || len(missing.Names) != 3 {
		t.Fatalf("got %v", err)
	}
	for _, want := range []string{"takeoff_thrust_kn, specific_fuel_kg_per_kn_h and a setting with a drag polar", "gear_drag_ratio is -3"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	if _, err := energy.Decode(nil); err == nil {
		t.Error("nothing was decoded")
	}
}

// TestHold_BurnsWhatTheDragNeeds: for half an hour, as fuel flow times time at
// the mean mass says.
func TestHold_BurnsWhatTheDragNeeds(t *testing.T) {
	a := aircraft(t)
	s := energy.State{AltitudeFt: 1500, TASKt: 200, MassKg: 30000, FuelKg: 4000}
	p, err := energy.Hold(context.Background(), a, energy.Clean(), s, usual, 1800)
	if err != nil || p.End != energy.Arrived || math.Abs(p.Seconds()-1800) > 1e-6 {
		t.Fatalf("%v, %v after %g s", err, p.End, p.Seconds())
	}
	mean := 30000 - p.FuelKg()/2
	q, ok := energy.CruiseAt(a, energy.Clean(), mean, 1500, p.Finish().CASKt(usual.Air), usual.Air)
	if !ok || math.Abs(q.KgPerH/2/p.FuelKg()-1) > 1e-4 {
		t.Errorf("%.2f kg, at the mean mass %.2f", p.FuelKg(), q.KgPerH/2)
	}
	c := energy.Clean()
	c.Engines = [2]float64{}
	if p, _ := energy.Hold(context.Background(), a, c, s, usual, 1800); p.End != energy.Sinks {
		t.Errorf("without engines: %v", p.End)
	}
}

func BenchmarkDivert(b *testing.B) {
	a := aircraft(b)
	s := energy.State{AltitudeFt: 20000, TASKt: 330, MassKg: 33000, FuelKg: 7000}
	for b.Loop() {
		divert(b, a, energy.Clean(), s, usual, 300)
	}
}
