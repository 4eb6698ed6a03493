package energy

import (
	"math"
	"testing"

	"knockon/book"
)

// TestClosed_TheSpeedDecaysToTheStall: levers that close in level flight or on the
// final path keep the path and lose speed, to the stall: to CL = MostLift.
func TestClosed_TheSpeedDecaysToTheStall(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		final := when(t, p, func(x book.Time) bool {
			return p.of("on_glide_path", x) != 0 && p.of("height_ft", x) < 1900 && p.of("to_go_nm", x) < 4.5
		})
		level := when(t, p, func(x book.Time) bool { return p.of("altitude_ft", x) > m.plan.CruiseFt-5 }) + 30*book.Second
		for _, at := range []book.Time{level, final} {
			c := Clean()
			if at == final {
				c.GearOut, c.Setting = true, 3
			}
			c.Closed = true
			q := p.Leave(at, c)
			end := q.End()
			if q.Ending() != Stalls || end-at < 10*book.Second || end-at > 400*book.Second {
				t.Fatalf("%v after %v", q.Ending(), end-at)
			}
			qs := airAt(m.plan.Air, q.of("altitude_ft", end)*feet).density / 2 * math.Pow(q.of("true_airspeed_kt", end)*knot, 2) * m.a.WingAreaM2
			if lift := q.of("mass_kg", end) * g0 / qs; math.Abs(lift-m.a.Settings[c.Setting].MostLift) > 0.01 {
				t.Errorf("stalls at a lift coefficient of %.3f, not %.3f", lift, m.a.Settings[c.Setting].MostLift)
			}
			if d := q.of("altitude_ft", end) - p.of("altitude_ft", at); at != final && math.Abs(d) > 5 {
				t.Errorf("it has lost %.0f ft", -d)
			}
			if at == final && q.of("on_glide_path", end) == 0 {
				t.Error("it has left the final path")
			}
			c.Closed = false
			if r := q.Leave(at+(end-at)/2, c); r.Ending() != Arrived {
				t.Errorf("with the thrust back in time it %v", r.Ending())
			}
		}
	}
}

// TestClosed_IsNotFeltOnTheGround, nor in a descent with idle thrust.
func TestClosed_IsNotFeltOnTheGround(t *testing.T) {
	p := crewed(demoMissions(t)[0])
	roll := when(t, p, func(x book.Time) bool { return p.of("thrust_pct", x) > 60 && p.of("airspeed_kt", x) > 80 })
	down := when(t, p, func(x book.Time) bool { return x > p.End()/2 && p.of("vertical_speed_ft_per_min", x) < -1500 })
	for at, s := range map[book.Time]float64{roll: 5, down: 120} {
		c := takeOff()
		if at == down {
			c = Clean()
		}
		open := p.Leave(at, c)
		c.Closed = true
		shut := p.Leave(at, c)
		for _, name := range []string{"airspeed_kt", "altitude_ft", "fuel_kg"} {
			x := at + book.AtSeconds(s)
			if a, b := open.of(name, x), shut.of(name, x); a != b {
				t.Errorf("%s %g s later: %v, with the levers closed %v", name, s, a, b)
			}
		}
	}
}

// TestFrozen_TheClimbGoesOn: thrust that stands in the climb, and an engine that
// stops then, leave a flight that can be flown on.
func TestFrozen_TheClimbGoesOn(t *testing.T) {
	for _, engines := range [][2]float64{{1, 1}, {0, 1}, {1, 0}} {
		p := crewed(demoMissions(t)[0])
		at := when(t, p, func(x book.Time) bool { return p.InAir(x) && p.of("altitude_ft", x) > 10600 })
		c := Clean()
		c.Frozen = true
		q := p.Leave(at, c)
		c.Engines = engines
		q = q.Leave(at+10*book.Second, c)
		// With both engines the thrust of the climb is too much for the level.
		wrong := q.Ending() == Lost || q.End() < at+1800*book.Second
		if engines == [2]float64{1, 1} {
			wrong = q.Ending() != CannotSlow
		}
		if wrong || q.of("altitude_ft", at+300*book.Second) < 12000 {
			t.Errorf("engines %v: it %v after %v, at %.0f ft after five minutes", engines, q.Ending(), q.End()-at, q.of("altitude_ft", at+300*book.Second))
		}
	}
}
