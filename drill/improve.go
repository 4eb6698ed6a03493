package drill

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
)

// Improve is something that a crew might do better, with what it cost.
type Improve struct {
	At       Moment `json:"at"`
	Happened string `json:"happened"`
	Saw      string `json:"saw"` // what they were told and looked at, and when
	True     string `json:"true"`
	Cost     string `json:"cost"`
	Ask      string `json:"ask"` // an open question
}

// candidate is something that may be said so, with its cost.
type candidate struct {
	Improve
	at     book.Time
	effect effect
}

// mostImprove is how much a crew take away from one debrief (docs/drill.md).
const mostImprove = 2

// improve chooses by what it cost, each loss counted once: the dearest first, at one
// price the earlier.
func (t *teller) improve() (list []Improve) {
	counted := map[string]bool{}
	for len(list) < mostImprove {
		best, weight := -1, 0.0
		for i, c := range t.improving {
			if w := c.effect.weight(counted); w > weight || w == weight && best >= 0 && c.at < t.improving[best].at {
				best, weight = i, w
			}
		}
		if best < 0 {
			return list
		}
		c := t.improving[best]
		t.improving = slices.Delete(t.improving, best, best+1)
		for _, l := range c.effect.losses {
			counted[l.Function.ID] = true
		}
		list = append(list, c.Improve)
	}
	return list
}

// propose notes what may be said once the drill was held against the flight without it;
// where that cannot be, nothing is said.
func (t *teller) propose(at book.Time, x Improve, c compared) {
	if c.no != "" {
		t.unsaid = append(t.unsaid, x.Happened+" What it cost "+c.no+".")
		return
	}
	x.At = momentOf(at)
	x.Cost = say.Capital(c.cost.text(t.s.now)) + "."
	t.improving = append(t.improving, candidate{x, at, c.cost})
}

// lists has it worked out what the lists cost that were not done as a crew by the book
// do them. One whose alert was not given in this drill is owed by nobody.
func (t *teller) lists() {
	for _, o := range t.owed {
		given, ok := t.given(o.call.Alert)
		due := o.lines[0].line.To
		if !ok || given >= due {
			continue
		}
		s := t.s.Flown()
		for _, l := range o.lines {
			if in := l.done; in != nil {
				s.Actions = slices.DeleteFunc(slices.Clone(s.Actions), func(a run.Action) bool {
					return a.Control == in.ID && a.Position == in.To && a.At.Offset == in.At+1
				})
			}
			s.Actions = with(s.Actions, run.Action{Control: l.line.Control, Position: l.line.Position, At: book.Moment{Offset: l.line.To}})
		}
		x := Improve{Happened: o.happened(), Saw: t.saw(o, given), True: t.truth(due), Ask: t.question(o)}
		t.beside = append(t.beside, beside{s, func(c compared) { t.propose(due, x, c) }})
	}
}

// given is when an alert was first given in the drill.
func (t *teller) given(a *book.Alert) (at book.Time, ok bool) {
	for _, x := range t.here.Alerts {
		if x.Alert == a {
			return x.Spans[0].From, true
		}
	}
	return 0, false
}

// happened names the lines of a list that were left out or late.
func (o owed) happened() string {
	var out, late []string
	for _, l := range o.lines {
		if l.done == nil {
			out = append(out, say.Quoted(l.says))
		} else {
			late = append(late, fmt.Sprintf("%s was done %s late, at %s", say.Quoted(l.says), say.Lasts(l.done.At-l.line.To), say.Clock(l.done.At)))
		}
	}
	var parts []string
	if n := len(out); n > 0 {
		parts = append(parts, say.And(few(out))+" "+say.Plural(n, "was", "were")+" left out")
	}
	return "Of the list " + say.Quoted(o.list.Title) + ", " + say.And(few(append(parts, late...))) + "."
}

// few keeps the first three of many, and counts the rest.
func few(list []string) []string {
	if more := len(list) - 3; more > 0 {
		return append(list[:3:3], fmt.Sprintf("%d more", more))
	}
	return list
}

// saw says when the alert of a list came, when the list was taken in hand, and what was
// looked at until the first of these lines was due.
func (t *teller) saw(o owed, given book.Time) string {
	due := o.lines[0].line.To
	text := fmt.Sprintf("%s (%s) came at %s", say.Quoted(o.call.Alert.Message), o.call.Alert.Level, say.Clock(given))
	if at, ok := t.inHand(o.list.ID); ok {
		text += "; the list was in hand at " + say.Clock(at)
	} else {
		text += "; the list was never in hand"
	}
	return text + ". " + t.glanced(given, due)
}

// inHand is when a list was first taken in hand, by a call or by a line that sends to it.
func (t *teller) inHand(list string) (at book.Time, ok bool) {
	for _, h := range t.s.hands {
		if h.list.ID == list && (!ok || h.at < at) {
			at, ok = h.at, true
		}
	}
	return at, ok
}

// glanced says what was looked at between two moments.
func (t *teller) glanced(from, to book.Time) string {
	var list []string
	for _, in := range t.done {
		if in.Do == Look && in.At >= from && in.At < to {
			list = append(list, fmt.Sprintf("%s at %s (%s)", t.b.Title(in.ID), say.Clock(in.At), t.reading(in)))
		}
	}
	if len(list) == 0 {
		return fmt.Sprintf("Nothing was looked at from then to %s.", say.Clock(to))
	}
	return "Looked at: " + say.And(few(list)) + "."
}

