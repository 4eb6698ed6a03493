package crew

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/crew/sight"
)

// Question is what a step has the crew look at; nil where it asks nothing that the
// book knows.
func Question(s *book.Step) *book.Expr {
	if s.That != nil {
		return s.That
	}
	return s.When
}

// prepare finds what the steps ask. Those of a list that serves two sides ask it
// anew for each alert that calls.
func (x *Brief) prepare() {
	x.asks, x.team.sided = map[asked]*sight.Question{}, map[*book.Procedure]bool{}
	for _, p := range x.build.Procedures {
		Walk(x.team.lists[p], func(s *book.Step, _ string) {
			x.prepareOne(p, asked{step: s}, Question(s))
			x.prepareOne(p, asked{step: s, what: belonging}, s.If)
			x.prepareOne(p, asked{step: s, what: waitingFor}, s.WaitFor)
		})
	}
	for _, whom := range book.Told {
		if e := x.build.Aircraft.Hears[whom]; e != nil {
			x.asks[hearing(whom)] = sight.Of(x.build, e, "")
			x.order = append(x.order, hearing(whom))
		}
	}
}

func (x *Brief) prepareOne(p *book.Procedure, of asked, e *book.Expr) {
	if e == nil {
		return
	}
	x.ask(of, e)
	if !sight.CallsFor(e) {
		return
	}
	x.team.sided[p] = true
	for _, a := range x.build.Alerts {
		if a.Procedure == p.ID {
			of.by = a.ID
			x.ask(of, e)
		}
	}
}

func (x *Brief) ask(a asked, e *book.Expr) {
	if x.asks[a] == nil {
		x.asks[a] = sight.Of(x.build, e, a.by)
		x.order = append(x.order, a)
	}
}

// lookOf is what is asked in a list that is done for an alert, nil for any.
func (t *Team) lookOf(of asked, caller *book.Alert) (l sight.Look, ok bool) {
	if caller != nil {
		of.by = caller.ID
		if l, ok = t.looks[of]; ok {
			return l, true
		}
		of.by = ""
	}
	l, ok = t.looks[of]
	return l, ok
}

// Looks is what somebody sees who does a step now, whatever the list is done for:
// None where it asks nothing. Values are those that the course of the team
// observes.
func (t *Team) Looks(s *book.Step, value func(circuit.Node) float64) Answer {
	if l, ok := t.lookOf(asked{step: s}, nil); ok {
		return l.Answer(value)
	}
	return None
}

// Belongs says whether a step is one of those to be done now, whatever its list is
// done for. Values are those that the course of the team observes.
func (t *Team) Belongs(s *book.Step, value func(circuit.Node) float64) bool {
	l, ok := t.lookOf(asked{step: s, what: belonging}, nil)
	return !ok || l.Answer(value) == Yes
}

// Answer is what came of a check or a decision.
type Answer = sight.Answer

// Answers. None is that of lines that ask nothing, or nothing that the book knows.
const (
	None   = sight.None
	Yes    = sight.Yes
	No     = sight.No
	Unseen = sight.Unseen
)

// looks is what the crew see of a step of a task.
func (d *duty) looks(t *task, s *book.Step) Answer { return d.answers(t, asked{step: s}) }

// belongs says that a step of a task is one of those to be done now.
func (d *duty) belongs(t *task, s *book.Step) bool {
	return s.If == nil || d.answers(t, asked{step: s, what: belonging}) == Yes
}

func (d *duty) answers(t *task, of asked) Answer {
	l, ok := d.team.lookOf(of, t.caller)
	if !ok {
		return None
	}
	return d.seen(l)
}

func (d *duty) seen(l sight.Look) Answer {
	if d.slowly {
		return sight.Eye{Record: d.view.(moment).Record, At: d.now}.Answer(l.Asks)
	}
	return l.Answer(d.view.Value)
}
