package energy

import (
	"knockon/book"
	"knockon/flight"
)

// StateAt is the state of a flight at a moment. The time and the distance are
// those of the flight.
func StateAt(p flight.Path, t book.Time) State {
	of := func(name string) float64 { return p.Value(quantities[name], t) }
	return State{
		TimeS: of("time_s"), DistanceM: of("distance_nm") * 1852, AltitudeFt: of("altitude_ft"), TASKt: of("true_airspeed_kt"),
		MassKg: of("mass_kg"), FuelKg: of("fuel_kg"), Lever: of("thrust_pct") / 100,
	}
}

var quantities = func() map[string]int {
	m := map[string]int{}
	for i, q := range book.Quantities {
		m[q.Name] = i
	}
	return m
}()

// PlanOf is how a flight of the book is meant to be flown, to a runway at its
// destination's elevation, with the wind aloft. A diversion has its own wind and
// elevation.
func PlanOf(f *book.Flight) Plan {
	of := func(name string) float64 { v, _ := f.Number(name); return v }
	head := of("headwind_kt")
	return Plan{
		Air: flight.Air{DeviationC: of("isa_deviation_c")}, Wind: func(float64) float64 { return head },
		ClimbKt: of("climb_kt"), ClimbMach: of("climb_mach"), DescentKt: of("descent_kt"), ApproachKt: of("approach_kt"),
		CruiseFt: of("cruise_altitude_ft"), ElevationFt: of("to_elevation_ft"),
	}
}
