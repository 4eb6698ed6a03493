package energy

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/book"
	"knockon/flight/roll"
)

// when is the first moment, to a quarter of a second, at which something is so.
func when(tb testing.TB, p *Path, is func(t book.Time) bool) book.Time {
	tb.Helper()
	for t := book.Time(0); t < p.End(); t += book.Second / 4 {
		if is(t) {
			return t
		}
	}
	tb.Fatal("it is never so")
	return 0
}

// handled flies a turned flight with gear and flaps moved as a crew does before
// landing, and spoilers and reverse used after it.
func handled(p *Path, c Config) *Path {
	for i, nm := range []float64{10, 7, 5} {
		for t := p.since; t < p.End(); t += book.Second / 4 {
			if p.InAir(t) && t > p.since+30*book.Second && p.of("to_go_nm", t) < nm {
				c.Setting, c.GearOut = i+1, i > 0
				p = p.Leave(t, c)
				break
			}
		}
	}
	if down, _, ok := p.Touchdown(); ok {
		c.GroundSpoilers, c.Reverse = 1, [2]bool{true, true}
		p = p.Leave(down+book.AtSeconds(0.4), c)
	}
	return p
}

func takeOff() Config {
	c := Clean()
	c.GearOut, c.Setting = true, 1
	return c
}

// TestReturn_IsACircuit: back to the runway just left, at circuit height, over the
// way of the circuit, with an engine lost and without; and it lands there.
func TestReturn_IsACircuit(t *testing.T) {
	for _, engines := range [][2]float64{{1, 1}, {0, 1}} {
		m := demoMissions(t)[0]
		p := crewed(m)
		at := when(t, p, func(x book.Time) bool { return p.InAir(x) && p.of("height_ft", x) > 300 })
		c := takeOff()
		c.Engines, c.GearOut = engines, false
		const away = 1.2 * 1852
		q := p.Turn(at, Turn{Kind: Returning, To: Diversion{DistanceM: away, Runway: roll.Runway{AltitudeFt: m.fromFt, Code: 6}}}, c)
		up := when(t, q, func(x book.Time) bool { return x > at && q.of("airspeed_kt", x) > 185 })
		c.Setting = 0
		q = handled(q.Leave(up, c), c)
		down, s, ok := q.Touchdown()
		if !ok || q.Ending() != Arrived {
			t.Fatalf("engines %v: it %v", engines, q.Ending())
		}
		v := m.plan.Air.TASOfCAS(210, m.fromFt+2500) * knot
		way := away + 2*math.Pi*v*v/(g0*math.Tan(25*math.Pi/180)) + 2*2500*feet/math.Tan(glide)
		if got := (q.of("distance_nm", down) - q.of("distance_nm", at)) * 1852; math.Abs(got-way) > 400 {
			t.Errorf("engines %v: %.0f m flown, the circuit is %.0f m", engines, got, way)
		}
		top, minutes := 0.0, (down-at).Seconds()/60
		for x := at; x < down; x += book.Second {
			top = max(top, q.of("height_ft", x))
		}
		if math.Abs(top-2500) > 60 || minutes < 5 || minutes > 12 {
			t.Errorf("engines %v: at %.0f ft at most, %.1f minutes", engines, top, minutes)
		}
		if s.MassKg <= m.a.MaxLandingMassKg {
			t.Errorf("it lands with %.0f kg, not above %.0f", s.MassKg, m.a.MaxLandingMassKg)
		}
	}
}

