package crew

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// What a crew tell is heard or not (cabin_hears, control_hears, company_hears of the
// aircraft): nobody hears a call over what is dead. That is what is true at the end
// of the call; a tell that is not heard goes on with its else.

// hearing is the question whether somebody can hear the crew.
func hearing(whom string) asked { return asked{by: whom, what: heard} }

// Hears says whether somebody can hear what the crew tell. Values are those that the
// course of the team observes.
func (t *Team) Hears(whom string, value func(circuit.Node) float64) bool {
	l, ok := t.looks[hearing(whom)]
	return !ok || l.Answer(value) == Yes
}

// whom is who is told by a line; "" for none.
func (l *Line) whom() string {
	switch {
	case l.Kind == RadioLine:
		return "control"
	case l.Kind == StepLine:
		return l.Step.Whom
	}
	return ""
}

// hears is whether whom a line tells can hear it: yes or no, None where the book does
// not say what it takes.
func (d *duty) hears(l *Line) Answer {
	look, ok := d.team.looks[hearing(l.whom())]
	switch {
	case !ok:
		return None
	case d.seen(look) == Yes:
		return Yes
	}
	return No
}

// unheard is the finding of a line that is not heard.
func (t *Team) unheard(l *Line, r *run.Record) Finding {
	return Finding{Kind: NotHeard, At: l.To, Procedure: l.Procedure, Step: l.Step, Answer: l.Answer, Whom: l.whom(), Lost: t.silent(l.whom(), r, l.To)}
}

// silent lists what does not work at a moment of what it takes to be heard.
func (t *Team) silent(whom string, r *run.Record, at book.Time) (list []book.Item) {
	t.Build().Aircraft.Hears[whom].Walk(func(e *book.Expr) {
		if e.Op != book.OpRef {
			return
		}
		item, _ := t.Build().Item(e.ID)
		switch item.(type) {
		case *book.Function, *book.Unit:
			if n, ok := r.Circuit().Node(circuit.Value{Item: e.ID}); ok && r.At(n, at) == 0 {
				list = append(list, item)
			}
		}
	})
	return list
}
