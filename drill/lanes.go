package drill

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"knockon/book"
	"knockon/known"
	"knockon/ledger"
	"knockon/say"
)

// events is the drill in one list.
func (t *teller) events(d *Debrief) {
	add := func(when string, at book.Time, text string) {
		if at <= t.s.now {
			d.Events = append(d.Events, Event{when, momentOf(at), text})
		}
	}
	for i, k := range t.record.Scenario.Strikes {
		if t.record.Struck[i].Came {
			for _, f := range k.Fail {
				add("true", t.record.Struck[i].At, t.b.FailureTitle(f.String())+" fails")
			}
		}
	}
	t.lost(add)
	for _, a := range t.here.Alerts {
		for _, s := range a.Spans {
			add("told", s.From, a.Alert.Level+" "+say.Quoted(a.Alert.Message))
			if s.To < t.s.now {
				add("told", s.To, say.Quoted(a.Alert.Message)+" goes out")
			}
		}
	}
	for _, in := range t.done {
		add("done", in.At, t.deed(in))
	}
	for _, n := range d.Notes {
		add("done", book.AtSeconds(n.At.TimeS), "the instructor notes: "+n.Text)
	}
	slices.SortStableFunc(d.Events, func(a, b Event) int { return cmp.Compare(a.At.TimeS, b.At.TimeS) })
}

// mostLost is how many losses of one moment the lanes name.
const mostLost = 5

// lost tells of losses that come together in one sentence, those first of which there is
// most to teach.
func (t *teller) lost(add func(when string, at book.Time, text string)) {
	type loss struct {
		text   string
		weight float64
	}
	at := map[book.Time][]loss{}
	for _, l := range t.here.Losses {
		for _, s := range l.Spans {
			if s.Mattered {
				at[s.From] = append(at[s.From], loss{fmt.Sprintf("%s (%s)", l.Function.Title, s.Known.Word), grave(l) * known.Weight(s.Known)})
			}
		}
	}
	for _, m := range slices.Sorted(maps.Keys(at)) {
		slices.SortStableFunc(at[m], func(a, b loss) int { return cmp.Compare(b.weight, a.weight) })
		var list []string
		for _, l := range at[m] {
			list = append(list, l.text)
		}
		if more := len(list) - mostLost; more > 1 {
			list = append(list[:mostLost:mostLost], fmt.Sprintf("%d more", more))
		}
		add("true", m, "lost: "+say.And(list))
	}
}

// Lane is what was told, done and true at one moment.
type Lane struct {
	At               Moment
	Told, Done, True []string
}

// Lanes lays the events side by side, a row for each second in which there is one.
func (d *Debrief) Lanes() (list []Lane) {
	for _, e := range d.Events {
		if n := len(list); n == 0 || list[n-1].At.Clock != e.At.Clock {
			list = append(list, Lane{At: e.At})
		}
		l := &list[len(list)-1]
		lane := map[string]*[]string{"told": &l.Told, "done": &l.Done, "true": &l.True}[e.When]
		*lane = append(*lane, e.Text)
	}
	return list
}

// beyond says what lay behind the end of the drill.
func (t *teller) beyond() (list []string) {
	for i, k := range t.record.Scenario.Strikes {
		if at := t.record.Struck[i]; at.Came && at.At > t.s.now {
			for _, f := range k.Fail {
				list = append(list, fmt.Sprintf("%s, which fails at %s.", t.b.FailureTitle(f.String()), say.Clock(at.At)))
			}
		}
	}
	var steps []string
	for _, l := range t.best.Lines {
		if l.Control != "" && l.To > t.s.now {
			steps = append(steps, fmt.Sprintf("%s at %s", say.Quoted(t.s.says(l.Step)), say.Clock(l.To)))
		}
	}
	if len(steps) > 0 {
		list = append(list, say.Counted(len(steps), "step")+" of a crew by the book: "+say.And(few(steps))+".")
	}
	if end := t.record.End; end > t.s.now {
		list = append(list, fmt.Sprintf("The flight from %s, in %s, to its end.", say.Clock(t.s.now), t.b.Title(t.record.PhaseAt(t.s.now))))
	}
	return list
}

// summed is what came of a flight up to the end of the drill.
func (t *teller) summed(l *ledger.Ledger) string {
	return strings.TrimSpace(t.broken(l) + " " + l.Tally())
}

func (t *teller) deed(in Input) string {
	switch in.Do {
	case Move:
		return fmt.Sprintf("%s: %s to %s", who(in.Who), t.b.Title(in.ID), spaced(in.To))
	case Look:
		return fmt.Sprintf("%s: looks at %s: %s", who(in.Who), t.b.Title(in.ID), t.reading(in))
	case Call:
		return fmt.Sprintf("%s: calls for the list %s", who(in.Who), say.Quoted(t.b.Title(in.ID)))
	case TurnTo:
		return fmt.Sprintf("%s: turns the flight: %s", who(in.Who), spaced(in.To))
	case Tick:
		return fmt.Sprintf("%s: finishes line %s of %s", who(in.Who), in.Step, say.Quoted(t.b.Title(in.ID)))
	}
	var names []string
	for _, f := range in.Strike.What {
		names = append(names, t.b.FailureTitle(f))
	}
	return "the instructor lets fail: " + strings.Join(names, ", ")
}

// spaced is a position or a leg as it is read.
func spaced(word string) string { return strings.ReplaceAll(word, "_", " ") }

// who names a person of the drill in words.
func who(r Role) string {
	if r == Alone {
		return "pilot"
	}
	return string(r)
}
