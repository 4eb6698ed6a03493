package energy

import (
	"math"
	"slices"
	"sort"

	"knockon/book"
	"knockon/flight"
)

// Path is a mission as flown; it is a flight.Path. It is frozen. One that is open
// has not been flown to its end yet: its End is up to where it is known, and
// FlyOn gives a longer one.
type Path struct {
	mission *Mission
	flown   *Profile
	knots   []book.Time
	end     book.Time
	open    *missionGuide // that flies on; nil: the path goes to its end
	before  *Path         // of a diversion: the flight up to since, that included
	since   book.Time
}

var _ flight.Path = (*Path)(nil)

func newPath(g *missionGuide) *Path {
	p := *g.p
	q := &Path{mission: g.m, flown: &p, end: book.Time(math.Round(p.t * 1e6))}
	if g.done {
		p.pieces = slices.Clone(p.pieces) // no more room than is needed: paths are kept
	} else {
		q.open, q.end = g, q.end-1 // at its very end the next piece will count
	}
	q.knots = g.knotsOf(q)
	if p.ground != nil {
		q.knots = append(q.knots, p.ground.knots()...)
	}
	if g.done {
		q.knots = append(q.knots, q.end)
	}
	slices.Sort(q.knots)
	q.knots = slices.Compact(q.knots)
	if !g.done {
		last, _ := slices.BinarySearch(q.knots, q.end+1)
		q.knots = q.knots[:last]
	}
	return q
}

// knotsOf gives the knots of the pieces of a path. Those of all but the last piece
// are final, and kept for a longer path.
func (g *missionGuide) knotsOf(p *Path) []book.Time {
	last := len(p.flown.pieces) - 1
	if len(g.knots) == 0 {
		g.knots = append(g.knots, 0)
	}
	p.knots = g.knots
	for ; g.knotted < last; g.knotted++ {
		p.addKnots(g.knotted)
	}
	g.knots = p.knots
	p.knots = slices.Clone(g.knots)
	if last >= 0 {
		p.addKnots(last)
	}
	return p.knots
}

// addKnots makes knots of where a piece begins and of what happens in it.
func (p *Path) addKnots(i int) {
	list := p.flown.pieces
	x := &list[i]
	start := book.Time(math.Round(x.start * 1e6))
	if i > 0 && (list[i-1].flyer != x.flyer || list[i-1].tag != x.tag) {
		p.knots = append(p.knots, start)
	}
	if x.tag.leg == legFirstClimb || x.tag.leg == legClimb {
		p.addMoment(book.AtSeconds(x.tag.liftOff+runDownS), x, start)
	}
	p.addIcing(i, start)
}

// Open says that the path has not been flown to its end.
func (p *Path) Open() bool { return p.open != nil }

// FlyOn gives an open path as flown farther, at least twice as far from a moment
// as it goes now; a path that is not open is as it is. A path can be flown on
// once.
func (p *Path) FlyOn(from book.Time) *Path {
	if p.open == nil {
		return p
	}
	return p.keep(p.open.ahead(p.end.Seconds() + max(p.end-from, leastAhead).Seconds()))
}

// leastAhead is how far an open path is flown ahead at least.
const leastAhead = 60 * book.Second

// Whole gives the path as flown to its end.
func (p *Path) Whole() *Path {
	if p.open == nil {
		return p
	}
	return p.keep(p.open.rest())
}

func (p *Path) keep(q *Path) *Path {
	q.before, q.since = p.before, p.since
	return q.joined()
}

// joined is the path with the knots of the one that it turned off.
func (p *Path) joined() *Path {
	if p.before == nil {
		return p
	}
	was, now := p.before.knots, p.knots
	i, found := slices.BinarySearch(was, p.since)
	if found {
		i++
	}
	j, _ := slices.BinarySearch(now, p.since+1)
	p.knots = append(slices.Clone(was[:i]), now[j:]...)
	return p
}

// runDownS is how long the wheels turn after lift-off (common practice).
const runDownS = 10.0

