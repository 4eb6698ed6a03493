package energy

import (
	"knockon/book"
	"knockon/flight"
)

// How far beyond its limits an aircraft is held together: 14 CFR 25.335(b)(1)
// keeps the greatest operating speed to 0.8 of the design dive speed, and (b)(2)
// asks for a margin of 0.07 in Mach number where less is not shown (from memory).
const (
	diveRatio    = 0.8
	diveMach     = 0.07
	mostDiveMach = 0.98 // beyond it the polar says nothing
)

// frozen flies with the thrust there is along a path of the given gradient. Levels
// are kept: what thrust is too much becomes speed, up to the design dive speed,
// where the flight ends. A descent gives way to the limit speed first, as far as
// level flight; one that cannot get down with its thrust goes on until it runs dry.
// Where the thrust is too little it sinks at the least speed.
func (g *guide) frozen(slope float64, ends ...end) Event {
	lever := g.p.start.Lever
	fast := min(g.mostKt(), flight.CASOfMach(g.a.MaxMach, g.altitude()))
	slow := min(g.a.slowestKt(g.shape(), g.now()[iMass]), fast-1)
	cas := g.cas()
	ends = append(ends, g.after(againS/3, again), g.whenTooFast())
	l := law{pathGiven: true, slope: slope, wished: slope, lever: lever}
	o := g.forcesNow(l)
	switch {
	case slope < 0 && cas > fast-nearKt && o.gain > 0:
		return g.flatter(l, fast, ends)
	case cas <= slow+nearKt && o.gain < 0:
		return g.fly(g.shape(), law{hold: holdCAS, wished: slope, lever: lever}, step, ends...)
	}
	top, bottom := book.NoLimit, min(slow, cas)-nearKt
	if slope < 0 {
		top = max(fast, cas) + nearKt
	}
	over := end{again, func(y *vector, _ float64) float64 { return min(top-g.casOf(y), g.casOf(y)-bottom) }}
	return g.fly(g.shape(), l, step, append(ends, over)...)
}

// flatter comes down at the limit speed as far as the thrust allows it, and flies
// level where it does not: in no case up.
func (g *guide) flatter(l law, fast float64, ends []end) Event {
	l.slope = 0
	level := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
	slows := func(y *vector) bool { return level.forces(y).gain < -leastSink*g0 }
	if g.cas() <= fast+2*nearKt && slows(g.now()) {
		held := law{hold: holdCAS, wished: l.wished, lever: l.lever}
		down := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: held}
		flat := end{again, func(y *vector, _ float64) float64 { return -down.forces(y).slope }}
		return g.fly(g.shape(), held, step, append(ends, flat)...)
	}
	slow := end{sped, func(y *vector, _ float64) float64 {
		if !slows(y) {
			return 1
		}
		return g.casOf(y) - fast
	}}
	return g.fly(g.shape(), l, shortStep, append(ends, slow)...)
}

// leastSink is the gradient below which a descent is level flight.
const leastSink = 0.001

// whenTooFast ends a flight at its design dive speed.
func (g *guide) whenTooFast() end {
	mach := min(g.a.MaxMach+diveMach, mostDiveMach)
	return end{CannotSlow, func(y *vector, _ float64) float64 {
		return min(g.a.MaxKt/diveRatio-g.casOf(y), 1000*(mach-g.machOf(y)))
	}}
}

// Overspeed is a time in which a flight is faster than its limits, by more than the
// tolerance of the overspeed warning that 14 CFR 25.1303(c)(1) asks for: 6 kt or
// Mach 0.01.
type Overspeed struct {
	From, To           book.Time
	Kt, Mach           float64 // at most, of the whole flight
	LimitKt, LimitMach float64
}

// TooFast is the first such time up to a moment, as far as the steps of the method
// tell, and the greatest speeds; ok is false where there is none.
func (p *Path) TooFast(until book.Time) (o Overspeed, ok bool) {
	a, air, over := p.mission.a, p.mission.plan.Air, false
	o.LimitKt, o.LimitMach = a.MaxKt, a.MaxMach
	for i := range p.flown.pieces {
		x := &p.flown.pieces[i]
		at := book.AtSeconds(x.start + x.length)
		if x.tag.leg.ground() || at > until {
			continue
		}
		kt, ft := x.z[iSpeed]/knot, x.z[iAltitude]/feet
		cas, mach := air.CASOfTAS(kt, ft), kt/air.SoundKt(ft)
		o.Kt, o.Mach = max(o.Kt, cas), max(o.Mach, mach)
		now := cas > a.MaxKt+6 || mach > a.MaxMach+0.01
		if now && !ok {
			o.From, ok, over = book.AtSeconds(x.start), true, true
		}
		if over = over && now; over {
			o.To = at
		}
	}
	return o, ok
}
