package ledger

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
	"knockon/span"
)

// question says which failures, when, in which phase, with what inoperative.
func (s speaker) question() string {
	var parts []string
	for i, k := range s.l.Here.Scenario.Strikes {
		parts = append(parts, s.strike(k, s.l.Here.Struck[i]))
	}
	if len(parts) == 0 {
		parts = []string{"nothing fails"}
	}
	text := strings.Join(parts, "; ")
	if inop := s.l.Here.Scenario.Inoperative; len(inop) > 0 {
		text += ", with " + say.And(s.inoperative(inop)) + " inoperative from the start"
	}
	return text
}

// strike says one strike: what fails, when, and for how long.
func (s speaker) strike(k run.Strike, struck run.Struck) string {
	text := s.failing(k.Fail)
	switch {
	case !struck.Came:
		return text + ": " + s.notCome()
	case struck.At == 0:
		text += " at the start of the flight"
	default:
		text += " " + say.Clock(struck.At) + " into the flight (" + s.moment(struck.At).PhaseIs + s.asked(k, struck.At) + ")"
	}
	if k.Lasts > 0 {
		text += ", for " + say.Lasts(k.Lasts)
	}
	if k.Resettable {
		text += ", until it is reset"
	}
	return text
}

// notCome says why what was to come did not.
func (s speaker) notCome() string {
	if !s.l.Here.Ending().Arrived() {
		return "but the flight breaks off before this comes"
	}
	return "but this never comes"
}

// asked says of a moment after the beginning of a phase that the phase begins
// then only with nothing failed, where on this flight it has not begun.
func (s speaker) asked(k run.Strike, at book.Time) string {
	begins := at - k.At.Offset
	if k.When != nil || k.At.Phase == "" || k.At.Phase == book.ShortFinal || k.At.AtFt != 0 || k.At.Offset < 0 || s.phaseAt(begins+span.Rounding) == k.At.Phase {
		return ""
	}
	text := "; with nothing failed " + s.title(k.At.Phase) + " begins "
	if k.At.Offset == 0 {
		return text + "here"
	}
	return text + say.Lasts(k.At.Offset) + " before"
}

// failing says what fails: plain losses together, then faults and events.
func (s speaker) failing(refs []book.FailureRef) string {
	var lost, other []string
	for _, r := range refs {
		if fault := s.build.FaultTitle(r); fault != "" {
			other = append(other, s.title(r.Unit)+" "+fault)
		} else if s.isEvent(r.Unit) {
			other = append(other, s.title(r.Unit)+" comes")
		} else {
			lost = append(lost, s.title(r.Unit))
		}
	}
	if len(lost) > 0 {
		other = append([]string{say.And(lost) + " " + say.Plural(len(lost), "fails", "fail")}, other...)
	}
	return say.And(other)
}

func (s speaker) isEvent(id string) bool {
	item, _ := s.build.Item(id)
	_, ok := item.(*book.Event)
	return ok
}

func (s speaker) inoperative(refs []book.FailureRef) []string {
	var list []string
	for _, r := range refs {
		name := s.title(r.Unit)
		if fault := s.build.FaultTitle(r); fault != "" {
			name += " (" + fault + ")"
		}
		list = append(list, name)
	}
	return list
}

// setting says on which aircraft, build and flight, how it is set up, and what
// the crew do.
func (s speaker) setting() string {
	f := s.l.Here.Course.Flight
	text := fmt.Sprintf("%s, build %s; %s", s.build.Aircraft.Title, s.build.VariantTitle(), route(f))
	if e, _ := s.l.ending(); e.Arrived() { // else how long it was says how it ended
		text += ", " + say.Lasts(s.l.There.End)
	}
	return say.Sentence(text + s.done())
}

// done says how the aircraft is set up and what the crew do, behind what it is
// said of.
func (s speaker) done() string {
	text := s.given()
	for _, t := range s.l.Here.Turns {
		text += "; " + Turned(t)
	}
	return text + s.lands() + s.stops() + s.conduct()
}

// planned says what became of the plan that was asked for.
func (s speaker) planned() (text string) {
	for _, t := range s.l.Here.Turns {
		if t.Leg.Asked() {
			text += "; " + Turned(t)
		}
	}
	return text
}

// given says how the aircraft is set up and what was asked to be moved.
func (s speaker) given() string {
	asked := s.l.Here.Scenario
	return say.Ahead("; set, whatever fails: ", s.actions(asked.SetUp)) + say.Ahead("; the crew: ", s.actions(asked.Asked()))
}

// who says who acts, without what they did.
func (s speaker) who() string {
	if s.l.Here.Crewed {
		return "; a crew by the book" + s.pace() + " act on it"
	}
	return s.conduct()
}

// conduct says who acts on what happens.
func (s speaker) conduct() string {
	switch moved := len(s.l.Here.Scenario.Decided()); {
	case moved > 0:
		return "; a crew by the book" + s.pace() + " act on it: " + say.Counted(moved, "control") + " moved"
	case !s.l.Here.Crewed && len(s.l.Here.Scenario.Actions) > 0:
		return "; nothing else is done"
	case !s.l.Here.Crewed:
		return "; hands off: nobody acts on it"
	}
	return "; a crew by the book" + s.pace() + " act on it, and have moved nothing"
}

// pace says how they work, where that is not as usual.
func (s speaker) pace() string { return say.Ahead(" ", s.l.Pace) }