// reading is what a look read.
func (t *teller) reading(in Input) string {
	x, at := t.s.deck.indications[in.ID], in.At+LookTakes
	switch {
	case at > t.record.End || at > t.s.now:
		return "not read any more"
	case t.record.At(x.lit, at) == 0:
		return "dark"
	}
	return t.s.text(x.of, t.record.At(x.shows, at))
}

// truth says what had failed by a moment.
func (t *teller) truth(by book.Time) string {
	var list []string
	for i, k := range t.record.Scenario.Strikes {
		if at := t.record.Struck[i]; at.Came && at.At <= by {
			for _, f := range k.Fail {
				list = append(list, fmt.Sprintf("%s at %s", t.b.FailureTitle(f.String()), say.Clock(at.At)))
			}
		}
	}
	if len(list) == 0 {
		return "Nothing had failed by " + say.Clock(by) + "."
	}
	return "Failed by then: " + say.And(few(list)) + "."
}

// question is the question about a list.
func (t *teller) question(o owed) string {
	if _, ok := t.inHand(o.list.ID); !ok {
		return "What did you make of " + say.Quoted(o.call.Alert.Message) + " when it came?"
	}
	l := o.lines[0]
	return fmt.Sprintf("What had your attention at %s, when a crew by the book do %s?", say.Clock(l.line.To), say.Quoted(l.says))
}

// unasked is what may be said of the moves of a control that no list asks for.
func (t *teller) unasked(title string, moves []Input) Improve {
	var list []string
	for _, in := range moves {
		list = append(list, fmt.Sprintf("to %s at %s", spaced(in.To), say.Clock(in.At)))
	}
	first := moves[0].At
	return Improve{
		Happened: fmt.Sprintf("%s was moved %s; no line that a crew by the book do up to %s asks for that.", title, say.And(few(list)), say.Clock(t.s.now)),
		Saw:      t.toldBy(first), True: t.truth(first),
		Ask: "What did you expect to come of " + say.Quoted(title+": "+spaced(moves[0].To)) + "?",
	}
}

// toldBy says what had been told last before a moment, and what was looked at since.
func (t *teller) toldBy(by book.Time) string {
	var last *ledger.Announcement
	for i, a := range t.here.Alerts {
		if a.Spans[0].From < by {
			last = &t.here.Alerts[i]
		}
	}
	if last == nil {
		return "Nothing had been told."
	}
	from := last.Spans[0].From
	return fmt.Sprintf("The last that was told was %s (%s) at %s. %s", say.Quoted(last.Alert.Message), last.Alert.Level, say.Clock(from), t.glanced(from, by))
}

// turning has it worked out what it cost that the flight was not turned where a crew by
// the book turn it.
func (t *teller) turning() {
	turns := t.best.Record.Turns
	if len(t.s.flying.Turns()) > 0 || len(turns) == 0 || turns[0].Why != "" || turns[0].At > t.s.now {
		return
	}
	at, s := turns[0].At, t.s.Flown()
	for _, x := range turns {
		if x.At <= t.s.now {
			s.Plan = append(slices.Clone(s.Plan), x.Leg)
		}
	}
	x := Improve{Happened: fmt.Sprintf("The flight went on as planned; with a crew by the book it is %s.", ledger.Turned(turns[0])), Saw: t.toldBy(at), True: t.truth(at),
		Ask: "What would you have wanted to know before you turned the flight?"}
	t.beside = append(t.beside, beside{s, func(c compared) { t.propose(at, x, c) }})
}

// hidden proposes a loss of which nobody could know but by an indication at which nobody
// looked. What it cost is that nobody knew.
func (t *teller) hidden(l ledger.Loss, s ledger.LossSpan) {
	if s.Known.Word != ledger.Hidden || t.covered(l.Function, s) {
		return
	}
	lost := stretch(s, t.s.now)
	x := Improve{At: momentOf(s.At), Happened: fmt.Sprintf("Nobody looked at %s while %s was lost.", s.Via.Title, l.Function.Title),
		Saw: "No alert told of it. " + t.toldBy(s.At), True: fmt.Sprintf("%s was lost %s, and %s showed it from %s.", l.Function.Title, lost, s.Via.Title, say.Clock(s.At)),
		Cost: fmt.Sprintf("It went unknown for %s.", say.Lasts(s.Length())), Ask: "What would have made you look at " + s.Via.Title + "?"}
	t.improving = append(t.improving, candidate{x, s.At, effect{losses: []longer{{Loss: l}}}})
}

// covered says that somebody looked at anything that stands for a function while it was
// lost.
func (t *teller) covered(f *book.Function, s ledger.LossSpan) bool {
	return slices.ContainsFunc(t.done, func(in Input) bool {
		at := in.At + LookTakes
		return in.Do == Look && at >= s.From && at < s.To && slices.Contains(t.b.Covers(t.s.deck.indications[in.ID].of), f.ID)
	})
}

// stretch is when a loss lasted.
func stretch(s ledger.LossSpan, end book.Time) string {
	if s.To >= end {
		return "from " + say.Clock(s.From) + " on"
	}
	return "from " + say.Clock(s.From) + " to " + say.Clock(s.To)
}
