package rescue

import (
	"fmt"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// leadOfFlight says where the flight breaks off, and why.
func (a *Answer) leadOfFlight() string {
	e := a.here.Ending()
	switch {
	case a.Bites && len(a.Moments) == 0:
		return "The flight breaks off at " + a.clock(e.At) + ": " + e.Why + ". That is within ten seconds of the failure, and nothing is tried before them."
	case a.Bites:
		return "The flight breaks off at " + a.clock(e.At) + ", " + say.Clock(e.At) + " into it: " + e.Why + "."
	case a.Crew != nil && a.Crew.Bites:
		return "The flight arrives if nobody does anything" + ill(a.here) + "."
	case ill(a.here) != "":
		return "The flight arrives" + ill(a.here) + ". What would mend the landing is not looked for: only a flight that breaks off is."
	}
	return "The flight arrives: there is nothing to rescue."
}

// crewOfFlight says how the flight ends with a crew by the book.
func (a *Answer) crewOfFlight(who string) string {
	switch {
	case a.Crew == nil:
		return ""
	case !a.Crew.Bites && (a.Bites || a.Crew.landed != ill(a.here)):
		return who + " it arrives" + a.Crew.landed + "."
	case !a.Crew.Bites:
		return ""
	case !a.Bites:
		return "With a crew by the book it breaks off at " + a.clock(a.Crew.First) + "."
	}
	return who + " it breaks off at " + a.clock(a.Crew.First) + "."
}

// kept is what a rescue comes to, allTheSame what it comes to without one.
func (a *Answer) kept() string {
	if a.f == flight {
		return "the flight arrives"
	}
	return "it is kept"
}

func (a *Answer) allTheSame() string {
	if a.f == flight {
		return "the flight breaks off all the same"
	}
	return "it is lost all the same"
}

// landed says where a flight arrives, and what is bad about its landing.
func (a *Answer) landed(r *Rescue) string {
	if r.Landed == nil {
		return ""
	}
	if text := ill(r.Landed); text != "" {
		return text
	}
	return " at " + r.Landed.Bound()
}

// ill says of a flight that arrives where it lands and what is bad about that; "" where
// nothing is.
func ill(r *run.Record) (text string) {
	if r.LandsOnLess() {
		text += ", and touches down with less than all its gear down and locked"
	}
	if kg, most, over := r.Overweight(); over {
		text += fmt.Sprintf(", at %s kg, which is over its greatest landing mass of %s kg", say.Whole(kg), say.Whole(most))
	}
	switch took, has, over := r.Overrun(); {
	case over && took > 0:
		text += fmt.Sprintf(", and runs off the end of its runway: it needs %s m of %s m", say.Whole(took), say.Whole(has))
	case over:
		text += fmt.Sprintf(", and does not stop on the %s m of its runway", say.Whole(has))
	}
	if text != "" && r.Ending().Arrived() {
		return " at " + r.Bound() + text
	}
	return ""
}

// without says what else a flight that arrives has been without.
func (a *Answer) without(r *Rescue) string {
	if len(r.Without) == 0 {
		return ""
	}
	var costs []Cost
	for _, f := range r.Without {
		costs = append(costs, Cost{Function: f})
	}
	text := "From there to its arrival it is also without " + named(costs)
	if s := r.Without[0].Severity; s != "" {
		text += "; the worst of it " + s
	}
	return text + "."
}

// waysTo counts rescues as one says it: "Three ways to keep it, none with a single move."
func waysTo(list []*Rescue, aim string) string {
	single := 0
	for _, r := range list {
		if len(r.Set) == 1 {
			single++
		}
	}
	text := say.Capital(numeral(len(list))) + " " + say.Plural(len(list), "way", "ways") + " to " + aim + ", "
	switch n := len(list); {
	case n == 1 && single == 1:
		text += "with a single move"
	case n == 1:
		text += "with " + numeral(len(list[0].Set)) + " moves"
	case single == 0:
		text += "none with a single move"
	case single == n:
		text += "each with a single move"
	default:
		text += numeral(single) + " with a single move"
	}
	return text + "."
}

// aim is what rescues are for.
func (a *Answer) aim(list []*Rescue) string {
	ends := 0
	for _, r := range list {
		if r.Kind == Ends {
			ends++
		}
	}
	switch {
	case a.f == flight:
		return "let it arrive"
	case ends == 0:
		return "keep it"
	case ends == len(list):
		return "bring it back"
	}
	return "keep it or bring it back"
}

// listedOnes are the rescues that are told each for itself: none that puts back what
// another one leaves, and none that a smaller and cheaper one outdoes.
func (a *Answer) listedOnes(count bool) (list []*Rescue) {
	for _, r := range a.Rescues {
		if r.Counts == count && a.staying(r) == nil && !a.outdone(r) {
			list = append(list, r)
		}
	}
	return list
}

// outdone says that a smaller set costs no more and can be made from as early on as
// late.
func (a *Answer) outdone(r *Rescue) bool {
	for _, o := range a.Rescues {
		if o.Counts && len(o.Set) < len(r.Set) && severest(o.Costs) <= severest(r.Costs) && within(r.Windows, o.Windows) {
			return true
		}
	}
	return false
}

// within says that each of some windows lies in one of others.
func within(list, others []Window) bool {
	for _, w := range list {
		in := false
		for _, o := range others {
			in = in || o.From <= w.From+book.Second && w.To <= o.To+book.Second
		}
		if !in {
			return false
		}
	}
	return true
}

// more says how many sets are not told.
func (a *Answer) more() string {
	n := 0
	for _, r := range a.Rescues {
		if a.staying(r) == nil && a.outdone(r) {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return say.Capital(numeral(n)) + " larger " + say.Plural(n, "set does it too, and is", "sets do it too, and are") + " not listed: a smaller one here costs no more and has no less time."
}
