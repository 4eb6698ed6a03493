package run

import (
	"errors"
	"sync"

	"knockon/book"
	"knockon/circuit"
)

// Narrowed is the same build and flight, of which no more is worked out than the
// nodes that are kept; these must be all that they hang on (circuit.Circuit.Behind),
// with the effects and what says whether the aircraft can be flown, where its flights
// feel them. What is worked out has the values that it has on the whole course, but a
// run that a loop in the rest would have broken off goes on: keep
// circuit.Circuit.Restless as well where that must not be. A scenario that waits for
// a condition (Scenario.Waits) is flown on the whole course.
func (c *Course) Narrowed(keep []bool) *Course {
	k := c.narrowed(c.course.Narrowed(keep))
	if k.partial = true; c.same != nil {
		k.same = k.along(k.Path, k.course)
	}
	return k
}

// narrowed is the course of a narrower circuit on the same flight, by the same clock.
func (c *Course) narrowed(laid *circuit.Course) *Course {
	clock := c
	if c.clock != nil {
		clock = c.clock
	}
	return &Course{
		Build: c.Build, Flight: c.Flight, Path: c.Path, circuit: laid.Circuit(), step: c.step, course: laid, mission: c.mission, effects: effectNodes(laid.Circuit()),
		shared: c.shared, clock: clock, router: c.router, given: c.given, healthy: map[string]*Record{}, noted: &sync.Map{},
	}
}

// Waits says that something in a scenario comes when a condition becomes yes.
func (s Scenario) Waits() bool { return len(s.conditions()) > 0 }

func (s Scenario) conditions() (list []*book.Expr) {
	add := func(e *book.Expr) {
		if e != nil {
			list = append(list, e)
		}
	}
	for _, k := range s.Strikes {
		add(k.When)
	}
	for _, a := range s.moves() {
		add(a.When)
	}
	for _, l := range s.Plan {
		add(l.When)
	}
	return list
}

var errPartial = errors.New("run: a scenario that waits for a condition is flown on the whole course")
