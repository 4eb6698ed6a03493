package flight

import "math"

// basis says which speed a leg holds or changes evenly; the others follow.
type basis uint8

const (
	onWheels basis = iota // ground speed: the wheels are on the ground
	byCAS
	byMach
)

// leg is a stretch of the flight on which pressure altitude, one kind of speed
// and the thrust each change evenly in time.
type leg struct {
	seconds   float64
	altitude  [2]float64 // at its start and its end
	basis     basis
	speed     [2]float64 // kt, or Mach
	thrust    [2]float64 // percent of take-off thrust
	elevation [2]float64 // of the ground below
	surface   [2]float64 // kt, the wind there from ahead
	wheels    wheels
	runDown   float64 // s until they stand, at the start of the leg
	braking   bool
	onGlide   bool
	beyond    bool // the landing threshold
	taxiOut   bool // before brake release
	icing     bool
}

// wheels says what turns the wheels during a leg.
type wheels uint8

const (
	wheelsStill      wheels = iota
	wheelsRoll              // with the ground
	wheelsRunDown           // evenly, from the speed of lift-off to a stop
	wheelsSpinUp            // from a stop to the speed of the ground
	wheelsUpTo       = 10.0 // s, run down after lift-off (common practice)
	wheelsSpinUpTime = 0.8  // s, on a dry runway (common practice)
)

// split cuts a leg at a fraction of its time.
func (l leg) split(at float64) (first, second leg) {
	cut := func(v [2]float64) (a, b [2]float64) {
		mid := v[0] + at*(v[1]-v[0])
		return [2]float64{v[0], mid}, [2]float64{mid, v[1]}
	}
	first, second = l, l
	first.seconds, second.seconds = l.seconds*at, l.seconds*(1-at)
	first.altitude, second.altitude = cut(l.altitude)
	first.speed, second.speed = cut(l.speed)
	first.thrust, second.thrust = cut(l.thrust)
	first.elevation, second.elevation = cut(l.elevation)
	first.surface, second.surface = cut(l.surface)
	return first, second
}

// crossing is the fraction of a leg at which a quantity that goes evenly from
// v[0] to v[1] meets level; ok is false if it does not do so inside.
func crossing(v [2]float64, level float64) (at float64, ok bool) {
	at = (level - v[0]) / (v[1] - v[0])
	return at, at > 1e-9 && at < 1-1e-9 // false too for the NaN of a level leg
}

// cutAt cuts every leg where the chosen quantity meets level.
func cutAt(legs []leg, level float64, of func(leg) [2]float64) []leg {
	var cut []leg
	for _, l := range legs {
		if at, ok := crossing(of(l), level); ok {
			a, b := l.split(at)
			cut = append(cut, a, b)
			continue
		}
		cut = append(cut, l)
	}
	return cut
}

func altitudeOf(l leg) [2]float64 { return l.altitude }

// heightOf is the height above the ground below.
func heightOf(l leg) [2]float64 {
	return [2]float64{l.altitude[0] - l.elevation[0], l.altitude[1] - l.elevation[1]}
}

// rollingOf is the speed of a leg on the ground; one in the air has none that
// could meet anything.
func rollingOf(l leg) [2]float64 {
	if l.basis == onWheels {
		return l.speed
	}
	return [2]float64{}
}

// spoolRate is how fast thrust changes, percent of take-off thrust in a second
// (common practice).
const spoolRate = 12.0

// spool makes the thrust run from leg to leg instead of jumping.
func spool(legs []leg) []leg {
	var out []leg
	now := legs[0].thrust[0]
	for _, l := range legs {
		need := math.Abs(l.thrust[0]-now) / spoolRate
		switch {
		case need < 1e-3:
			out = append(out, l)
		case need >= l.seconds:
			l.thrust[0] = now
			out = append(out, l)
		default:
			a, b := l.split(need / l.seconds)
			a.thrust[0] = now
			out = append(out, a, b)
		}
		now = l.thrust[1]
	}
	return out
}

// runDownWheels lets the wheels run down on the legs after lift-off.
func runDownWheels(legs []leg) []leg {
	var out []leg
	left := wheelsUpTo
	for _, l := range legs {
		if l.basis == onWheels || left < 1e-6 {
			out = append(out, l)
			continue
		}
		if l.seconds > left {
			a, b := l.split(left / l.seconds)
			a.wheels, a.runDown = wheelsRunDown, left
			out, left = append(out, a, b), 0
			continue
		}
		l.wheels, l.runDown = wheelsRunDown, left
		out, left = append(out, l), left-l.seconds
	}
	return out
}

// prepare cuts the legs so that every number is smooth within each, and marks
// the icing layer.
func prepare(n numbers, legs []leg) []leg {
	legs = cutAt(spool(legs), TropopauseFt, altitudeOf)
	legs = cutAt(legs, SurfaceLayerFt, heightOf)
	legs = cutAt(legs, -n.fromWind, rollingOf) // where a tailwind leaves no airspeed
	legs = cutAt(legs, -n.toWind, rollingOf)
	legs = cutAt(legs, n.icingFrom, altitudeOf)
	legs = cutAt(legs, n.icingTo, altitudeOf)
	legs = runDownWheels(legs)
	for i, l := range legs {
		mid := (l.altitude[0] + l.altitude[1]) / 2
		legs[i].icing = l.basis != onWheels && mid >= n.icingFrom && mid < n.icingTo
	}
	return legs
}
