package energy

import (
	"math"

	"knockon/flight"
)

// margins of the decisions.
const (
	nearKt = 0.5 // kt: the wanted speed is held
	nearM  = 1.0 // m: at the wanted level
)

// change flies level until the wanted airspeed is reached, with the given
// thrust. It gives up where the speed no longer changes.
func (g *guide) change(c *Config, wanted, lever float64, more ...end) Event {
	sign := 1.0
	if g.cas() > wanted {
		sign = -1
	}
	l := law{pathGiven: true, lever: lever}
	f := &flyer{a: g.a, c: c, air: g.plan.Air, wind: g.wind, law: l}
	reached := end{sped, func(y *vector, _ float64) float64 { return sign * (wanted - g.casOf(y)) }}
	stalls := end{starved, func(y *vector, _ float64) float64 { return sign*f.forces(y).gain - 0.002 }}
	return g.fly(c, l, shortStep, append([]end{reached, stalls}, more...)...)
}

// climb flies on towards the level.
func (g *guide) climb() Event {
	if g.now()[iAltitude] >= g.level-nearM {
		g.stage = cruising
		return levelled
	}
	wanted := g.climbKt()
	lever := g.lever(g.a.Climb)
	switch cas := g.cas(); {
	case g.closed():
		return g.decay(law{pathGiven: true}, g.whenTOD())
	case g.c.Frozen && cas > wanted+nearKt: // no thrust can be taken off to slow down
		return g.climbHeld(lever)
	case cas > wanted+nearKt:
		return g.change(g.shape(), wanted, g.idle(), g.whenTOD())
	case cas < wanted-nearKt && !g.slow:
		return g.gainSpeed(wanted, lever)
	}
	return g.climbHeld(lever)
}

// gainSpeed climbs on with half the excess thrust and gains speed with the other
// half (common practice).
func (g *guide) gainSpeed(wanted, lever float64) Event {
	l := law{lever: lever, share: 0.5}
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	reached := end{sped, func(y *vector, _ float64) float64 { return min(wanted, g.machKt(y)) - g.casOf(y) }}
	weak := end{starved, func(y *vector, _ float64) float64 { return f.forces(y).gain - 0.01 }}
	e := g.fly(g.shape(), l, shortStep, reached, weak, g.whenUp(g.level, levelled), g.whenTOD())
	g.slow = e == starved || (e == sped && g.cas() < wanted-nearKt)
	return e
}

// machKt is the airspeed that the Mach number of the plan leaves.
func (g *guide) machKt(y *vector) float64 {
	return flight.CASOfMach(min(g.plan.ClimbMach, g.a.MaxMach), y[iAltitude]/feet)
}

// climbKt is the airspeed of the climb. Where thrust is lost or the gear hangs
// out it is that of the least drag (common practice).
func (g *guide) climbKt() float64 {
	kt := g.plan.ClimbKt
	if g.a.running(g.shape()) < g.a.Engines || g.c.GearOut {
		kt = min(kt, 1.03*g.a.leastDragKt(g.shape(), g.now()[iMass]))
	}
	return g.wantedKt(kt)
}

// climbHeld climbs at the speed there is, or at the Mach number.
func (g *guide) climbHeld(lever float64) Event {
	l := law{hold: holdCAS, lever: lever}
	mach := min(g.plan.ClimbMach, g.a.MaxMach)
	over := end{crossover, func(y *vector, _ float64) float64 { return mach - g.machOf(y) }}
	if g.machOf(g.now()) >= mach-1e-5 {
		l.hold = holdMach
		over = end{crossover, func(y *vector, _ float64) float64 { return 1 }}
	}
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	given := end{ceiling, func(y *vector, _ float64) float64 {
		return f.forces(y).slope*y[iSpeed]/feet*60 - leastClimb
	}}
	ends := []end{g.whenUp(g.level, levelled), over, given, g.whenTOD()}
	if ft := g.altitude(); ft < lowFt-1 {
		ends = append(ends, g.whenUp(lowFt*feet, again))
	}
	e := g.fly(g.shape(), l, step, ends...)
	g.slow = false
	if e == ceiling || e == levelled {
		g.stage = cruising
		g.level = g.now()[iAltitude]
	}
	return e
}

