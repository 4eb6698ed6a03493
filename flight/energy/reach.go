package energy

import (
	"math"
	"sort"
)

// reach is how far the descent from an altitude goes over the ground.
type reach struct{ altitude, distance float64 }

// reachTable flies the descent from the highest level once, at about the mass
// it will have.
func (g *guide) reachTable(s State) {
	g.reach = nil
	d := *g
	d.stage, d.to, d.c.Frozen, d.slows, d.until = descending, s.DistanceM+1e9, false, false, nil
	s.AltitudeFt = max(s.AltitudeFt, g.level/feet)
	s.MassKg *= massOnArrival
	s.FuelKg = s.MassKg
	d.p = newProfile(s)
	d.p.now[iSpeed] = g.plan.Air.TASOfCAS(d.wantedKt(g.plan.ClimbKt), s.AltitudeFt) * knot
	for range mostStretch {
		if d.stage == approaching || d.stretchEnds() {
			break
		}
	}
	g.note(d.p.pieces, d.bottom())
}

// massOnArrival is the mass at the end of a usual diversion, of that at its
// start; the descent hardly depends on it.
const massOnArrival = 0.98

// bottom is where the runway would begin for a flight that has come down to the
// gate: after slowing down and the final approach.
func (g *guide) bottom() float64 {
	for i := 0; i < len(g.a.Settings)+1 && g.stage == approaching && g.cas() > g.a.fastestKt(&g.plan.Landing); i++ {
		g.approach()
	}
	return g.p.now[iDistance] + max(0, g.p.now[iAltitude]-g.plan.ElevationFt*feet)/math.Tan(glide)
}

// note makes the table from a descent, from the bottom up.
func (g *guide) note(pieces []piece, bottom float64) {
	for i := len(pieces) - 1; i >= 0; i-- {
		q := &pieces[i]
		g.reach = append(g.reach, reach{q.z[iAltitude], bottom - q.z[iDistance]}, reach{q.y[iAltitude], bottom - q.y[iDistance]})
	}
	sort.SliceStable(g.reach, func(i, j int) bool { return g.reach[i].altitude < g.reach[j].altitude })
}

func (g *guide) stretchEnds() bool {
	switch g.stretch() {
	case Arrived, Dry, Sinks, TooFar, Lost:
		return true
	}
	return false
}

// reachFrom interpolates the table.
func (g *guide) reachFrom(altitude float64) float64 {
	t := g.reach
	if len(t) == 0 {
		return 0
	}
	i := sort.Search(len(t), func(i int) bool { return t[i].altitude >= altitude })
	switch {
	case i == 0:
		return t[0].distance
	case i == len(t):
		return t[len(t)-1].distance
	}
	a, b := t[i-1], t[i]
	if b.altitude == a.altitude {
		return b.distance
	}
	return a.distance + (b.distance-a.distance)*(altitude-a.altitude)/(b.altitude-a.altitude)
}
