package performance

import (
	"math"

	"knockon/flight"
)

// Climb is a part of the flight for which 14 CFR 25 asks a climb gradient.
type Climb int

// The climbs of the rule. All but Landing are with one engine out.
const (
	GearDown Climb = iota // take-off, gear down, 25.121(a): more than the figure
	GearUp                // take-off, gear up, 25.121(b)
	Final                 // final take-off, 25.121(c)
	Approach              // approach, gear up, 25.121(d)
	Landing               // all engines, thrust available after 8 s, 25.119
	EnRoute               // 25.123(b): taken off the gradient for the net flight path
)

// minima are percent for two, three and four engines.
var minima = [...][3]float64{
	GearDown: {0, 0.3, 0.5},
	GearUp:   {2.4, 2.7, 3.0},
	Final:    {1.2, 1.5, 1.7},
	Approach: {2.1, 2.4, 2.7},
	Landing:  {3.2, 3.2, 3.2},
	EnRoute:  {1.1, 1.4, 1.6},
}

// MinimumPct is the climb gradient that 14 CFR 25 asks, in percent; ok is
// false unless the aircraft has two, three or four engines.
func MinimumPct(c Climb, engines int) (pct float64, ok bool) {
	if c < 0 || int(c) >= len(minima) || engines < 2 || engines > 4 {
		return 0, false
	}
	return minima[c][engines-2], true
}

// feetPerMinute is one knot in feet per minute.
const feetPerMinute = flight.MetresPerNM * flight.FeetPerMetre / 60

// RateFtPerMin is the climb rate of a gradient in percent at a speed in knots.
// In still air the speed is the true airspeed.
func RateFtPerMin(gradientPct, kt float64) float64 { return gradientPct / 100 * kt * feetPerMinute }

// GradientPct is the gradient in percent of a climb rate at a speed in knots.
func GradientPct(ftPerMin, kt float64) float64 { return ftPerMin / (kt * feetPerMinute) * 100 }

// PathFtPerNM is the height lost in a nautical mile on a path of so many
// degrees.
func PathFtPerNM(degrees float64) float64 {
	return math.Tan(degrees*math.Pi/180) * flight.MetresPerNM * flight.FeetPerMetre
}

// PathPct is the gradient of the same path in percent.
func PathPct(degrees float64) float64 { return math.Tan(degrees*math.Pi/180) * 100 }
