package energy

import (
	"math"

	"knockon/book"
)

// missionGuide flies a mission; the crew of a whole flight.
type missionGuide struct {
	*guide
	m     *Mission
	ready bool // it knows the runway and the descent
	done  bool // the mission is over
	parts int

	knots   []book.Time // of the pieces before knotted
	knotted int
}

// How departure and landing are flown (common practice for a twin turbofan).
const (
	spoolS        = 8.0  // s, of the take-off roll until the thrust stands
	spoolKt       = 12.0 // reached in that time
	rotateS       = 2.5
	firstGainKt   = 15.0 // above the rotation in the initial climb
	cleanUpFt     = 1000.0
	missionGateFt = 3000.0
	gateShare     = 0.6 // of the cruise height, at most
	gateAboveKt   = 40.0
	stableFt      = 1000.0
	slowFromFt    = 2000.0
	flareFt       = 30.0
	thresholdFt   = 50.0
	taxiLever     = 0.08
	idleTaxiLever = 0.05
)

// rest flies the rest of the mission.
func (g *missionGuide) rest() *Path { return g.ahead(math.Inf(1)) }

// ahead flies the mission on to a moment at least, in seconds, and gives the path
// so far.
func (g *missionGuide) ahead(until float64) *Path {
	if !g.ready {
		g.prepare()
		g.ready = true
	}
	for g.p.t < until && !g.done {
		g.onward()
	}
	return newPath(g)
}

// onward flies one part, and notes when it was the last.
func (g *missionGuide) onward() {
	before, was := g.p.t, g.p.tag
	e := g.part()
	g.parts++
	if g.p.t > before || g.p.tag != was {
		g.stuck = 0
	} else {
		g.stuck++
	}
	switch {
	case over(e) || g.stuck > 8 || g.p.tag.leg == legStand:
		g.p.End = e
		if g.p.tag.leg == legStand {
			g.p.End = Arrived
		} else if !over(e) {
			g.p.End = Lost
		}
		g.p.mark(g.p.End)
		g.done = true
	case g.parts == mostStretch:
		g.p.End, g.done = Lost, true
	}
}

func over(e Event) bool {
	return e == Dry || e == Sinks || e == TooFar || e == Lost || e == NeverStops || e == Stalls || e == CannotSlow
}

// prepare works out where the runway is and, in the air, how far the descent goes.
func (g *missionGuide) prepare() {
	g.planGlide()
	g.to = g.m.runway() + g.p.tag.detour
	if l := g.p.tag.leg; l >= legFirstClimb && l < legGate && l != legDescent && len(g.reach) == 0 {
		g.reachTable(g.p.startOf())
	}
}

// runway is where the final approach path meets the ground, m from the start:
// the flight is as long as the book says from about the lift-off to touchdown.
func (m *Mission) runway() float64 {
	if m.there != nil {
		return m.ends
	}
	taxi := 0.0
	v := 0.0
	for _, l := range m.out {
		taxi += l.seconds * (v + l.toKt*knot) / 2
		v = l.toKt * knot
	}
	return taxi + liftOffM + m.distanceM
}

// liftOffM is about how far the take-off roll goes; the book's distance counts
// from there.
const liftOffM = 1200.0

func (p *Profile) startOf() State {
	return State{TimeS: p.t, DistanceM: p.now[iDistance], AltitudeFt: p.now[iAltitude] / feet, TASKt: p.now[iSpeed] / knot, MassKg: p.now[iMass], FuelKg: p.now[iFuel]}
}

func (p *Profile) next(l leg) { p.tag.leg, p.tag.taxi, p.tag.until = l, 0, 0 }

func (g *missionGuide) next(l leg) Event {
	g.p.next(l)
	return again
}

// part flies the next stretch.
func (g *missionGuide) part() Event {
	if g.gliding() {
		return g.glideOn()
	}
	g.slows = g.slowing()
	switch g.p.tag.leg {
	case legTaxiOut:
		return g.taxi(g.m.out, legSpool)
	case legSpool:
		return g.timed(spoolS, spoolKt, 1, legRoll)
	case legRoll:
		return g.rollTo(g.m.rotateKt, legRotate)
	case legRotate:
		return g.rotate()
	case legFirstClimb:
		return g.firstClimb()
	case legClimb, legCruise, legDescent:
		return g.enRoute()
	case legHold:
		return g.holding()
	case legEmergency:
		return g.dive()
	case legGate:
		return g.gate()
	case legFinal:
		return g.finalPath()
	case legFlare:
		return g.flare()
	case legTouch, legBrake:
		return g.rollOut()
	case legTaxiIn:
		return g.taxi(g.m.in, legStand)
	}
	return g.standOn()
}

// standOn stands out what is left of the time at the end, when the systems have
// changed meanwhile.
func (g *missionGuide) standOn() Event {
	if g.p.tag.until == 0 {
		return Arrived
	}
	return g.even(0, 0, idleTaxiLever)
}

