package performance

import (
	"math"

	"knockon/flight"
)

// referenceFactor is VREF over the reference stall speed in the landing
// configuration, CS 25.125(b)(2)(i)(A). (The older 1.3 is of the older, lower
// stall speed.)
const referenceFactor = 1.23

// ReferenceKt is the least VREF for a reference stall speed VSR0: VMCL and the
// manoeuvre margin may ask for more.
func ReferenceKt(stallKt float64) float64 { return referenceFactor * stallKt }

// AtMass is a speed that goes with the lift, such as VREF, at another mass.
func AtMass(kt, mass, otherMass float64) float64 { return kt * math.Sqrt(otherMass/mass) }

// Turn is a level turn in balance.
type Turn struct {
	RadiusM    float64
	DegPerS    float64
	LoadFactor float64
}

// LevelTurn gives the turn at a true airspeed in knots and a bank in degrees
// between 0 and 90.
func LevelTurn(tasKt, bankDeg float64) Turn {
	v, tan := tasKt/flight.KnotsPerMS, math.Tan(bankDeg*math.Pi/180)
	return Turn{
		RadiusM:    v * v / (flight.Gravity * tan),
		DegPerS:    flight.Gravity * tan / v * 180 / math.Pi,
		LoadFactor: 1 / math.Cos(bankDeg*math.Pi/180),
	}
}

// BankDeg is the bank that turns so many degrees in a second.
func BankDeg(tasKt, degPerS float64) float64 {
	return math.Atan(tasKt/flight.KnotsPerMS*degPerS*math.Pi/180/flight.Gravity) * 180 / math.Pi
}
