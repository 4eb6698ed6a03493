package roll

import (
	"errors"
	"fmt"

	"knockon/flight"
)

const knotsPerMS = flight.KnotsPerMS

// Airframe is the aircraft on its wheels.
type Airframe struct {
	WingAreaM2    float64
	Lift, Drag    float64 // coefficients on the ground, spoilers in
	SpoilerLift   float64 // added by full spoilers: negative
	SpoilerDrag   float64 // added by full spoilers
	BrakedShare   float64 // of the load on the wheels that the braked ones carry
	MostBrakeN    float64 // most that all brakes together can hold; 0: no limit but the tyres
	RollingMu     float64 // resistance of unbraked rolling; a braking coefficient includes it
	Idle, Reverse Thrust  // of all engines: forward, and backward at full reverse
	Full          Thrust  // of all engines at take-off thrust: what Levers and Engines take their part of, beside Idle
	ReverseOutKt  float64 // ground speed at which reverse is taken out
	Tyres         Tyres
	Wheels        Wheels
}

// Thrust is a force in newtons that changes evenly with the airspeed.
type Thrust struct{ At0Kt, At100Kt float64 }

func (t Thrust) at(kt float64) float64 { return t.At0Kt + (t.At100Kt-t.At0Kt)*kt/100 }

// Runway is the ground and the air over it.
type Runway struct {
	AltitudeFt float64 // pressure altitude
	Air        flight.Air
	SlopePct   float64 // positive: up in the direction of landing
	HeadwindKt float64
	Code       Code
	Fluid      Fluid
}

// Device is something that slows the aircraft and can come or go. Its level
// runs from 0 (not there) to 1 (all of it), but for Autobrake.
type Device int

// The devices.
const (
	Spoilers  Device = iota
	Brakes           // part of what the tyres (and MostBrakeN) allow
	Reverse          // of all engines: 0.5 is one of two
	Autobrake        // deceleration aimed at in m/s2, with no more than Brakes allow; 0: full braking
	Levers           // part of Full that each engine gives forward
	Engines          // part of the engines that run; those in reverse are among them
	devices
)

func (d Device) String() string {
	if d < 0 || d >= devices {
		return fmt.Sprintf("device %d", int(d))
	}
	return [...]string{"spoilers", "brakes", "reverse", "autobrake", "levers", "engines"}[d]
}

// Change brings a device to a level. It begins At seconds after touchdown,
// from wherever the device then is, and goes evenly for Over seconds. A later
// change of the same device takes over.
type Change struct {
	Device       Device
	At, Over, To float64
}

// Landing is all that a landing roll follows from.
type Landing struct {
	Airframe    Airframe
	Runway      Runway
	MassKg      float64
	ThresholdKt float64  // calibrated airspeed over the threshold
	FromKt      float64  // ground speed of a roll that begins on the wheels, as of a rejected take-off; 0: from the threshold
	Changes     []Change // in any order; all devices begin at 0
}

// begin is the air distance and the ground speed on the wheels at first.
func (l *Landing) begin() (airM, kt float64) {
	if l.FromKt > 0 {
		return 0, l.FromKt
	}
	return AirDistance(l.groundKt())
}

// groundKt is the ground speed over the threshold.
func (l *Landing) groundKt() float64 {
	return l.Runway.Air.TASOfCAS(l.ThresholdKt, l.Runway.AltitudeFt) - l.Runway.HeadwindKt
}

// check collects everything that is senseless about a landing.
func (l *Landing) check() error {
	c := checker{}
	a, r := &l.Airframe, &l.Runway
	c.between("mass", l.MassKg, 1, 1e6, "kg")
	if l.FromKt != 0 {
		c.between("ground speed at first", l.FromKt, 0, 400, "kt")
	} else {
		c.between("airspeed over the threshold", l.ThresholdKt, 30, 300, "kt")
	}
	c.between("wing area", a.WingAreaM2, 0, 2000, "m2")
	c.between("lift coefficient", a.Lift, -2, 4, "")
	c.between("drag coefficient", a.Drag, 0, 2, "")
	c.between("lift of the spoilers", a.SpoilerLift, -4, 0, "")
	c.between("drag of the spoilers", a.SpoilerDrag, 0, 2, "")
	c.between("share of the braked wheels", a.BrakedShare, 0, 1, "")
	c.between("brake limit", a.MostBrakeN, 0, 1e8, "N")
	c.between("rolling resistance", a.RollingMu, 0, 0.2, "")
	c.between("tyre pressure", a.Tyres.PSI, 20, 500, "psi")
	c.between("anti-skid efficiency", float64(a.Tyres.AntiSkid), 0, 1, "")
	c.between("dry braking coefficient", a.Tyres.DryMu, 0, 1, "")
	c.between("pressure altitude", r.AltitudeFt, -2000, 20000, "ft")
	c.between("temperature deviation", r.Air.DeviationC, -60, 60, "C")
	c.between("slope", r.SlopePct, -10, 10, "%")
	c.between("headwind", r.HeadwindKt, -100, 150, "kt")
	c.between("depth of the fluid", r.Fluid.DepthMM, 0, 1000, "mm")
	c.between("specific gravity of the fluid", r.Fluid.Gravity, 0, 2, "")
	c.thrusts(a)
	c.changes(l.Changes)
	if _, err := a.Tyres.grip(r.Code); err != nil {
		c.errs = append(c.errs, err)
	}
	if len(c.errs) == 0 && l.FromKt == 0 {
		c.between("ground speed over the threshold", l.groundKt(), 20, 400, "kt")
	}
	return errors.Join(c.errs...)
}

type checker struct{ errs []error }

func (c *checker) between(what string, v, least, most float64, unit string) {
	if !(v >= least && v <= most) { // also catches NaN
		c.errs = append(c.errs, fmt.Errorf("landing: %s is %g %s: give %g to %g", what, v, unit, least, most))
	}
}

func (c *checker) thrusts(a *Airframe) {
	for _, v := range []float64{a.Idle.At0Kt, a.Idle.At100Kt, a.Reverse.At0Kt, a.Reverse.At100Kt} {
		c.between("thrust", v, -1e7, 1e7, "N")
	}
	c.between("speed at which reverse is taken out", a.ReverseOutKt, 0, 300, "kt")
}

func (c *checker) changes(changes []Change) {
	for _, change := range changes {
		if change.Device < 0 || change.Device >= devices {
			c.errs = append(c.errs, fmt.Errorf("landing: there is no %s", change.Device))
			continue
		}
		most := 1.0
		if change.Device == Autobrake {
			most = 10 // m/s2
		}
		name := change.Device.String()
		c.between("moment of "+name, change.At, 0, 3600, "s after touchdown")
		c.between("time taken by "+name, change.Over, 0, 600, "s")
		c.between(name, change.To, 0, most, "")
	}
}
