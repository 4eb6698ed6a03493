package book

import (
	"fmt"
	"slices"
	"strings"

	"knockon/say"
)

// ClaimFunction is what a claim's expect may call beside ordinary expressions; the
// meaning of each is in docs/meaning.md, section 7.
type ClaimFunction struct {
	Name string
	Args string // by the words of argumentForms; "?" behind one: it may be left out, "…": it may be repeated
	Type Type
	Unit string // of a number
	Asks Ask
}

// Ask says what must be worked out for a function of a claim.
type Ask uint8

// What functions of claims ask.
const (
	AsksLedger Ask = iota // the rows
	AsksKnown             // the rows, judged by how people can know of them
	AsksTimes             // what is observed, and when events come
	AsksEvent             // an event: it comes at a moment, so that others can ask when
	AsksEnding
	AsksPrice
	AsksRescue
)

// ClaimFunctions lists them, in the order of docs/meaning.md.
var ClaimFunctions = []ClaimFunction{
	{"lost", "f", YesNo, "", AsksLedger}, {"kept", "f", YesNo, "", AsksLedger}, {"told", "f", YesNo, "", AsksLedger}, {"told_late", "f", YesNo, "", AsksLedger},
	{"only_shown", "f", YesNo, "", AsksLedger}, {"not_told", "f", YesNo, "", AsksLedger}, {"told_wrong", "f|i", YesNo, "", AsksLedger}, {"dark", "i", YesNo, "", AsksLedger},
	{"false_alarm", "a", YesNo, "", AsksLedger}, {"given", "a", YesNo, "", AsksLedger}, {"held_back", "a", YesNo, "", AsksLedger}, {"never_given", "a", YesNo, "", AsksLedger},

	{"named", "f", YesNo, "", AsksKnown}, {"denied", "f", YesNo, "", AsksKnown}, {"follows", "f", YesNo, "", AsksKnown}, {"noticed", "f", YesNo, "", AsksKnown},
	{"known_late", "f", YesNo, "", AsksKnown}, {"hidden", "f", YesNo, "", AsksKnown}, {"false_conclusion", "f", YesNo, "", AsksKnown},

	{"at", "n,e", YesNo, "", AsksTimes}, {"ever", "e", YesNo, "", AsksTimes}, {"always", "e", YesNo, "", AsksTimes}, {"in_phase", "p,e", YesNo, "", AsksTimes},
	{"first", "x", Number, "s", AsksTimes}, {"last", "e", Number, "s", AsksTimes}, {"times", "e", Number, "count", AsksTimes}, {"seconds", "e", Number, "s", AsksTimes},
	{"in_order", "x,x…", YesNo, "", AsksTimes}, {"by", "n,x", YesNo, "", AsksTimes}, {"within", "n,x,x", YesNo, "", AsksTimes}, {"about", "v,t,t", YesNo, "", AsksTimes},

	{"read", "l", YesNo, "", AsksEvent}, {"done", "l,s", YesNo, "", AsksEvent}, {"ticks", "l,s", YesNo, "", AsksEvent}, {"misled", "l,s", YesNo, "", AsksEvent}, {"cannot_see", "l,s", YesNo, "", AsksEvent}, {"not_heard", "l,s", YesNo, "", AsksEvent}, {"no_longer", "l,s", YesNo, "", AsksEvent}, {"flown", "g", YesNo, "", AsksEvent},

	{"arrives", "w?", YesNo, "", AsksEnding}, {"never_arrives", "h?,f?", YesNo, "", AsksEnding}, {"lands_overweight", "", YesNo, "", AsksEnding}, {"brakes_overheat", "", YesNo, "", AsksEnding},

	{"open", "w", YesNo, "", AsksPrice}, {"closed", "w,k?", YesNo, "", AsksPrice}, {"lands_on", "w,r", YesNo, "", AsksPrice},
	{"fuel_to", "w", Number, "kg", AsksPrice}, {"minutes_to", "w", Number, "min", AsksPrice}, {"landing_at", "w", Number, "m", AsksPrice}, {"manual_landing_at", "w", Number, "m", AsksPrice},
	{"extra_fuel", "w", Number, "kg", AsksPrice}, {"extra_minutes", "w", Number, "min", AsksPrice}, {"extra_landing", "w", Number, "m", AsksPrice}, {"short_of", "w", Number, "nm", AsksPrice},

	{"rescued", "f,m…", YesNo, "", AsksRescue}, {"rescue_until", "f,m…", Number, "s", AsksRescue}, {"listed", "f,m…", YesNo, "", AsksRescue}, {"no_rescue", "o,f", YesNo, "", AsksRescue},
}

