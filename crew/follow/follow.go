// Package follow turns a crew, and everything that can fail, into what following
// the book's lists takes away: each failure that calls a list is flown hands off
// and with a crew by the book, and laid side by side.
//
// Invariant: whatever a finding says is in the two ledgers and the two prices that
// fail and costs give for the same question.
//
// Start reading at Of.
package follow

import (
	"cmp"
	"context"
	"slices"

	"knockon/book"
	"knockon/costs"
	"knockon/crew"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
)

// Question is what is flown.
type Question struct {
	Team    *crew.Team
	At      book.Moment         // when everything fails, each by itself
	Fail    [][]book.FailureRef // what fails; nil: each failure of the build
	Ground  *region.Region      // nil: no field is priced
	Workers int
}

// Kind is a way in which following lists is worse than hands off.
type Kind string

// Kinds of findings, the gravest first.
const (
	Breaks Kind = "does not arrive" // and hands off does
	Lost   Kind = "lost as well"    // a hazardous or catastrophic function that hands off keeps
	Sooner Kind = "lost sooner"     // by more than a minute
	Field  Kind = "field closed"    // that is open hands off

	// What is worth a look by itself, whatever it is hands off.
	Late    Kind = "list done late"         // the list of a warning, that takes more than lateS
	GoOn    Kind = "nobody goes to land"    // for more than longS after a hazardous loss, and no line says so
	Unheard Kind = "nobody hears it"        // a line that tells somebody over what is dead, and no other way
	Over    Kind = "read though it is over" // left for later, and nothing that called for it is so any more
	Undone  Kind = "not done at touchdown"  // the list of a warning or a caution that is begun in the air
	lateS        = 600 * book.Second
	longS        = 3600 * book.Second
)

var kinds = []Kind{Breaks, Lost, Sooner, Field, Late, GoOn, Undone, Over, Unheard}

// Finding is what following lists takes away, after one failure.
type Finding struct {
	Kind     Kind
	Fail     []book.FailureRef
	Lists    []*book.Procedure // that were begun, in that order
	Function *book.Function    // Lost, Sooner, GoOn
	List     *book.Procedure   // Late, Unheard, Over, Undone
	Step     *book.Step        // Unheard: that tells; Over: that has left it
	Field    string            // Field: its name
	Why      string            // Breaks, Field: in a pilot's words
	At       book.Time         // when: Lost, Sooner and GoOn of the loss, Breaks of the end, Late of its alert, else of the line or list
	Took     book.Time         // Late: to the end of the list, or of the flight; GoOn: how long they fly on; Undone: to the touchdown
	HandsOff book.Time         // Sooner: when it is lost hands off
}

// Followed is what came of all failures.
type Followed struct {
	Flown    int // failures
	Called   int // of them call a list that is begun
	Priced   int // of them, with fields
	Undone   int // could not be compared: neither flight arrives
	Findings []Finding
	Strike   book.Time
}

// Of flies them all. Told is called as it goes on; it may be nil.
func Of(ctx context.Context, q Question, told func(done, of int)) (*Followed, error) {
	at, err := q.Team.Course().Resolve(ctx, q.At)
	if err != nil {
		return nil, err
	}
	list := q.Fail
	if list == nil {
		for _, f := range q.Team.Build().Failures() {
			list = append(list, []book.FailureRef{f})
		}
	}
	results, err := inParallel(ctx, q, list, told)
	if err != nil {
		return nil, err
	}
	return gather(results, at), nil
}

// inParallel flies a list on several goroutines; the results are in its order.
func inParallel(ctx context.Context, q Question, list [][]book.FailureRef, told func(done, of int)) ([]pair, error) {
	results := make([]pair, len(list))
	err := run.Many(ctx, len(list), q.Workers, told, func(ctx context.Context, i int) (err error) {
		results[i], err = q.fly(ctx, list[i])
		return err
	})
	return results, err
}

// gather counts and sorts.
func gather(results []pair, at book.Time) *Followed {
	f := &Followed{Strike: at, Flown: len(results)}
	for _, p := range results {
		if len(p.lists) == 0 {
			continue
		}
		f.Called++
		if p.priced {
			f.Priced++
		}
		if !p.off.Here.Ending().Arrived() && !p.with.Here.Ending().Arrived() {
			f.Undone++
		}
		f.Findings = append(f.Findings, p.findings...)
	}
	slices.SortStableFunc(f.Findings, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(slices.Index(kinds, a.Kind), slices.Index(kinds, b.Kind)), -cmp.Compare(grave(a.Function), grave(b.Function)))
	})
	return f
}

