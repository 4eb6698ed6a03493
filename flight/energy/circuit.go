package energy

import "math"

// A circuit is flown back to a runway that is too near for a straight approach:
// along the runway or to it, half a turn, downwind, half a turn, and a final that
// meets the glide path at circuit height. That height and the speeds are common
// practice for an instrument circuit of a twin jet.
const (
	circuitFt   = 2500.0 // above the runway
	circuitKt   = 210.0
	circuitBank = 25 * math.Pi / 180
	finalM      = 5 * 1852.0 // the least final
	slowingM    = 6 * 1852.0 // room for slowing down before the final approach (common practice)
)

// circuitM is the way of a circuit that begins over the threshold: two half turns
// at circuit speed, the final, and the downwind beside it.
func (m *Mission) circuitM() float64 {
	v := m.plan.Air.TASOfCAS(circuitKt, m.toFt+circuitFt) * knot
	radius := turnRadiusM(v, circuitBank)
	return 2*math.Pi*radius + 2*max(finalM, circuitFt*feet/math.Tan(glide))
}

// gateFt is the height above the runway at which the final approach is met.
func (m *Mission) gateFt() float64 {
	if m.circuit {
		return circuitFt
	}
	return min(missionGateFt, gateShare*(m.plan.CruiseFt-m.toFt))
}

// inCircuit makes the plan one of a circuit, if it is one: no higher than it is
// now, or circuit height.
func (m *Mission) inCircuit(q *Profile) {
	if !m.circuit {
		return
	}
	now := q.now[iAltitude] / feet
	m.plan.CruiseFt = max(now, m.toFt+circuitFt)
	if now < lowFt {
		m.plan.ClimbKt, m.plan.DescentKt = min(m.plan.ClimbKt, circuitKt), min(m.plan.DescentKt, circuitKt)
	}
}

// goneAround is the mission from a go-around on. On the wheels it is a take-off
// from the roll.
func (m *Mission) goneAround(q *Profile) *Mission {
	n := *m
	n.circuit = true
	n.rounds++
	n.fromFt, n.fromKt = m.toFt, m.strip().HeadwindKt
	n.rotateKt = max(m.plan.ApproachKt, m.a.ReferenceKt(q.shape(), q.now[iMass]))
	n.inCircuit(q)
	q.tag.onGlide, q.tag.touch, q.ground = false, 0, nil
	if q.tag.leg.ground() {
		q.next(legRoll)
	} else {
		q.next(legFirstClimb)
	}
	return &n
}

// shape is the configuration of the last piece.
func (p *Profile) shape() *Config { return p.pieces[len(p.pieces)-1].flyer.c }

// makeRoom lengthens the way to one on which the aircraft can come down: from
// high above a field the crew lose height in turns, and to one that is too near
// they fly a circuit.
func (g *missionGuide) makeRoom() {
	switch l := g.p.tag.leg; {
	case l == legHold || l == legEmergency || l >= legGate || g.m.rejected:
		return
	case l < legFirstClimb:
		g.addWay(g.leftM() + g.m.circuitM())
		return
	}
	g.reachTable(g.p.startOf())
	need := g.reachFrom(g.p.now[iAltitude]) + slowingM
	left := g.leftM()
	if g.m.circuit {
		need = max(need, left+g.m.circuitM())
	}
	g.addWay(need)
}

// leftM is the way to the runway as the mission stands.
func (g *missionGuide) leftM() float64 {
	return max(0, g.m.runway()+g.p.tag.detour-g.p.now[iDistance])
}

// addWay makes the way that is left at least so long.
func (g *missionGuide) addWay(m float64) {
	here := g.p.now[iDistance]
	g.p.tag.detour = max(g.p.tag.detour, here+m-g.m.runway())
	g.to = g.m.runway() + g.p.tag.detour
}

// firstKt is the airspeed of the first climb, after a take-off or going around: 15
// kt above the rotation or the approach, or, where an engine is lost, what stands
// between a speed like V2 (1.13 times the stall, 14 CFR 25.107(b), and 5 kt above
// the rotation) and that.
func (g *missionGuide) firstKt() float64 {
	base := g.m.rotateKt
	wanted := base + firstGainKt
	if g.a.running(g.shape()) < g.a.Engines {
		safe := max(base+safeGainKt, 1.13*g.a.equivalentKt(g.p.now[iMass], g.a.mostLift(&g.c)))
		wanted = max(safe, min(g.cas(), wanted))
	}
	return min(wanted, max(g.a.fastestKt(g.shape()), base))
}

// safeGainKt is how much faster than the rotation the safe speed is (common practice).
const safeGainKt = 5.0
