package energy

import (
	"math"

	"knockon/flight"
)

// State is where a flight is.
type State struct {
	TimeS      float64
	DistanceM  float64 // over the ground
	AltitudeFt float64
	TASKt      float64
	MassKg     float64
	FuelKg     float64
	Lever      float64 // thrust, of take-off thrust there; what frozen thrust stays at
}

// CASKt is the calibrated airspeed.
func (s State) CASKt(a flight.Air) float64 { return a.CASOfTAS(s.TASKt, s.AltitudeFt) }

// Wind is the headwind in knots at a pressure altitude along the track.
type Wind func(altitudeFt float64) float64

// Calm is no wind.
func Calm(float64) float64 { return 0 }

// breeze is the headwind in knots where a flight is.
type breeze func(y *vector) float64

// still is no wind.
func still(*vector) float64 { return 0 }

// everywhere is a wind that is the same along the track.
func (w Wind) everywhere() breeze {
	if w == nil {
		return still
	}
	return func(y *vector) float64 { return w(y[iAltitude] / feet) }
}

// hold says which speed is kept while the path changes.
type hold uint8

const (
	holdNothing hold = iota
	holdCAS
	holdEAS
	holdMach
)

// law is how a stretch is flown: of path, thrust and speed two are given and
// the third follows.
type law struct {
	hold      hold
	pathGiven bool
	slope     float64 // sine of the path angle, where the path is given
	fixed     bool    // slope is instead the gradient of pressure altitude over the ground
	lever     float64 // where the thrust is given, of take-off thrust there; see needed
	needed    bool    // the thrust is what path and speed need
	wished    float64 // gradient that is wanted where the thrust is frozen
	share     float64 // of the excess thrust that gains speed, where path and speed are both free
}

// The parts of the state that are integrated.
const (
	iDistance = iota // m
	iAltitude        // m, pressure altitude
	iSpeed           // m/s
	iMass            // kg
	iFuel            // kg
	parts
)

type vector [parts]float64

// flyer is an aircraft under way.
type flyer struct {
	a    *Aircraft
	c    *Config
	air  flight.Air
	wind breeze
	law  law
	roll bool // on the wheels, which turn freely: the take-off roll
}

// forces at a moment.
type forces struct {
	thrust, drag, full float64 // N
	slope              float64 // sine of the path angle
	gain               float64 // m/s2
	flow               float64 // kg/s
	at                 air
}

// heldFactor is V/g dV/dz along a path on which the held speed stays what it
// is: 0.7 M2 (phi - LR/g) at constant CAS and -0.7 M2 LR/g at constant Mach
// number in the troposphere, without the second term above. It follows from the
// definitions of the speeds.
func heldFactor(h hold, at air, mach float64) float64 {
	const lapse = 0.0065 * 287.05287 / g0
	m2 := mach * mach
	falling := 0.0
	if at.troposphere {
		falling = lapse * at.warm
	}
	switch h {
	case holdCAS:
		x := 1 + 0.2*m2
		y := x * x * math.Sqrt(x)         // to the 2.5
		return (x*y-1)/y - 0.7*m2*falling // 0.7 M2 phi - ...
	case holdEAS: // V grows as the root of the density falls
		return 0.7 * m2 * (1 - falling)
	case holdMach:
		return -0.7 * m2 * falling
	}
	return 0
}

// forces works out what pulls and what follows.
func (f *flyer) forces(y *vector) forces {
	at := airAt(f.air, y[iAltitude])
	v := max(y[iSpeed], 1)
	o := forces{at: at, full: f.a.fullThrust(f.c, at, v), drag: f.a.drag(f.c, at, v, y[iMass])}
	weight := y[iMass] * g0
	factor := heldFactor(f.law.hold, at, v/at.sound)
	l := &f.law
	slope := l.slope
	if l.fixed {
		slope *= (v - f.wind(y)*knot) / v / at.warm
	}
	switch {
	case l.pathGiven && l.needed:
		o.slope, o.gain = slope, factor*g0*slope
		o.thrust = o.drag + weight*(slope+o.gain/g0)
	case l.pathGiven:
		o.thrust, o.slope = l.lever*o.full, slope
		o.gain = (o.thrust-o.drag)/y[iMass] - g0*slope
	case l.hold != holdNothing:
		o.thrust = l.lever * o.full
		o.slope = (o.thrust - o.drag) / weight / (1 + factor)
		o.gain = factor * g0 * o.slope
	default:
		o.thrust = l.lever * o.full
		excess := (o.thrust - o.drag) / weight
		o.slope, o.gain = (1-l.share)*excess, l.share*excess*g0
	}
	if f.roll {
		f.onWheels(&o, at, v, y[iMass])
	}
	o.slope = min(max(o.slope, -steepest), steepest)
	o.flow = f.a.fuelFlow(f.c, at, v, math.Abs(o.thrust))
	return o
}

// onWheels works out what follows on the ground, where the wing carries what it
// carries and the wheels the rest.
func (f *flyer) onWheels(o *forces, at air, v, massKg float64) {
	p := &f.a.Settings[f.c.Setting]
	zero, induced := f.a.dragTerms(f.c)
	qs := at.density / 2 * v * v * f.a.WingAreaM2
	lift := p.GroundLift - f.c.GroundSpoilers*f.a.SpoilerLift
	load := max(0, massKg*g0-qs*lift)
	o.drag = qs * (zero + induced*p.GroundLift*p.GroundLift + f.c.GroundSpoilers*f.a.SpoilerDrag)
	o.slope, o.gain = 0, (o.thrust-o.drag-f.a.RollingMu*load)/massKg
}

// steepest bounds the path, far outside what the method is good for.
const steepest = 0.5

// rates gives the derivative of the state.
func (f *flyer) rates(y *vector) (d vector) {
	o := f.forces(y)
	v := y[iSpeed]
	d[iDistance] = v - f.wind(y)*knot
	d[iAltitude] = v * o.slope * o.at.warm
	d[iSpeed] = o.gain
	d[iMass] = -o.flow - f.c.LeakKgPerS
	d[iFuel] = d[iMass]
	return d
}
