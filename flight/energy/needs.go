package energy

import "knockon/flight/roll"

// LandingM is the landing distance with the margin at arrival (roll.AtArrival)
// that this aircraft needs on a runway at a mass with nothing failed, in metres:
// what its crew know before they look at what has failed. ok is false where it
// does not stop.
func (a *Aircraft) LandingM(r roll.Runway, massKg float64) (metres float64, ok bool) {
	return a.LandingLeft(r, massKg, Clean())
}

// LandingLeft is the same with the engines, the brakes and the anti-skid that a
// configuration leaves, and the speed that its crew add. Flaps, spoilers and reverse come later, and of what a flight
// still in the air feels nothing tells of them: they count as working, but for the
// reverse of an engine that stands.
func (a *Aircraft) LandingLeft(r roll.Runway, massKg float64, left Config) (metres float64, ok bool) {
	c := a.Landing(Clean())
	c.Engines, c.Brakes, c.AntiSkid, c.AddsKt = left.Engines, left.Brakes, left.AntiSkid, left.AddsKt
	c.GroundSpoilers, c.Autobrake, c.Reverse = 1, true, [2]bool{true, true}
	t := &touched{spinS: a.SpinUpS, landing: roll.Landing{Airframe: a.Airframe(c, r), Runway: r, MassKg: massKg, ThresholdKt: a.ReferenceKt(&c, massKg)}}
	t.note(a.levels(&c), 0)
	rolled, _, err := roll.Careful(t.landing)
	return roll.AtArrival(rolled.TotalM), err == nil && rolled.Stops
}
