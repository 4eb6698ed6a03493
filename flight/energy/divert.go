package energy

import (
	"context"
	"errors"
	"fmt"
	"math"

	"knockon/flight"
)

// Plan is how the crew mean to fly.
type Plan struct {
	Air         flight.Air
	Wind        Wind    // nil: none
	ClimbKt     float64 // above 10,000 ft
	ClimbMach   float64 // of climb, cruise and descent
	DescentKt   float64 // above 10,000 ft
	ApproachKt  float64
	CruiseFt    float64 // 0: as high as aircraft and systems allow
	ElevationFt float64 // pressure altitude of the runway
	Landing     Config  // from the final approach on
}

const (
	lowFt       = 10000.0 // 250 kt below (14 CFR 91.117)
	lowKt       = 250.0
	gateFt      = 1500.0 // above the runway: where the final approach begins
	spareM      = 2 * 1852.0
	glide       = 3 * math.Pi / 180 // angle of the final approach
	leastClimb  = 100.0             // ft/min, below which a climb is given up (common practice)
	againS      = 900.0             // a cruise is thought over this often
	mostStretch = 400               // of one flight
	step        = 20.0              // s, of climb and descent
	cruiseStep  = 60.0
	shortStep   = 5.0 // while the speed changes
)

// Landing is the usual configuration of the final approach from c: gear out
// and the last setting of the flaps.
func (a *Aircraft) Landing(c Config) Config {
	c.GearOut, c.Setting, c.SpeedBrakes = true, len(a.Settings)-1, 0
	return c
}

// Divert flies from a state over a distance to a touchdown: climb to the level
// of the plan, cruise, idle descent, level slowing and a final approach of 3
// degrees, each as far as the configuration allows. What takes more room than
// there is (a descent from high above) takes it: the profile is then longer
// than the distance. A cruise that lacks thrust slows down, then drifts down.
//
// The profile ends with Arrived, or with Dry, Sinks or TooFar, which are no
// errors. An error means numbers that make no sense, or that ctx is done.
func Divert(ctx context.Context, a *Aircraft, c Config, s State, plan Plan, distanceM float64) (*Profile, error) {
	return divert(ctx, a, c, s, plan, distanceM, 1)
}

// divert does the same in steps that are a part of the usual ones.
func divert(ctx context.Context, a *Aircraft, c Config, s State, plan Plan, distanceM, part float64) (*Profile, error) {
	if err := check(a, s, plan, distanceM); err != nil {
		return nil, err
	}
	g := newGuide(a, c, s, plan)
	g.to, g.fine = s.DistanceM+distanceM, part
	g.reachTable(s)
	g.p = newProfile(s)
	return g.p, g.run(ctx)
}

func check(a *Aircraft, s State, plan Plan, distanceM float64) error {
	var errs []error
	for _, n := range []struct {
		what           string
		v, least, most float64
	}{
		{"mass", s.MassKg, 1, 1e6}, {"fuel", s.FuelKg, 0, s.MassKg}, {"true airspeed", s.TASKt, 30, 700}, {"altitude", s.AltitudeFt, -1500, 60000},
		{"distance", distanceM, 0, 3e7}, {"climb speed", plan.ClimbKt, 40, 450}, {"climb Mach number", plan.ClimbMach, 0.1, 0.95},
		{"descent speed", plan.DescentKt, 40, 450}, {"approach speed", plan.ApproachKt, 40, 250}, {"elevation", plan.ElevationFt, -3000, 20000},
	} {
		if !(n.v >= n.least && n.v <= n.most) { // also catches NaN
			errs = append(errs, fmt.Errorf("flight: %s is %g: give %g to %g", n.what, n.v, n.least, n.most))
		}
	}
	if len(a.Settings) == 0 {
		errs = append(errs, errors.New("flight: the aircraft has no drag polar"))
	}
	return errors.Join(errs...)
}

// guide decides how to fly on; it is the crew.
type guide struct {
	a     *Aircraft
	c     Config
	kept  *Config // c, for the pieces: they outlive the guide
	plan  Plan
	wind  breeze
	p     *Profile
	to    float64 // m: where the runway begins
	stage stage
	reach []reach // of the descent, from the bottom up
	level float64 // m: the level wanted
	slow  bool    // thrust does not suffice for the wanted speed
	stuck int     // stretches without progress
	fine  float64 // of the usual steps; 1
	floor float64 // m: the ground
	slows bool    // for the next setting of the flaps
	until *end    // that every stretch has beside its own; nil: none
}

// shape is the configuration that is flown, for pieces to keep.
func (g *guide) shape() *Config {
	if g.kept == nil || *g.kept != g.c {
		c := g.c
		g.kept = &c
	}
	return g.kept
}

type stage uint8

const (
	climbing stage = iota
	cruising
	descending
	approaching
)

