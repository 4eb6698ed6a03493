package flight

import "math"

// How an arrival is flown (common practice for a twin turbofan).
const (
	slowingRate     = 500.0  // ft/min while slowing down in the descent
	slowingKt       = 1.0    // kt in a second, in the descent and level
	lowDescentShare = 0.7    // of the descent rate, below 10,000 ft
	gateHeight      = 3000.0 // ft above the runway: glide path met from below
	gateShare       = 0.6    // ... but at most this share of the cruise height
	slowFrom        = 2000.0 // ft: final slowing begins on the glide path
	stableAt        = 1000.0 // ft: approach speed from here on
	gateAbove       = 40.0   // kt above the approach speed where the path is met
	thresholdHeight = 50.0   // ft, 14 CFR 25.125
	flareHeight     = 30.0   // ft
	flareLoss       = 5.0    // kt lost in the flare
	glideStepFt     = 125.0
)

// GlidePathDegrees is the angle of the final approach path.
const GlidePathDegrees = 3.0

// glideGradient is the tangent of the glide path.
var glideGradient = math.Tan(GlidePathDegrees * math.Pi / 180)

// arrive draws everything from the top of descent to the end, beginning as the
// cruise left it. The second value is how many legs come before touchdown.
func arrive(n numbers, cruise *drawing) (d *drawing, beforeTouchdown int) {
	d = &drawing{n: n, altitude: cruise.altitude, cas: cruise.cas, onMach: cruise.onMach, field: n.to, surface: n.toWind}
	gate := n.to + min(gateHeight, gateShare*(n.cruise-n.to))
	d.descend(gate)
	d.meetGlide(gate)
	d.glide(gate)
	d.flare()
	beforeTouchdown = len(d.legs)
	d.landingRoll()
	d.taxiIn()
	d.setGround()
	return d, beforeTouchdown
}

// descend draws the descent down to the gate.
func (d *drawing) descend(gate float64) {
	floor := max(gate, speedLimitBelow)
	slow := floor
	if gate < speedLimitBelow {
		slow += slowingRate / 60 * max(0, max(d.cas, d.n.descent)-speedLimitKt) / slowingKt
	}
	for d.altitude > slow {
		d.descentStep(d.n.descent, d.n.descentRate, slow)
	}
	if gate >= speedLimitBelow {
		return
	}
	d.slowToLimit(floor)
	for d.altitude > gate {
		d.descentStep(min(d.n.descent, d.n.lowSpeed()), lowDescentShare*d.n.descentRate, gate)
	}
}

// descentStep draws the next part of a descent that goes to the given speed.
func (d *drawing) descentStep(target, rate, floor float64) {
	crossover := CrossoverFt(target, d.n.mach)
	next := max(floor, d.altitude-stepFt)
	switch {
	case d.onMach && d.altitude > crossover && CASOfMach(d.n.mach, d.altitude) < target:
		next = max(next, crossover)
		d.flyMach((d.altitude-next)/rate*60, next, steady(idleThrust))
		return
	case d.cas > target:
		d.onMach = false
		d.changing(target, slowingKt, -rate/2, floor, steady(idleThrust))
	case d.cas < target && d.altitude <= crossover:
		d.onMach = false
		d.changing(target, slowingKt, -rate, floor, steady(idleThrust))
	default:
		d.onMach = false
		d.fly((d.altitude-next)/rate*60, next, d.cas, steady(idleThrust))
	}
}

// slowToLimit draws the slowing to 250 kt that ends at the altitude below
// which that speed is the limit.
func (d *drawing) slowToLimit(floor float64) {
	if d.altitude < floor {
		return
	}
	d.onMach = false
	target := min(d.cas, speedLimitKt)
	seconds := max((d.cas-target)/slowingKt, (d.altitude-floor)/d.n.descentRate*60)
	d.fly(seconds, floor, target, steady(idleThrust))
}

