// Package rescue turns a question and a function that it loses, or a flight that
// breaks off, into the smallest sets of control moves that prevent the loss or end
// it, or let the flight arrive, each with the time that there is for it and what it
// costs.
//
// Invariant: what is found is what flying every set from the start would find
// (docs/rescue.md); runs are parted, stopped early and left out only where that
// cannot change the outcome. Nothing is called without rescue that was not
// looked for everywhere it says.
//
// Start reading at Of (answer.go) and search (search.go), then try (flown.go);
// arrival.go is the flight in place of a function, doubt.go, future.go and marks.go say what need not be flown, crewed.go and harm.go
// what a crew by the book make of it.
package rescue

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// Times of the definition (docs/rescue.md).
const (
	putBack    = 3 * book.Second   // a control that is moved and put back
	apart      = 120 * book.Second // moves that are made one after the other
	soonest    = 10 * book.Second  // after the strike: before it no one has seen anything
	aMinute    = 60 * book.Second  // less than that sooner is no rescue, and no cost
	evenSteps  = 12
	evenSparse = 4 // larger sets are tried at each fourth step
	mostOrder  = 3
)

// Question is what is asked: what can be done about the loss of a function, or
// about a flight that breaks off.
type Question struct {
	Scenario run.Scenario
	Function string // id; "": the flight, which breaks off, is to arrive
	Order    int    // so many moves at most, 1 to 3
	Workers  int    // 0: one
	Only     []Move // no others are tried, so that nothing is said of what they do; nil: all
	Best     bool   // of all that rescue the best alone is worked out: the others are left out of the answer
}

// line is when a function works and is wanted, in both runs.
type line struct{ works, wanted, worksThere, wantedThere []circuit.Span }

// base is the question without any move: what all is measured by.
type base struct {
	course      *run.Course
	asked       run.Scenario
	here, there *run.Record
	strike      book.Time
	wrong       book.Time
	functions   []*book.Function
	f           int // the function in question; flight: none
	lines       []line
	bites       []span.Set
	loss        span.Set // the bites in question; of a flight that breaks off all from there on
}

func newBase(ctx context.Context, c *run.Course, s run.Scenario, function string) (*base, error) {
	inQuestion, err := numberOf(c, function)
	if err != nil {
		return nil, err
	}
	here, err := c.Fly(ctx, s)
	if err != nil {
		return nil, err
	}
	there, err := c.Beside(ctx, here)
	if err != nil {
		return nil, err
	}
	b := &base{course: c, asked: s, here: here, there: there, functions: c.Build.Functions, wrong: ledger.WrongAfter(c.Build.Aircraft), f: inQuestion}
	var came bool
	if b.strike, came = here.FirstStrike(); !came {
		return nil, fmt.Errorf("the failure never comes on this flight, so there is nothing to rescue")
	}
	end := min(here.End, there.End)
	for _, f := range b.functions {
		l := *lineOf(here, there, f)
		b.lines = append(b.lines, l)
		b.bites = append(b.bites, l.bites(end, b.wrong))
	}
	if b.f == flight {
		b.loss, err = brokenOff(here)
		return b, err
	}
	b.loss = b.bites[b.f]
	return b, nil
}

// numberOf is the place of a function in the build.
func numberOf(c *run.Course, function string) (int, error) {
	if function == "" {
		return flight, nil
	}
	f, err := book.Find("function", function, c.Build.Functions)
	return slices.Index(c.Build.Functions, f), err
}

func lineOf(here, there *run.Record, f *book.Function) *line {
	return &line{spans(here, f, circuit.Main), spans(here, f, circuit.Wanted), spans(there, f, circuit.Main), spans(there, f, circuit.Wanted)}
}

func spans(r *run.Record, f *book.Function, a circuit.Aspect) []circuit.Span {
	n, ok := r.Circuit().Node(circuit.Value{Item: f.ID, Aspect: a})
	if !ok {
		return nil
	}
	return r.Spans(n)
}

