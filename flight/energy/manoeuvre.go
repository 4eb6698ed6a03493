package energy

import "knockon/flight"

// closePause ends a hold: what was flown in it has made no way.
func (p *Profile) closePause() {
	if p.tag.pause > 0 {
		flown := p.now[iDistance] - p.tag.pause
		p.tag.detour, p.tag.held, p.tag.pause = p.tag.detour+flown, p.tag.held+flown, 0
	}
}

// held is the mission from the beginning of a hold on.
func (m *Mission) held(turn Turn, q *Profile) *Mission {
	n := *m
	if turn.LevelFt == 0 {
		turn.LevelFt = q.now[iAltitude] / feet
	}
	n.hold, n.plan.CruiseFt = turn, turn.LevelFt
	q.closePause()
	q.tag.pause = q.now[iDistance]
	q.next(legHold)
	return &n
}

// descended is the mission from the beginning of an emergency descent on. It stays
// at the level that it came down to.
func (m *Mission) descended(turn Turn, q *Profile) *Mission {
	n := *m
	n.capFt, n.plan.CruiseFt = turn.LevelFt, turn.LevelFt
	q.closePause()
	q.next(legEmergency)
	return &n
}

// holding goes to the level of the hold and keeps it at the holding speed, in turns
// that count as flown straight and in calm air, until the time or the mass.
func (g *missionGuide) holding() Event {
	if g.heldLongEnough() {
		return g.holdEnds()
	}
	if g.p.tag.pause == 0 { // it has glided meanwhile
		g.p.tag.pause = g.p.now[iDistance]
	}
	wind, ft := g.wind, g.p.now[iAltitude]
	g.wind, g.stage = still, descending // nothing here ends at a top of descent
	defer func() { g.wind = wind }()
	switch {
	case g.c.Frozen:
		return g.frozen(0, g.untilHeld()...)
	case ft > g.level+nearM:
		return g.comeDown(g.level)
	case g.closed():
		return g.decay(law{pathGiven: true}, g.untilHeld()...)
	case ft < g.level-nearM:
		return g.climb()
	}
	return g.holdLevel(g.untilHeld())
}

func (g *missionGuide) heldLongEnough() bool {
	h := &g.m.hold
	return h.UntilS > 0 && g.p.t >= h.UntilS-1e-7 || h.UntilMassKg > 0 && g.p.now[iMass] <= h.UntilMassKg+1e-6 || h.UntilS <= 0 && h.UntilMassKg <= 0
}

// holdEnds flies on from a hold, over the way that was left or what the descent takes.
func (g *missionGuide) holdEnds() Event {
	g.p.closePause()
	g.next(legCruise)
	g.makeRoom()
	return again
}

func (g *missionGuide) untilHeld() (ends []end) {
	h := g.m.hold
	if h.UntilS > 0 {
		ends = append(ends, end{again, func(_ *vector, t float64) float64 { return h.UntilS - t }})
	}
	if h.UntilMassKg > 0 {
		ends = append(ends, end{again, func(y *vector, _ float64) float64 { return y[iMass] - h.UntilMassKg }})
	}
	return ends
}

// holdLevel keeps the level as far as climb thrust does, and sinks otherwise.
func (g *missionGuide) holdLevel(ends []end) Event {
	kt := g.a.holdKt(g.shape(), g.p.now[iMass])
	cas := g.cas()
	short := func(y *vector, f *flyer) float64 { o := f.forces(y); return g.a.Climb*o.full - o.thrust }
	level := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, needed: true, hold: holdCAS}}
	switch {
	case cas > kt+nearKt:
		return g.change(g.shape(), kt, g.idle(), ends...)
	case short(g.now(), level) <= 0:
		return g.sinkTo(ends)
	case cas < kt-nearKt && g.forcesNow(law{pathGiven: true, lever: g.a.Climb}).gain > 0.01:
		return g.change(g.shape(), kt, g.a.Climb, ends...)
	}
	ends = append(ends, end{starved, func(y *vector, _ float64) float64 { return short(y, level) }})
	return g.fly(g.shape(), level.law, cruiseStep, ends...)
}

// sinkTo sinks with climb thrust until that holds the aircraft up.
func (g *missionGuide) sinkTo(ends []end) Event {
	l := law{hold: holdCAS, lever: g.lever(g.a.Climb)}
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	e := g.fly(g.shape(), l, step, append(ends, end{levelled, func(y *vector, _ float64) float64 { o := f.forces(y); return 1.005*o.drag - o.thrust }})...)
	g.level = g.p.now[iAltitude]
	return e
}

// holdKt is the airspeed of a hold: the holding speed of the aircraft, or that of
// the least drag with gear or flaps out, within what is allowed and what flies.
func (a *Aircraft) holdKt(c *Config, massKg float64) float64 {
	kt := a.HoldingKt
	if kt == 0 || c.GearOut || c.Setting > 0 {
		kt = a.leastDragKt(c, massKg)
	}
	most := a.fastestKt(c)
	return max(min(kt, most), min(a.slowestKt(c, massKg), most))
}

// dive comes down with idle thrust at the limits of Mach number and airspeed, with
// the speed brakes as far as the systems have them out.
func (g *missionGuide) dive() Event {
	ft := g.altitude()
	if g.p.now[iAltitude] <= g.level+nearM {
		g.next(legCruise)
		g.makeRoom()
		return again
	}
	most := g.a.fastestKt(g.shape())
	atMach := func(y *vector) float64 { return flight.CASOfMach(g.a.MaxMach, y[iAltitude]/feet) }
	wanted, down := min(most, atMach(g.now())), g.whenDown(g.level, again)
	switch cas := g.cas(); {
	case g.c.Frozen:
		return g.frozen(-frozenDive, down)
	case cas > wanted+nearKt:
		return g.change(g.shape(), wanted, g.idle(), g.after(60, again))
	case cas < wanted-nearKt:
		return g.pushOver(end{sped, func(y *vector, _ float64) float64 { return min(most, atMach(y)) - g.casOf(y) }}, down)
	case atMach(g.now()) < most-nearKt && ft > 0:
		over := end{crossover, func(y *vector, _ float64) float64 { return most - g.casOf(y) }}
		return g.fly(g.shape(), law{hold: holdMach, lever: g.idle()}, step, over, down)
	}
	return g.fly(g.shape(), law{hold: holdCAS, lever: g.idle()}, step, down)
}

// frozenDive is the gradient of an emergency descent with thrust that stands: what
// its speed allows of that.
const frozenDive = 0.1

// pushOver gains speed downward, a metre a second every second (common practice:
// smoothly, without weightlessness).
func (g *missionGuide) pushOver(ends ...end) Event {
	idle := g.forcesNow(law{pathGiven: true, lever: g.idle()})
	slope := max((idle.gain-1)/g0, -steepest)
	return g.fly(g.shape(), law{pathGiven: true, slope: slope, lever: g.idle()}, shortStep, append(ends, g.after(60, again))...)
}
