package energy

import (
	"math"
	"testing"

	"knockon/book"
)

// TestTurnRadius_Handbook: worked values of R = V^2/(g tan b), as FAA-H-8083-25C gives it (from memory).
func TestTurnRadius_Handbook(t *testing.T) {
	for _, x := range []struct{ kt, bank, want float64 }{{250, 25, 3617.1}, {180, 25, 1875.1}, {210, 30, 2061.4}} {
		if got := turnRadiusM(x.kt*knot, x.bank*math.Pi/180); math.Abs(got-x.want) > x.want/1000 {
			t.Errorf("%g kt at %g degrees: %.1f m, want %.1f", x.kt, x.bank, got, x.want)
		}
	}
}

// TestGlide_ATurnCostsHeight: without thrust a field that is just reached straight ahead
// is out of reach behind the tail, by the way of half a turn; with thrust the
// turn is nothing.
func TestGlide_ATurnCostsHeight(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	at := when(t, p, func(x book.Time) bool { return p.of("altitude_ft", x) > 20000 })
	c := Clean()
	c.Engines = [2]float64{}
	ends := func(metres, deg float64, c Config) *Path {
		return p.Turn(at, Turn{Kind: Diverting, To: Diversion{DistanceM: metres, TurnDeg: deg, Runway: m.home}}, c)
	}
	straight, behind := farthest(ends, 0, c), farthest(ends, 180, c)
	arc := m.a.arcM(StateAt(p, at), m.plan.Air, &c, 180)
	if lost := straight - behind; arc < 4*1852 || math.Abs(lost-arc) > 300 {
		t.Errorf("%.0f m straight ahead, %.0f m behind; the half turn is %.0f m", straight, behind, arc)
	}
	whole := Clean()
	if a, b := ends(2e5, 0, whole), ends(2e5, 180, whole); a.End() != b.End() {
		t.Errorf("with thrust %v and %v", a.End(), b.End())
	}
}

// farthest is how far away the farthest field is that a glide still lands on.
func farthest(ends func(metres, deg float64, c Config) *Path, deg float64, c Config) float64 {
	lo, hi := 0.0, 4e5
	for hi-lo > 50 {
		mid := (lo + hi) / 2
		if ends(mid, deg, c).Ending() == Arrived {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
