package crew

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew/sight"
	"knockon/run"
	"knockon/say"
)

// findings are those of the flight in order of time, with what the lines that ask
// something could not see, and where what they saw was not so.
func (d *duty) findings(r *run.Record) []Finding {
	list := slices.Clone(d.found)
	for _, l := range d.lines {
		if f, ok := d.deceived(l, r); ok {
			list = append(list, f)
		}
		if l.whom() != "" && l.Answer == No {
			list = append(list, d.team.unheard(&l, r))
		}
	}
	slices.SortStableFunc(list, func(a, b Finding) int { return cmp.Compare(a.At, b.At) })
	return list
}

// deceived holds the answer of a line against what is true.
func (d *duty) deceived(l Line, r *run.Record) (f Finding, found bool) {
	if l.Answer == None || l.whom() != "" {
		return f, false
	}
	saw := d.team.saw(r, l.Step, d.callerOf(l), l.To)
	f = Finding{Kind: Misled, At: l.To, Procedure: l.Procedure, Step: l.Step, Answer: l.Answer, Right: saw.True, Gauges: saw.Gauges}
	if l.Answer == Unseen {
		f.Kind = CannotBeSeen
		return f, true
	}
	return f, saw.Answer == l.Answer && saw.Misled() && !sameWay(l.Step, l.Answer, saw.True)
}

// sameWay says that a decision goes on in the same way for two answers.
func sameWay(s *book.Step, a, b Answer) bool {
	return s.Kind == "decide" && len(s.Unknown) == 0 && a != Yes && b != Yes
}

// Sight is what could be seen for a step at a moment.
type Sight struct {
	Answer Answer
	True   Answer  // with what its gauges mean in their place
	Gauges []Gauge // that are dark, where the answer is Unseen; else that show wrong, and make it another
}

// Misled says that a gauge that lies made the answer another.
func (x Sight) Misled() bool {
	return x.Answer != Unseen && x.Answer != None && len(x.Gauges) > 0 && x.Answer != x.True
}

// String gives the gauges in words: what they showed while what was true, or that
// they are dark.
func (x Sight) String() string {
	switch {
	case len(x.Gauges) == 0:
		return ""
	case x.Answer == Unseen:
		return darkness(x.Gauges)
	}
	return lies(x.Gauges)
}

// Saw is what could be seen for a step at a moment of a record of the team's
// course, whatever its list is done for; the zero value where it asks nothing.
func (t *Team) Saw(r *run.Record, s *book.Step, at book.Time) Sight { return t.saw(r, s, nil, at) }

func (t *Team) saw(r *run.Record, s *book.Step, caller *book.Alert, at book.Time) (x Sight) {
	look, ok := t.lookOf(asked{step: s}, caller)
	if !ok {
		return x
	}
	eye := sight.Eye{Record: r, At: at}
	x.Answer = eye.Answer(look.Asks)
	wrong, right := []*book.Indication(nil), x.Answer
	if !s.Compares {
		wrong, right = eye.Misleads(look.Asks)
	}
	if x.Answer == Unseen {
		wrong = eye.Dark(look.Asks)
	}
	x.True, x.Gauges = right, gauges(eye, wrong)
	return x
}

// callerOf is the alert that the list of a line is done for; nil for all.
func (d *duty) callerOf(l Line) *book.Alert {
	if l.Call < 0 || !d.team.sided[l.Procedure] {
		return nil
	}
	return d.calls[l.Call].Alert
}

func gauges(y sight.Eye, list []*book.Indication) (all []Gauge) {
	for _, i := range list {
		g := Gauge{Of: i, Means: reading(y, i, circuit.Means, i.Means)}
		if lit, ok := y.Record.Circuit().Node(circuit.Value{Item: i.ID, Aspect: circuit.Lit}); ok && y.Record.At(lit, y.At) != 0 {
			g.Shows = reading(y, i, circuit.Main, i.Shows)
		}
		all = append(all, g)
	}
	return all
}

// reading is what an indication shows or means, as a person reads it; "" where it
// stands for nothing.
func reading(y sight.Eye, i *book.Indication, a circuit.Aspect, e *book.Expr) string {
	n, ok := y.Record.Circuit().Node(circuit.Value{Item: i.ID, Aspect: a})
	if !ok {
		return ""
	}
	v := y.Record.At(n, y.At)
	switch {
	case e.Type == book.Number:
		return say.Quantity(v, e.Unit)
	case e.Type == book.Word:
		return y.Record.Circuit().WordText(v)
	case v != 0:
		return "on"
	}
	return "off"
}