// TestGoAround_FromAnyHeight: from the gate, the final, the flare and the wheels it
// climbs away and lands over a circuit; the sixth is refused.
func TestGoAround_FromAnyHeight(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		down := when(t, p, func(x book.Time) bool { return x > p.End()/2 && !p.InAir(x) })
		for _, before := range []float64{150, 60, 20, 2, -1.5} {
			at := down - book.AtSeconds(before)
			if err := p.CanTurn(at, GoingAround); err != nil {
				t.Errorf("%g s before touchdown: %v", before, err)
				continue
			}
			c := Clean()
			c.GearOut, c.Setting = true, 3
			q := p.Turn(at, Turn{Kind: GoingAround}, c)
			c.Setting = 1
			q = q.Leave(at+10*book.Second, c)
			c.GearOut = false
			q = q.Leave(at+15*book.Second, c)
			low := math.Inf(1)
			for x := at + 60*book.Second; x < at+180*book.Second; x += book.Second {
				low = min(low, q.of("height_ft", x))
			}
			if low < 600 || q.of("height_ft", at+120*book.Second) < 1900 {
				t.Errorf("%g s before touchdown: at %.0f ft after a minute, %.0f ft after two", before, low, q.of("height_ft", at+120*book.Second))
			}
			down := when(t, q, func(x book.Time) bool { return x > at+120*book.Second && !q.InAir(x) })
			if q.Ending() != Arrived || math.Abs(q.LeftM(down)) > 600 {
				t.Errorf("%g s before touchdown: it %v %.0f m from its runway", before, q.Ending(), q.LeftM(down))
			}
		}
		if err := p.CanTurn(down+book.AtSeconds(2.2), GoingAround); err == nil || !strings.Contains(err.Error(), "reverse") {
			t.Errorf("after reverse was selected: %v", err)
		}
	}
}

func TestGoAround_FiveAtMost(t *testing.T) {
	p := crewed(demoMissions(t)[1])
	c := Clean()
	c.GearOut, c.Setting = true, 2
	for n := range 6 {
		at := when(t, p, func(x book.Time) bool {
			return x > p.since+book.Second && p.CanTurn(x, GoingAround) == nil || p.mission.rounds == 5 && x > p.since
		})
		err := p.CanTurn(at, GoingAround)
		if (err != nil) != (n == 5) {
			t.Fatalf("go-around %d: %v", n+1, err)
		}
		p = p.Turn(at, Turn{Kind: GoingAround}, c)
	}
}

// TestCanTurn_SaysWhyNot in a pilot's words.
func TestCanTurn_SaysWhyNot(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	off, _ := p.LiftOff()
	dead := takeOff()
	dead.Engines = [2]float64{}
	final := when(t, p, func(x book.Time) bool { return p.of("on_glide_path", x) != 0 })
	glides := p.Leave(final, dead)
	fast := when(t, p, func(x book.Time) bool { return p.of("airspeed_kt", x) >= m.decisionKt })
	for _, x := range []struct {
		p    *Path
		at   book.Time
		kind Kind
		says string
	}{
		{p, off - book.Second, Returning, "on the ground"},
		{p, off - book.Second, GoingAround, "on the ground"},
		{p, p.End() / 2, GoingAround, "no approach has begun"},
		{p, final + book.Second, Holding, "the final approach has begun"},
		{glides, final + book.Second, GoingAround, "no engine gives thrust"},
		{p, fast, Rejecting, "the take-off is continued"},
		{p, off + book.Second, Rejecting, "past its take-off roll"},
		{p, p.End() + book.Second, Diverting, "is over"},
	} {
		err := x.p.CanTurn(x.at, x.kind)
		if err == nil || !strings.Contains(err.Error(), x.says) {
			t.Errorf("%v at %v: %v, want …%s…", x.kind, x.at, err, x.says)
		}
		if q := x.p.TurnAhead(x.at, Turn{Kind: x.kind}, Clean()); q != x.p {
			t.Errorf("%v at %v was flown", x.kind, x.at)
		}
	}
}

// TestHold_MakesNoWay: until its time or its mass, at its level, with the same way
// left as when it began; and then it arrives.
func TestHold_MakesNoWay(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	at := p.End() / 2
	for _, turn := range []Turn{
		{Kind: Holding, UntilS: at.Seconds() + 1800}, {Kind: Holding, LevelFt: 20000, UntilS: at.Seconds() + 1800},
		{Kind: Holding, LevelFt: 15000, UntilMassKg: p.of("mass_kg", at) - 700},
	} {
		q := p.Turn(at, turn, Clean())
		ends := when(t, q, func(x book.Time) bool { return x > at+book.Second && q.of("to_go_nm", x) < q.of("to_go_nm", at+1)-0.01 })
		left := q.of("to_go_nm", ends-book.Second)
		if d := left - q.of("to_go_nm", at+1); math.Abs(d) > 1e-6 {
			t.Errorf("%+v: %.2f NM nearer", turn, d)
		}
		if want := turn.UntilS; want > 0 && math.Abs(ends.Seconds()-want) > 2 {
			t.Errorf("%+v: ends at %.0f s, want %.0f s", turn, ends.Seconds(), want)
		}
		if want := turn.UntilMassKg; want > 0 && math.Abs(q.of("mass_kg", ends)-want) > 3 {
			t.Errorf("%+v: ends with %.0f kg, want %.0f kg", turn, q.of("mass_kg", ends), want)
		}
		level := turn.LevelFt
		if level == 0 {
			level = p.of("altitude_ft", at)
		}
		if ft := q.of("altitude_ft", ends-book.Second); math.Abs(ft-level) > 20 {
			t.Errorf("%+v: at %.0f ft", turn, ft)
		}
		down := when(t, q, func(x book.Time) bool { return x > ends && !q.InAir(x) })
		if q.Ending() != Arrived || math.Abs(q.LeftM(down)) > 600 {
			t.Errorf("%+v: it %v, %.0f m from its runway at touchdown", turn, q.Ending(), q.LeftM(down))
		}
	}
}

