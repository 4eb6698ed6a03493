package run

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// Left is what is left of an approach and a landing at a moment of the flight, as far
// as the systems say so in the air.
type Left struct {
	Devices                energy.Config // engines, brakes and anti-skid count
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
	AsItIs                    // the nearest that suits the aircraft as it is, everything known
	AsIfWhole                 // none does, or no engine gives thrust: the nearest that suits with nothing failed
	NearestOnly               // none does that either
)

// leaves is what is left at a moment. Brakes that are no worse than on the flight with
// nothing failed count as whole: a book may have them come on the ground.
func (p *pilot) leaves(m *circuit.Machine, at book.Time, now energy.Config) Left {
	l := p.limitsLeft(m)
	l.CeilingFt, l.VisibilityM = max(l.CeilingFt, p.dispatched.CeilingFt), max(l.VisibilityM, p.dispatched.VisibilityM)
	whole := p.course.sharedAt(at)
	l.Devices.Engines = now.Engines
	if now.Brakes < whole.Brakes {
		l.Devices.Brakes = now.Brakes
	}
	l.Devices.AntiSkid = now.AntiSkid || !whole.AntiSkid
	return l
}

// noteDispatched takes down what is left when the flight begins.
func (p *pilot) noteDispatched(m *circuit.Machine) {
	p.dispatched = p.limitsLeft(m)
	p.dispatched.Ratio = 0 // it goes with nothing failed
}

// limitsLeft is what the book's effects say of an approach and a landing now.
func (p *pilot) limitsLeft(m *circuit.Machine) Left {
	of := func(effect string) float64 {
		if n, ok := p.course.circuit.Node(circuit.Value{Item: book.EffectID(effect)}); ok {
			return m.Value(n)
		}
		kind, _ := book.EffectNamed(effect)
		return kind.Default
	}
	l := Whole()
	l.Ratio, l.CeilingFt, l.VisibilityM = of("manual_landing_ratio"), of("least_ceiling_ft"), of("least_visibility_m")
	l.CrossKt, l.TailKt = p.course.most("max_crosswind_kt", of("most_crosswind_kt")), p.course.most("max_tailwind_kt", of("most_tailwind_kt"))
	return l
}

// most is the smaller of a limit of the aircraft block, where it gives one, and another.
func (c *Course) most(limit string, other float64) float64 {
	if v, ok := c.Build.Aircraft.Number(limit); ok {
		return min(v, other)
	}
	return other
}
