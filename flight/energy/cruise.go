package energy

import "knockon/flight"

// Cruise is a level and an airspeed, and what a nautical mile costs there.
type Cruise struct {
	AltitudeFt, CASKt float64
	KgPerNM, KgPerH   float64
}

// CruiseAt is the steady level flight at an altitude and an airspeed; ok is
// false where cruise thrust does not hold it or the speed is not allowed.
func CruiseAt(a *Aircraft, c Config, massKg, altitudeFt, casKt float64, in flight.Air) (q Cruise, ok bool) {
	at := airAt(in, altitudeFt*feet)
	v := in.TASOfCAS(casKt, altitudeFt) * knot
	drag := a.drag(&c, at, v, massKg)
	flow := a.fuelFlow(&c, at, v, drag) * hour
	q = Cruise{altitudeFt, casKt, flow / (v / knot), flow}
	fits := casKt <= a.fastestKt(&c) && v/at.sound <= a.MaxMach && casKt >= a.slowestKt(&c, massKg)
	return q, fits && altitudeFt <= min(a.MaxAltitudeFt, c.MostFt) && drag <= a.Cruise*a.fullThrust(&c, at, v)
}