// Turned says what a leg of the plan made of the flight.
func Turned(t run.Turned) string {
	at := say.Clock(t.At)
	if t.Why != "" && t.Leg.Do == run.LongEnough {
		return at + ": " + t.Why + ": it lands there all the same"
	}
	if t.Why != "" {
		return at + ": " + strings.TrimSpace(strings.ReplaceAll(string(t.Leg.Do), "_", " ")+" "+t.Leg.To) + " is not flown: " + t.Why
	}
	to := t.Route.Name + ", runway " + t.Route.End
	switch t.Leg.Do {
	case run.GoAround:
		return "went around at " + at
	case run.Hold:
		return "held from " + at + " on"
	case run.Descend:
		return "descended to " + say.Quantity(t.Leg.LevelFt, "ft") + " from " + at + " on"
	case run.Reject:
		if t.Taxiing {
			return "stopped on the taxi out at " + at
		}
		return "the take-off rejected at " + at
	case run.Return:
		return "turned at " + at + " back to " + to
	case run.Land:
		return "turned at " + at + " to land at " + to + " (" + chosen(t.Route) + ")"
	}
	return "turned at " + at + " to " + to
}

// straight is by what the nearest is counted.
const straight = "the nearest on a straight way in this wind"

// chosen says how the nearest field was found.
func chosen(r run.Route) string {
	if r.Instead != "" {
		from := r
		from.Instead = ""
		where := "the nearest to there"
		if r.Around {
			where = "the nearest to where it turns"
		}
		return "since " + r.Instead + " does not suit it as it is: " + strings.Replace(chosen(from), straight, where, 1)
	}
	nearest, tried := suited[r.Choice], say.Counted(r.Flown, "field")+" tried by flying on"
	switch {
	case r.Flown == 0:
		return nearest
	case r.Comes == run.AsItShould:
		return straight + " where, flown on, it stops with the margin and within its limits"
	case r.Comes == run.HotBrakes:
		return "of " + tried + ", " + straight + " where it stops with the margin and within its limits but for the energy of its brakes"
	case r.Comes == run.Stops:
		return "of " + tried + " none is within its limits with the margin; at this one it stops on the least part of the runway"
	case r.Comes == run.Short:
		return "of " + tried + " it has the margin at none; at this one, within its limits, it stops on the least part of the runway"
	case r.Comes == run.RunsOff:
		return "of " + tried + " it stops at none; here it runs off by least"
	}
	return "of " + tried + " it reaches none; this is " + nearest
}

// suited says what a field was chosen by before anybody flew there.
var suited = map[run.Choice]string{
	run.AsItIs:      "the nearest that suits the aircraft as it is at the turn",
	run.AsIfWhole:   "the nearest that suits the aircraft with nothing broken: none does as it is, or it has no thrust to go on to one",
	run.NearestOnly: "the nearest with a runway: none suits",
}

func (s speaker) actions(list []run.Action) string {
	var texts []string
	for _, a := range list {
		texts = append(texts, s.action(a))
	}
	return strings.Join(texts, ", ")
}

// route names a flight and its ends, each once.
func route(f *book.Flight) string {
	if strings.Contains(f.Title, f.From) && strings.Contains(f.Title, f.To) {
		return f.Title
	}
	return f.Title + ", " + f.From + " to " + f.To
}

func (s speaker) action(a run.Action) string {
	return s.title(a.Control) + " to " + a.Position + s.when(a)
}

// when says when a control is to be moved, and that the flight does not last
// so long, where it does not.
func (s speaker) when(a run.Action) string {
	switch {
	case a.When != nil:
		return " when a condition holds"
	case a.At == book.Moment{}:
		return " from the start"
	}
	text := " at " + a.At.String()
	if at, err := s.l.Here.Course.Resolve(context.Background(), a.At); err == nil && at > s.l.Here.End {
		text += " (" + s.notCome() + ")"
	}
	return text
}

// lost counts what was lost.
func (l *Ledger) lost() string {
	words := map[Word]int{}
	n, idle, brief := 0, 0, 0
	for _, loss := range l.Losses {
		if !loss.Mattered {
			idle++
			brief += loss.brief()
			continue
		}
		n++
		words[loss.Word()]++
	}
	text := say.NoneOr(n, "function") + " lost"
	if n > 0 {
		text += ": " + known(words)
	}
	if idle > 0 {
		text += fmt.Sprintf("; %d more %s", idle, idleWords(idle, brief))
	}
	return text
}

// brief is 1 for a loss that is called for, and never long enough to matter.
func (l Loss) brief() int {
	if !l.Mattered && slices.ContainsFunc(l.Spans, func(s LossSpan) bool { return s.Brief }) {
		return 1
	}
	return 0
}

// Idle says why losses do not matter.
func Idle(list []*Loss) string {
	brief := 0
	for _, l := range list {
		brief += l.brief()
	}
	return idleWords(len(list), brief)
}

func idleWords(n, brief int) string {
	switch brief {
	case 0:
		return "not called for meanwhile"
	case n:
		return "too brief to matter"
	}
	return "not called for meanwhile, or too brief to matter"
}

// shown counts what was shown and said.
func (l *Ledger) shown() string {
	return fmt.Sprintf("%s wrong, %d dark; %s, %d false, %d held back", say.NoneOr(len(l.Wrong), "indication"),
		len(l.Dark), say.NoneOr(len(l.Alerts), "alert"), len(l.False), len(l.Held))
}

// Tally counts what there is, in words.
func (l *Ledger) Tally() string { return say.Sentence(l.lost()) + " " + say.Sentence(l.shown()) }

// lacks is what the book does not work out about what fails and what is lost.
func (s speaker) lacks() []book.Unmodelled {
	var ids []string
	for _, k := range s.l.Here.Scenario.Strikes {
		for _, f := range k.Fail {
			ids = append(ids, f.Unit)
		}
	}
	for _, f := range s.l.Here.Scenario.Inoperative {
		ids = append(ids, f.Unit)
	}
	for _, l := range s.l.Losses {
		ids = append(ids, l.Function.ID)
	}
	return s.build.NotModelled(ids...)
}
