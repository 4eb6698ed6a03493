package energy

import (
	"math"
	"os"
	"strings"
	"testing"

	"knockon/book"
	"knockon/flight/roll"
)

// landed diverts a crewed flight in the cruise and configures it for landing.
func landed(tb testing.TB, p *Path, at book.Time, d Diversion, ground func(*Config)) *Path {
	tb.Helper()
	c := Clean()
	p = p.Divert(at, d, c)
	near := func(nm float64) book.Time {
		for t := at; t < p.End(); t += book.Second / 4 {
			if p.of("to_go_nm", t) < nm {
				return t
			}
		}
		tb.Fatalf("the flight ends %s before it is within %g nm", p.Ending(), nm)
		return 0
	}
	for i, nm := range []float64{10, 7, 5} {
		c.Setting, c.GearOut = i+1, i > 0
		p = p.Leave(near(nm), c)
	}
	if down, _, ok := p.Touchdown(); ok && ground != nil {
		ground(&c)
		p = p.Leave(down+book.AtSeconds(0.4), c)
	}
	return p
}

func cruiseOf(p *Path) book.Time { return p.End() / 2 }

func TestDivert_KeepsWhatWasFlown(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	at := cruiseOf(p)
	q := p.Divert(at, Diversion{DistanceM: 100 * 1852, Runway: roll.Runway{Code: 6}}, Clean())
	for k := book.Time(0); k <= at; k += at / 50 {
		for i, name := range book.Quantities {
			if q.Value(i, k) != p.Value(i, k) {
				t.Fatalf("%s at %v: %v, was %v", name.Name, k, q.Value(i, k), p.Value(i, k))
			}
		}
	}
	for _, name := range []string{"altitude_ft", "true_airspeed_kt", "fuel_kg", "distance_nm", "height_ft"} {
		if a, b := p.of(name, at), q.of(name, at+1); math.Abs(a-b) > 1e-3 {
			t.Errorf("%s jumps from %v to %v", name, a, b)
		}
	}
}

// TestDivert_LandsAsTheRollSays: the path on the ground is the landing roll of
// flight/roll, to the centimetre.
func TestDivert_LandsAsTheRollSays(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	for _, r := range []roll.Runway{{Code: 6}, {Code: 5, HeadwindKt: 12, AltitudeFt: 1200}, {Code: 2, Fluid: roll.Fluid{DepthMM: 6, Gravity: 1}}} {
		q := landed(t, p, cruiseOf(p), Diversion{DistanceM: 90 * 1852, Runway: r}, func(c *Config) { c.GroundSpoilers, c.Reverse = 1, [2]bool{true, true} })
		l, rolled, ok := q.Landing()
		if !ok || q.Ending() != Arrived || !rolled.Stops {
			t.Fatalf("%+v: ends %s, landed %v", r, q.Ending(), ok)
		}
		again, err := roll.Stop(l)
		if err != nil || again.TotalM != rolled.TotalM {
			t.Fatalf("%v, %v, %v", err, again.TotalM, rolled.TotalM)
		}
		down, s, _ := q.Touchdown()
		stop := down + book.AtSeconds(rolled.Seconds)
		if got, want := (q.of("distance_nm", stop)-q.of("distance_nm", down))*1852, rolled.TotalM-rolled.AirM; math.Abs(got-want) > 0.01 {
			t.Errorf("%+v: rolled %v m, want %v m", r, got, want)
		}
		if kt := q.of("ground_speed_kt", stop); kt > 0.01 {
			t.Errorf("%+v: %v kt at the stop", r, kt)
		}
		if s.FuelKg <= 0 || math.Abs(s.AltitudeFt-r.AltitudeFt) > 1 {
			t.Errorf("touchdown %+v", s)
		}
	}
}

// TestDivert_WaterKeepsTheWheelsFromTurning: on standing water the wheels begin to
// turn at the speed of roll.SpinUp, and nothing brakes before.
func TestDivert_WaterKeepsTheWheelsFromTurning(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	q := landed(t, p, cruiseOf(p), Diversion{DistanceM: 90 * 1852, Runway: roll.Runway{Code: 2, Fluid: roll.Fluid{DepthMM: 6, Gravity: 1}}}, nil)
	down, _, _ := q.Touchdown()
	spin := roll.SpinUp(q.mission.a.TyrePSI)
	if kt := q.of("ground_speed_kt", down); kt < spin {
		t.Fatalf("touches down at %v kt, below %v", kt, spin)
	}
	seen := false
	for k := down; k < q.End(); k += book.Second / 20 {
		over, wheels := q.of("ground_speed_kt", k), q.of("wheel_speed_kt", k)
		if over > spin && wheels > 0 || wheels > over+1e-9 {
			t.Fatalf("wheels at %v kt at %v kt over the ground", wheels, over)
		}
		if over > spin && q.of("braking", k) != 0 {
			t.Fatalf("brakes at %v kt, with wheels that stand", over)
		}
		seen = seen || over < spin-10 && wheels > over-1
	}
	if !seen {
		t.Error("the wheels never turn")
	}
}

// TestDivert_KnotsHoldTheJumps: between two knots yes/no values stay.
func TestDivert_KnotsHoldTheJumps(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	q := landed(t, p, cruiseOf(p), Diversion{DistanceM: 60 * 1852, Runway: roll.Runway{Code: 5, HeadwindKt: 8}}, func(c *Config) { c.GroundSpoilers = 1 })
	knots := q.Knots()
	for i := 1; i < len(knots); i++ {
		for k, what := range book.Quantities {
			if what.Type != book.YesNo {
				continue
			}
			first, last := q.Value(k, knots[i-1]), q.Value(k, knots[i]-1)
			if first != last {
				t.Errorf("%s changes between %v and %v", what.Name, knots[i-1], knots[i])
			}
		}
	}
}

