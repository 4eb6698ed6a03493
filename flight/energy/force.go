package energy

import (
	"math"

	"knockon/book"
	"knockon/flight"
)

const (
	feet       = 0.3048
	seaDensity = 1.225 // kg/m3
	knot       = 1852.0 / 3600
	g0         = flight.Gravity
	seaK       = 288.15
)

// air is the air at one level as the forces need it.
type air struct {
	density, sigma float64
	delta          float64 // pressure ratio
	kelvin         float64
	sound          float64 // m/s
	warm           float64 // standard temperature over the real one
	troposphere    bool
}

func airAt(a flight.Air, altitudeM float64) air {
	ft := altitudeM / feet
	k := a.TemperatureK(ft)
	delta := flight.PressureRatio(ft)
	sigma := delta * seaK / k
	return air{
		density: sigma * seaDensity, sigma: sigma, delta: delta, kelvin: k, sound: a.SoundKt(ft) * knot,
		warm: (k - a.DeviationC) / k, troposphere: ft < flight.TropopauseFt,
	}
}

// fullThrust is the take-off thrust there of all engines that run, each giving
// its share.
func (a *Aircraft) fullThrust(c *Config, at air, v float64) float64 {
	one := a.ThrustN * math.Exp(a.DensityExponent*math.Log(at.sigma)) * max(0, 1-a.MachLoss*v/at.sound)
	return one * a.running(c)
}

// running is how many engines give thrust.
func (a *Aircraft) running(c *Config) float64 { return a.Engines / 2 * (c.Engines[0] + c.Engines[1]) }

// dragTerms are the drag coefficient without lift and the induced factor.
func (a *Aircraft) dragTerms(c *Config) (zero, induced float64) {
	p := &a.Settings[c.Setting]
	zero = p.ZeroLift + c.SpeedBrakes*a.SpeedBrakeDrag + c.ExtraDrag
	if c.GearOut {
		zero += a.GearDrag
	}
	if c.Iced {
		zero += a.IceDrag
	}
	for _, share := range c.Engines {
		if share == 0 {
			zero += a.EngineOutDrag * a.Engines / 2
		}
	}
	return zero, p.Induced
}

// drag in newtons at a true airspeed in m/s.
func (a *Aircraft) drag(c *Config, at air, v, massKg float64) float64 {
	zero, induced := a.dragTerms(c)
	qs := at.density / 2 * v * v * a.WingAreaM2
	lift := massKg * g0 / qs
	return qs * (zero + induced*lift*lift)
}

// fuelFlow in kg/s of all engines at a thrust in newtons.
func (a *Aircraft) fuelFlow(c *Config, at air, v, thrust float64) float64 {
	n := a.running(c)
	if n == 0 {
		return 0
	}
	perN := a.FuelKgPerNS * (1 + a.FuelMachGain*v/at.sound) * math.Sqrt(at.kelvin/seaK)
	return max(perN*thrust, n*a.IdleFuelKgPerS*at.delta)
}

// leastDragKt is the equivalent airspeed at which the drag is least, and not
// below 1.2 times the stall.
func (a *Aircraft) leastDragKt(c *Config, massKg float64) float64 {
	zero, induced := a.dragTerms(c)
	lift := math.Sqrt(zero / induced)
	return max(a.equivalentKt(massKg, lift), a.slowestKt(c, massKg))
}

// slowestKt is the least airspeed that is flown: 1.2 times the stall in the
// air (common practice).
func (a *Aircraft) slowestKt(c *Config, massKg float64) float64 {
	return 1.2 * a.equivalentKt(massKg, a.mostLift(c))
}

func (a *Aircraft) equivalentKt(massKg, lift float64) float64 {
	return math.Sqrt(2*massKg*g0/(seaDensity*a.WingAreaM2*lift)) / knot
}

// fastestKt is the greatest airspeed that the aircraft, its setting, its gear
// and its systems allow.
func (a *Aircraft) fastestKt(c *Config) float64 {
	kt := min(a.MaxKt, c.MostKt, a.Settings[c.Setting].MaxKt)
	if c.GearOut {
		kt = min(kt, a.MaxGearKt)
	}
	return min(kt, book.NoLimit)
}
