package run

import (
	"context"
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/roll"
)

// A leg to the nearest field has to know which is good before anybody has been there.
// So the flight is flown on, with whoever acts in it, to one field after the other, and
// the first at which it comes down as it should is the one. The leg keeps what was
// found: whoever flies the record's scenario again goes there.

// Comes is how a flight comes down where it was flown on to.
type Comes int

// From worst to best.
const (
	NotThere  Comes = iota // it does not, or nobody flew there
	RunsOff                // it does not stop on the runway
	Stops                  // on the runway, but in more wind or less weather than what is left of it is good for
	Short                  // on the runway within its limits, but without the margin, or not by the manual
	HotBrakes              // as it should, but that the brakes take up more energy than they can
	AsItShould
)

// down is that, and of two that came down alike by how much: metres beyond the runway
// where it runs off, the part of the runway that it takes where it stops.
type down struct {
	comes Comes
	by    float64
}

func (d down) better(than down) bool {
	return d.comes > than.comes || d.comes == than.comes && d.by < than.by
}

// found is how the field of a leg to the nearest was found.
type found struct {
	choice  Choice
	flown   int
	comes   Comes
	instead string
	around  bool   // it went around first
	stays   string // of a leg that asks whether the runway does: why it stays, or that it does
}

// mostFlown is to how many fields a flight is flown on at most (an assumption).
const mostFlown = 12

// flownOver is by how much a landing as flown may be longer than the one that a router
// counts a manual's factor from: there all that stops it works from the touchdown on (an
// assumption; some 60 m).
const flownOver = 1.07

// nearest finds the field of a leg that names none: the first of the router's at which
// the flight comes down as it should; else that at which it comes down best; else the
// router's choice.
func (p *pilot) nearest(m *circuit.Machine, t *Turned, w Whereabouts) error {
	list, err := p.course.router.Fields(w)
	if err == nil {
		t.Route, err = p.course.router.Route(t.Leg, w)
	}
	if err != nil {
		return err
	}
	if !p.canFork() || p.looking {
		list = nil
	}
	flown, best := 0, down{}
	for flown < min(len(list), mostFlown) && best.comes < AsItShould {
		on := list[flown]
		if d := p.flownOn(m, p.straight(m, t.Leg, on)).down(on, w); d.better(best) {
			t.Route, t.Route.Comes, best = on, d.comes, d
		}
		flown++
	}
	t.Route.Flown = flown
	p.note(t)
	return nil
}

// canFork says that whoever acts in the flight can be in two places.
func (p *pilot) canFork() bool {
	_, can := p.hand.(Forker)
	return p.hand == nil || can
}

// note keeps in the leg of the scenario where it goes.
func (p *pilot) note(t *Turned) {
	l := t.Leg
	l.To, l.found = t.Route.Field+"/"+t.Route.End, found{choice: t.Route.Choice, flown: t.Route.Flown, comes: t.Route.Comes}
	p.keep(t.Leg, l)
}

// keep puts a leg in the place of one of the scenario.
func (p *pilot) keep(asked, l Leg) {
	if i := slices.Index(p.scenario.Plan, asked); i >= 0 {
		p.scenario.Plan = slices.Clone(p.scenario.Plan)
		p.scenario.Plan[i] = l
	}
}

// straight are the legs to a runway end: none where it is on its way there.
func (p *pilot) straight(m *circuit.Machine, l Leg, on Route) []Leg {
	if p.onItsWay(on) {
		return nil
	}
	l.To, l.When, l.At = on.Field+"/"+on.End, nil, book.Moment{Offset: m.Now()}
	return []Leg{l}
}

// flownOn is the flight flown on by legs, nil where it cannot be.
func (p *pilot) flownOn(m *circuit.Machine, legs []Leg) *Record {
	h := (&Held{At: m.Now(), course: p.course, pilot: p, machine: m, path: p.path}).hand()
	h.bends, h.forgetful, h.looking = nil, false, true
	for i, l := range legs {
		h.legs = slices.Insert(h.legs, i, pending{leg: l, at: l.At.Offset})
	}
	h.steer(h.machine, false)
	r, err := h.pilot.goOn(context.Background(), h.machine, false)
	if err != nil {
		return nil
	}
	return r
}

// down is how a flight came down at a runway end that it was flown to.
func (r *Record) down(on Route, w Whereabouts) down {
	if r == nil {
		return down{}
	}
	x, landed := r.Rolled()
	switch {
	case !landed || r.Fault != nil || r.Bound() != on.Name:
		return down{}
	case x.TookM == 0:
		return down{RunsOff, math.Inf(1)}
	case x.TookM > on.LengthM:
		return down{RunsOff, x.TookM - on.LengthM}
	}
	return r.stopped(x.TookM, on, w)
}

// stopped is how it came down where it stopped on the runway.
func (r *Record) stopped(tookM float64, on Route, w Whereabouts) down {
	at, _ := r.Touchdown()
	_, w.State, _ = r.path.(*energy.Path).Touchdown()
	w.Left = r.leftAt(at, w)
	w.Left.Ratio *= flownOver
	limits := w
	limits.Left.Ratio = 0
	_, _, hot := r.BrakeEnergy()
	switch {
	case !r.Course.router.Suits(on, limits):
		return down{Stops, tookM / on.LengthM}
	case roll.AtArrival(tookM) > on.LengthM || !r.Course.router.Suits(on, w):
		return down{Short, tookM / on.LengthM}
	case hot:
		return down{comes: HotBrakes}
	}
	return down{comes: AsItShould}
}