// TestDescend_AtTheLimits: to its level with idle thrust, as fast as is allowed and
// no faster; quicker with speed brakes; and it stays there.
func TestDescend_AtTheLimits(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	at := p.End() / 2
	took := func(c Config) float64 {
		q := p.Turn(at, Turn{Kind: Descending, LevelFt: 10000}, c)
		down := when(t, q, func(x book.Time) bool { return x > at && q.of("altitude_ft", x) < 10020 })
		for x := at + 60*book.Second; x < down; x += book.Second {
			kt, mach := q.of("airspeed_kt", x), q.of("mach", x)
			if kt > m.a.MaxKt+0.6 || mach > m.a.MaxMach+1e-4 {
				t.Fatalf("%.1f kt, Mach %.4f", kt, mach)
			}
			if kt < m.a.MaxKt-2 && mach < m.a.MaxMach-0.005 {
				t.Fatalf("%.0f s after the turn only %.1f kt, Mach %.3f", (x - at).Seconds(), kt, mach)
			}
		}
		if ft := q.of("altitude_ft", down+900*book.Second); math.Abs(ft-10000) > 20 {
			t.Errorf("a quarter of an hour later at %.0f ft", ft)
		}
		return (down - at).Seconds() / 60
	}
	brakes := Clean()
	brakes.SpeedBrakes = 1
	clean, with := took(Clean()), took(brakes)
	if with > 0.65*clean {
		t.Errorf("%.1f minutes clean, %.1f with speed brakes", clean, with)
	}
}

// TestReject_StopsOnTheRunway: from each speed below the decision it stops, the
// way of the roll further on, to the centimetre; and farther from a higher speed.
func TestReject_StopsOnTheRunway(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	last := 0.0
	for _, kt := range []float64{45, 60, 90, 120, m.decisionKt - 1} {
		at := when(t, p, func(x book.Time) bool { return p.of("thrust_pct", x) > 60 && p.of("airspeed_kt", x) >= kt })
		c := takeOff()
		c.GroundSpoilers, c.Reverse = 1, [2]bool{true, true}
		q := p.Turn(at, Turn{Kind: Rejecting}, c)
		_, rolled, ok := q.Landing()
		if !ok || q.Ending() != Arrived || q.of("ground_speed_kt", q.End()) > 0.01 {
			t.Fatalf("from %.0f kt it %v", kt, q.Ending())
		}
		way := (q.of("distance_nm", q.End()) - q.of("distance_nm", at)) * 1852
		if math.Abs(way-rolled.TotalM) > 0.2 || way <= last {
			t.Errorf("from %.0f kt: %.2f m, the roll says %.2f m", kt, way, rolled.TotalM)
		}
		if got, want := q.of("ground_speed_kt", at+1), p.of("ground_speed_kt", at); math.Abs(got-want) > 0.01 {
			t.Errorf("from %.0f kt: %.2f kt a microsecond later, was %.2f kt", kt, got, want)
		}
		last = way
	}
}

