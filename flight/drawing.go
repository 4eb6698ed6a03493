package flight

import "math"

// drawing draws legs one behind the other, each beginning where the last one
// ended.
type drawing struct {
	n        numbers
	legs     []leg
	altitude float64
	cas      float64 // in the air
	over     float64 // ground speed on the ground
	onMach   bool    // the Mach number is what is held
	field    float64 // ft, the elevation of the runway that is left or gone to
	surface  float64 // kt, the wind on it from ahead
}

// wind is that from ahead at an altitude.
func (d *drawing) wind(ft float64) float64 { return WindAt(ft, d.field, d.surface, d.n.aloft) }

const (
	speedLimitBelow = 10000.0 // ft: 250 kt below (14 CFR 91.117)
	speedLimitKt    = 250.0
	hopHeight       = 5000.0 // ft: a cruise no higher than this above the runways ...
	hopKt           = 210.0  // ... is flown no faster (common practice)
	stepFt          = 1000.0 // longest part of a climb or descent drawn with one rate
)

// lowSpeed is the highest airspeed below 10,000 ft.
func (n numbers) lowSpeed() float64 {
	if n.cruise <= n.highestField+hopHeight {
		return max(hopKt, n.rotate+liftOffGain, n.approach)
	}
	return speedLimitKt
}

// Percent of take-off thrust that each part of a flight needs, for a twin
// turbofan (common practice; the flight is prescribed, not computed).
const (
	takeOffThrust  = 100.0
	cruiseThrust   = 30.0
	idleThrust     = 5.0
	taxiThrust     = 8.0
	approachThrust = 45.0
)

// climbThrust is the thrust of the climb, which falls as the air gets thinner.
func climbThrust(altitudeFt float64) float64 {
	return 90 - 50*min(max(altitudeFt, 0)/40000, 1)
}

func steady(v float64) [2]float64 { return [2]float64{v, v} }

// add draws a leg, unless it has no length.
func (d *drawing) add(l leg) {
	if l.seconds > 0 {
		d.legs = append(d.legs, l)
	}
}

// roll draws a leg on the ground.
func (d *drawing) roll(seconds, to, thrust float64) *leg {
	l := leg{seconds: seconds, altitude: steady(d.altitude), speed: [2]float64{d.over, to}, thrust: steady(thrust), wheels: wheelsRoll}
	d.over = to
	d.legs = append(d.legs, l)
	return &d.legs[len(d.legs)-1]
}

// brake draws a leg on the ground that slows down with the wheel brakes.
func (d *drawing) brake(seconds, to float64) {
	d.roll(seconds, to, idleThrust).braking = to < d.legs[len(d.legs)-1].speed[0]
}

// fly draws a leg in the air with an even change of airspeed.
func (d *drawing) fly(seconds, altitude, cas float64, thrust [2]float64) {
	d.add(leg{seconds: seconds, basis: byCAS, altitude: [2]float64{d.altitude, altitude}, speed: [2]float64{d.cas, cas}, thrust: thrust})
	d.altitude, d.cas = altitude, cas
}

// flyMach draws a leg in the air at the flight's Mach number.
func (d *drawing) flyMach(seconds, altitude float64, thrust [2]float64) {
	d.add(leg{seconds: seconds, basis: byMach, altitude: [2]float64{d.altitude, altitude}, speed: steady(d.n.mach), thrust: thrust})
	d.altitude, d.cas = altitude, CASOfMach(d.n.mach, altitude)
}

// changing draws a leg that climbs or descends at a rate while the airspeed
// goes to a target at so many knots in a second. It stops at stop if that
// comes first.
func (d *drawing) changing(target, perSecond, rate, stop float64, thrust [2]float64) {
	seconds := math.Abs(target-d.cas) / perSecond
	reach := 1.0
	if rate != 0 {
		reach = min(1, (stop-d.altitude)/(rate/60*seconds))
	}
	end := d.altitude + rate/60*seconds*reach
	if reach < 1 {
		end = stop // exactly, for the comparisons that follow
	}
	d.fly(seconds*reach, end, d.cas+(target-d.cas)*reach, thrust)
}

// overGround is the ground speed at an airspeed and the present altitude.
func (d *drawing) overGround(cas float64) float64 {
	return d.n.air.TASOfCAS(cas, d.altitude) - d.wind(d.altitude)
}
