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
// Start reading at Of.
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

	p *picture
}

// Of makes a still of a run without failures at a moment of it. Failures have
// the probability that they happen within the time of the whole run, if the
// book gives their rates.
func Of(t *circuit.Trace, at book.Time) (*Still, error) {
	if at < 0 || at > t.End {
		return nil, fmt.Errorf("the run has no moment %.0f s; it ends at %.0f s", at.Seconds(), t.End.Seconds())
	}
	l := logic.New()
	p := newPicture(t, at, l)
	p.failures(t.End.Seconds() / 3600)
	if err := p.develop(); err != nil {
		return nil, err
	}
	return &Still{Logic: l, p: p}, nil
}

// Term returns when a yes/no value of the circuit is true. It fails for a value
// that is not yes/no, and for one that depends on a number which takes too many
// values to follow.
func (s *Still) Term(n circuit.Node) (logic.Term, error) {
	if s.p.c.Type(n) != book.YesNo {
		return logic.False, fmt.Errorf("only a yes/no value has ways")
	}
	v := s.p.value[n]
	if v.lost != "" {
		return logic.False, fmt.Errorf("it depends on %s, which takes too many values to follow", v.lost)
	}
	return v.yes, nil
}

// BuiltUp says whether a value reads a total (a tank, a battery, a cabin's
// height) that failures would move in time. Its term takes the total as it
// stands, so it says what follows before the total has moved.
func (s *Still) BuiltUp(n circuit.Node) bool { return s.p.builtUp[n] }

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
	n, ok := s.p.c.Node(circuit.Value{Item: id})
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
	if n, _ := s.p.c.Node(circuit.Value{Item: function}); s.p.before(n) == 0 {
		return logic.False, nil
	}
	return works.Not(), nil
}

// Untold returns when a function is lost and no alert that tells of it is given
// and not false which is not given without failures.
func (s *Still) Untold(function string) (logic.Term, error) {
	lost, err := s.Lost(function)
	if err != nil {
		return lost, err
	}
	silent := []logic.Term{lost}
	for _, a := range s.p.c.Build.Alerts {
		for _, f := range a.Tells {
			n, _ := s.p.c.Node(circuit.Value{Item: a.ID})
			if f != function || s.p.before(n) != 0 {
				continue
			}
			right, err := s.right(a.ID)
			if err != nil {
				return right, err
			}
			silent = append(silent, right.Not())
		}
	}
	return s.Logic.And(silent...), nil
}

// right returns when an alert is given and not false.
func (s *Still) right(alert string) (logic.Term, error) {
	given, err := s.named(alert)
	if err != nil {
		return given, err
	}
	n, ok := s.p.c.Node(circuit.Value{Item: alert, Aspect: circuit.False})
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
	for _, i := range s.p.c.Build.Indications {
		n, ok := s.p.c.Node(circuit.Value{Item: i.ID, Aspect: circuit.Wrong})
		if !ok || !slices.Contains(s.p.c.Build.Covers(i), function) || s.p.before(n) != 0 {
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
	n, ok := s.p.c.WatchOf(e)
	if !ok {
		return logic.False, fmt.Errorf("the run does not observe %s", e)
	}
	return s.Term(n)
}

// Before says that a yes/no item is yes with nothing failed.
func (s *Still) Before(id string) bool {
	n, ok := s.p.c.Node(circuit.Value{Item: id})
	return ok && s.p.before(n) != 0
}

// Circuit returns the circuit that is held still.
func (s *Still) Circuit() *circuit.Circuit { return s.p.c }

// failures declares the events, and gives each way to fail the term that it has
// struck: by itself or through an event of the book.
func (p *picture) failures(hours float64) {
	brought := map[string][]logic.Term{}
	for _, e := range p.c.Build.Events {
		t := p.event(e.ID, e.RatePerHour, hours)
		for _, f := range e.Fails {
			brought[f.String()] = append(brought[f.String()], t)
		}
	}
	rates := rates(p.c.Build)
	for i, ref := range p.c.Ways() {
		own := p.event(ref.String(), rates[ref.String()], hours)
		p.struck[i] = p.l.Or(append([]logic.Term{own}, brought[ref.String()]...)...)
	}
}

func (p *picture) event(name string, rate, hours float64) logic.Term {
	t := p.l.Event(name)
	if rate > 0 {
		// A rate and a time that are not negative give a probability.
		_ = p.l.SetP(t, -math.Expm1(-rate*hours))
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
