package run

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"knockon/book"
)

// Turn has the flight turned at a moment after the present one, as a leg of a plan
// with that moment turns it. The error says in a pilot's words why it cannot be flown,
// as far as that is known now; the flight is then as it was. What comes to stand in
// its way until the moment, Turns says.
func (f *Flying) Turn(l Leg, at book.Time) error {
	if err := f.mayTurn(at); err != nil {
		return err
	}
	t := Turned{Leg: l, At: at}
	if err := f.pilot.begins(f.m, &t, f.pilot.course.configure(f.m)); err != nil {
		return err
	}
	if t.Leg.OverGround() && t.Route.Ahead && f.Bound() == t.Route.Name && f.pilot.bound != "" {
		return fmt.Errorf("it goes to %s already", t.Route.Name)
	}
	f.Lead(l, at)
	return nil
}

// Lead does the same without asking whether it can be flown: where it cannot, Turns
// says why when the moment has come.
func (f *Flying) Lead(l Leg, at book.Time) {
	if f.mayTurn(at) != nil {
		return
	}
	p := f.pilot
	l.At, l.When = book.Moment{Offset: at}, nil
	l = l.Taken()
	_ = p.addLeg(context.Background(), l) // its moment is a time, which needs no looking up
	p.scenario.Plan = append(slices.Clone(p.scenario.Plan), l)
}

// mayTurn says why nothing can begin at a moment.
func (f *Flying) mayTurn(at book.Time) error {
	p := f.pilot
	switch {
	case p.path == nil:
		return errors.New("this flight keeps to its profile whatever the systems do, so it cannot be turned")
	case at <= f.now || at > f.End():
		return errors.New("the flight is past that moment")
	case slices.ContainsFunc(p.legs, func(x pending) bool { return x.at == at }):
		return errors.New("another turn begins at this moment")
	}
	return nil
}

// Turns are the legs whose moment has come, in order.
func (f *Flying) Turns() []Turned { return f.pilot.turns }

// Bound is where the flight goes: the name of the field.
func (f *Flying) Bound() string { return f.pilot.course.bound(f.pilot.turns) }