func (p *Path) addMoment(t book.Time, x *piece, start book.Time) {
	if t > start && t < start+book.AtSeconds(x.length) {
		p.knots = append(p.knots, t)
	}
}

// addIcing makes a knot of the moment at which a piece passes into or out of
// the icing layer.
func (p *Path) addIcing(i int, start book.Time) {
	x := &p.flown.pieces[i]
	to := start + book.AtSeconds(x.length) + 1
	if i+1 < len(p.flown.pieces) {
		to = min(to, book.Time(math.Round(p.flown.pieces[i+1].start*1e6))+1)
	}
	for _, edge := range p.mission.icing {
		if m, ok := p.passes(edge, start, to-1); ok {
			p.knots = append(p.knots, m)
		}
	}
}

// passes finds the first microsecond after from, not after to, on the other
// side of an altitude.
func (p *Path) passes(ft float64, from, to book.Time) (at book.Time, ok bool) {
	above := func(t book.Time) bool { x, s := p.at(t); return x.part(iAltitude, s)/feet >= ft }
	was := above(from)
	if to <= from || above(to) == was {
		return 0, false
	}
	for to-from > 1 {
		if mid := from + (to-from)/2; above(mid) != was {
			to = mid
		} else {
			from = mid
		}
	}
	return to, true
}

func (p *Path) icing(t book.Time) bool {
	x, s := p.at(t)
	ft := x.part(iAltitude, s) / feet
	return !x.tag.leg.ground() && ft >= p.mission.icing[0] && ft < p.mission.icing[1]
}

// End and Knots are as flight.Path says.
func (p *Path) End() book.Time     { return p.end }
func (p *Path) Knots() []book.Time { return slices.Clone(p.knots) }

// Ending is how the flight ended.
func (p *Path) Ending() Event { return p.flown.End }

func (p *Path) pieceAt(t book.Time) int {
	s := min(max(t, 0), p.end).Seconds()
	list := p.flown.pieces
	return max(0, sort.Search(len(list), func(i int) bool { return list[i].start > s })-1)
}

func (p *Path) at(t book.Time) (*piece, float64) {
	x := &p.flown.pieces[p.pieceAt(t)]
	return x, min(max(t, 0), p.end).Seconds() - x.start
}

// part is one part of the state s seconds into the piece.
func (p *piece) part(i int, s float64) float64 {
	h := p.length
	u := s / h
	a, b := 1+2*u, 1-u
	return (p.y[i]*a+h*u*p.dy[i])*b*b + (p.z[i]*(3-2*u)-h*b*p.dz[i])*u*u
}

// rate is its derivative.
func (p *piece) rate(i int, s float64) float64 {
	h := p.length
	u := s / h
	return 6*u*(1-u)*(p.z[i]-p.y[i])/h + (1-u)*(1-3*u)*p.dy[i] + u*(3*u-2)*p.dz[i]
}

// The places of the quantities in book.Quantities.
const (
	qTimeS = iota
	qOnGround
	qHeightFt
	qAltitudeFt
	qAirspeedKt
	qTrueAirspeedKt
	qMach
	qGroundSpeedKt
	qWheelSpeedKt
	qVerticalSpeedFtPerMin
	qAirTemperatureC
	qTotalTemperatureC
	qIcing
	qThrustPct
	qMassKg
	qFuelKg
	qDistanceNm
	qToGoNm
	qOnGlidePath
	qBraking
	qHeadwindKt
	qRunwayWet
)

// Value gives a quantity at a moment; see flight.Path.
func (p *Path) Value(q int, t book.Time) float64 {
	if p.before != nil && t <= p.since {
		return p.before.Value(q, t)
	}
	x, s := p.at(t)
	v, ok := p.motion(q, x, s)
	if !ok {
		v = p.other(q, x, s, t)
	}
	return v
}

