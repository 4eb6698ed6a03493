package roll

import (
	"math"

	"knockon/flight"
)

// holding says what sets the brake force at the moment.
type holding uint8

const (
	byTyres   holding = iota // the grip of the tyres
	byBrakes                 // the most that the brakes can hold
	byTarget                 // the autobrake's aim
	byNothing                // the autobrake is content without brakes
)

// phase is what changes by a jump as the aircraft slows; within one, every
// force is a smooth function of time and speed.
type phase struct {
	holding   holding
	light     bool // the wings carry everything
	floating  bool // the braking coefficient of hydroplaning counts
	ploughing bool // the fluid's drag counts
	reversing bool // reverse may be used
}

// body is a landing made ready for stepping.
type body struct {
	landing  *Landing
	grip     grip
	mass     float64
	area     float64 // half the density times the wing area
	fluid    float64
	weight   float64 // across the runway
	downhill float64 // along it, forward, N
	wind     float64 // m/s
	levels   *levels
}

func newBody(l *Landing) *body {
	r := &l.Runway
	g, _ := l.Airframe.Tyres.grip(r.Code) // the code was checked before
	slope := math.Atan(r.SlopePct / 100)
	weight := l.MassKg * flight.Gravity
	return &body{
		landing: l, grip: g, mass: l.MassKg,
		area:   r.Air.DensityKgPerM3(r.AltitudeFt) / 2 * l.Airframe.WingAreaM2,
		fluid:  fluidArea(r.Fluid, l.Airframe.Wheels),
		weight: weight * math.Cos(slope), downhill: -weight * math.Sin(slope),
		wind: r.HeadwindKt / knotsPerMS,
	}
}

// forces are the forces at a moment, in newtons.
type forces struct {
	tyres, limit float64 // what the brakes could add to the wheels' rolling
	other        float64 // backward: everything but the brakes
	load         float64 // on the wheels
}

// forces works out everything but the choice of the brake force.
func (b *body) forces(t, v float64, p *phase) forces {
	a := &b.landing.Airframe
	spoilers, brakes := b.levels.of(Spoilers, t), b.levels.of(Brakes, t)
	air := v + b.wind
	q := b.area * air * air
	f := forces{load: b.weight - q*(a.Lift+spoilers*a.SpoilerLift)}
	load := f.load
	if p.light {
		load = 0
	}
	f.tyres = max(0, b.grip.at(v*knotsPerMS, p.floating)-a.RollingMu) * a.BrakedShare * load * brakes
	f.limit = a.MostBrakeN * brakes
	f.other = math.Copysign(q, air)*(a.Drag+spoilers*a.SpoilerDrag) - b.downhill - b.thrust(t, air, p)
	f.other += a.RollingMu * load
	if p.ploughing {
		f.other += b.fluid * v * v
	}
	return f
}

// thrust is the forward thrust of all engines.
func (b *body) thrust(t, air float64, p *phase) float64 {
	a := &b.landing.Airframe
	reverse := 0.0
	if p.reversing {
		reverse = b.levels.of(Reverse, t)
	}
	kt := air * knotsPerMS
	forward := b.levels.of(Levers, t) * max(0, b.levels.of(Engines, t)-reverse)
	return a.Idle.at(kt)*(1-reverse) + a.Full.at(kt)*forward - a.Reverse.at(kt)*reverse
}

// brake is the brake force that the phase says.
func (b *body) brake(t float64, f *forces, h holding) float64 {
	switch h {
	case byTyres:
		return f.tyres
	case byBrakes:
		return f.limit
	case byTarget:
		return b.wanted(t, f)
	}
	return 0
}

// wanted is the brake force for which the autobrake asks.
func (b *body) wanted(t float64, f *forces) float64 {
	return b.mass*b.levels.of(Autobrake, t) - f.other
}

// held is what sets the brake force: the least of what is allowed and wanted.
func (b *body) held(t float64, f *forces) holding {
	h, least := byTyres, f.tyres
	if b.landing.Airframe.MostBrakeN > 0 && f.limit < least {
		h, least = byBrakes, f.limit
	}
	if b.levels.of(Autobrake, t) <= 0 {
		return h
	}
	if wanted := b.wanted(t, f); wanted <= 0 {
		return byNothing
	} else if wanted < least {
		return byTarget
	}
	return h
}
