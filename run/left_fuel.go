package run

import (
	"context"

	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/fuel"
)

// FuelLeft is what is left in the tanks at touchdown, and what a rule asks for there.
type FuelLeft struct {
	LeftKg, ReserveKg float64
	Rule              fuel.Rule
}

// FuelAtTouchdown holds it against the rule that prices go by where none is named, at
// the mass when the flight was last turned to a field, or else when something first
// failed. ok is false where the flight did not land, or does not feel the systems.
func (r *Record) FuelAtTouchdown() (f FuelLeft, ok bool) {
	path, live := r.path.(*energy.Path)
	if !live || r.rejected() {
		return f, false
	}
	at, s, down := path.Touchdown()
	if !down || at > r.End {
		return f, false
	}
	flows, err := path.FlowsAt(context.Background(), r.turnedAt(), r.Course.Flight)
	if err != nil {
		return f, false
	}
	f.Rule, _ = fuel.Named("")
	f.LeftKg, f.ReserveKg = s.FuelKg, f.Rule.FinalReserveKg(fuel.Burn{CruiseKgPerH: flows.Cruise, HoldKgPerH: flows.Hold})
	return f, true
}

// turnedAt is when the flight was last turned to a field, or else when something
// first failed.
func (r *Record) turnedAt() book.Time {
	at, _ := r.FirstStrike()
	for _, t := range r.Turns {
		if t.Why == "" && t.Leg.OverGround() {
			at = t.At
		}
	}
	return at
}
