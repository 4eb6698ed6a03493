// Package run flies a circuit along a flight with failures and actions and
// gives the record of it.
//
// Invariant: the same circuit, flight and scenario give the same record, to
// the byte, whatever step the search for crossings uses.
//
// Start reading at Course.Fly (fly.go).
package run

import (
	"fmt"
	"slices"

	"knockon/book"
)

// Scenario is what happens on a flight beside the flight itself.
type Scenario struct {
	Strikes     []Strike
	Inoperative []book.FailureRef // failed at dispatch: before the start
	SetUp       []Action          // how the aircraft is set, whatever fails: also in what the run is compared with
	Actions     []Action          // what the crew move in this run alone
	Plan        []Leg             // where it goes; nil: as the book's flight
	FliesOn     bool              // also where the aircraft cannot be flown: for those who count what is lost

	forced []forced // phases that the legs of the plan have made current
}

// Strike is a set of failures that come together.
type Strike struct {
	Fail       []book.FailureRef // units, unit.fault, or events
	At         book.Moment
	When       *book.Expr // they come when this becomes yes, At being ignored
	Lasts      book.Time  // 0: for good
	Resettable bool
}

// Action is a control that the crew moves.
type Action struct {
	Control  string
	Position string
	At       book.Moment
	When     *book.Expr // moved when this becomes yes, At being ignored
	Held     bool       // a timed one: no act moves the control back until another timed one moves it

	// taken while the flight was under way: it may lie behind the end of the
	// flight with nothing failed, since this one lasted longer.
	taken bool
	acted bool // by a hand on what happened
}

// Taken marks an action as one that was decided under way, so that it may lie
// behind the end of the flight with nothing failed.
func (a Action) Taken() Action { a.taken = true; return a }

// Acted marks an action as one that a hand decided on under way.
func (a Action) Acted() Action { a.taken, a.acted = true, true; return a }

// Healthy is the scenario without its failures and without what the crew move
// because of them: what it is compared with. It goes the same way.
func (s Scenario) Healthy() Scenario {
	return Scenario{Inoperative: s.Inoperative, SetUp: s.SetUp, FliesOn: s.FliesOn, forced: s.forced}
}

// moves lists all that is moved beside the flight's own acts: the set-up first,
// so that of two at one moment the crew's counts.
func (s Scenario) moves() []Action { return slices.Concat(s.SetUp, s.Actions) }

// Asked are the actions that somebody gave, Decided those that a hand decided on
// by itself.
func (s Scenario) Asked() []Action   { return s.only(false) }
func (s Scenario) Decided() []Action { return s.only(true) }

func (s Scenario) only(acted bool) (list []Action) {
	for _, a := range s.Actions {
		if a.acted == acted {
			list = append(list, a)
		}
	}
	return list
}

// OfGiven turns the given of a claim into a scenario.
func OfGiven(g *book.Given, b *book.Build) (Scenario, error) {
	s := Scenario{Inoperative: g.Inoperative}
	for _, k := range g.Strikes {
		at, err := book.ParseMoment(k.At, b)
		if err != nil {
			return s, fmt.Errorf("%s: %w", k.Range, err)
		}
		s.Strikes = append(s.Strikes, Strike{Fail: k.Fail, At: at, When: k.When, Lasts: book.AtSeconds(k.ForS), Resettable: k.Resettable})
	}
	for _, a := range g.Acts {
		s.Actions = append(s.Actions, Action{Control: a.Set, Position: a.To, When: a.When})
	}
	for _, a := range g.SetUps {
		at, err := book.ParseMoment(a.At, b)
		if err != nil {
			return s, fmt.Errorf("%s: %w", a.Range, err)
		}
		s.SetUp = append(s.SetUp, Action{Control: a.Set, Position: a.To, At: at, When: a.When})
	}
	for _, l := range g.Plan {
		s.Plan = append(s.Plan, LegOf(l, s.Strikes))
	}
	return s, nil
}

// LegOf is a leg of a plan as it was written. One without a moment begins when the
// first of the failures comes.
func LegOf(l book.PlanLeg, strikes []Strike) Leg {
	leg := Leg{Do: Manoeuvre(l.Do), To: l.To, At: l.At, When: l.When, LevelFt: l.LevelFt, For: l.For, MassKg: l.MassKg}
	if !l.Timed && len(strikes) > 0 {
		leg.At, leg.When = strikes[0].At, strikes[0].When
	}
	return leg
}
