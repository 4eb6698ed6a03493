// Package still turns a circuit, at one moment of a flight, into a logic: for
// each yes/no value of the circuit the term that says for which failures it is
// true, once everything has settled. docs/meaning.md, section 9, says what is
// held still.
//
// The one invariant: a term has, for any set of failures, the value that the
// circuit comes to when these strike at that moment and the flight stands
// still. Where that cannot be had exactly, the value is refused, with the
// reason.
//
// Start reading at At.
package still

import (
	"fmt"
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ways/logic"
)

// Still is a circuit at one moment, for all failures at once. It is not safe
// for concurrent use.
type Still struct {
	// Logic holds the terms. Its events are the failures of the book: units,
	// unit.fault, and the events that bring several of these.
	Logic *logic.Logic

	t      *circuit.Trace
	at     book.Time
	c      *circuit.Circuit
	struck []logic.Term // by way to fail
	prints *prints
	first  *picture // of nothing: how it stands without failures
	seen   []seen   // what was asked so far
}

// At makes a still of a run without failures at a moment of it. It works out only what
// is asked of it, once it is asked. Failures have the probability that they happen
// within the time of the whole run, if the book gives their rates.
func At(t *circuit.Trace, at book.Time) (*Still, error) {
	if at < 0 || at > t.End {
		return nil, fmt.Errorf("the run has no moment %.0f s; it ends at %.0f s", at.Seconds(), t.End.Seconds())
	}
	s := &Still{Logic: logic.New(), t: t, at: at, c: t.Circuit()}
	s.failures(t.End.Seconds() / 3600)
	s.prints = newPrints(s.Logic)
	s.first = newPicture(t, at, s.Logic, s.prints, nil)
	return s, nil
}

// seen is what was worked out for a question.
type seen struct {
	wanted []bool // by node: this holds it
	value  map[circuit.Node]value
}

// look works out nodes, unless that is done.
func (s *Still) look(nodes ...circuit.Node) error {
	missing := func(n circuit.Node) bool {
		return !slices.ContainsFunc(s.seen, func(was seen) bool { return was.wanted[n] })
	}
	if !slices.ContainsFunc(nodes, missing) {
		return nil
	}
	p := newPicture(s.t, s.at, s.Logic, s.prints, nodes)
	p.struck = s.struck
	if err := p.develop(); err != nil {
		return err
	}
	now := seen{p.wanted, map[circuit.Node]value{}}
	for _, n := range p.list {
		now.value[n] = p.value[n]
	}
	s.seen = append(s.seen, now)
	return nil
}

// value is that of a node that was looked at. What no failure reaches stays as
// it is.
func (s *Still) value(n circuit.Node) value {
	for _, was := range s.seen {
		if v, ok := was.value[n]; ok {
			return v
		}
	}
	return s.first.value[n]
}

// Term returns when a yes/no value of the circuit is true. It fails for a value
// that is not yes/no, and for one that depends on a number which takes too many
// values to follow.
func (s *Still) Term(n circuit.Node) (logic.Term, error) {
	if s.c.Type(n) != book.YesNo {
		return logic.False, fmt.Errorf("only a yes/no value has ways")
	}
	if err := s.look(n); err != nil {
		return logic.False, err
	}
	v := s.value(n)
	if v.lost != "" {
		return logic.False, fmt.Errorf("it depends on %s, which takes too many values to follow", v.lost)
	}
	return v.yes, nil
}

// BuiltUp says whether a value reads a total (a tank, a battery, a cabin's
// height) that failures would move in time. Its term takes the total as it
// stands, so it says what follows before the total has moved.
func (s *Still) BuiltUp(n circuit.Node) bool { return s.first.builtUp[n] }

// Middle returns the middle of the first time that a phase lasts in a run.
func Middle(t *circuit.Trace, phase string) (at book.Time, err error) {
	n, ok := t.Circuit().Node(circuit.Value{Item: phase})
	if !ok || !slices.Contains(t.Circuit().Phases(), phase) {
		return 0, fmt.Errorf("there is no phase %q", phase)
	}
	spans := t.Spans(n)
	if len(spans) == 0 {
		return 0, fmt.Errorf("the flight never comes to phase %s", phase)
	}
	return (spans[0].From + spans[0].To) / 2, nil
}

// named returns the term of an item's main value.
func (s *Still) named(id string) (logic.Term, error) {
	n, ok := s.c.Node(circuit.Value{Item: id})
	if !ok {
		return logic.False, fmt.Errorf("nothing is called %q", id)
	}
	t, err := s.Term(n)
	if err != nil {
		return t, fmt.Errorf("%s: %w", id, err)
	}
	return t, nil
}

// Lost returns when a function that works without failures does not work. A
// function that does not work without them is never lost.
func (s *Still) Lost(function string) (logic.Term, error) {
	works, err := s.named(function)
	if err != nil {
		return works, err
	}
	if n, _ := s.c.Node(circuit.Value{Item: function}); s.first.before(n) == 0 {
		return logic.False, nil
	}
	return works.Not(), nil
}