// meetGlide slows down level until the glide path is met.
func (d *drawing) meetGlide(gate float64) {
	target := min(d.cas, d.n.approach+gateAbove)
	if gate-d.n.to < slowFrom {
		target = d.n.approach
	}
	d.onMach = false
	if target < d.cas {
		d.changing(target, slowingKt, 0, gate, steady(idleThrust))
	}
}

// glide draws the final approach path down to the flare. The threshold is
// crossed at 50 ft.
func (d *drawing) glide(gate float64) {
	first := d.cas
	for height := gate - d.n.to; height > flareHeight; {
		next := nextGlideHeight(height)
		cas := d.n.approach + (first-d.n.approach)*min(1, max(0, (next-stableAt)/(slowFrom-stableAt)))
		d.glideTo(next, cas, glideThrust(height))
		height = next
	}
}

func nextGlideHeight(height float64) float64 {
	next := height - glideStepFt
	for _, mark := range []float64{slowFrom, stableAt, thresholdHeight, flareHeight} {
		if height > mark {
			next = max(next, mark)
		}
	}
	return next
}

func glideThrust(height float64) float64 {
	switch {
	case height > slowFrom:
		return 25
	case height > stableAt:
		return 12
	}
	return approachThrust
}

// glideTo draws a part of the glide path, in the time that the mean ground
// speed needs for it.
func (d *drawing) glideTo(height, cas, thrust float64) {
	altitude := d.n.to + height
	mid := d.n.air.TASOfCAS((d.cas+cas)/2, (d.altitude+altitude)/2)
	ends := d.n.air.TASOfCAS(d.cas, d.altitude) + d.n.air.TASOfCAS(cas, altitude)
	feetPerSecond := ((4*mid+ends)/6 - d.wind((d.altitude+altitude)/2)) * MetresPerNM * FeetPerMetre / 3600
	past := d.altitude <= d.n.to+thresholdHeight
	d.fly((d.altitude-altitude)/glideGradient/feetPerSecond, altitude, cas, steady(thrust))
	d.markGlide(past)
}

func (d *drawing) markGlide(past bool) {
	last := &d.legs[len(d.legs)-1]
	last.onGlide, last.beyond = true, past
}

// flare draws the rounding out, at the rates of a normal landing.
func (d *drawing) flare() {
	sink := glideGradient * d.overGround(d.cas) * MetresPerNM * FeetPerMetre / 3600 // ft/s
	for _, part := range []struct{ height, share, loss float64 }{{14, 0.75, 1}, {5, 0.4, 2}, {0, 0.2, 2}} {
		altitude := d.n.to + part.height
		d.fly((d.altitude-altitude)/(part.share*sink), altitude, d.cas-part.loss, steady(idleThrust))
		d.markGlide(true)
	}
	d.over = d.overGround(d.cas)
}

// How a landing roll is braked (common practice).
const (
	coastTime   = 0.7  // s from spin-up to the brakes
	brakeFast   = 4.5  // kt in a second
	brakeSlow   = 3.0  // kt in a second, below
	brakeSlowAt = 60.0 // kt
	standTime   = 5.0  // s at the end
)

func (d *drawing) landingRoll() {
	taxi := 0.0
	if d.n.taxiIn > 0 {
		taxi = taxiKt
	}
	d.roll(wheelsSpinUpTime, d.over-wheelsSpinUpTime, idleThrust).wheels = wheelsSpinUp
	d.roll(coastTime, d.over-coastTime, idleThrust)
	if d.over > brakeSlowAt {
		d.brake((d.over-brakeSlowAt)/brakeFast, brakeSlowAt)
	}
	d.brake((d.over-taxi)/brakeSlow, taxi)
}

func (d *drawing) taxiIn() {
	t := d.n.taxiIn
	if t == 0 {
		d.roll(standTime, 0, idleThrust)
		return
	}
	stand, change := min(standTime, t/4), min(15, t/4)
	d.roll(t-stand-change, taxiKt, taxiThrust)
	d.brake(change, 0)
	d.roll(stand, 0, idleThrust)
}
