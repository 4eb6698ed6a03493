package flight

import (
	"math"

	"knockon/book"
	"knockon/flight/air"
)

// Path is a flight as flown: every real.* value at every moment. It is frozen
// and may be read from many goroutines.
type Path interface {
	// End is the last moment; the first is 0.
	End() book.Time
	// Knots are ascending moments, 0 and End among them, such that between two
	// neighbours every number is smooth and every yes/no is constant.
	Knots() []book.Time
	// Value gives quantity q (an index of book.Quantities) at t: a number in the
	// quantity's unit, or 0 and 1 for no and yes. A value that jumps has its new
	// value at the moment of the jump. t outside the flight is cut to it.
	Value(q int, t book.Time) float64
}

// KnotsPerMS is one metre per second in knots.
const KnotsPerMS = 3600 / MetresPerNM

var (
	knotsPerRootK = math.Sqrt(1.4*gasConstant) * KnotsPerMS
	seaLevelSound = knotsPerRootK * math.Sqrt(seaLevelK)
)

// SoundKt is the speed of sound in knots.
func (a Air) SoundKt(altitudeFt float64) float64 {
	return knotsPerRootK * math.Sqrt(a.TemperatureK(altitudeFt))
}

// MachOfCAS is the Mach number at a calibrated airspeed. It holds below Mach 1.
func MachOfCAS(casKt, altitudeFt float64) float64 {
	return air.MachOfImpact(air.Impact(casKt/seaLevelSound) / PressureRatio(altitudeFt))
}

// CASOfMach is the calibrated airspeed in knots at a Mach number below 1.
func CASOfMach(mach, altitudeFt float64) float64 {
	return seaLevelSound * air.MachOfImpact(air.Impact(mach)*PressureRatio(altitudeFt))
}

// TASOfMach is the true airspeed in knots at a Mach number.
func (a Air) TASOfMach(mach, altitudeFt float64) float64 { return mach * a.SoundKt(altitudeFt) }

// TASOfCAS is the true airspeed in knots at a calibrated airspeed.
func (a Air) TASOfCAS(casKt, altitudeFt float64) float64 {
	return a.TASOfMach(MachOfCAS(casKt, altitudeFt), altitudeFt)
}

// CASOfTAS is the calibrated airspeed in knots at a true airspeed.
func (a Air) CASOfTAS(tasKt, altitudeFt float64) float64 {
	return CASOfMach(tasKt/a.SoundKt(altitudeFt), altitudeFt)
}

// CrossoverFt is the pressure altitude at which the calibrated airspeed and
// the Mach number are the same speed. It does not depend on the temperature.
func CrossoverFt(casKt, mach float64) float64 {
	return AltitudeFt(air.Impact(casKt/seaLevelSound) / air.Impact(mach))
}

// TotalC is the temperature in degrees Celsius that a probe of the given
// recovery factor (1 is ideal) takes on at a Mach number.
func TotalC(staticC, mach, recovery float64) float64 {
	return (staticC+zeroCelsiusK)*(1+0.2*recovery*mach*mach) - zeroCelsiusK
}
