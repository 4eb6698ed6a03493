package energy

import (
	"math"
	"testing"

	"knockon/book"
)

// frozenInClimb is a flight whose thrust stands from a moment in the climb on.
func frozenInClimb(t *testing.T, m *Mission, ft float64) (p, q *Path, at book.Time) {
	t.Helper()
	p = crewed(m)
	at = when(t, p, func(x book.Time) bool { return p.InAir(x) && p.of("altitude_ft", x) > ft })
	c := Clean()
	c.Frozen = true
	return p, p.Leave(at, c), at
}

// TestFrozen_TheLevelIsHeld: with the thrust of the climb the aircraft levels off at
// its cruise level and goes no foot above it; what is too much becomes speed, until
// the design dive speed (14 CFR 25.335(b)), and faster than the limits is said.
func TestFrozen_TheLevelIsHeld(t *testing.T) {
	for _, m := range demoMissions(t) {
		_, q, at := frozenInClimb(t, m, 2600)
		if q.Ending() != CannotSlow {
			t.Fatalf("it %v", q.Ending())
		}
		highest, level := 0.0, book.Time(0)
		for x := at; x <= q.End(); x += book.Second {
			ft := q.of("altitude_ft", x)
			highest = max(highest, ft)
			if level == 0 && ft > m.plan.CruiseFt-2 {
				level = x
			}
		}
		if highest > m.plan.CruiseFt+5 || level == 0 {
			t.Errorf("up to %.0f ft, of %.0f", highest, m.plan.CruiseFt)
		}
		mach, kt := q.of("mach", q.End()), q.of("airspeed_kt", q.End())
		if math.Abs(mach-m.a.MaxMach-0.07) > 1e-3 && math.Abs(kt-m.a.MaxKt/0.8) > 0.1 {
			t.Errorf("it ends at Mach %.4f and %.1f kt", mach, kt)
		}
		o, ok := q.TooFast(q.End())
		if !ok || o.From <= level || o.To < q.End()-6*book.Second || math.Abs(o.Kt-kt) > 0.5 || math.Abs(o.Mach-mach) > 0.001 {
			t.Errorf("too fast %v, from %v to %v of %v: %+v", ok, o.From, o.To, q.End(), o)
		}
		// While it levels off its lift is not its weight.
		balance(t, m, q, level+15*book.Second, q.End()-book.Second)
	}
}

// balance holds a stretch against the energy that goes in and out: the specific
// excess power (T - D) V / W is the rate of the energy height h + V2/2g (Newton's
// law along the path, physics of a point mass). T and D are worked out here from the
// coefficients.
func balance(t *testing.T, m *Mission, q *Path, from, to book.Time) {
	t.Helper()
	height := func(x book.Time) float64 {
		v := q.of("true_airspeed_kt", x) * 1852 / 3600
		return q.of("altitude_ft", x)*0.3048 + v*v/2/9.80665
	}
	lever := q.flown.pieces[q.pieceAt(from)].flyer.law.lever
	put := 0.0
	const dt = book.Second / 4
	for x := from; x < to; x += dt {
		mid := x + dt/2
		v := q.of("true_airspeed_kt", mid) * 1852 / 3600
		at := airAt(m.plan.Air, q.of("altitude_ft", mid)*0.3048)
		full := m.a.Engines * m.a.ThrustN * math.Pow(at.sigma, m.a.DensityExponent) * (1 - m.a.MachLoss*q.of("mach", mid))
		qs := at.density / 2 * v * v * m.a.WingAreaM2
		w := q.of("mass_kg", mid) * 9.80665
		lift := w / qs
		drag := qs * (m.a.Settings[0].ZeroLift + m.a.Settings[0].Induced*lift*lift)
		put += (lever*full - drag) * v / w * dt.Seconds()
	}
	if got := height(to) - height(from); math.Abs(got-put) > 0.004*math.Abs(put)+1 {
		t.Errorf("the energy height grows by %.1f m, the excess power gives %.1f m", got, put)
	}
}

// TestFrozen_ADescentDoesNotClimb: a descent with thrust that stands comes down at the
// limit speed as far as its thrust allows it, and never goes up; too fast it is not
// by more than a knot or two on the way down.
func TestFrozen_ADescentDoesNotClimb(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		level := when(t, p, func(x book.Time) bool { return p.of("altitude_ft", x) > m.plan.CruiseFt-2 }) + 60*book.Second
		c := Clean()
		c.Frozen = true
		q := p.Leave(level, c)
		lowest, down := math.Inf(1), false
		for x := level; x < q.End(); x += book.Second {
			ft := q.of("altitude_ft", x)
			if ft > lowest+5 {
				t.Fatalf("at %v it has climbed from %.0f to %.0f ft", x, lowest, ft)
			}
			lowest = min(lowest, ft)
			down = down || ft < m.plan.CruiseFt-500
		}
		if !down {
			t.Errorf("it never came down; it %v at %v", q.Ending(), q.End())
		}
	}
}