func (p *Path) motion(q int, x *piece, s float64) (v float64, ok bool) {
	air := p.mission.plan.Air
	if q == qTimeS || q == qWheelSpeedKt || q >= qIcing && q != qThrustPct {
		return 0, false
	}
	ft, kt := x.part(iAltitude, s)/feet, x.part(iSpeed, s)/knot
	switch q {
	case qOnGround:
		return yes(x.tag.leg.ground()), true
	case qAltitudeFt:
		return ft, true
	case qHeightFt:
		return max(0, ft-p.ground(x.part(iDistance, s))), true
	case qAirspeedKt:
		return air.CASOfTAS(max(kt, 0), ft), true
	case qTrueAirspeedKt:
		return max(kt, 0), true
	case qMach:
		return max(kt, 0) / air.SoundKt(ft), true
	case qGroundSpeedKt:
		return p.overGroundKt(x, s), true
	case qVerticalSpeedFtPerMin:
		return x.rate(iAltitude, s) / feet * 60, true
	case qAirTemperatureC:
		return air.TemperatureC(ft), true
	case qTotalTemperatureC:
		return flight.TotalC(air.TemperatureC(ft), max(kt, 0)/air.SoundKt(ft), 1), true
	case qThrustPct:
		return p.thrust(x, s), true
	}
	return 0, false
}

// thrust is what the flight needs; where the thrust is frozen that is not what
// it has.
func (p *Path) thrust(x *piece, s float64) float64 {
	y := x.at(s)
	o := x.flyer.forces(&y)
	if x.flyer.c.Frozen && (x.tag.leg >= legCruise && x.tag.leg <= legFinal) {
		o.thrust = o.drag + y[iMass]*g0*x.flyer.law.wished
	}
	return 100 * min(max(0, o.thrust/max(o.full, 1)), 1)
}

func (p *Path) other(q int, x *piece, s float64, t book.Time) float64 {
	switch q {
	case qTimeS:
		return min(max(t, 0), p.end).Seconds()
	case qWheelSpeedKt:
		return p.wheels(x, s)
	case qIcing:
		return yes(p.icing(t))
	case qMassKg:
		return x.part(iMass, s)
	case qFuelKg:
		return max(0, x.part(iFuel, s))
	case qDistanceNm:
		return x.part(iDistance, s) / 1852
	case qToGoNm:
		return max(0, p.leftM(x, s)-thresholdFt*feet/math.Tan(glide)) / 1852
	case qOnGlidePath:
		return yes(x.tag.onGlide)
	case qBraking:
		return yes(x.tag.braking)
	case qHeadwindKt:
		y := x.at(s)
		return x.flyer.wind(&y)
	case qRunwayWet:
		return yes(p.mission.wet)
	}
	return 0
}

// ground is the elevation below.
func (p *Path) ground(distance float64) float64 { return p.mission.below(distance).ft }

// leftM is how far the runway is s seconds into a piece; a hold makes no way.
func (p *Path) leftM(x *piece, s float64) float64 {
	at := x.part(iDistance, s)
	if x.tag.pause > 0 {
		at = x.tag.pause
	}
	return p.mission.runway() + x.tag.detour - at
}

// overGroundKt is the speed over the ground. In a landing roll the speed is even
// within a piece and the way follows it only at its ends.
func (p *Path) overGroundKt(x *piece, s float64) float64 {
	if x.tag.leg.ground() && p.flown.ground != nil && x.start >= p.flown.ground.at {
		return max(0, x.part(iSpeed, s)/knot-p.mission.strip().HeadwindKt)
	}
	return max(0, x.rate(iDistance, s)/knot)
}

// wheels run with the ground, down after lift-off and up after touchdown.
func (p *Path) wheels(x *piece, s float64) float64 {
	over := p.overGroundKt(x, s)
	now := x.start + s
	switch {
	case x.tag.leg.ground() && p.flown.ground != nil && x.start >= p.flown.ground.at:
		return over * p.flown.ground.spin(now)
	case x.tag.leg.ground():
		return over
	case x.tag.liftOff > 0:
		return x.tag.liftOffV / knot * max(0, 1-(now-x.tag.liftOff)/runDownS)
	}
	return 0
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
