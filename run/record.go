package run

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
)

// Record is what happened in one run: every change of every value. It is
// frozen and may be read from many goroutines.
type Record struct {
	*circuit.Trace
	Course   *Course
	Scenario Scenario
	Crewed   bool     // somebody's hand acted on what happened
	Turns    []Turned // the legs of the plan whose moment came, in order
	Struck   []Struck // when each strike of the scenario came, in that order; one on a condition may not have
	Warnings []circuit.Warning
	Ended    energy.Event // how a flight with drag and thrust ended; see Ending
	Fault    error        // why the run broke off; nil when it did not; see Ending

	path flight.Path
}

// Struck is a strike of the scenario and when it first came.
type Struck struct {
	Came bool
	At   book.Time
}

// PhaseSpan is when a phase of flight lasted.
type PhaseSpan struct {
	ID string
	circuit.Span
}

func newRecord(p *pilot, m *circuit.Machine) *Record {
	r := &Record{Trace: circuit.NewTrace(m), Course: p.course, Scenario: p.scenario, Struck: make([]Struck, len(p.scenario.Strikes))}
	for _, e := range p.allStrikes() {
		r.noteStrike(e.in.Strike, e.at)
	}
	return r
}

// allStrikes lists the timed strikes, those of the start included, which have
// left the queue.
func (p *pilot) allStrikes() []event {
	return slices.DeleteFunc(slices.Clone(p.timed), func(e event) bool { return e.in.Strike < 0 })
}

// noteStrike takes down failure number f; number 0 is what was inoperative.
func (r *Record) noteStrike(f int, at book.Time) {
	if f > 0 && !r.Struck[f-1].Came {
		r.Struck[f-1] = Struck{true, at}
	}
}

// Path is the flight as this run flew it.
func (r *Record) Path() flight.Path { return r.path }

func (r *Record) done(p *pilot, m *circuit.Machine, end book.Time, fault error) *Record {
	r.Trace.Done(end)
	if p.path != nil {
		p.path = p.path.Whole()
	}
	r.path, r.Scenario = p.flown(), p.scenario
	r.Scenario.Actions = slices.DeleteFunc(slices.Clone(p.scenario.Actions), func(a Action) bool { return a.taken && a.At.Offset > end })
	r.Scenario.Plan = slices.DeleteFunc(slices.Clone(p.scenario.Plan), func(l Leg) bool { return l.taken && l.At.Offset > end })
	if felt, ok := r.path.(*energy.Path); ok {
		r.Ended = felt.Ending()
	}
	r.Turns, r.Crewed = append(slices.Clone(p.turns), p.unflown()...), p.hand != nil
	r.Warnings, r.Fault = slices.Clone(m.Warnings), fault
	for i, s := range r.Struck {
		if s.At > end { // the run broke off before it
			r.Struck[i] = Struck{}
		}
	}
	return r
}

// Bound is where the flight went in the end: the name of the field. A take-off that
// was rejected never left it.
func (r *Record) Bound() string { return r.Course.bound(r.Turns) }

// bound is where a flight goes that was turned so.
func (c *Course) bound(turns []Turned) string {
	to := c.Flight.To
	for _, t := range turns {
		switch {
		case t.Why != "":
		case t.Leg.Do == Reject:
			to = c.Flight.From
		case t.Leg.Do.overGround():
			to = t.Route.Name
		}
	}
	return to
}

// FirstStrike is when the first failure came; ok is false when none did.
func (r *Record) FirstStrike() (at book.Time, ok bool) {
	for _, s := range r.Struck {
		if s.Came && (!ok || s.At < at) {
			at, ok = s.At, true
		}
	}
	return at, ok
}

// Phases lists the phases that the flight went through, in order.
func (r *Record) Phases() []PhaseSpan {
	var list []PhaseSpan
	c := r.Circuit()
	for _, id := range c.Phases() {
		n, _ := c.Node(circuit.Value{Item: id})
		for _, s := range r.Spans(n) {
			list = append(list, PhaseSpan{id, s})
		}
	}
	slices.SortStableFunc(list, func(a, b PhaseSpan) int { return cmp.Compare(a.From, b.From) })
	return list
}

// PhaseBegins is when a phase began; ok is false when it never did.
func (r *Record) PhaseBegins(id string) (at book.Time, ok bool) {
	for _, p := range r.Phases() {
		if p.ID == id {
			return p.From, true
		}
	}
	return 0, false
}

// PhaseAt is the phase at a moment.
func (r *Record) PhaseAt(t book.Time) string {
	id := ""
	for _, p := range r.Phases() {
		if p.From <= t {
			id = p.ID
		}
	}
	return id
}

// Sounds lists when an alert sounded: when it was given, and again every
// RepeatsS seconds while it stayed given; of one that has ways of telling, while it
// is given and its sound can be heard.
func (r *Record) Sounds(a *book.Alert) []book.Time {
	aspect := circuit.Main
	if r.Course.Build.Reaches(a).Any() {
		aspect = circuit.BySound
	}
	n, ok := r.Circuit().Node(circuit.Value{Item: a.ID, Aspect: aspect})
	if !ok {
		return nil
	}
	var list []book.Time
	sound := func(t book.Time) {
		if len(list) == 0 || list[len(list)-1] != t {
			list = append(list, t)
		}
	}
	every := book.AtSeconds(a.RepeatsS)
	spans := r.Spans(n)
	for i, s := range spans {
		sound(s.From)
		stands := i == len(spans)-1 && r.At(n, r.End) != 0 // it is given at the very end too
		for t := s.From + every; every > 0 && (t < s.To || t == r.End && stands); t += every {
			sound(t)
		}
	}
	return list
}
