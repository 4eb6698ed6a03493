package energy

import (
	"math"
)

// gate keeps level and slows down until the final path is met.
func (g *missionGuide) gate() Event {
	path := g.height() / math.Tan(glide)
	if g.left() <= path+1e-3 {
		return g.next(legFinal)
	}
	meets := g.whenLeft(path, again)
	wanted := g.speedOnFinal()
	switch cas := g.cas(); {
	case g.closed():
		return g.decay(law{pathGiven: true}, meets)
	case g.c.Frozen:
		return g.frozen(0, meets)
	case cas > wanted+nearKt:
		return g.change(g.shape(), wanted, g.idle(), meets)
	case cas < wanted-5 && g.forcesNow(law{pathGiven: true, lever: g.lever(1)}).gain < 0.01:
		return g.dip(wanted, meets)
	case cas < wanted-5:
		return g.change(g.shape(), wanted, g.lever(1), meets)
	case g.wantedThrust(g.shape()) > g.fullNow(g.shape()):
		return g.fly(g.shape(), law{hold: holdCAS, lever: g.lever(1)}, shortStep, meets, g.after(60, again))
	}
	return g.fly(g.shape(), law{pathGiven: true, needed: true, hold: holdCAS}, step, meets)
}

// dip gains speed downward with all the thrust there is, where level flight does
// not gain any.
func (g *missionGuide) dip(wanted float64, meets end) Event {
	o := g.forcesNow(law{pathGiven: true, lever: g.lever(1)})
	faster := end{sped, func(y *vector, _ float64) float64 { return wanted - g.casOf(y) }}
	slope := max(o.gain/g0-0.05, -steepest)
	return g.fly(g.shape(), law{pathGiven: true, slope: slope, lever: g.lever(1)}, shortStep, faster, meets, g.after(60, again))
}

// finalPath flies down the path to the flare, slowing down on the way.
func (g *missionGuide) finalPath() Event {
	g.p.tag.onGlide = true
	flare := (g.m.toFt + flareFt) * feet
	if g.p.now[iAltitude] <= flare+1e-4 {
		return g.overRunway()
	}
	slope := -math.Tan(glide)
	down := g.whenDown(flare, levelled)
	ends := []end{down}
	if h := g.height(); h > stableFt*feet*1.5+1e-3 {
		ends = append(ends, g.whenDown((g.m.toFt+stableFt*1.5)*feet, again))
	}
	wanted := g.speedOnFinal()
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, needed: true, hold: holdCAS, fixed: true, slope: slope}}
	o := f.forces(g.now())
	idle := g.idle()
	switch {
	case g.closed():
		return g.decay(law{pathGiven: true, fixed: true, slope: slope}, ends...)
	case g.c.Frozen:
		return g.frozen(-math.Sin(glide), ends...)
	case o.thrust > o.full:
		return g.fly(g.shape(), law{hold: holdCAS, lever: 1}, shortStep, ends...)
	case g.cas() > wanted+nearKt:
		slow := end{sped, func(y *vector, _ float64) float64 { return g.casOf(y) - wanted }}
		return g.fly(g.shape(), law{pathGiven: true, fixed: true, slope: slope, lever: idle}, shortStep, append(ends, slow)...)
	case o.thrust < idle*o.full:
		drag := end{again, func(y *vector, _ float64) float64 { o := f.forces(y); return idle*o.full*1.001 - o.thrust }}
		return g.fly(g.shape(), law{pathGiven: true, fixed: true, slope: slope, lever: idle}, shortStep, append(ends, drag)...)
	}
	return g.fly(g.shape(), f.law, shortStep, ends...)
}

// overRunway begins the flare where the height for it is reached over the runway;
// before it the flight meets the ground.
func (g *missionGuide) overRunway() Event {
	if g.left() <= flareRoomM {
		g.p.tag.flaredKt = g.cas()
		return g.next(legFlare)
	}
	return g.fly(g.shape(), law{hold: holdCAS, lever: g.lever(1)}, shortStep, g.whenDown(g.m.toFt*feet, Sinks))
}

// flare rounds out: down to the ground at a third of the sink.
func (g *missionGuide) flare() Event {
	ground := g.m.toFt * feet
	e := g.fly(g.shape(), law{pathGiven: true, slope: -math.Sin(glide) * 0.4, lever: g.idle()}, 1, g.whenDown(ground, levelled))
	if e == levelled {
		g.p.now[iAltitude] = ground
		g.p.tag.onGlide, g.p.tag.touch = false, g.p.t
		g.next(legTouch)
	}
	return e
}
