package rescue

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
)

// lead says what is lost, and when; and whether the flight arrives.
func (a *Answer) lead() string {
	if a.f == flight {
		return a.leadOfFlight()
	}
	name := say.Quoted(a.Function.Title)
	switch {
	case a.Bites:
	case a.Crew != nil && a.Crew.Bites:
		return name + " is not lost while it is wanted if nobody does anything, from ten seconds after the failure on."
	default:
		return name + " is not lost while it is wanted, from ten seconds after the failure on: there is nothing to rescue."
	}
	text := fmt.Sprintf("%s is lost, and wanted, from %s", name, a.clock(a.loss[0].From))
	if a.Last >= min(a.here.End, a.there.End) {
		text += " to the end"
	} else {
		text += " to " + a.clock(a.Last)
		if len(a.loss) > 1 {
			text += ", with breaks"
		}
	}
	if e := a.here.Ending(); !e.Arrived() {
		text += ". The flight breaks off " + say.Clock(e.At) + " into it: " + e.Why + "; a rescue has to mend that too"
	}
	return text + "."
}

func (a *Answer) clock(t book.Time) string { return say.After(t - a.Strike) }

// verdict says what was found. That there is none is said only of what was looked for.
func (a *Answer) verdict() string {
	list, saves := a.listedOnes(true), "saves it"
	if a.f == flight {
		saves = "lets it arrive"
	}
	switch {
	case !a.Bites || len(a.Moments) == 0:
		return ""
	case len(list) > 0:
		return waysTo(list, a.aim(list))
	case a.Moves == 0:
		return "None in this model: no control reaches it through the systems. Turning, descending or landing was not tried."
	case a.Proven:
		return "None in this model, of any number of moves: wherever the controls are set from " + a.clock(a.Moments[0]) + " on, " + a.allTheSame() + ". Turning, descending or landing was not tried."
	}
	what, price := "no set of up to "+numeral(a.Order)+" moves", ""
	if a.Order == 1 {
		what = "no single move"
	}
	if a.Order == 1 && len(a.Rescues) == 0 {
		return "No single move " + saves + ", at the moments tried. Of larger sets, of other moments, and of turning, descending or landing nothing is claimed."
	}
	if len(a.Rescues) > 0 {
		price = " for less than it is worth"
	}
	return fmt.Sprintf("None in this model: %s, at the moments tried, %s%s. Of larger sets, of other moments, and of turning, descending or landing nothing is claimed.", what, saves, price)
}

var numerals = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func numeral(n int) string {
	if n < len(numerals) {
		return numerals[n]
	}
	return strconv.Itoa(n)
}

// tried says what was tried, and when.
func (a *Answer) tried() string {
	if len(a.Moments) == 0 || a.Moves == 0 {
		return ""
	}
	text := fmt.Sprintf("Tried: %s of %s that reach it through the systems, half of them put back after 3 s: one at a time at %s",
		say.Counted(a.Moves, "move"), say.Counted(len(a.Controls), "control"), a.clocks(a.Moments))
	if a.Order > 1 {
		text += fmt.Sprintf("; up to %s, one of them put back at most, together or two minutes apart in any order, at %s", numeral(a.Order), a.clocks(a.Main))
	}
	return text + "."
}

func (a *Answer) clocks(list []book.Time) string {
	var clocks []string
	for _, t := range list {
		clocks = append(clocks, a.clock(t))
	}
	return say.And(slices.Compact(clocks))
}

// crew says what a crew by the book make of it without any of this.
func (a *Answer) crew() string {
	const who = "With a crew by the book, and none of this,"
	if a.f == flight {
		return a.crewOfFlight(who)
	}
	switch {
	case a.Crew == nil || !a.Bites && !a.Crew.Bites && a.Crew.Arrives:
		return ""
	case !a.Crew.Arrives:
		return who + " the flight does not arrive."
	case a.Crew.Worse && !a.Bites:
		return "With a crew by the book it is lost, and wanted, from " + a.clock(a.Crew.First) + "."
	case a.Crew.Worse:
		return who + " it is lost sooner, from " + a.clock(a.Crew.First) + a.backBy(a.Crew.Over) + "."
	case a.Crew.Bites:
		return who + " it is lost as well" + a.backBy(a.Crew.Over) + "."
	}
	return who + " it is not lost."
}

