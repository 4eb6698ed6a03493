package performance

import (
	"math"

	"knockon/flight"
)

// Cruise is a cruise at constant true airspeed, lift-to-drag ratio and
// specific fuel consumption: the jet's range equation holds exactly.
type Cruise struct {
	TASKt       float64
	LiftToDrag  float64
	PerHour     float64 // weight of fuel an hour for a unit of thrust
	HeadwindKt  float64
	StartMassKg float64
}

// RangeNM is the distance over the ground until the mass has fallen to endKg
// (Breguet). It is negative if the wind drives the aircraft back.
func (c Cruise) RangeNM(endKg float64) float64 {
	hours := c.LiftToDrag / c.PerHour * math.Log(c.StartMassKg/endKg)
	return (c.TASKt - c.HeadwindKt) * hours
}

// FuelKg is what a distance over the ground takes. It goes up to the whole
// starting mass as the distance or the headwind grows; where the wind is too
// strong to go forward it is the whole mass.
func (c Cruise) FuelKg(nm float64) float64 {
	ground := c.TASKt - c.HeadwindKt
	if ground <= 0 && nm > 0 {
		return c.StartMassKg
	}
	if nm == 0 {
		return 0
	}
	hours := nm / ground
	return c.StartMassKg * -math.Expm1(-hours*c.PerHour/c.LiftToDrag)
}

// Drag of an extended landing gear, W. F. Mair and D. L. Birdsall, Aircraft
// Performance, equation 6.1. The first factor is read from a work that quotes
// it; the second is from memory.
const (
	gearFullFlap = 3.16e-5
	gearFlapsUp  = 5.81e-5
)

// GearDragFullFlap is the drag coefficient that the landing gear adds with
// landing flaps, from the largest mass and the wing area.
func GearDragFullFlap(massKg, areaM2 float64) float64 { return gearDrag(gearFullFlap, massKg, areaM2) }

// GearDragFlapsUp is the same with flaps up. From memory.
func GearDragFlapsUp(massKg, areaM2 float64) float64 { return gearDrag(gearFlapsUp, massKg, areaM2) }

func gearDrag(k, massKg, areaM2 float64) float64 {
	return massKg * flight.Gravity / areaM2 * k * math.Pow(massKg, -0.215)
}
