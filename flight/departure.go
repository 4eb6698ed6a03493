package flight

// How a departure is flown (common practice for a twin turbofan).
const (
	rollStart       = 8.0  // s, while the thrust builds up
	rollStartKt     = 12.0 // reached in that time
	rollPerSecond   = 4.0  // kt in a second on the take-off roll
	rotationTime    = 2.5  // s from rotation to lift-off
	liftOffAbove    = 6.0  // kt above rotation at lift-off
	liftOffGain     = 15.0 // kt above rotation in the initial climb
	cleanUpHeight   = 1000.0
	climbGain       = 1.5 // kt in a second while accelerating in the climb
	levelGain       = 1.0 // kt in a second while accelerating level
	accelerateShare = 0.5 // of the climb rate is left while accelerating
	taxiKt          = 15.0
)

// depart draws everything from the start to the cruise altitude and speed.
func depart(n numbers) *drawing {
	d := &drawing{n: n, altitude: n.from, field: n.from, surface: n.fromWind}
	d.taxiOut()
	for i := range d.legs {
		d.legs[i].taxiOut = true
	}
	d.takeOff()
	for d.altitude < n.cruise {
		d.climbStep()
	}
	d.levelOff()
	d.setGround()
	return d
}

func (d *drawing) taxiOut() {
	t := d.n.taxiOut
	if t == 0 {
		return
	}
	stand, change := min(10, t/5), min(15, t/5)
	d.roll(stand, 0, idleThrust)
	d.roll(change, taxiKt, taxiThrust)
	d.roll(t-2*stand-2*change, taxiKt, taxiThrust)
	d.brake(change, 0)
	d.roll(stand, 0, idleThrust)
}

// takeOff draws the roll, the rotation and the climb to the height at which
// the aircraft is cleaned up.
func (d *drawing) takeOff() {
	rotate := d.overGround(d.n.rotate)
	d.roll(rollStart, rollStartKt, takeOffThrust).thrust = [2]float64{idleThrust, takeOffThrust}
	d.roll((rotate-rollStartKt)/rollPerSecond, rotate, takeOffThrust)
	d.roll(rotationTime, d.overGround(d.n.rotate+liftOffAbove), takeOffThrust)
	d.cas = d.n.rotate + liftOffAbove
	d.rise(3, 0.25, d.n.rotate+liftOffGain-4)
	d.rise(4, 0.65, d.n.rotate+liftOffGain)
	left := d.n.from + cleanUpHeight - d.altitude
	if left > 0 {
		d.fly(left/d.n.climbRate*60, d.n.from+cleanUpHeight, d.cas, steady(takeOffThrust))
	}
}

// rise draws the first seconds in the air at a share of the climb rate.
func (d *drawing) rise(seconds, share, cas float64) {
	d.fly(seconds, d.altitude+seconds*share*d.n.climbRate/60, cas, steady(takeOffThrust))
}

// climbRate is the climb rate in ft/min, falling with height above the runway.
func (d *drawing) climbRate(altitude float64) float64 {
	return d.n.climbRate * max(0.25, 1-(altitude-d.n.from)/46000)
}

// climbSpeed is the airspeed wanted in the climb, Mach aside.
func (d *drawing) climbSpeed() float64 {
	if d.altitude < speedLimitBelow {
		return min(d.n.lowSpeed(), d.n.climb)
	}
	return d.n.climb
}

// climbStep draws the next part of the climb.
func (d *drawing) climbStep() {
	stop := d.n.cruise
	if d.altitude < speedLimitBelow {
		stop = min(stop, speedLimitBelow)
	}
	crossover := CrossoverFt(d.cas, d.n.mach)
	switch {
	case d.onMach || d.altitude >= crossover:
		d.onMach = true
		d.climbTo(min(stop, d.altitude+stepFt))
	case d.accelerates():
		thrust := [2]float64{climbThrust(d.altitude), climbThrust(d.altitude + stepFt/2)}
		d.changing(d.climbSpeed(), climbGain, accelerateShare*d.climbRate(d.altitude), stop, thrust)
	default:
		d.climbTo(min(stop, crossover, d.altitude+stepFt))
	}
}

// accelerates tells whether to gain speed now: there is speed to gain, and the
// Mach number will not be passed while doing so.
func (d *drawing) accelerates() bool {
	gain := d.climbSpeed() - d.cas
	top := d.altitude + accelerateShare*d.climbRate(d.altitude)/60*gain/climbGain
	return gain > 0 && top <= CrossoverFt(d.climbSpeed(), d.n.mach)
}

// climbTo draws a climb at the present airspeed or Mach number.
func (d *drawing) climbTo(altitude float64) {
	seconds := (altitude - d.altitude) / d.climbRate((altitude+d.altitude)/2) * 60
	thrust := [2]float64{climbThrust(d.altitude), climbThrust(altitude)}
	if d.onMach {
		d.flyMach(seconds, altitude, thrust)
		return
	}
	d.fly(seconds, altitude, d.cas, thrust)
}

// levelOff gains what the climb did not gain of the cruise speed.
func (d *drawing) levelOff() {
	if d.onMach {
		return
	}
	target := min(d.climbSpeed(), CASOfMach(d.n.mach, d.altitude))
	if target > d.cas {
		d.changing(target, levelGain, 0, d.altitude, steady(climbThrust(d.altitude)))
	}
	d.onMach = target < d.climbSpeed()
}
