package energy

import (
	"math"

	"knockon/book"
	"knockon/flight/roll"
)

// Diversion is where a flight under way goes instead of where the book sends it.
type Diversion struct {
	DistanceM float64     // over the ground, from where it then is to the runway
	TurnDeg   float64     // by how much it turns onto that way,
	AlignDeg  float64     // and then onto the runway: both count in a glide, where height is all there is
	Wind      Wind        // aloft, along the way; nil: none
	Runway    roll.Runway // its altitude is the pressure altitude of the field, its wind that of the surface
}

// CanDivert says that the flight is in the air at a moment and has not yet begun
// the final approach. After that only the runway before it is left.
func (p *Path) CanDivert(t book.Time) bool {
	x, _ := p.at(t)
	return x.tag.leg >= legFirstClimb && x.tag.leg < legGate
}

// InAir says that the flight is in the air at a moment.
func (p *Path) InAir(t book.Time) bool {
	x, _ := p.at(t)
	return !x.tag.leg.ground()
}

// LiftOff is the first moment in the air; ok is false where there is none.
func (p *Path) LiftOff() (at book.Time, ok bool) {
	for _, t := range p.knots {
		if p.InAir(t) {
			return t, true
		}
	}
	return 0, false
}

// LeftM is how far over the ground the runway of the flight is at a moment, in
// metres.
func (p *Path) LeftM(t book.Time) float64 {
	x, s := p.at(t)
	return p.leftM(x, s)
}

// Divert gives the path that is the same up to t, that included, and then goes
// to another runway, over the given distance or what the descent takes, with the
// given configuration: up to the level of the book or
// the highest that is left, at the speeds of the book as far as they are allowed,
// down to a final approach of 3 degrees and a landing as in flight/roll. It is
// flown on with other configurations by Leave, and ends at the stop.
func (p *Path) Divert(t book.Time, d Diversion, c Config) *Path {
	return p.DivertAhead(t, d, c).Whole()
}

// DivertAhead does the same, and leaves the path open. After the final approach
// has begun it must be the runway ahead.
func (p *Path) DivertAhead(t book.Time, d Diversion, c Config) *Path {
	if x, _ := p.at(t); x.tag.leg < legGate {
		return p.TurnAhead(t, Turn{Kind: Diverting, To: d}, c)
	}
	q := p.upTo(t)
	m := p.mission.diverted(d, q.now[iDistance], p.below(t))
	q.tag.detour = 0
	path := m.guide(c, q).ahead((t + leastAhead).Seconds())
	path.before, path.since = p, t
	return path.joined()
}

// Feels says that a change of the configuration makes a difference to the flight
// from a moment on. In the air the devices of the landing roll do not: they count
// as they are from touchdown on, when the flight leaves again.
func (p *Path) Feels(t book.Time, was, is Config) bool {
	if p.InAir(t) {
		was.GroundSpoilers, was.Brakes, was.AntiSkid, was.Autobrake, was.Reverse, was.Steering = is.GroundSpoilers, is.Brakes, is.AntiSkid, is.Autobrake, is.Reverse, is.Steering
	}
	return was != is
}

func (m *Mission) diverted(d Diversion, from float64, under surface) *Mission {
	n := *m
	if d.Wind == nil {
		d.Wind = Calm
	}
	n.there, n.starts, n.ends = &d, from, from+max(d.DistanceM, 1)
	n.circuit, n.rounds = false, 0
	n.fromFt, n.fromKt, n.toFt = under.ft, under.kt, d.Runway.AltitudeFt
	n.plan.Wind, n.plan.ElevationFt = d.Wind, d.Runway.AltitudeFt
	n.plan.CruiseFt = max(min(n.levelFt, n.capFt), d.Runway.AltitudeFt+2*missionGateFt)
	n.wet = d.Runway.Code < 6
	return &n
}

// ReferenceKt is the reference landing speed, calibrated, at a mass: 1.23 times
// the stall speed of the clean wing in the setting that stands, 14 CFR
// 25.125(b)(2)(i)(A), and what the crew add to it. Ice that nobody knows of adds
// nothing.
func (a *Aircraft) ReferenceKt(c *Config, massKg float64) float64 {
	return 1.23*a.equivalentKt(massKg, a.Settings[c.Setting].MostLift) + c.AddsKt
}

// mostLift is the coefficient of lift at the stall.
func (a *Aircraft) mostLift(c *Config) float64 {
	most := a.Settings[c.Setting].MostLift
	if c.Iced {
		most *= a.IceLift
	}
	return most
}

// Airframe is the aircraft on its wheels, as it is configured at touchdown on a
// runway. The drag of ice is not counted upon: it may melt or break off before
// the ground is reached, and must not shorten a landing.
func (a *Aircraft) Airframe(c Config, r roll.Runway) roll.Airframe {
	c.Iced = false
	zero, induced := a.dragTerms(&c)
	p := &a.Settings[c.Setting]
	all := Clean()
	thrust := func(part float64) roll.Thrust {
		at := airAt(r.Air, r.AltitudeFt*feet)
		return roll.Thrust{At0Kt: part * a.fullThrust(&all, at, 0), At100Kt: part * a.fullThrust(&all, at, 100*knot)}
	}
	return roll.Airframe{
		WingAreaM2: a.WingAreaM2, Lift: p.GroundLift, Drag: zero + induced*p.GroundLift*p.GroundLift,
		SpoilerLift: -a.SpoilerLift, SpoilerDrag: a.SpoilerDrag,
		BrakedShare: a.BrakedShare, MostBrakeN: a.MostBrakeN, RollingMu: a.RollingMu,
		Full: thrust(1), Reverse: thrust(a.Reverse), ReverseOutKt: a.ReverseOutKt,
		Tyres:  roll.Tyres{PSI: a.TyrePSI, AntiSkid: roll.FullyModulating, DryMu: a.Grip},
		Wheels: roll.Wheels{WidthM: a.TyreWidthM, DeflectionM: a.TyreDeflectionM, Alike: a.TyresAlike},
	}
}

// How the devices come on the ground (common practice). The crew brake first, then
// reverse, at the moments of roll.Transition; spoilers come when the systems say.
const (
	spoilerOverS = 1.0
	reverseOverS = 2.0
	brakeOverS   = 0.5
)

// share of the wheel braking that is left without anti-skid: that of an on-off
// system, the least that 14 CFR 25.109(c)(2) knows, of a fully modulating one.
const withoutAntiSkid = float64(roll.OnOff / roll.FullyModulating)

// level is how far the devices are out in a configuration, and what the engines give.
type level struct{ spoilers, brakes, reverse, levers, engines float64 }

func (a *Aircraft) levels(c *Config) level {
	l := level{spoilers: c.GroundSpoilers, brakes: c.Brakes, levers: a.idle(c), engines: (c.Engines[0] + c.Engines[1]) / 2}
	if !c.AntiSkid {
		l.brakes *= withoutAntiSkid
	}
	for i, on := range c.Reverse {
		if on {
			l.reverse += min(c.Engines[i], 1) / 2
		}
	}
	return l
}

// microsecond rounds seconds up to a whole one.
func microsecond(s float64) float64 { return math.Ceil(s*1e6-1e-3) / 1e6 }
