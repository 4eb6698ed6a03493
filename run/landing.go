package run

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/roll"
)

// Rolled is how the landing of a flight comes out on its runway.
type Rolled struct {
	TookM  float64 // from the threshold to the stop, without any margin; 0: it does not stop
	HasM   float64 // landing distance available; 0: not known
	Field  string  // name; "": that of the book's flight, which is not among the airfields that are known
	End    string  // of the runway
	Turned bool    // it was turned to that runway
	HeadKt float64 // wind from ahead on it

	CrossKt     float64 // wind across it, with gusts, as reported
	MostCrossKt float64 // that can be landed in with what is left at touchdown; 0 where the book gives none
}

// Across says that the wind across the runway is more than can be landed in.
func (x Rolled) Across() bool { return x.MostCrossKt > 0 && x.CrossKt > x.MostCrossKt }

// Over says that it runs off the end.
func (x Rolled) Over() bool { return x.HasM > 0 && (x.TookM == 0 || x.TookM > x.HasM) }

// Rolled is the landing as its price has it (roll.Careful), from what the aircraft has at touchdown and on the roll; ok
// is false where the flight did not land, or does not feel the systems.
func (r *Record) Rolled() (x Rolled, ok bool) {
	path, live := r.path.(*energy.Path)
	if !live || r.rejected() {
		return x, false
	}
	landing, _, down := path.Landing()
	at, _, _ := path.Touchdown()
	if !down || at > r.End {
		return x, false
	}
	x = r.runway(path)
	x.MostCrossKt = r.mostCross(at)
	x.HeadKt = landing.Runway.HeadwindKt
	if rolled, _, err := roll.Careful(landing); err == nil && rolled.Stops {
		x.TookM = rolled.TotalM + beyondM(path, at)
	}
	return x, true
}

// longM is how far behind the beginning of its runway a flight touches down at most where
// nothing is added for it: the way of the flare, and what it may be drawn out (common
// practice).
const longM = 900.0

// beyondM is how far beyond that a flight that came in too high touches down.
func beyondM(path *energy.Path, at book.Time) float64 {
	if past := -path.LeftM(at); past > longM {
		return past
	}
	return 0
}

// runway is the one that was landed on: that of the last leg to a field, or that of
// the book's flight as far as a router knows it.
func (r *Record) runway(path *energy.Path) (x Rolled) {
	for _, t := range r.Turns {
		if t.Why == "" && t.Leg.OverGround() {
			x = Rolled{HasM: t.Route.LengthM, Field: t.Route.Name, End: t.Route.End, Turned: true, CrossKt: t.Route.CrossKt}
		}
	}
	c := r.Course
	if x.Turned || c.router == nil {
		return x
	}
	track, err := c.router.Track(c.Flight)
	if err != nil {
		return x
	}
	_, state, _ := path.Touchdown()
	w := Whereabouts{Flight: c.Flight, Place: track.From, State: state, Aircraft: c.mission.Aircraft(), Left: Whole(), Whole: Whole()}
	if on, err := c.router.Route(Leg{Do: GoOn}, w); err == nil {
		x.HasM, x.Field, x.End, x.CrossKt = on.LengthM, on.Name, on.End, on.CrossKt
	}
	return x
}

// mostCross is the most wind across that can be landed in at a moment, as the aircraft
// block and the effects have it; 0 where neither gives any.
func (r *Record) mostCross(at book.Time) float64 {
	most, given := r.Course.Build.Aircraft.Number("max_crosswind_kt")
	if n, ok := r.Circuit().Node(circuit.Value{Item: book.EffectID("most_crosswind_kt")}); ok {
		if now := r.At(n, at); !given || now < most {
			return now
		}
	}
	return most
}

// Touchdown is when a flight that feels the systems touched down, if it did: one that
// rejected its take-off never flew.
func (r *Record) Touchdown() (at book.Time, ok bool) {
	path, live := r.path.(*energy.Path)
	if !live || r.rejected() {
		return 0, false
	}
	at, _, ok = path.Touchdown()
	return at, ok
}

