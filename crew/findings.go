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
	}
	slices.SortStableFunc(list, func(a, b Finding) int { return cmp.Compare(a.At, b.At) })
	return list
}

// deceived holds the answer of a line against what is true.
func (d *duty) deceived(l Line, r *run.Record) (f Finding, found bool) {
	if l.Answer == None {
		return f, false
	}
	look, _ := d.team.lookOf(l.Step, d.callerOf(l))
	eye := sight.Eye{Record: r, At: l.To}
	f = Finding{Kind: CannotBeSeen, At: l.To, Procedure: l.Procedure, Step: l.Step, Answer: l.Answer}
	if l.Answer == Unseen {
		f.Gauges = gauges(eye, eye.Dark(look.Asks))
		return f, true
	}
	f.Kind, f.Gauges = Misled, gauges(eye, eye.Wrong(look.Asks))
	eye.True = true
	return f, len(f.Gauges) > 0 && eye.Answer(look.Asks) != l.Answer
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
