package flight

import "knockon/book"

// The places of the quantities in book.Quantities.
const (
	qTime = iota
	qOnGround
	qHeight
	qAltitude
	qAirspeed
	qTrueAirspeed
	qMach
	qGroundSpeed
	qWheelSpeed
	qVerticalSpeed
	qAirTemperature
	qTotalTemperature
	qIcing
	qThrust
	qMass
	qFuel
	qDistance
	qToGo
	qOnGlidePath
	qBraking
	qHeadwind
	qRunwayWet
)

// span is a leg ready to be read: every base quantity as a polynomial of the
// seconds since its start.
type span struct {
	leg
	air          Air
	headwind     float64 // at the start
	headwindRate float64 // kt in a second
	altitudeRate float64 // ft/s
	speedRate    float64
	thrustRate   float64
	groundRate   float64
	wheelStart   float64 // kt, of wheels that run down
	wheelRate    float64 // kt in a second, the same
	steady       bool    // nothing but distance, thrust and fuel changes
	steadyMach   float64
	steadyCAS    float64
	distance     [4]float64 // nm: cubic
	fuel         [3]float64 // kg: square
}

func newSpan(n numbers, l leg) span {
	rate := func(v [2]float64) float64 {
		if l.seconds == 0 {
			return 0
		}
		return (v[1] - v[0]) / l.seconds
	}
	p := span{
		leg: l, air: n.air,
		altitudeRate: rate(l.altitude), speedRate: rate(l.speed), thrustRate: rate(l.thrust), groundRate: rate(l.elevation),
	}
	wind := n.windsOf(l)
	p.headwind, p.headwindRate = wind[0], rate(wind)
	p.steadyMach, p.steadyCAS = p.mach(0), p.airspeed(0)
	p.steady = p.altitudeRate == 0 && p.speedRate == 0 // most of a flight, and much faster to read
	return p
}

// windsOf is the wind from ahead at both ends of a leg.
func (n numbers) windsOf(l leg) (wind [2]float64) {
	for i := range wind {
		wind[i] = WindAt(l.altitude[i], l.elevation[i], l.surface[i], n.aloft)
	}
	return wind
}

func (n numbers) aloft(float64) float64 { return n.headwind }

// altitudeAt and the methods below give a quantity s seconds into the span.
func (p *span) altitudeAt(s float64) float64 { return p.altitude[0] + p.altitudeRate*s }
func (p *span) speedAt(s float64) float64    { return p.leg.speed[0] + p.speedRate*s }
func (p *span) windAt(s float64) float64     { return p.headwind + p.headwindRate*s }

func (p *span) mach(s float64) float64 {
	switch {
	case p.steady:
		return p.steadyMach
	case p.basis == byMach:
		return p.speedAt(s)
	case p.basis == byCAS:
		return MachOfCAS(p.speedAt(s), p.altitudeAt(s))
	}
	return p.trueAirspeed(s) / p.air.SoundKt(p.altitudeAt(s))
}

func (p *span) airspeed(s float64) float64 {
	if p.steady {
		return p.steadyCAS
	}
	if p.basis == byCAS {
		return p.speedAt(s)
	}
	return CASOfMach(p.mach(s), p.altitudeAt(s))
}

func (p *span) trueAirspeed(s float64) float64 {
	if p.basis == onWheels {
		return max(0, p.speedAt(s)+p.windAt(s))
	}
	return p.mach(s) * p.air.SoundKt(p.altitudeAt(s))
}

func (p *span) overGround(s float64) float64 {
	if p.basis == onWheels {
		return p.speedAt(s)
	}
	return p.trueAirspeed(s) - p.windAt(s)
}

func (p *span) wheelSpeed(s float64) float64 {
	switch p.wheels {
	case wheelsRoll:
		return p.overGround(s)
	case wheelsRunDown:
		return max(0, p.wheelStart+p.wheelRate*s)
	case wheelsSpinUp:
		return p.overGround(s) * s / p.seconds
	}
	return 0
}

func (p *span) height(s float64) float64 {
	return max(0, p.altitudeAt(s)-(p.elevation[0]+p.groundRate*s))
}

func (p *span) distanceAt(s float64) float64 {
	d := &p.distance
	return d[0] + s*(d[1]+s*(d[2]+s*d[3]))
}

func (p *span) fuelAt(s float64) float64 {
	f := &p.fuel
	return f[0] + s*(f[1]+s*f[2])
}

// flown is a flight as flown.
type flown struct {
	knots     []book.Time
	spans     []span // one fewer than knots
	zeroFuel  float64
	threshold float64 // nm flown when over the landing threshold
	wet       float64
}

func (p *flown) End() book.Time     { return p.knots[len(p.knots)-1] }
func (p *flown) Knots() []book.Time { return append([]book.Time(nil), p.knots...) }
func (p *flown) fuelAtEnd() float64 { return p.Value(qFuel, p.End()) }
func (p *flown) at(t book.Time) (*span, float64) {
	t = min(max(t, 0), p.End())
	low, high := 0, len(p.spans)-1 // the span of t is in low..high
	for low < high {
		mid := int(uint(low+high+1) >> 1)
		if p.knots[mid] <= t {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return &p.spans[low], float64(t-p.knots[low]) / 1e6
}

// Value gives a quantity at a moment; see Path.
func (p *flown) Value(q int, t book.Time) float64 {
	sp, s := p.at(t)
	switch q {
	case qTime:
		return min(max(t, 0), p.End()).Seconds()
	case qOnGround:
		return yes(sp.basis == onWheels)
	case qHeight:
		return sp.height(s)
	case qAltitude:
		return sp.altitudeAt(s)
	case qAirspeed:
		return sp.airspeed(s)
	case qTrueAirspeed:
		return sp.trueAirspeed(s)
	case qMach:
		return sp.mach(s)
	case qGroundSpeed:
		return sp.overGround(s)
	case qWheelSpeed:
		return sp.wheelSpeed(s)
	case qVerticalSpeed:
		return sp.altitudeRate * 60
	}
	return p.other(q, sp, s)
}

// other gives the quantities from the air temperature on.
func (p *flown) other(q int, sp *span, s float64) float64 {
	switch q {
	case qAirTemperature:
		return sp.air.TemperatureC(sp.altitudeAt(s))
	case qTotalTemperature:
		return TotalC(sp.air.TemperatureC(sp.altitudeAt(s)), sp.mach(s), 1)
	case qIcing:
		return yes(sp.icing)
	case qThrust:
		return sp.thrust[0] + sp.thrustRate*s
	case qMass:
		return p.zeroFuel + sp.fuelAt(s)
	case qFuel:
		return sp.fuelAt(s)
	case qDistance:
		return sp.distanceAt(s)
	case qToGo:
		return max(0, p.threshold-sp.distanceAt(s))
	case qOnGlidePath:
		return yes(sp.onGlide)
	case qBraking:
		return yes(sp.braking)
	case qHeadwind:
		return sp.windAt(s)
	case qRunwayWet:
		return p.wet
	}
	return 0
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