func newGuide(a *Aircraft, c Config, s State, plan Plan) *guide {
	g := &guide{a: a, c: c, plan: plan, wind: plan.Wind.everywhere(), fine: 1, floor: plan.ElevationFt * feet}
	if g.plan.Landing == (Config{}) {
		g.plan.Landing = a.Landing(c)
	}
	if c.Frozen && s.Lever == 0 {
		g.c.Frozen = false
	}
	g.level = min(c.MostFt, a.MaxAltitudeFt)
	if plan.CruiseFt > 0 {
		g.level = min(g.level, plan.CruiseFt)
	}
	g.level = max(g.level, plan.ElevationFt+gateFt) * feet
	return g
}

// run flies stretch after stretch until the flight ends.
func (g *guide) run(ctx context.Context) error {
	for range mostStretch {
		if err := ctx.Err(); err != nil {
			return err
		}
		before := g.p.t
		e := g.stretch()
		switch e {
		case Arrived, Dry, Sinks, TooFar, Lost, CannotSlow:
			g.p.End = e
			g.p.mark(e)
			return nil
		}
		if g.stuck++; g.p.t > before {
			g.stuck = 0
			g.p.mark(e)
		}
		if g.stuck > 8 {
			break
		}
	}
	g.p.End = Lost
	g.p.mark(Lost)
	return nil
}

// stretch decides on the next stretch and flies it.
func (g *guide) stretch() Event {
	if g.stage < descending && g.left() <= g.reachFrom(g.p.now[iAltitude])+spareM {
		g.stage = descending
	}
	switch g.stage {
	case climbing:
		return g.climb()
	case cruising:
		return g.cruise()
	case descending:
		return g.descend()
	}
	return g.approach()
}

func (g *guide) left() float64     { return g.to - g.p.now[iDistance] }
func (g *guide) now() *vector      { return &g.p.now }
func (g *guide) altitude() float64 { return g.p.now[iAltitude] / feet }
func (g *guide) cas() float64      { return g.casOf(&g.p.now) }
func (g *guide) casOf(y *vector) float64 {
	return g.plan.Air.CASOfTAS(y[iSpeed]/knot, y[iAltitude]/feet)
}
func (g *guide) machOf(y *vector) float64 {
	return y[iSpeed] / knot / g.plan.Air.SoundKt(y[iAltitude]/feet)
}

// wantedKt is the airspeed wanted now: the schedule, within what is allowed and
// what flies.
func (g *guide) wantedKt(schedule float64) float64 {
	ft := g.altitude()
	if ft < lowFt-1 {
		schedule = min(schedule, lowKt)
	}
	most := min(g.mostKt(), flight.CASOfMach(min(g.plan.ClimbMach, g.a.MaxMach), ft))
	return max(min(schedule, most), min(g.a.slowestKt(g.shape(), g.p.now[iMass]), g.a.fastestKt(g.shape())))
}

// fly flies a stretch under a law; dry and the ground can end every one.
func (g *guide) fly(c *Config, l law, h float64, ends ...end) Event {
	f := &flyer{a: g.a, c: c, air: g.plan.Air, wind: g.wind, law: l}
	ends = append(ends,
		end{Dry, func(y *vector, _ float64) float64 { return y[iFuel] }},
		end{Sinks, func(y *vector, _ float64) float64 { return y[iAltitude] - g.floor + 1e-6 }})
	if g.until != nil {
		ends = append(ends, *g.until)
	}
	return g.p.fly(f, h*g.fine, ends)
}

func (g *guide) whenDown(altitude float64, e Event) end {
	return end{e, func(y *vector, _ float64) float64 { return y[iAltitude] - altitude }}
}

func (g *guide) whenUp(altitude float64, e Event) end {
	return end{e, func(y *vector, _ float64) float64 { return altitude - y[iAltitude] }}
}

func (g *guide) whenLeft(m float64, e Event) end {
	to := g.to
	return end{e, func(y *vector, _ float64) float64 { return to - y[iDistance] - m }}
}

func (g *guide) whenTOD() end {
	to := g.to
	down := g.stage >= descending
	return end{topOfDescent, func(y *vector, _ float64) float64 {
		if down {
			return 1
		}
		return to - y[iDistance] - g.reachFrom(y[iAltitude]) - spareM
	}}
}

func (g *guide) after(s float64, e Event) end {
	from := g.p.t
	return end{e, func(_ *vector, t float64) float64 { return from + s - t }}
}

// lever is a thrust, or the frozen one, or idle where the levers close.
func (g *guide) lever(l float64) float64 {
	switch {
	case g.c.Frozen:
		return g.p.start.Lever
	case g.closed():
		return min(l, g.a.idle(&g.c))
	}
	return l
}

func (g *guide) idle() float64 { return g.lever(g.a.idle(&g.c)) }

func (a *Aircraft) idle(c *Config) float64 {
	if c.HighIdle {
		return a.HighIdle
	}
	return a.Idle
}

// closed says that the levers close, which is felt in the air only.
func (g *guide) closed() bool { return g.c.Closed && !g.c.Frozen && !g.p.tag.leg.ground() }
