package air

import "math"

// Law gives the function of a law by its name in the book language, of one or two
// arguments (the second is not read by a law of one), or nil. Pressures are in
// hPa, altitudes in feet of pressure altitude, speeds in knots of calibrated
// airspeed. The law "between" reads its table: x1, y1, x2, y2, …
func Law(name string, table ...float64) func(x, y float64) float64 {
	if name == "between" {
		return func(x, _ float64) float64 { return Between(x, table) }
	}
	return laws[name]
}

var laws = map[string]func(x, y float64) float64{
	"static_pressure": func(ft, _ float64) float64 { return StaticHPa(ft) },
	"impact_pressure": func(kt, _ float64) float64 { return ImpactHPa(kt) },
	"altitude_of":     func(hPa, _ float64) float64 { return AltitudeOf(hPa) },
	"airspeed_of":     func(hPa, _ float64) float64 { return AirspeedOf(hPa) },
	"mach_of":         MachOf,
	"airspeed_held":   AirspeedHeld,
	"root_of":         func(x, _ float64) float64 { return math.Sqrt(max(x, 0)) },
	"air_through":     AirThrough,
}

// The range in which altitudes are what they are.
const (
	lowestFt  = -10000.0
	highestFt = 100000.0
)

const seaLevelHPa = SeaLevelPa / 100

var (
	thickestHPa = StaticHPa(lowestFt)
	thinnestHPa = StaticHPa(highestFt)
	sonicImpact = Impact(1)
	// SoundKt is the speed of sound at sea level in knots.
	SoundKt = math.Sqrt(1.4*GasConstant*SeaLevelK) * 3600 / 1852
)

// within cuts a number to a range.
func within(x, least, most float64) float64 { return min(max(x, least), most) }

// StaticHPa is the static pressure at a pressure altitude.
func StaticHPa(altitudeFt float64) float64 {
	return seaLevelHPa * PressureRatio(within(altitudeFt, lowestFt, highestFt))
}

// AltitudeOf is what an altimeter shows that is fed a static pressure in hPa.
func AltitudeOf(staticHPa float64) float64 {
	return AltitudeFt(within(staticHPa, thinnestHPa, thickestHPa) / seaLevelHPa)
}

// ImpactHPa is what a pitot tube feels at a calibrated airspeed, above the static
// pressure: at most that of the speed of sound at sea level.
func ImpactHPa(airspeedKt float64) float64 {
	return seaLevelHPa * Impact(within(airspeedKt/SoundKt, 0, 1))
}

// AirspeedOf is what an airspeed indicator shows that is fed an impact pressure in
// hPa: 0 where the pressures are the wrong way round, at most the speed of sound
// at sea level.
func AirspeedOf(impactHPa float64) float64 {
	return SoundKt * MachOfImpact(within(impactHPa/seaLevelHPa, 0, sonicImpact))
}

// MachOf is what a Mach meter shows: at most 1.
func MachOf(impactHPa, staticHPa float64) float64 {
	static := max(staticHPa, thinnestHPa)
	return MachOfImpact(within(impactHPa/static, 0, sonicImpact))
}

// AirspeedHeld is the calibrated airspeed at which the dynamic pressure, half the
// density times the square of the true airspeed, has a value in hPa: that at which
// a wing of so much lift holds so much weight. At most Mach 1.
func AirspeedHeld(dynamicHPa, staticHPa float64) float64 {
	static := max(staticHPa, thinnestHPa)
	mach := math.Sqrt(within(dynamicHPa/(0.7*static), 0, 1))
	return AirspeedOf(static * Impact(mach))
}