// InAir says that a flight that feels the systems is in the air at a moment.
func (r *Record) InAir(at book.Time) bool {
	path, live := r.path.(*energy.Path)
	return live && path.InAir(at)
}

// Rejected is how a rejected take-off comes out on the best runway of the field
// that the flight leaves: from where its roll began to the stop. ok is false where none
// was rejected on the roll, or its distance is not known.
func (r *Record) Rejected() (x Rolled, ok bool) {
	path, live := r.path.(*energy.Path)
	if !live || !r.rejected() || !path.Rolling() {
		return x, false
	}
	landing, _, _ := path.Landing()
	x.TookM, _ = path.RejectedM()
	x.HeadKt = landing.Runway.HeadwindKt
	c := r.Course
	if c.router == nil {
		return x, true
	}
	if track, err := c.router.Track(c.Flight); err == nil {
		w := Whereabouts{Flight: c.Flight, Place: track.From, State: energy.StateAt(path, 0), Aircraft: c.mission.Aircraft(), Left: Whole(), Whole: Whole()}
		if on, err := c.router.Route(Leg{Do: Return}, w); err == nil {
			x.HasM, x.Field, x.End = on.LengthM, on.Name, on.End
		}
	}
	return x, true
}

// Overrun is how much runway the landing took (0: it does not stop) and how much
// there was (0: it is not known), in metres; over says that it ran off the end.
func (r *Record) Overrun() (took, has float64, over bool) {
	x, _ := r.Rolled()
	return x.TookM, x.HasM, x.Over()
}

// Overweight is the mass at touchdown and the greatest landing mass, where it is
// above that and the book gives one.
func (r *Record) Overweight() (kg, most float64, over bool) {
	path, ok := r.path.(*energy.Path)
	most, given := r.Course.Build.Aircraft.Number("max_landing_mass_kg")
	if !ok || !given || r.Fault != nil || r.rejected() {
		return 0, 0, false
	}
	_, at, down := path.Touchdown()
	return at.MassKg, most, down && at.MassKg > most
}

// BrakeEnergy is what the brakes take up from touchdown, or from where the take-off
// is rejected, to a full stop, in megajoules, and the most that they can, where the
// book gives it; over says that it is more.
func (r *Record) BrakeEnergy() (mj, most float64, over bool) {
	path, live := r.path.(*energy.Path)
	most, given := r.Course.Build.Aircraft.Number("max_brake_energy_mj")
	if !live || !given {
		return 0, 0, false
	}
	_, rolled, down := path.Landing()
	if at, _, _ := path.Touchdown(); !down || at > r.End {
		return 0, most, false
	}
	mj = rolled.BrakeJ / 1e6
	return mj, most, mj > most
}

// Overspeed is a time in which a flight is faster than its limits.
type Overspeed = energy.Overspeed

// TooFast is the first such time, if there is one.
func (r *Record) TooFast() (o Overspeed, ok bool) {
	path, live := r.path.(*energy.Path)
	if !live {
		return o, false
	}
	return path.TooFast(r.End)
}

// rejected says that the take-off was: the flight never left the ground.
func (r *Record) rejected() bool {
	return slices.ContainsFunc(r.Turns, func(t Turned) bool { return t.Why == "" && t.Leg.Do == Reject })
}

// LandsOnLess says that a flight touched down while the gear was not all down and
// locked, as far as the book says so.
func (r *Record) LandsOnLess() bool {
	n, ok := r.Circuit().Node(circuit.Value{Item: book.EffectID("gear_locked")})
	if !ok {
		return false
	}
	ground, flew := quantity("on_ground"), false
	for _, t := range r.Instants() {
		switch on := r.path.Value(ground, t) != 0; {
		case !on:
			flew = true
		case flew:
			return r.Before(n, t) == 0
		}
	}
	return false
}