// taxi flies the next leg of a taxi.
func (g *missionGuide) taxi(legs []taxi, then leg) Event {
	k := g.p.tag.taxi
	if k >= len(legs) {
		return g.next(then)
	}
	lever := taxiLever
	if legs[k].toKt == 0 {
		lever = idleTaxiLever
	}
	g.p.tag.braking = legs[k].braking
	e := g.even(legs[k].seconds, legs[k].toKt, lever)
	g.p.tag.braking = false
	g.p.tag.taxi, g.p.tag.until = k+1, 0
	return e
}

func (g *missionGuide) timed(seconds, toKt, lever float64, then leg) Event {
	e := g.even(seconds, toKt, lever)
	g.next(then)
	return e
}

// even changes the ground speed evenly until the leg's time is over.
func (g *missionGuide) even(seconds, toKt, lever float64) Event {
	p := g.p
	if p.tag.until == 0 {
		p.tag.until = math.Round((p.t+seconds)*1e6) / 1e6
	}
	h := p.tag.until - p.t
	if h < 0.5e-6 {
		return again
	}
	wind := g.wind(&p.now) * knot
	gain := (toKt*knot + wind - p.now[iSpeed]) / h
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, lever: lever}}
	flow := f.forces(&p.now).flow + g.c.LeakKgPerS
	q := piece{start: p.t, length: h, y: p.now, flyer: f, tag: p.tag}
	q.dy = vector{iDistance: p.now[iSpeed] - wind, iSpeed: gain, iMass: -flow, iFuel: -flow}
	q.z, q.dz = along(&q.y, &q.dy, h), q.dy
	q.z[iDistance] += gain * h * h / 2
	q.dz[iDistance] += gain * h
	p.pieces = append(p.pieces, q)
	p.now, p.t = q.z, p.tag.until
	return again
}

// taxiFlow is the fuel flow of a taxi.
func (g *missionGuide) taxiFlow(bool) float64 {
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, lever: taxiLever}}
	return f.forces(&g.p.now).flow
}

// onWheels flies a stretch on the ground.
func (g *missionGuide) onWheels(lever float64, ends ...end) Event {
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, lever: g.lever(lever)}, roll: true}
	weak := end{TooFar, func(y *vector, _ float64) float64 { return f.forces(y).gain - 0.05 }}
	return g.p.fly(f, 1, append(ends, weak))
}

func (g *missionGuide) rollTo(kt float64, then leg) Event {
	e := g.onWheels(1, end{sped, func(y *vector, _ float64) float64 { return kt - g.casOf(y) }})
	if e == sped {
		g.next(then)
	}
	return e
}

func (g *missionGuide) rotate() Event {
	p := g.p
	if p.tag.until == 0 {
		p.tag.until = math.Round((p.t+rotateS)*1e6) / 1e6
	}
	until := p.tag.until
	e := g.onWheels(1, end{sped, func(_ *vector, t float64) float64 { return until - t - 1e-9 }})
	if e == sped {
		p.tag.liftOff, p.tag.liftOffV = p.t, p.now[iSpeed]-g.wind(&p.now)*knot
		g.next(legFirstClimb)
	}
	return e
}

// firstClimb climbs with take-off thrust to the height of the clean-up.
func (g *missionGuide) firstClimb() Event {
	e := g.towards(g.whenUp((g.m.fromFt+cleanUpFt)*feet, levelled))
	if e == levelled {
		g.next(legClimb)
		g.reachTable(g.p.startOf())
	}
	return e
}

// towards flies the next stretch of the first climb.
func (g *missionGuide) towards(done end) Event {
	if g.closed() {
		return g.decay(law{pathGiven: true}, done)
	}
	wanted := g.firstKt()
	if g.cas() >= wanted-nearKt {
		return g.fly(g.shape(), law{hold: holdCAS, lever: g.lever(1)}, 2, done)
	}
	faster := end{sped, func(y *vector, _ float64) float64 { return wanted - g.casOf(y) }}
	return g.fly(g.shape(), law{lever: g.lever(1), share: 0.3}, 2, done, faster)
}

// enRoute flies climb, cruise and descent down to the gate.
func (g *missionGuide) enRoute() Event {
	g.stage = stage(g.p.tag.leg - legClimb)
	before := g.stage
	g.watch()
	g.plan.ElevationFt = g.m.toFt + g.m.gateFt() - gateFt // the gate of the guide
	defer func() { g.plan.ElevationFt, g.until = g.m.toFt, nil }()
	if g.stage < descending && g.left() <= g.reachFrom(g.p.now[iAltitude])+spareM {
		g.stage = descending
	} else {
		e := g.stageStretch()
		if g.stage == before {
			return e
		}
	}
	if g.stage == approaching {
		g.meets()
		return g.next(legGate)
	}
	return g.next(legClimb + leg(g.stage))
}

func (g *guide) stageStretch() Event {
	switch g.stage {
	case climbing:
		return g.climb()
	case cruising:
		return g.cruise()
	}
	return g.descend()
}

func (g *missionGuide) height() float64 { return g.p.now[iAltitude] - g.m.toFt*feet }

// speedOnFinal is the airspeed wanted at a height on the final path.
func (g *missionGuide) speedOnFinal() float64 {
	kt := g.plan.ApproachKt
	if g.height() > stableFt*feet*1.5 {
		kt += gateAboveKt
	}
	return max(min(kt, g.mostKt()), g.a.ReferenceKt(g.shape(), g.p.now[iMass]))
}