// cruise flies level, or comes down to the level that is allowed.
func (g *guide) cruise() Event {
	y := g.now()
	if y[iAltitude] > g.level+nearM {
		return g.comeDown(g.level)
	}
	wanted := g.wantedKt(g.plan.ClimbKt)
	least := min(g.leastDragCAS(), wanted)
	full := g.forcesNow(law{pathGiven: true, lever: g.lever(g.a.Cruise)})
	cas := g.cas()
	switch {
	case g.closed():
		return g.decay(law{pathGiven: true}, g.whenTOD())
	case g.c.Frozen:
		return g.frozen(0, g.whenTOD())
	case full.thrust <= 0 || (full.gain < -0.002 && cas <= least+nearKt):
		return g.driftDown(least)
	case cas > wanted+nearKt:
		return g.change(g.shape(), wanted, g.idle(), g.whenTOD())
	case cas < wanted-nearKt && full.gain > 0.01:
		return g.change(g.shape(), wanted, g.a.Cruise, g.whenTOD())
	case full.gain < -1e-9:
		return g.slower(least)
	}
	l := law{pathGiven: true, needed: true, hold: holdCAS}
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	short := end{starved, func(y *vector, _ float64) float64 { o := f.forces(y); return g.a.Cruise*o.full - o.thrust }}
	way := end{TooFar, func(y *vector, _ float64) float64 { return y[iSpeed]/knot - g.wind(y) - 1 }}
	return g.fly(g.shape(), l, cruiseStep, g.whenTOD(), short, way, g.after(againS, again))
}

func (g *guide) forcesNow(l law) forces {
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	return f.forces(g.now())
}

// slower lets the speed fall level to where cruise thrust holds it, or to that
// of the least drag.
func (g *guide) slower(least float64) Event {
	l := law{pathGiven: true, lever: g.a.Cruise}
	slow := end{starved, func(y *vector, _ float64) float64 { return g.casOf(y) - least }}
	return g.fly(g.shape(), l, step, slow, g.whenTOD(), g.after(againS/3, again))
}

// driftDown sinks at the speed of the least drag with all the thrust there is
// until that holds the aircraft up.
func (g *guide) driftDown(least float64) Event {
	if cas := g.cas(); cas < least-nearKt || cas > least+5*nearKt {
		if e := g.trade(least); e != sped {
			return e
		}
	}
	l := law{hold: holdEAS, lever: g.lever(g.a.Cruise)}
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	holds := end{levelled, func(y *vector, _ float64) float64 { o := f.forces(y); return 1.005*o.drag - o.thrust }}
	e := g.fly(g.shape(), l, step, holds, g.whenTOD())
	g.level = g.now()[iAltitude]
	return e
}

// leastDragCAS is the calibrated airspeed of the least drag at the present level,
// where it is more than the equivalent one.
func (g *guide) leastDragCAS() float64 {
	y := g.now()
	eas := g.a.leastDragKt(g.shape(), y[iMass])
	return g.plan.Air.CASOfTAS(eas/math.Sqrt(airAt(g.plan.Air, y[iAltitude]).sigma), y[iAltitude]/feet)
}

// trade turns height into speed or back, without thrust; downward as steeply as
// it takes to gain half a metre a second every second.
func (g *guide) trade(wanted float64) Event {
	sign, slope := 1.0, 0.0
	if g.cas() > wanted {
		sign = -1
	} else {
		level := g.forcesNow(law{pathGiven: true, lever: g.lever(g.a.Cruise)})
		slope = max(min(-0.06, level.gain/g0-0.05), -steepest)
	}
	reached := end{sped, func(y *vector, _ float64) float64 { return sign * (wanted - g.casOf(y)) }}
	return g.fly(g.shape(), law{pathGiven: true, slope: slope, lever: g.lever(g.a.Cruise) * max(0, sign)}, shortStep, reached, g.after(600, again))
}

// decay flies the path with idle thrust while the speed falls, down to the stall.
func (g *guide) decay(l law, ends ...end) Event {
	l.lever = g.idle()
	stall := func(y *vector) float64 {
		return g.a.equivalentKt(y[iMass], g.a.mostLift(&g.c)) / math.Sqrt(airAt(g.plan.Air, y[iAltitude]).sigma)
	}
	slow := end{Stalls, func(y *vector, _ float64) float64 { return y[iSpeed]/knot - stall(y) }}
	return g.fly(g.shape(), l, shortStep, append(ends, slow, g.after(againS/3, again))...)
}

// comeDown descends at idle to a level, or to the gate.
func (g *guide) comeDown(to float64) Event {
	schedule := g.plan.DescentKt
	if g.altitude() < lowFt+1 {
		schedule = min(schedule, lowKt)
	}
	wanted := g.wantedKt(schedule)
	if g.a.running(g.shape()) == 0 { // a glide
		wanted = g.wantedKt(g.a.leastDragKt(g.shape(), g.now()[iMass]))
	}
	cas, ft := g.cas(), g.altitude()
	mach := min(g.plan.ClimbMach, g.a.MaxMach)
	held := flight.CASOfMach(mach, ft)
	floor := to
	if ft > lowFt+1 && to < lowFt*feet {
		floor = lowFt * feet
	}
	switch {
	case g.c.Frozen:
		return g.frozen(-math.Sin(glide), g.whenDown(floor, again))
	case cas > wanted+nearKt:
		return g.change(g.shape(), wanted, g.idle())
	case held < g.plan.DescentKt-nearKt && cas > held-2 && ft > lowFt+1 && cas < min(g.plan.DescentKt, g.a.fastestKt(g.shape()))-nearKt:
		until := end{crossover, func(y *vector, _ float64) float64 {
			return min(g.plan.DescentKt, g.a.fastestKt(g.shape())) - g.casOf(y)
		}}
		return g.fly(g.shape(), law{hold: holdMach, lever: g.idle()}, step, until, g.whenDown(floor, again))
	case cas < wanted-5:
		faster := end{sped, func(y *vector, _ float64) float64 { return wanted - g.casOf(y) }}
		idle := g.forcesNow(law{pathGiven: true, lever: g.idle()})
		dive := max(idle.gain/g0-0.05, -steepest) // gains half a metre a second every second
		return g.fly(g.shape(), law{pathGiven: true, slope: dive, lever: g.idle()}, shortStep, faster, g.whenDown(floor, again), g.after(120, again))
	}
	return g.fly(g.shape(), law{hold: holdCAS, lever: g.idle()}, step, g.whenDown(floor, again))
}

