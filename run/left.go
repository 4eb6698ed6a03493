package run

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// Left is what is left of an approach and a landing at a moment of the flight, as far
// as the systems say so in the air.
type Left struct {
	Devices                energy.Config // engines, brakes, anti-skid and added speed count
	Ratio                  float64       // on the landing distance with nothing failed, by the book's manual; 0: it gives none
	CeilingFt, VisibilityM float64       // that the approach needs
	CrossKt, TailKt        float64       // that may blow
}

// Whole is what an aircraft has of which no system says anything.
func Whole() Left {
	return Left{Devices: energy.Clean(), CrossKt: book.NoLimit, TailKt: book.NoLimit}
}

// Choice is how a field was found where nobody named one.
type Choice int

// Choices.
const (
	Named       Choice = iota // it was: the field of the leg
	AsItIs                    // it suits the aircraft as it is at the turn, everything known
	AsIfWhole                 // it suits with nothing failed
	NearestOnly               // it has a runway
)

// leaves is what is left at a moment. Brakes that are no worse than on the flight with
// nothing failed count as whole: a book may have them come on the ground.
func (p *pilot) leaves(m *circuit.Machine, at book.Time, now energy.Config) Left {
	l := p.course.limitsLeft(m.Value)
	l.CeilingFt, l.VisibilityM = max(l.CeilingFt, p.dispatched.CeilingFt), max(l.VisibilityM, p.dispatched.VisibilityM)
	whole := p.course.sharedAt(at)
	l.Devices.Engines, l.Devices.AddsKt = now.Engines, now.AddsKt
	if now.Brakes < whole.Brakes {
		l.Devices.Brakes = now.Brakes
	}
	l.Devices.AntiSkid = now.AntiSkid || !whole.AntiSkid
	return l
}

// noteDispatched takes down what is left when the flight begins.
func (p *pilot) noteDispatched(m *circuit.Machine) {
	p.dispatched = p.course.limitsLeft(m.Value)
	p.dispatched.Ratio = 0 // it goes with nothing failed
}

// limitsLeft is what the book's effects say of an approach and a landing now.
func (c *Course) limitsLeft(value func(circuit.Node) float64) Left {
	of := func(effect string) float64 {
		if n, ok := c.circuit.Node(circuit.Value{Item: book.EffectID(effect)}); ok {
			return value(n)
		}
		kind, _ := book.EffectNamed(effect)
		return kind.Default
	}
	l := Whole()
	l.Ratio, l.CeilingFt, l.VisibilityM = of("manual_landing_ratio"), of("least_ceiling_ft"), of("least_visibility_m")
	l.CrossKt, l.TailKt = c.most("max_crosswind_kt", of("most_crosswind_kt")), c.most("max_tailwind_kt", of("most_tailwind_kt"))
	return l
}

// leftAt is what the effects say at a moment of a record; what engines and brakes give
// is in how it was flown.
func (r *Record) leftAt(at book.Time, w Whereabouts) Left {
	l := r.Course.limitsLeft(func(n circuit.Node) float64 { return r.At(n, at) })
	l.CeilingFt, l.VisibilityM = max(l.CeilingFt, w.Whole.CeilingFt), max(l.VisibilityM, w.Whole.VisibilityM)
	return l
}

// most is the smaller of a limit of the aircraft block, where it gives one, and another.
func (c *Course) most(limit string, other float64) float64 {
	if v, ok := c.Build.Aircraft.Number(limit); ok {
		return min(v, other)
	}
	return other
}