// TestReject_StandsItsTimeOutWhateverChanges: a flight that has stopped stands for
// stayS, also where an engine is put off and on again meanwhile.
func TestReject_StandsItsTimeOutWhateverChanges(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	q := p.Turn(60*book.Second, Turn{Kind: Rejecting}, takeOff())
	one := takeOff()
	one.Engines[0] = 0
	end := q.End()
	for i, c := range []Config{one, takeOff(), one} {
		if q = q.Leave(end-book.AtSeconds(stayS-20*float64(i+1)), c); q.End() != end || q.Ending() != Arrived {
			t.Fatalf("change %d: it ends at %v (%v), without at %v", i+1, q.End(), q.Ending(), end)
		}
	}
	if leg := q.flown.tag.leg; leg != legStand || q.of("ground_speed_kt", end-book.Second) > 0.01 {
		t.Errorf("it ends in leg %d", leg)
	}
}

// TestTurn_YesAndNoChangeAtKnotsOnly: on turned flights too, and what runs on does
// not jump in the air.
func TestTurn_YesAndNoChangeAtKnotsOnly(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 3))
	for _, m := range demoMissions(t) {
		for range 30 {
			p := crewed(m)
			for range 2 {
				at := oddMoment(r, p)
				p = p.Turn(at, oddTurn(r, p, at), oddest(r))
			}
			steady(t, p)
		}
	}
}

func steady(t *testing.T, p *Path) {
	t.Helper()
	knots := p.Knots()
	for i, b := range knots[1:] {
		a := knots[i]
		for q, v := range book.Quantities {
			for _, x := range []book.Time{a + (b-a)/3, a + (b-a)/2, b - 1} {
				if v.Type == book.YesNo && x > a && p.Value(q, x) != p.Value(q, a) {
					t.Fatalf("%s changes between the knots %v and %v", v.Name, a, b)
				}
			}
		}
		if !p.InAir(b) || !p.InAir(b-1) {
			continue
		}
		for name, most := range map[string]float64{"altitude_ft": 0.02, "airspeed_kt": 0.02, "distance_nm": 1e-5, "mass_kg": 1e-3} {
			if d := p.of(name, b) - p.of(name, b-1); math.Abs(d) > most {
				t.Fatalf("%s jumps by %g at %v", name, d, b)
			}
		}
	}
}

// TestTurn_FromAHoldIsNoFarther: the way to a field counts from the turn, however
// long the flight has held before it. It once grew by all that had been flown in
// the hold.
func TestTurn_FromAHoldIsNoFarther(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	at := p.End() / 3
	const away = 150 * 1852.0
	for _, minutes := range []float64{0, 5, 40} {
		from, q := at+book.AtSeconds(60*minutes), p
		if minutes > 0 {
			q = p.Turn(at, Turn{Kind: Holding, UntilS: from.Seconds() + 600}, Clean())
		}
		for _, kind := range []Kind{Diverting, Returning} {
			r := handled(q.Turn(from, Turn{Kind: kind, To: Diversion{DistanceM: away, Runway: roll.Runway{Code: 6}}}, Clean()), Clean())
			down, _, ok := r.Touchdown()
			if !ok {
				t.Fatalf("%v after %g minutes: it %v", kind, minutes, r.Ending())
			}
			way := (r.of("distance_nm", down) - r.of("distance_nm", from)) * 1852
			if d := math.Abs(r.LeftM(from+1) - away); d > 1 && kind == Diverting || way > away+30*1852 || way < away-600 {
				t.Errorf("%v after %g minutes: %.0f m flown of %.0f m, %.0f m off at the turn", kind, minutes, way, away, d)
			}
		}
	}
}

// TestTurn_StopsOnTheTaxi: a flight that is rejected on the taxi out brakes to a stop
// from the speed it has, in a few metres, and goes nowhere.
func TestTurn_StopsOnTheTaxi(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	at := book.Time(0)
	for at < p.End() && p.of("ground_speed_kt", at) < taxiKt-0.01 {
		at += book.Second
	}
	q := p.Turn(at, Turn{Kind: Rejecting}, Clean())
	metres := (q.of("distance_nm", q.End()) - q.of("distance_nm", at)) * 1852
	if !p.Taxiing(at) || q.Ending() != Arrived || q.of("ground_speed_kt", q.End()) != 0 || metres < 8 || metres > 40 || q.of("ground_speed_kt", at+10*book.Second) != 0 {
		t.Errorf("stopped after %.1f m and %v: %v", metres, (q.End() - at).Seconds(), q.Ending())
	}
	if q.of("thrust_pct", at+book.Second) > 20 {
		t.Errorf("thrust %g pct", q.of("thrust_pct", at+book.Second))
	}
}