// Untold returns when a function is lost and no alert that tells of it is given
// and not false which is not given without failures.
func (s *Still) Untold(function string) (logic.Term, error) {
	tells := s.tells(function)
	if err := s.look(s.nodes(function, tells)...); err != nil {
		return logic.False, err
	}
	lost, err := s.Lost(function)
	if err != nil {
		return lost, err
	}
	silent := []logic.Term{lost}
	for _, a := range tells {
		right, err := s.right(a)
		if err != nil {
			return right, err
		}
		silent = append(silent, right.Not())
	}
	return s.Logic.And(silent...), nil
}

// tells lists the alerts that tell of a function, once for each time that they
// do, and are not given without failures.
func (s *Still) tells(function string) (alerts []string) {
	for _, a := range s.c.Build.Alerts {
		for _, f := range a.Tells {
			if n, _ := s.c.Node(circuit.Value{Item: a.ID}); f == function && s.first.before(n) == 0 {
				alerts = append(alerts, a.ID)
			}
		}
	}
	return alerts
}

// nodes are those of a function and of alerts, to be worked out together.
func (s *Still) nodes(function string, alerts []string) (list []circuit.Node) {
	for _, id := range append([]string{function}, alerts...) {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.False} {
			if n, ok := s.c.Node(circuit.Value{Item: id, Aspect: a}); ok {
				list = append(list, n)
			}
		}
	}
	return list
}

// right returns when an alert is given and not false.
func (s *Still) right(alert string) (logic.Term, error) {
	given, err := s.named(alert)
	if err != nil {
		return given, err
	}
	n, ok := s.c.Node(circuit.Value{Item: alert, Aspect: circuit.False})
	if !ok {
		return given, nil
	}
	falsely, err := s.Term(n)
	if err != nil {
		return falsely, fmt.Errorf("whether %s is false: %w", alert, err)
	}
	return s.Logic.And(given, falsely.Not()), nil
}

// Wrong returns when a function is lost, no alert that tells of it is given and not
// false which is not given without failures, and an indication that covers it is
// wrong which is not wrong without them.
func (s *Still) Wrong(function string) (logic.Term, error) {
	untold, err := s.Untold(function)
	if err != nil {
		return untold, err
	}
	var lies []logic.Term
	for _, i := range s.c.Build.Indications {
		n, ok := s.c.Node(circuit.Value{Item: i.ID, Aspect: circuit.Wrong})
		if !ok || !slices.Contains(s.c.Build.Covers(i), function) || s.first.before(n) != 0 {
			continue
		}
		wrong, err := s.Term(n)
		if err != nil {
			return wrong, fmt.Errorf("whether %s shows wrong: %w", i.ID, err)
		}
		lies = append(lies, wrong)
	}
	return s.Logic.And(untold, s.Logic.Or(lies...)), nil
}

// Holds returns when an expression holds that the circuit observes.
func (s *Still) Holds(e *book.Expr) (logic.Term, error) {
	n, ok := s.c.WatchOf(e)
	if !ok {
		return logic.False, fmt.Errorf("the run does not observe %s", e)
	}
	return s.Term(n)
}

// Before says that a yes/no item is yes with nothing failed.
func (s *Still) Before(id string) bool {
	n, ok := s.c.Node(circuit.Value{Item: id})
	return ok && s.first.before(n) != 0
}

// Circuit returns the circuit that is held still.
func (s *Still) Circuit() *circuit.Circuit { return s.c }

// failures declares the events, and gives each way to fail the term that it has
// struck: by itself or through an event of the book.
func (s *Still) failures(hours float64) {
	brought := map[string][]logic.Term{}
	for _, e := range s.c.Build.Events {
		t := s.event(e.ID, e.RatePerHour, hours)
		for _, f := range e.Fails {
			brought[f.String()] = append(brought[f.String()], t)
		}
	}
	rates := rates(s.c.Build)
	for _, ref := range s.c.Ways() {
		own := s.event(ref.String(), rates[ref.String()], hours)
		s.struck = append(s.struck, s.Logic.Or(append([]logic.Term{own}, brought[ref.String()]...)...))
	}
}

func (s *Still) event(name string, rate, hours float64) logic.Term {
	t := s.Logic.Event(name)
	if rate > 0 {
		// A rate and a time that are not negative give a probability.
		_ = s.Logic.SetP(t, -math.Expm1(-rate*hours))
	}
	return t
}

func rates(b *book.Build) map[string]float64 {
	rates := map[string]float64{}
	for _, u := range b.Units {
		rates[u.ID] = u.RatePerHour
		for _, f := range u.Faults {
			rates[u.ID+"."+f.ID] = f.RatePerHour
		}
	}
	return rates
}
