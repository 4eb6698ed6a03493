package drill

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
)

// good is something that was done and what it saved.
type good struct {
	says   string // what was done, as the beginning of a sentence
	effect effect // what would have come without it
}

// deeds has it worked out what would have come without each control that was moved as a
// list asks, without all of them, and without the turns of the flight.
func (t *teller) deeds(d *Debrief) {
	moved := map[string][]string{}
	var order []string
	for _, x := range d.Steps {
		control, to, _ := strings.Cut(x.Moves, "=")
		if x.At == nil {
			continue
		}
		if moved[control] == nil {
			order = append(order, control)
		}
		moved[control] = append(moved[control], fmt.Sprintf("to %s at %s", spaced(to), x.At.Clock))
	}
	for _, control := range order {
		t.without(fmt.Sprintf("%s was moved %s, as the list asks", t.b.Title(control), say.And(few(moved[control]))), func(a run.Action) bool { return a.Control == control })
	}
	if len(order) > 1 {
		t.without(say.Counted(len(order), "control")+" were moved as the lists ask", func(a run.Action) bool { return moved[a.Control] != nil })
	}
	if turns := t.s.flying.Turns(); len(turns) > 0 && turns[0].Why == "" {
		s := t.s.Flown()
		s.Plan = t.s.asked.Plan
		t.saved("The flight was "+ledger.Turned(turns[0]), s)
	}
}

// without flies without the moves of a kind that lists ask for.
func (t *teller) without(says string, kind func(run.Action) bool) {
	s := t.s.Flown()
	s.Actions = slices.DeleteFunc(slices.Clone(s.Actions), func(a run.Action) bool { return kind(a) && t.called[a.Control+"="+a.Position] })
	t.saved(says, s)
}

func (t *teller) saved(says string, s run.Scenario) {
	t.beside = append(t.beside, beside{s, func(c compared) {
		if c.no != "" {
			t.unsaid = append(t.unsaid, says+". What that saved "+c.no+".")
			return
		}
		t.did = append(t.did, good{says, c.gain})
	}})
}

// well is the sentence that a debrief begins with: what was done that kept most from
// being lost; else that steps were done in time, or an alert answered, and that nothing
// that was done changed what was lost; else "".
func (t *teller) well(d *Debrief) string {
	best, weight := -1, 0.0
	for i, g := range t.did {
		if w := g.effect.weight(nil); w > weight {
			best, weight = i, w
		}
	}
	if best >= 0 {
		return t.did[best].says + "; without that there would have been: " + t.did[best].effect.text(t.s.now) + "."
	}
	if len(t.unsaid) > 0 {
		return "" // what of the rest may have saved something nobody can say
	}
	done := 0
	for _, x := range d.Steps {
		if x.At != nil && x.LateS < late.Seconds() && !x.Early {
			done++
		}
	}
	if done == 0 {
		return t.prompt(d)
	}
	return fmt.Sprintf("%d of %s that a crew by the book do up to %s %s done in time and in order; nothing more would have been lost without.", done, say.Counted(len(d.Steps), "step"), say.Clock(t.s.now), say.Plural(done, "was", "were"))
}

// prompt says that an alert was answered as soon as a crew by the book do.
func (t *teller) prompt(d *Debrief) string {
	for _, a := range d.Alerts {
		if a.Answered != nil && a.BestS > 0 && a.AfterS < a.BestS+late.Seconds() {
			return fmt.Sprintf("%s was answered %s after it came, where a crew by the book begin with it after %s; nothing that was moved as the lists ask kept anything from being lost.", say.Quoted(a.Message), say.Lasts(book.AtSeconds(a.AfterS)), say.Lasts(book.AtSeconds(a.BestS)))
		}
	}
	return ""
}
