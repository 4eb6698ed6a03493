package performance

import (
	"math"

	"knockon/flight"
)

// Polar is a parabolic polar on a wing: CD = ZeroLift + Induced CL2.
type Polar struct{ WingAreaM2, ZeroLift, Induced float64 }

// LiftToDrag is the greatest ratio of lift to drag: that of a glide in calm air.
func (p Polar) LiftToDrag() float64 { return 1 / (2 * math.Sqrt(p.ZeroLift*p.Induced)) }

// LeastDragKt is the equivalent airspeed of the least drag at a mass.
func (p Polar) LeastDragKt(massKg float64) float64 {
	lift := math.Sqrt(p.ZeroLift / p.Induced)
	return math.Sqrt(2*massKg*flight.Gravity/(seaDensity*p.WingAreaM2*lift)) * flight.KnotsPerMS
}

// OffSpeed is the ratio of lift to drag at so many times the speed of the least drag.
func (p Polar) OffSpeed(ratio float64) float64 {
	return 2 * p.LiftToDrag() / (ratio*ratio + 1/(ratio*ratio))
}

// TurnLossFt is the height lost in a gliding half turn at a bank in degrees, at sea
// level and the speed of the least drag in level flight made good for the bank.
func (p Polar) TurnLossFt(massKg, bankDeg float64) float64 {
	v := p.LeastDragKt(massKg) / flight.KnotsPerMS
	return 2 * math.Pi * v * v / (flight.Gravity * p.LiftToDrag() * math.Sin(2*bankDeg*math.Pi/180)) * flight.FeetPerMetre
}

// EnergyHeightFt is the height that a flight would have at rest, in still air.
func EnergyHeightFt(altitudeFt, tasKt float64) float64 {
	v := tasKt / flight.KnotsPerMS
	return altitudeFt + v*v/(2*flight.Gravity)*flight.FeetPerMetre
}

// seaDensity is the density of the standard atmosphere at sea level, kg/m3.
const seaDensity = 1.225
