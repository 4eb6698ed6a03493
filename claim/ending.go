package claim

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
)

// ending answers how the flight with the failures ends.
func (f *finder) ending(e *book.Expr) float64 {
	how := f.how()
	word := ""
	if len(e.Args) > 0 {
		word = e.Args[0].Word
	}
	if e.Word == "brakes_overheat" {
		return f.overheats()
	}
	if e.Word == "lands_overweight" {
		return f.overweight()
	}
	ident, name := f.bound()
	if e.Word == "never_arrives" {
		return f.note(yes(how != "" && (word == "" || word == how) && f.without(e.Args)), f.ended(ident, name))
	}
	there := word == "" || strings.EqualFold(word, ident) || strings.EqualFold(word, name)
	return f.note(yes(how == "" && there), f.ended(ident, name))
}

// without says that the function that is named does not work at the end of the
// flight.
func (f *finder) without(args []*book.Expr) bool {
	if len(args) < 2 {
		return true
	}
	n, ok := f.l.Here.Circuit().Node(circuit.Value{Item: args[1].ID})
	return ok && f.l.Here.At(n, f.l.Here.End) == 0
}

// overweight says whether the flight lands above the greatest landing mass.
func (f *finder) overweight() float64 {
	kg, most, over := f.l.Here.Overweight()
	if most == 0 {
		return f.note(0, "no greatest landing mass is given, or the flight does not feel the systems")
	}
	return f.note(yes(over), fmt.Sprintf("lands at %s kg; the greatest landing mass is %s kg", say.Whole(kg), say.Whole(most)))
}

// overheats says whether the brakes take up more than they can.
func (f *finder) overheats() float64 {
	mj, most, over := f.l.Here.BrakeEnergy()
	if most == 0 {
		return f.note(0, "no brake energy is given, or the flight does not feel the systems")
	}
	return f.note(yes(over), fmt.Sprintf("the brakes take up %s; they can take %s", say.Quantity(mj, "mj"), say.Quantity(most, "mj")))
}

// overruns is how a flight ends that runs off the end of its runway.
const overruns = "overruns"

// how is how the flight ends, "" where it arrives.
func (f *finder) how() string {
	if end := f.l.Here.Ending(); !end.Arrived() {
		return string(end.How)
	}
	if _, _, over := f.l.Here.Overrun(); over {
		return overruns
	}
	return ""
}

// bound is the field that the flight goes to.
func (f *finder) bound() (ident, name string) {
	name = f.l.Here.Bound()
	if f.ground != nil {
		if a, ok := f.ground.Find(name); ok {
			return a.Ident, a.Name
		}
	}
	return name, name
}

// rejected says that the flight ends on the runway that it began on.
func (f *finder) rejected() bool {
	return slices.ContainsFunc(f.l.Here.Turns, func(t run.Turned) bool { return t.Why == "" && t.Leg.Do == run.Reject })
}

func (f *finder) ended(ident, name string) string {
	end := f.l.Here.Ending()
	if !end.Arrived() {
		return fmt.Sprintf("%s: %s at %s", end.How, end.Why, f.clock(end.At))
	}
	to := name
	if ident != name {
		to += " (" + ident + ")"
	}
	if took, has, over := f.l.Here.Overrun(); over {
		return fmt.Sprintf("%s: at %s the landing takes %s m of %s m", overruns, to, say.Whole(took), say.Whole(has))
	}
	if f.rejected() {
		return "stops at " + to + " without having taken off, at " + f.clock(end.At)
	}
	return "arrives at " + to + ", at " + f.clock(end.At)
}
