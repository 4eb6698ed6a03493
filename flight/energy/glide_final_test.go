package energy

import (
	"math"
	"testing"

	"knockon/book"
)

// TestGlide_FromTheFinalMeetsTheGroundWhereThePolarSays: with gear and full flap out
// and no thrust the final approach ends short. The way is the lift over the drag
// times the energy height that is given up, less the share of the wind (docs of the
// method: a glide's range is L/D times the change of h + V^2/2g).
func TestGlide_FromTheFinalMeetsTheGroundWhereThePolarSays(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		for _, height := range []float64{1200, 900, 600} {
			at := when(t, p, func(x book.Time) bool { return p.of("on_glide_path", x) != 0 && p.of("height_ft", x) < height })
			c := Clean()
			c.GearOut, c.Setting, c.Engines = true, len(m.a.Settings)-1, [2]float64{}
			q := p.Leave(at, c)
			if q.Ending() != Sinks {
				t.Fatalf("at %.0f ft: it %v", height, q.Ending())
			}
			end := q.End() - book.Second/10
			flown := (q.of("distance_nm", end) - q.of("distance_nm", at)) * 1852
			if want := byPolar(m, &c, q, at, end); math.Abs(flown-want) > 0.05*want {
				t.Errorf("from %.0f ft %.0f m are glided, %.0f m by the polar", height, flown, want)
			}
			if left := q.LeftM(end) + flown; math.Abs(left-p.of("height_ft", at)*feet/math.Tan(glide)) > 60 {
				t.Errorf("from %.0f ft the runway is %.0f m away, which no path of 3 degrees says", height, left)
			}
			again := q.Leave(at+8*book.Second, c2(c)) // what changes on the way brings no runway nearer
			if a, b := again.LeftM(at+9*book.Second), q.LeftM(at+9*book.Second); math.Abs(a-b) > 100 {
				t.Errorf("from %.0f ft %.0f m are left after a change, %.0f m before it", height, a, b)
			}
		}
	}
}

// c2 is another configuration that glides nearly alike.
func c2(c Config) Config { c.ExtraDrag += 1e-4; return c }

// byPolar is the way by the drag polar alone, at the speed half way: the speed goes up
// and down by 10 kt meanwhile, so it is held to 5 percent.
func byPolar(m *Mission, c *Config, q *Path, from, to book.Time) float64 {
	mid := (from + to) / 2
	v := q.of("true_airspeed_kt", mid) * knot
	zero, induced := m.a.dragTerms(c)
	x, s := q.at(mid)
	density := airAt(m.plan.Air, x.part(iAltitude, s)).density
	lift := x.part(iMass, s) * g0 / (density / 2 * v * v * m.a.WingAreaM2)
	energy := func(t book.Time) float64 {
		v := q.of("true_airspeed_kt", t) * knot
		return q.of("height_ft", t)*feet + v*v/(2*g0)
	}
	air := lift / (zero + induced*lift*lift) * (energy(from) - energy(to))
	return air * (v - q.of("headwind_kt", mid)*knot) / v
}