// argumentForms are what an argument of a claim's function can be: the words of
// items where it is an id, and how it is called in messages.
var argumentForms = map[string]struct {
	kinds []string
	text  string
}{
	"f": {[]string{"function"}, "function"}, "a": {[]string{"alert"}, "alert"}, "i": {[]string{"indication"}, "indication"},
	"p": {[]string{"phase"}, "phase"}, "l": {[]string{"procedure"}, "procedure"}, "f|i": {[]string{"function", "indication"}, "function or indication"},
	"e": {nil, "x"}, "x": {nil, "x"}, "n": {nil, "s"}, "v": {nil, "number"}, "t": {nil, "number"},
	"s": {nil, "line"}, "g": {nil, "leg"}, "w": {nil, "FIELD"}, "h": {nil, "ending"}, "k": {nil, "reason"}, "r": {nil, "RUNWAY"}, "m": {nil, "control=position"}, "o": {nil, "moves"},
}

// Endings are the words for how a flight ends that does not arrive (docs/meaning.md,
// section 11).
var Endings = []string{"out_of_fuel", "cannot_stay_up", "makes_no_way", "no_way_on", "does_not_stop", "overruns", "stalls", "cannot_slow", "not_flyable"}

// Reasons are the words for what speaks against an airfield (docs/costs.md), in the
// order in which they bind.
var Reasons = []string{"arrival", "time", "gear", "approach", "surface", "crosswind", "tailwind", "runway", "reserve"}

// Conducts are the words for what a crew do.
var Conducts = []string{"by_the_book", "none"}

// ClaimFunctionNamed looks a function of claims up; ok is false if there is none of
// this name.
func ClaimFunctionNamed(name string) (f ClaimFunction, ok bool) {
	i := slices.IndexFunc(ClaimFunctions, func(f ClaimFunction) bool { return f.Name == name })
	if i < 0 {
		return f, false
	}
	return ClaimFunctions[i], true
}

func (f ClaimFunction) words() []string {
	if f.Args == "" {
		return nil
	}
	return strings.Split(f.Args, ",")
}

// count is how many arguments there are at least and at most; most < 0: any number.
func (f ClaimFunction) count() (least, most int) {
	words := f.words()
	least, most = len(words), len(words)
	for _, w := range words {
		switch {
		case strings.HasSuffix(w, "?"):
			least--
		case strings.HasSuffix(w, "…"):
			most = -1
		}
	}
	return least, most
}

// Forms are what n arguments are, by the words of argumentForms: "e" is an
// expression that is observed, "x" one or an event.
func (f ClaimFunction) Forms(n int) (forms []string) {
	words := f.words()
	for i := range n {
		forms = append(forms, strings.TrimRight(words[min(i, len(words)-1)], "?…"))
	}
	return forms
}

// call shows how the function is called.
func (f ClaimFunction) call() string {
	var args []string
	for _, w := range f.words() {
		plain := strings.TrimRight(w, "?…")
		text := argumentForms[plain].text
		if plain != w && strings.HasSuffix(w, "…") {
			text += ", …"
		}
		args = append(args, text)
	}
	if least, most := f.count(); least < most {
		return f.Name + "(" + strings.Join(args[:least], ", ") + ") or " + f.Name + "(" + strings.Join(args, ", ") + ")"
	}
	return f.Name + "(" + strings.Join(args, ", ") + ")"
}

// Line finds a line of a procedure by its number: "3", "3.then.1".
func (p *Procedure) Line(number string) (*Step, bool) {
	var found *Step
	WalkSteps(p.Steps, func(s *Step, n string) {
		if n == number {
			found = s
		}
	})
	return found, found != nil
}

// lineNumbers lists the numbers of a procedure's lines.
func (p *Procedure) lineNumbers() (list []string) {
	WalkSteps(p.Steps, func(_ *Step, n string) { list = append(list, n) })
	return list
}

// noLine says that a procedure has no line of a number.
func noLine(at Range, p *Procedure, number string) Diagnostic {
	return problem("out-of-range", at, say.No("line of "+p.ID, number, p.lineNumbers()),
		`A line is called by its number, 3, or where it stands inside another "3.then.1", "3.else.1" or "3.later.1".`).with("the procedure", p.Range)
}

// notSensed says that a line does not go out by itself.
func notSensed(at Range, p *Procedure, number string, line *Step) Diagnostic {
	return problem("contradiction", at, "Line "+number+" of "+p.ID+" does not go out by itself",
		"Only a do with a control and a check with a that which say sensed = true do. Ask for done(…) where the crew do it.").with("the line", line.Range)
}

// wantsQuoted asks for a text in the call of a claim's function.
func wantsQuoted(at Range, by string) Diagnostic {
	f, _ := ClaimFunctionNamed(by)
	return problem("wrong-value", at, fmt.Sprintf("%q needs a text in quotes here", by), fmt.Sprintf("It is called as %s, with names of the trade in quotes: %s(\"…\").", f.call(), by))
}

// badOrder says how many moves can be asked for.
func badOrder(at Range) Diagnostic {
	return problem("out-of-range", at, "So many moves are not looked for", "Say up to how many: 1, 2 or 3.")
}

// noMove says that a move is not written as one.
func noMove(at Range, text string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q is no move", text), `Write control=position in quotes, such as "gear_lever=down".`)
}
