package energy

import "knockon/flight"

// BestCruise is the level and the airspeed at which a mile costs least, looked
// for in steps of 1,000 ft and 2 kt; ok is false where no level can be held.
func BestCruise(a *Aircraft, c Config, massKg float64, in flight.Air) (best Cruise, ok bool) {
	for ft := 1000.0; ft <= min(a.MaxAltitudeFt, c.MostFt); ft += 1000 {
		for kt := a.slowestKt(&c, massKg); kt <= a.fastestKt(&c) && kt < 500; kt += 2 {
			if q, fits := CruiseAt(a, c, massKg, ft, kt, in); fits && (!ok || q.KgPerNM < best.KgPerNM) {
				best, ok = q, true
			}
		}
	}
	return best, ok
}