// backBy says of a loss with a crew that it is over, and when.
func (a *Answer) backBy(over book.Time) string {
	if over == 0 {
		return ""
	}
	return ", but only to " + a.clock(over) + ", and works from then on"
}

// worse says which lines of theirs make it so.
func (a *Answer) worse() []string {
	list := []string{}
	if a.Crew == nil || !a.Crew.Worse {
		return list
	}
	for _, h := range a.Crew.Harms {
		list = append(list, a.harmful(h))
	}
	if len(list) == 0 {
		list = append(list, "No single line of theirs that moves a control is to blame alone.")
	}
	return list
}

func (a *Answer) harmful(h Harm) string {
	text := fmt.Sprintf("Line %s of %s, %s to %s at %s, makes it worse: without it, ", h.Line.Number, say.Quoted(h.Line.Procedure.Title),
		say.Lower(h.Control.Title), say.Quoted(h.Line.Position), a.clock(h.At))
	if h.Later == 0 {
		text += a.kept() + "."
	} else {
		text += "it is lost " + say.Lasts(h.Later) + " later."
	}
	switch {
	case len(h.Tried) == 0:
		return text
	case len(h.Undo) == 0:
		return text + " Put back to " + say.Quoted(h.Was) + " at " + a.clocks(h.Tried) + ", " + a.allTheSame() + ". Turning, descending or landing was not tried."
	}
	w := h.Undo[len(h.Undo)-1]
	return text + " Put back to " + say.Quoted(h.Was) + " by " + a.clock(w.To) + ", " + a.kept() + " as well."
}

// words says what is moved: "set A to x and B to y, and C to z two minutes later".
func (s Set) words() string {
	var parts []string
	for i, m := range s {
		text := say.Lower(m.Control.Title) + " to " + say.Quoted(m.Position)
		if m.Held {
			text += ", held there"
		}
		if m.Back {
			text += " and back 3 s later"
		}
		if i > 0 && m.After > s[i-1].After {
			text += ", " + say.Lasts(m.After-s[i-1].After) + " later,"
		}
		parts = append(parts, text)
	}
	return strings.TrimSuffix(say.And(parts), ",")
}

// says is the set, by when, and what it does.
func (a *Answer) says(r *Rescue) string {
	if a.f == flight {
		return "Set " + r.Set.words() + a.when(r.Windows) + ": the flight arrives" + a.landed(r) + "."
	}
	does := " is kept"
	if r.Kind == Ends {
		does = " is lost until then and comes back for good"
	}
	return "Set " + r.Set.words() + a.when(r.Windows) + ": " + say.Quoted(a.Function.Title) + does + "."
}