// bites are the stretches in which a function is lost and wanted in either run,
// as far as both went.
func (l *line) bites(end book.Time, wrong book.Time) span.Set {
	cut := func(list []circuit.Span) span.Set { return span.Lasting(list).Within(circuit.Span{From: 0, To: end}) }
	gone := ledger.Gone(cut(l.works), cut(l.worksThere), wrong)
	if len(gone) == 0 {
		return nil
	}
	return gone.And(cut(l.wanted).Or(cut(l.wantedThere)))
}

// from is what of a set lies at a moment or after it.
func from(s span.Set, t book.Time) span.Set { return s.Within(circuit.Span{From: t, To: book.Never}) }

// last is the end of the last bite.
func last(s span.Set) book.Time {
	if len(s) == 0 {
		return 0
	}
	return s[len(s)-1].To
}

// Kind is what moves do to a loss.
type Kind uint8

// Kinds.
const (
	Fails    Kind = iota
	Prevents      // nothing bites from the moves on
	Ends          // it bites when they are made, stops more than a minute sooner, and never bites again
)

// trace is what became of a function.
type trace struct {
	bites span.Set
	works bool // when the flight was over
}

// trace as far as both runs went.
func (l *line) trace(end, wrong book.Time) trace {
	works := slices.ContainsFunc(l.works, func(s circuit.Span) bool { return s.From < end && s.To >= end })
	return trace{l.bites(end, wrong), works}
}

// judge says what moves at t made of a loss whose last bite without them ends at
// until.
func (x trace) judge(t, until book.Time) Kind {
	b := from(x.bites, t)
	switch {
	case len(b) == 0:
		return Prevents
	case x.works && len(b) == 1 && b[0].From == t && b[0].To+aMinute < until:
		return Ends
	}
	return Fails
}

// doomed says of the bites as far as they are known, up to now, that no rescue
// can come of them any more.
func doomed(bites span.Set, t, now, until book.Time) bool {
	b := from(bites, t)
	switch {
	case len(b) == 0:
		return false
	case len(b) > 1 || b[0].From > t:
		return true
	}
	return b[0].To+aMinute >= until
}

// Cost is a function that is lost and bites because of the moves, or more than a
// minute sooner.
type Cost struct {
	Function *book.Function
	From     book.Time
	Sooner   book.Time // 0: it would not have been lost at all from the moves on
}

// costs lists what moves at t cost beside the function in question, among those
// that are looked at.
func (w *wood) costs(with []trace, t book.Time) (list []Cost) {
	for k, i := range w.looked {
		if i == w.f || !w.costly(k, with[k], t) {
			continue
		}
		c := Cost{Function: w.functions[i], From: from(with[k].bites, t)[0].From}
		if was := from(w.bites[i], t); len(was) > 0 {
			c.Sooner = was[0].From - c.From
		}
		list = append(list, c)
	}
	return list
}

// costly says of a function that is looked at that it bites with moves at t and
// would not without them, or more than a minute later.
func (w *wood) costly(k int, with trace, t book.Time) bool {
	is, was := from(with.bites, t), from(w.bites[w.looked[k]], t)
	if w.f == flight && len(is) > 0 && is[0].From >= w.loss[0].From {
		return false // nobody knows what it would have been
	}
	return len(is) > 0 && (len(was) == 0 || is[0].From+aMinute < was[0].From)
}

func severity(f *book.Function) int { return slices.Index(book.Severities, f.Severity) }

// severity of what is in question: a flight that does not arrive is as bad as the worst.
func (b *base) severity() int {
	if f := b.inQuestion(); f != nil {
		return severity(f)
	}
	return len(book.Severities) - 1
}

// counts says that the worst of the costs is less severe than the function.
func (b *base) counts(costs []Cost) bool {
	return !slices.ContainsFunc(costs, func(c Cost) bool { return severity(c.Function) >= b.severity() })
}
