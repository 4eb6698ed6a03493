package energy

import (
	"math"

	"knockon/flight"
)

// Without thrust the flight glides: at the speed that goes farthest over the ground,
// straight to the field and then, with the height that is left over, in turns above
// it, so that the way is as long as the glide. It ends with Sinks where that is
// short of the runway.

// gliding says that the flight is in the air before its flare with no engine giving
// thrust.
func (g *missionGuide) gliding() bool {
	l := g.p.tag.leg
	return l >= legFirstClimb && l <= legFinal && g.a.running(g.shape()) == 0
}

// planGlide makes the way to the runway as long as the glide from here, but not
// shorter than it is straight.
func (g *missionGuide) planGlide() {
	if !g.gliding() {
		return
	}
	g.p.closePause()
	straight := g.straightEnds()
	ends := max(straight, g.p.now[iDistance]+g.glideM())
	g.p.tag.detour = ends - g.m.runway()
	g.to = ends
}

// straightEnds is where the way ends if it is flown straight. On the final approach
// nothing of the way is left to cut: the runway is where the path led with power.
func (g *missionGuide) straightEnds() float64 {
	if g.p.tag.leg != legFinal {
		return g.m.runway() + g.p.tag.held
	}
	ends := g.m.runway() + g.p.tag.detour
	if g.a.running(g.p.shape()) > 0 { // the path was flown up to here
		ends = max(ends, g.p.now[iDistance]+g.height()/math.Tan(glide))
	}
	return ends
}

// glideM is how far the glide from here goes to a touchdown like that of an approach.
func (g *missionGuide) glideM() float64 {
	d, inner := *g, *g.guide
	d.guide = &inner
	p := *g.p
	p.pieces, p.exact = nil, false
	inner.p = &p
	from := p.now[iDistance]
	for range mostStretch {
		if e := d.glideStretch(); e == levelled || over(e) {
			break
		}
	}
	return p.now[iDistance] - from + flareFt*feet/math.Tan(glide)
}

// glideOn glides on and, over the runway, into the flare.
func (g *missionGuide) glideOn() Event {
	g.p.closePause()
	switch e := g.glideStretch(); {
	case e != levelled:
		return e
	case g.left() < -flareRoomM: // past it
		return Sinks
	}
	return g.overRunway()
}

// flareRoomM is how far from the runway a flare may begin, on either side (common
// practice: it can be drawn out, or the height slipped off).
const flareRoomM = 600.0

// glideStretch flies the next stretch of a glide; levelled is the height of the flare.
func (g *missionGuide) glideStretch() Event {
	flare := g.whenDown((g.m.toFt+flareFt)*feet, levelled)
	if g.p.now[iAltitude] <= (g.m.toFt+flareFt)*feet+1e-4 {
		return levelled
	}
	wanted, now := g.glideKt(), g.easOf(g.now())
	switch {
	case now > wanted+glideNearKt:
		slower := end{sped, func(y *vector, _ float64) float64 { return g.easOf(y) - wanted }}
		return g.fly(g.shape(), law{pathGiven: true}, shortStep, slower, flare)
	case now < wanted-glideNearKt:
		faster := end{sped, func(y *vector, _ float64) float64 { return wanted - g.easOf(y) }}
		slope := max(g.forcesNow(law{pathGiven: true}).gain/g0-0.05, -steepest) // half a metre a second every second
		return g.fly(g.shape(), law{pathGiven: true, slope: slope}, shortStep, faster, flare, g.after(60, again))
	}
	ends := []end{flare, g.after(againS/3, again)}
	if final := g.finalFloor(); g.p.now[iAltitude] > final+nearM {
		ends = append(ends, g.whenDown(final, again))
	}
	return g.fly(g.shape(), law{hold: holdEAS}, step, ends...)
}

// glideNearKt is how near the speed of a glide is kept.
const glideNearKt = 1.0

// slowGlideFt is the height at which a glide slows down to the speed of the landing.
const slowGlideFt = 500.0

func (g *missionGuide) finalFloor() float64 { return (g.m.toFt + slowGlideFt) * feet }

// glideKt is the equivalent airspeed that a glide goes on with now.
func (g *missionGuide) glideKt() float64 {
	y := g.now()
	at := airAt(g.plan.Air, y[iAltitude])
	root := math.Sqrt(at.sigma)
	best := g.a.bestGlideKt(g.shape(), y[iMass], g.wind(y)*root)
	least := g.a.slowestKt(g.shape(), y[iMass])
	if y[iAltitude] <= g.finalFloor()+nearM {
		best = min(best, max(g.speedOnFinal(), least))
	}
	most := g.plan.Air.TASOfCAS(g.a.fastestKt(g.shape()), y[iAltitude]/feet) * root
	return max(min(best, most), min(least, most))
}

// easOf is the equivalent airspeed in knots.
func (g *guide) easOf(y *vector) float64 {
	return y[iSpeed] / knot * math.Sqrt(airAt(g.plan.Air, y[iAltitude]).sigma)
}

// arcM is by how much a turn through an angle at the speed of the glide makes the way
// longer: the arc less what it leads on. What the bank adds to the drag is left out.
func (a *Aircraft) arcM(s State, air flight.Air, c *Config, deg float64) float64 {
	v := a.bestGlideKt(c, s.MassKg, 0) / math.Sqrt(airAt(air, s.AltitudeFt*feet).sigma) * knot
	angle := deg * math.Pi / 180
	return turnRadiusM(v, circuitBank) * (angle - math.Sin(angle))
}

// turnRadiusM is that of a level turn at a true airspeed in m/s.
func turnRadiusM(v, bank float64) float64 { return v * v / (g0 * math.Tan(bank)) }

// bestGlideKt is the equivalent airspeed at which the aircraft glides farthest over
// the ground against a headwind, that too in equivalent knots: where
// D V/(V - w) is least. In calm air it is that of the least drag.
func (a *Aircraft) bestGlideKt(c *Config, massKg, headKt float64) float64 {
	zero, induced := a.dragTerms(c)
	calm := a.equivalentKt(massKg, math.Sqrt(zero/induced))
	if headKt == 0 {
		return calm
	}
	cost := func(r float64) float64 { return (r*r + 1/(r*r)) * r / max(r-headKt/calm, 1e-3) }
	lo, hi := 0.6, 2.0
	for range 40 { // halving by thirds: the cost has one valley
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if cost(a) < cost(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return calm * (lo + hi) / 2
}