// when says in which stretches of time.
func (a *Answer) when(list []Window) string {
	var parts []string
	for i, w := range list {
		from := ""
		if i > 0 || w.From > a.Moments[0] {
			from = "from " + a.clock(w.From) + " "
		}
		switch {
		case w.Open && from != "" && w.To-w.From < book.Second:
			parts = append(parts, "at "+a.clock(w.To)+", the last moment tried")
		case w.Open && from == "":
			parts = append(parts, "at any moment tried up to "+a.clock(w.To))
		case w.Open:
			parts = append(parts, from+"on, tried up to "+a.clock(w.To))
		case w.To-w.From < book.Second && from != "":
			parts = append(parts, "at "+a.clock(w.To))
		default:
			parts = append(parts, from+"until "+a.clock(w.To))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " " + strings.Join(parts, ", and again ")
}

func (a *Answer) member(m Member) string {
	text := say.Capital(say.Lower(m.Move.Control.Title))
	if m.Window.Open {
		return text + ": in time at any moment tried up to " + a.clock(m.Window.To) + ", if the rest is done at once."
	}
	return text + ": in time until " + a.clock(m.Window.To) + ", if the rest is done at once."
}

// part says what a proper part does.
func (a *Answer) part(p Part) string {
	text := say.Capital(p.Set.words()) + " alone "
	switch p.Does {
	case Nothing:
		text += "changes nothing of it"
	case Delays:
		text += "puts it off by " + say.Lasts(p.By)
	case Elsewhere:
		text += "makes another flight of it, and " + a.allTheSame()
	case BringsForward:
		text += "brings it forward by " + say.Lasts(p.By)
	case EndsIt:
		text += "ends it, but at too high a price"
	case PreventsIt:
		text += "prevents it, but at too high a price"
	}
	if len(p.Costs) > 0 {
		text += ", and costs " + named(p.Costs)
	}
	return text + "."
}

func named(costs []Cost) string {
	var names []string
	for _, c := range costs {
		names = append(names, say.Quoted(c.Function.Title))
	}
	const most = 4
	if n := len(names); n > most {
		names = append(names[:most:most], fmt.Sprintf("%d more", n-most))
	}
	return say.And(names)
}

// cost says what else is lost for it.
func (a *Answer) cost(costs []Cost) string {
	if len(costs) == 0 && a.f == flight {
		return "Up to where the flight would break off, nothing is lost for it while it is wanted."
	}
	if len(costs) == 0 {
		return "Nothing else is lost for it while it is wanted."
	}
	worst := slices.MaxFunc(costs, func(x, y Cost) int { return severity(x.Function) - severity(y.Function) })
	text := "It costs " + named(costs)
	if s := worst.Function.Severity; s != "" {
		text += "; the worst of it " + s
	}
	return text + "."
}

// until is the last moment at which a set rescues.
func (a *Answer) until(r *Rescue) string {
	if len(r.Windows) == 0 {
		return ""
	}
	w := r.Windows[len(r.Windows)-1]
	if w.Open {
		return a.clock(w.To) + " on"
	}
	return a.clock(w.To)
}

// price is the cost in a few words.
func (a *Answer) price(costs []Cost) string {
	if len(costs) == 0 {
		return "costs nothing else"
	}
	text := "costs " + say.Counted(len(costs), "function")
	if s := costs[0].Function.Severity; s != "" {
		text += ", worst " + s
	}
	return text
}

// lists says which lists hold the moves.
func (a *Answer) lists(r *Rescue) string {
	if a.Crew == nil {
		return ""
	}
	var whole, some, elsewhere []string
	for _, l := range r.Lists {
		title := say.Quoted(l.Procedure.Title)
		switch {
		case l.Called && len(l.Moves) == len(r.Set):
			whole = append(whole, title)
		case l.Called:
			some = append(some, title)
		case len(l.Moves) == len(r.Set):
			elsewhere = append(elsewhere, title)
		}
	}
	switch {
	case len(whole) > 0:
		return "A list that is called contains it: " + say.And(whole) + ". Its moment is the list's; the deadline is only what this model forgives one who is late."
	case len(some) > 0:
		return "No list that is called contains it; " + say.And(some) + " " + say.Plural(len(some), "has", "have") + " a part of it."
	case len(elsewhere) > 0:
		return "No list that is called contains it; " + say.And(elsewhere) + " would, and nothing calls for " + say.Plural(len(elsewhere), "it", "them") + "."
	}
	return "No list that is called contains it."
}

// differs says where a crew by the book, beside the moves, make something else of it.
func (a *Answer) differs(r *Rescue) string {
	switch {
	case !r.Crewed || r.Held && r.HeldBy == r.Kind:
		return ""
	case !r.Held && r.HeldFrom > 0:
		return "With a crew by the book beside it, it is lost" + a.backBy(r.HeldFrom) + "."
	case !r.Held:
		return "With a crew by the book beside it, it does not hold."
	case a.f == flight:
		return ""
	case r.HeldBy == Prevents:
		return "With a crew by the book beside it, it is kept from then on."
	}
	return "With a crew by the book beside it, it is lost at first and comes back for good."
}

// delay says what puts the loss off longest, where nothing counts.
func (a *Answer) delay() string {
	switch {
	case a.Delay > leastShift:
		return "What puts it off longest, alone: " + a.DelayBy.words() + " at " + a.clock(a.DelayAt) + ", by " + say.Lasts(a.Delay) + "."
	case a.DearHalf:
		return ""
	case a.First > a.Strike+soonest && a.Moves > 0 && !a.Proven:
		return "No single move tried puts it off, the flight going on as it does."
	}
	return ""
}
