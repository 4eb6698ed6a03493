package energy

import (
	"math"
	"testing"

	"knockon/book"
	"knockon/flight/roll"
)

// TestRoom_NoApproachFromTooHigh: a flight that is sent to a field at any distance, with
// the wind from any side and the idle high from a level on the way down on, comes down the
// path to its runway; it was once let go over the threshold at a thousand feet.
func TestRoom_NoApproachFromTooHigh(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		for _, nm := range []float64{6, 15, 30, 60, 90, 110, 150} {
			for _, wind := range []float64{-30, 0, 40} {
				c := Clean()
				to := Diversion{DistanceM: nm * 1852, Runway: roll.Runway{Code: 6}, Wind: func(float64) float64 { return wind }}
				q := p.Turn(p.End()/2, Turn{Kind: Diverting, To: to}, c)
				at := when(t, q, func(at book.Time) bool { return at > q.since && q.of("height_ft", at) < 13000 })
				c.HighIdle = true
				q = handled(q.Leave(at, c), c)
				down, _, ok := q.Touchdown()
				if off := q.LeftM(down); !ok || math.Abs(off) > 850 {
					t.Errorf("%g NM, %g kt from ahead: it %v, %.0f m from its runway", nm, wind, q.Ending(), off)
				}
			}
		}
	}
}

// TestRoom_SlowsForTheFlaps: with the flaps in the flight is below the limit of the first
// setting ten miles out, and on the final below that of the next.
func TestRoom_SlowsForTheFlaps(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		for _, x := range []struct {
			nm      float64
			setting int
		}{{10, 1}, {7.3, 2}, {4.9, 3}} {
			at := when(t, p, func(at book.Time) bool { return p.InAir(at) && at > p.End()/2 && p.of("to_go_nm", at) < x.nm })
			if kt, most := p.of("airspeed_kt", at), m.a.Settings[x.setting].MaxKt; kt > most {
				t.Errorf("%g NM out at %.0f kt, above the %.0f kt of setting %d", x.nm, kt, most, x.setting)
			}
		}
	}
}