// descend comes down to the gate.
func (g *guide) descend() Event {
	gate := (g.plan.ElevationFt + gateFt) * feet
	if g.now()[iAltitude] <= gate+nearM {
		g.stage = approaching
		return levelled
	}
	return g.comeDown(gate)
}

// approach flies level to the final approach path and down it.
func (g *guide) approach() Event {
	c := g.plan.Landing
	height := g.now()[iAltitude] - g.plan.ElevationFt*feet
	path := height / math.Tan(glide)
	if height < nearM { // came down without thrust
		return g.touch()
	}
	wanted := max(g.plan.ApproachKt, g.a.slowestKt(&c, g.now()[iMass])*1.02)
	if fast := g.a.fastestKt(&c); g.cas() > fast {
		return g.slowForLanding(fast - 1)
	}
	if g.left() > path+nearM {
		return g.levelToPath(path)
	}
	if cas := g.cas(); cas > wanted+nearKt {
		return g.slowOnPath(&c, wanted)
	}
	return g.final(&c)
}

// slowForLanding slows down level to the speed at which gear and landing flaps
// may go out; the flaps before them go out as the speed allows it.
func (g *guide) slowForLanding(wanted float64) Event {
	mid := g.c
	cas := g.cas() + nearKt
	for i := g.c.Setting + 1; i <= g.plan.Landing.Setting; i++ {
		if g.a.Settings[i].MaxKt >= cas {
			mid.Setting = i
			continue
		}
		wanted = max(wanted, g.a.Settings[i].MaxKt-1)
		break
	}
	return g.change(&mid, wanted, g.idle())
}

// touch says how a flight ends that has met the ground by itself.
func (g *guide) touch() Event {
	if g.left() > nearestM {
		return Sinks
	}
	return Arrived
}

// nearestM is how far before the runway a glide may end and still count.
const nearestM = 300.0

// levelToPath keeps level flight until the path is met.
func (g *guide) levelToPath(path float64) Event {
	if g.wantedThrust(g.shape()) > g.a.Climb*g.fullNow(g.shape()) {
		return g.driftDown(min(g.cas(), g.a.leastDragKt(g.shape(), g.now()[iMass])))
	}
	l := law{pathGiven: true, needed: true, hold: holdCAS}
	way := end{TooFar, func(y *vector, _ float64) float64 { return y[iSpeed]/knot - g.wind(y) - 1 }}
	return g.fly(g.shape(), l, step, g.whenLeft(path, again), way)
}

func (g *guide) wantedThrust(c *Config) float64 {
	f := &flyer{a: g.a, c: c, air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, needed: true, hold: holdCAS}}
	return f.forces(g.now()).thrust
}

func (g *guide) fullNow(c *Config) float64 {
	f := &flyer{a: g.a, c: c, air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, needed: true, hold: holdCAS}}
	return f.forces(g.now()).full
}

func (g *guide) slowOnPath(c *Config, wanted float64) Event {
	l := law{pathGiven: true, fixed: true, slope: -math.Tan(glide), lever: g.idle()}
	slow := end{sped, func(y *vector, _ float64) float64 { return g.casOf(y) - wanted }}
	return g.fly(c, l, shortStep, slow, g.whenDown(g.plan.ElevationFt*feet+2e-6, Arrived))
}

// final flies the path at approach speed to the runway; thrust that is short
// makes the path steeper.
func (g *guide) final(c *Config) Event {
	l := law{pathGiven: true, needed: true, hold: holdCAS, fixed: true, slope: -math.Tan(glide)}
	f := &flyer{a: g.a, c: c, air: g.plan.Air, wind: g.wind, law: l}
	if o := f.forces(g.now()); o.thrust > o.full {
		l = law{hold: holdCAS, lever: 1}
	}
	down := g.whenDown(g.plan.ElevationFt*feet+2e-6, Arrived)
	if !l.pathGiven && g.left() > (g.now()[iAltitude]-g.plan.ElevationFt*feet)/math.Tan(2*glide) {
		down.event = Sinks
	}
	return g.fly(c, l, shortStep, down)
}