// TestDivert_HoldsTheLevelThatIsLeft: with the cabin lost it stays at 10,000 ft.
func TestDivert_HoldsTheLevelThatIsLeft(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	c := Clean()
	c.MostFt = 10000
	at := cruiseOf(p)
	q := p.Divert(at, Diversion{DistanceM: 300 * 1852, Runway: roll.Runway{Code: 6}}, c)
	if ft := q.of("altitude_ft", at+20*60*book.Second); math.Abs(ft-10000) > 50 {
		t.Errorf("at %v ft after 20 minutes", ft)
	}
	dear := p.Divert(at, Diversion{DistanceM: 300 * 1852, Runway: roll.Runway{Code: 6}}, Clean())
	_, low, _ := q.Touchdown()
	_, high, _ := dear.Touchdown()
	if low.FuelKg >= high.FuelKg {
		t.Errorf("low leaves %v kg, high %v kg", low.FuelKg, high.FuelKg)
	}
}

// 25.125(b)(2)(i): VREF may not be less than (A) 1.23 VSR0; (B) VMCL; (C) a speed
// that gives the capability to manoeuvre (read in CS 25.125, ED Decision
// 2016/010/R, whose letters are those of 14 CFR). What is said of it names (A).
func TestReference_IsOfTheParagraphThatIsNamed(t *testing.T) {
	page, err := os.ReadFile("../../docs/costs.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(page), "1.23 times the stall speed of the setting that stands at that mass (14 CFR 25.125(b)(2)(i)(A))") {
		t.Error("the page does not name paragraph (A) for 1.23 times the stall speed")
	}
}

// Ice is drag in the air, and no brake on the ground: with the same mass the
// landing with ice on the wing takes no less runway, on any surface.
func TestAirframe_IceDoesNotShortenALanding(t *testing.T) {
	a := demoMissions(t)[0].Aircraft()
	for code := roll.Code(1); code <= 6; code++ {
		length := func(iced bool) float64 {
			c := Clean()
			c.Setting, c.GearOut, c.Iced = len(a.Settings)-1, true, iced
			r := roll.Runway{Code: code}
			l := roll.Landing{Airframe: a.Airframe(c, r), Runway: r, MassKg: a.EmptyKg + 8000, ThresholdKt: 130, Changes: []roll.Change{{Device: roll.Brakes, At: 2, Over: 0.5, To: 1}}}
			rolled, err := roll.Stop(l)
			if err != nil || !rolled.Stops {
				t.Fatalf("code %d: %v, stops: %v", code, err, rolled.Stops)
			}
			return rolled.TotalM
		}
		if with, without := length(true), length(false); a.IceDrag <= 0 || with < without {
			t.Errorf("code %d: %.1f m with ice, %.1f m without", code, with, without)
		}
	}
}

// TestRollOut_ThrustActsAtItsMoment: idle that rises, or an engine that stops, in the
// roll counts from then on, not as it was at touchdown.
func TestRollOut_ThrustActsAtItsMoment(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	metres := func(atTouchdown, later func(*Config)) float64 {
		c := Clean()
		q := landed(t, p, cruiseOf(p), Diversion{DistanceM: 90 * 1852, Runway: roll.Runway{Code: 3}}, func(x *Config) { x.GroundSpoilers = 1; atTouchdown(x); c = *x })
		down, _, _ := q.Touchdown()
		later(&c)
		_, rolled, _ := q.Leave(down+6*book.Second, c).Landing()
		return rolled.TotalM
	}
	nothing, high := func(*Config) {}, func(c *Config) { c.HighIdle = true }
	stands := func(c *Config) { c.Engines = [2]float64{} }
	usual, first, then, dead := metres(nothing, nothing), metres(high, nothing), metres(nothing, high), metres(nothing, stands)
	if !(usual+5 < then && then+5 < first) {
		t.Errorf("%.1f m at idle, %.1f m with the higher idle from 6 s on, %.1f m from touchdown", usual, then, first)
	}
	if dead > usual-5 {
		t.Errorf("%.1f m at idle, %.1f m with the engines stopped after 6 s", usual, dead)
	}
}

// TestAirframe_ReverseOfOneEngineIsHalf of that of both, not a quarter.
func TestAirframe_ReverseOfOneEngineIsHalf(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	c := Clean()
	c.Engines[1] = 0
	q := p.Divert(cruiseOf(p), Diversion{DistanceM: 200 * 1852, Runway: roll.Runway{Code: 6}}, c)
	down, _, _ := q.Touchdown()
	c.Reverse = [2]bool{true, true}
	l, _, ok := q.Leave(down+book.Second/2, c).Landing()
	both := q.mission.a.Airframe(Clean(), l.Runway)
	if !ok || l.Airframe.Reverse != both.Reverse {
		t.Fatalf("%v: %v, with both engines %v", ok, l.Airframe.Reverse, both.Reverse)
	}
	reverse := 0.0
	for _, d := range l.Changes {
		if d.Device == roll.Reverse {
			reverse = d.To
		}
	}
	if reverse != 0.5 {
		t.Errorf("%g of the reverse thrust of both", reverse)
	}
}