func grave(f *book.Function) int {
	if f == nil {
		return 0
	}
	return slices.Index(book.Severities, f.Severity)
}

// pair is one failure flown hands off and with a crew.
type pair struct {
	off, with *ledger.Ledger
	lists     []*book.Procedure
	findings  []Finding
	priced    bool
}

func (q Question) fly(ctx context.Context, fail []book.FailureRef) (p pair, err error) {
	s := run.Scenario{Strikes: []run.Strike{{Fail: fail, At: q.At}}}
	plan, err := q.Team.Fly(ctx, s)
	if err != nil {
		return p, err
	}
	if p.lists = begun(plan); len(p.lists) == 0 {
		return p, nil
	}
	if p.with, err = q.Team.Ledger(ctx, plan); err != nil {
		return p, err
	}
	if p.off, err = ledger.Answer(ctx, q.Team.Course(), s); err != nil {
		return p, err
	}
	p.compare()
	p.findings = append(p.findings, slices.Concat(late(plan), goesOn(plan, p.with), undone(plan), over(plan, q.Team.Steps), unheard(plan))...)
	if q.Ground != nil && moved(plan) {
		err = q.price(ctx, &p, s)
	}
	for i := range p.findings {
		p.findings[i].Fail, p.findings[i].Lists = fail, p.lists
	}
	return p, err
}

// begun are the lists that the crew began.
func begun(plan *crew.Plan) (list []*book.Procedure) {
	for _, l := range plan.Lines {
		if l.Procedure != nil && !slices.Contains(list, l.Procedure) {
			list = append(list, l.Procedure)
		}
	}
	return list
}

// moved says that the crew did something: otherwise both flights are one.
func moved(plan *crew.Plan) bool { return len(plan.Actions())+len(plan.Record.Turns) > 0 }

// leastSooner is how much sooner a loss must come to count.
const leastSooner = 60 * book.Second

// compare lists what is worse with the crew.
func (p *pair) compare() {
	if e := p.with.Here.Ending(); !e.Arrived() && p.off.Here.Ending().Arrived() {
		p.findings = append(p.findings, Finding{Kind: Breaks, Why: e.Why, At: e.At})
	}
	for i := range p.with.Losses {
		l := &p.with.Losses[i]
		if !l.Mattered || grave(l.Function) < slices.Index(book.Severities, "hazardous") {
			continue
		}
		was := p.off.Loss(l.Function.ID)
		switch from := bites(l); {
		case was == nil || !was.Mattered:
			if p.reached(from) {
				p.findings = append(p.findings, Finding{Kind: Lost, Function: l.Function, At: from})
			}
		case from < bites(was)-leastSooner:
			p.findings = append(p.findings, Finding{Kind: Sooner, Function: l.Function, At: from, HandsOff: bites(was)})
		}
	}
}

// reached says that hands off the flight came to a moment: behind where it breaks
// off nothing is kept.
func (p *pair) reached(at book.Time) bool {
	e := p.off.Here.Ending()
	return e.Arrived() || at <= e.At
}

// bites is when a loss that mattered began.
func bites(l *ledger.Loss) book.Time {
	for _, s := range l.Spans {
		if s.Mattered {
			return s.From
		}
	}
	return l.Spans[0].From
}

// price adds the fields that are open hands off and closed with a crew.
func (q Question) price(ctx context.Context, p *pair, s run.Scenario) error {
	at, err := q.Team.Course().Resolve(ctx, q.At)
	if err != nil {
		return err
	}
	off, err := costs.Of(ctx, q.Team.Course(), q.Ground, costs.Question{Scenario: s, At: at + 1})
	if err != nil {
		return nil // on the ground, or over before it is turned: nobody can go elsewhere
	}
	with, err := costs.Of(ctx, q.Team.Course(), q.Ground, costs.Question{Scenario: s, At: at + 1, Hand: q.Team.Hand, Sees: q.Team.Sees()})
	if err != nil {
		return err
	}
	p.priced = true
	for i := range off.Places {
		a, b := &off.Places[i].Failed, &with.Places[i].Failed
		if a.Good() && !b.Good() {
			p.findings = append(p.findings, Finding{Kind: Field, Field: off.Places[i].Airfield.Name, Why: b.Reasons[0].Text, At: at})
		}
	}
	return nil
}
