package why

import (
	"strings"

	"knockon/book"
	"knockon/circuit"
)

// step describes a point.
func (x *explainer) step(p point, v circuit.Value, k Kind) *Step {
	value := x.here.value(p.n, p.at)
	_, where, _ := x.c.Source(p.n)
	s := &Step{
		Value: v, Kind: k, At: p.at.at, Yes: x.c.Type(p.n) == book.YesNo && value != 0,
		Where: where, Label: x.label(p.n, v), Says: x.says(p.n, v, value), Fleeting: !x.here.lasting(p.n, p.at),
	}
	if item, ok := x.c.Build.Item(v.Item); ok {
		s.Where = item.Named().Range
	}
	s.Since = x.since(p, value)
	return s
}

// since is from when on a steady node has had its value; what it has only
// inside an instant, since that moment.
func (x *explainer) since(p point, value float64) book.Time {
	if x.c.Smooth(p.n) {
		return 0
	}
	if p.at.pass != 0 && x.here.In(p.n, p.at.at, p.at.instant) != value {
		return p.at.at
	}
	ch, _ := x.here.LastChange(p.n, p.at.instant)
	return ch.At
}

// label is what a person calls a node.
func (x *explainer) label(n circuit.Node, v circuit.Value) string {
	item, ok := x.c.Build.Item(v.Item)
	if !ok {
		return x.bareLabel(n)
	}
	title := item.Named().Title
	if fault := x.c.Build.FaultTitle(book.FailureRef{Unit: v.Item, Fault: string(v.Aspect)}); fault != "" && v.Aspect != circuit.Failed {
		return title + ": " + fault
	}
	if a, ok := item.(*book.Alert); ok {
		return "alert “" + a.Message + "”"
	}
	return title
}

// bareLabel names a node that has no item: by the text it was written as.
func (x *explainer) bareLabel(n circuit.Node) string {
	if q, ok := x.c.Quantity(n); ok {
		return q.Title
	}
	item, _, expr := x.c.Source(n)
	switch {
	case n == x.c.PhaseNode():
		return "phase of flight"
	case expr != nil:
		return expr.String()
	}
	return strings.ReplaceAll(item, "_", " ")
}

// says puts a value into words that fit the kind of thing it is.
func (x *explainer) says(n circuit.Node, v circuit.Value, value float64) string {
	if x.c.Type(n) != book.YesNo {
		return x.c.Text(n, value)
	}
	item, ok := x.c.Build.Item(v.Item)
	if !ok {
		return x.c.Text(n, value)
	}
	words := [2]string{"no", "yes"}
	switch item.(type) {
	case *book.Unit:
		words = [2]string{"does not work", "works"}
		if v.Aspect == circuit.Failed {
			words = [2]string{"has not failed", "has failed"}
		}
	case *book.Function:
		words = [2]string{"is lost", "works"}
	case *book.Alert:
		words = [2]string{"is not given", "is given"}
	case *book.Phase:
		words = [2]string{"is not the phase", "is the phase"}
	}
	if said, ok := aspectWords[v.Aspect]; ok {
		words = said
	} else if v.Aspect != circuit.Main && v.Aspect != circuit.Failed {
		words = [2]string{"no", "yes"}
	}
	return words[int(value)]
}

// aspectWords say the values of an item beside its main one.
var aspectWords = map[circuit.Aspect][2]string{
	circuit.Wanted:   {"is not called for", "is called for"},
	circuit.Believed: {"is not due", "is due"},
	circuit.Possible: {"cannot be given", "can be given"},
	circuit.HeldBack: {"is not held back", "is held back"},
	circuit.False:    {"is not false", "is false"},
	circuit.Lit:      {"is dark", "is lit"},
	circuit.Wrong:    {"shows right", "shows wrong"},
}

// Note says what a step of an explanation is beside its value: at which moment,
// where that is not the one that is explained, since when, and of what kind.
func (s *Step) Note(root *Step, when func(book.Time) string) string {
	same := "as in the flight without the failure"
	if s.Elsewhere {
		same = "as along this path without the failure"
	}
	switch {
	case s.Kind == Condition && s.Since > 0 && s.Since == s.At:
		return "since " + when(s.Since) + ", " + same
	case s.Kind == Condition:
		return same
	case s.Fleeting:
		return "for no time at " + when(s.At)
	case s.Kind == Fails && s.Yes && s.Since == 0:
		return "inoperative from the start"
	}
	var parts []string
	if s.At != root.At && s.At != s.Since {
		parts = append(parts, "at "+when(s.At))
	}
	if s.Since > 0 {
		parts = append(parts, "since "+when(s.Since))
	}
	if s.Stayed {
		parts = append(parts, "still so when, at "+when(s.Other)+", it changed in the flight without the failure")
	}
	if s.Kind == FromStart {
		parts = append(parts, "as at the start")
	}
	return strings.Join(parts, ", ")
}
