package ledger

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// Landing says what is wrong with it, the worst first: a flight that lands so has not
// arrived well, however much was told. "" where nothing is.
func (l *Ledger) Landing() string {
	var list []string
	if x, ok := l.Here.TooFast(); ok {
		list = append(list, tooFast(x))
	}
	if x, _ := l.Here.Rolled(); x.Over() {
		list = append(list, "The landing runs off the end of the runway"+where(x)+": "+overrun(x)+l.against(x, "to_headwind_kt")+".")
	}
	if x, _ := l.Here.Rejected(); x.Over() {
		list = append(list, "The rejected take-off runs off the end of the runway"+where(x)+": "+overrun(x)+l.against(x, "from_headwind_kt")+".")
	}
	if x, _ := l.Here.Rolled(); x.Across() {
		list = append(list, "It lands"+where(x)+" in "+say.Whole(x.CrossKt)+" kt of wind across, more than the "+say.Whole(x.MostCrossKt)+" kt that it can be landed in.")
	}
	if mj, most, over := l.Here.BrakeEnergy(); over {
		list = append(list, "The brakes take up "+say.Quantity(mj, "mj")+" to the stop, more than the "+say.Quantity(most, "mj")+" that they can.")
	}
	if l.Here.LandsOnLess() {
		list = append(list, "It lands with the gear not all down and locked.")
	}
	if kg, most, over := l.Here.Overweight(); over {
		list = append(list, "It lands at "+say.Quantity(kg, "kg")+", above the greatest landing mass of "+say.Quantity(most, "kg")+".")
	}
	if x, ok := l.fuelLeft(); ok && x.LeftKg < x.ReserveKg {
		list = append(list, "It lands with "+say.Quantity(x.LeftKg, "kg")+" of fuel, less than the final reserve of "+say.Quantity(x.ReserveKg, "kg")+".")
	}
	return strings.Join(list, " ")
}

// tooFast says how much faster than its limits a flight grows, and for how long.
func tooFast(x run.Overspeed) string {
	return fmt.Sprintf("It flies faster than its limits (%s and Mach %.2f) from %s into the flight for %s: %s and Mach %.2f at most.",
		say.Quantity(x.LimitKt, "kt"), x.LimitMach, say.Clock(x.From), say.Lasts(x.To-x.From), say.Quantity(math.Round(x.Kt), "kt"), x.Mach)
}

// Fuel is what is left in the tanks at touchdown.
type Fuel struct {
	LeftKg    float64 `json:"left_kg"`
	ReserveKg float64 `json:"final_reserve_kg"`
	Rule      string  `json:"reserve_rule"`
	Source    string  `json:"reserve_source"`
}

func (l *Ledger) fuelLeft() (x Fuel, ok bool) {
	f, ok := l.Here.FuelAtTouchdown()
	return Fuel{math.Round(f.LeftKg), math.Round(f.ReserveKg), f.Rule.Name, f.Rule.Source}, ok
}

// where names the runway.
func where(x run.Rolled) string {
	return say.Ahead(" at ", x.Field) + say.Ahead(", runway ", x.End)
}

// overrun says what a landing takes of a runway that is too short for it.
func overrun(x run.Rolled) string {
	if x.TookM > 0 {
		return "it takes " + say.Quantity(x.TookM, "m") + " without any margin, of " + say.Quantity(x.HasM, "m")
	}
	return "it does not stop on " + say.Quantity(x.HasM, "m")
}

// ends says where and when the flight is over, and how much runway that takes: what
// people ask first of a failure in the air. "" where it breaks off, where the failure
// never comes, and where the flight does not feel the systems and so lands whatever fails.
func (s speaker) ends() string {
	e, _ := s.l.ending()
	if !e.Arrived() || !s.l.comes() {
		return ""
	}
	if slices.ContainsFunc(s.l.Here.Turns, func(t run.Turned) bool { return t.Taxiing }) {
		return s.actors("it stops on the taxi out, and the flight goes nowhere.")
	}
	if x, ok := s.l.Here.Rejected(); ok {
		return s.actors("the take-off is rejected, and the flight goes nowhere" + say.Ahead(": it stops on ", s.within(x)) + ".")
	}
	x, ok := s.l.Here.Rolled()
	at, down := s.l.Here.Touchdown()
	if !ok || !down {
		return ""
	}
	if x.Field == "" {
		x.Field = s.l.Here.Course.Flight.To
	}
	return s.actors("it lands"+where(x)+", "+s.clocked(at)+say.Ahead(", and stops on ", s.within(x))+".") + s.unfollowed(at)
}

// within says on how much runway it stops: "" where it does not, or has no length.
func (s speaker) within(x run.Rolled) string {
	_, _, hot := s.l.Here.BrakeEnergy()
	if x.Over() || x.TookM == 0 || x.HasM == 0 || hot || s.l.Here.LandsOnLess() {
		return "" // or it stops only if the brakes last, or not on its wheels
	}
	return say.Whole(x.TookM) + " of " + say.Quantity(x.HasM, "m") + ", with no margin added"
}

// clocked says when something is by the clock of the failure.
func (s speaker) clocked(at book.Time) string {
	if _, ok := s.l.Here.FirstStrike(); !ok || at < s.l.Strike {
		return say.Lasts(at) + " into the flight"
	}
	return say.Lasts(at-s.l.Strike) + " after the failure"
}

// actors says who acts, ahead of what comes of it.
func (s speaker) actors(what string) string {
	switch {
	case s.l.Here.Crewed:
		return "With a crew by the book" + s.pace() + " " + what
	case len(s.l.Here.Scenario.Actions) == 0 && len(s.l.Here.Turns) == 0:
		return "Hands off " + what
	}
	return say.Capital(what)
}

// lands says with how much fuel, or where a rejected take-off stops.
func (s speaker) lands() string {
	if x, ok := s.l.fuelLeft(); ok {
		return "; it lands with " + say.Quantity(x.LeftKg, "kg") + " of fuel (final reserve " + say.Quantity(x.ReserveKg, "kg") + ")"
	}
	if x, ok := s.l.Here.Rejected(); ok && x.TookM > 0 {
		return "; it stops " + say.Whole(x.TookM) + " m from where its roll began" + s.l.against(x, "from_headwind_kt") + say.Ahead(", on ", has(x))
	}
	return ""
}

// against says with which wind along the runway: on those of the book's flight that
// which the flight gives there, which is not the wind aloft.
func (l *Ledger) against(x run.Rolled, number string) string {
	_, given := l.Here.Course.Flight.Number(number)
	kt := math.Round(x.HeadKt)
	switch {
	case !given && !x.Turned:
		return ", in calm air (the flight gives no wind on the runway)"
	case kt == 0:
		return ", in calm air"
	case kt < 0:
		return ", with " + say.Whole(-kt) + " kt of wind from behind on the runway"
	}
	return ", against " + say.Whole(kt) + " kt of wind on the runway"
}

// has names a runway by its length.
func has(x run.Rolled) string {
	if x.HasM == 0 {
		return ""
	}
	return say.Quantity(x.HasM, "m") + " of runway" + where(x)
}

// stops says what the landing takes of a runway whose length is not known.
func (s speaker) stops() string {
	x, ok := s.l.Here.Rolled()
	if !ok || x.HasM > 0 || x.TookM == 0 {
		return ""
	}
	return "; the landing takes " + say.Quantity(x.TookM, "m") + " without any margin" + s.l.against(x, "to_headwind_kt") + ", and the length of the runway is not known"
}
