// Package ask turns a question in a person's words (which failures, when, on
// which build and flight) into its answer: the two records and their ledger.
// It is the whole main path in one place; command line, pages and tests call it.
//
// Invariant: the same book and question give the same answer, and an answer
// never changes, so it may be kept and shared.
//
// Start reading at Desk.Answer.
package ask

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/known"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
	"knockon/why"
)

// Question is what a person asks, as typed.
type Question = scenario.Typed

// Answer is a question with what came of it.
type Answer struct {
	Question Question
	Course   *run.Course
	Scenario run.Scenario // without what the crew did by the book
	Crew     *crew.Plan   // what they did; nil: nobody did anything
	Here     *run.Record
	There    *run.Record
	Ledger   *ledger.Ledger
	Desk     *Desk          // that gave it
	Ground   *region.Region // that its flight goes over; nil: not known

	team *crew.Team // that acted; nil: nobody
}

// Trouble is a question that cannot be asked: which part of it, and what to do.
type Trouble = scenario.Trouble

func trouble(part, format string, a ...any) error {
	return &Trouble{Part: part, Text: fmt.Sprintf(format, a...)}
}

// Desk answers questions about one book. It may be used from many goroutines.
type Desk struct {
	Book    *book.Book
	Courses *scenario.Courses // compiled once for all who fly them

	ground *region.Region // nil: not known
	crews  crews
}

// NewDesk returns a desk for a book, whose flights go only where the book sends
// them; see Over.
func NewDesk(b *book.Book) *Desk {
	d := &Desk{Book: b, Courses: scenario.NewCourses(b)}
	d.Courses.Watch = d.crews.watch
	return d
}

// Over lets flights go elsewhere in a region. What was asked before stays as it was
// answered. It must not come while a question is being answered.
func (d *Desk) Over(g *region.Region) *Desk {
	d.ground = g
	d.Courses.Over(region.Router{Region: g})
	return d
}

// Answer answers a question, and judges how people can know of what is lost. The
// error is a *Trouble where the question is at fault.
func (d *Desk) Answer(ctx context.Context, q Question) (*Answer, error) {
	a, err := d.answer(ctx, q)
	if err != nil {
		return nil, err
	}
	return a, known.Judge(ctx, a.Ledger)
}

// answer is the same without judging.
func (d *Desk) answer(ctx context.Context, q Question) (*Answer, error) {
	course, err := d.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	s, err := q.Read(course.Build)
	if err != nil {
		return nil, err
	}
	return d.Fly(ctx, course, q, s)
}

// Fly answers a question whose scenario has been read already, on a course of the
// desk; of the question only the conduct counts.
func (d *Desk) Fly(ctx context.Context, course *run.Course, q Question, s run.Scenario) (a *Answer, err error) {
	if err := d.canPlan(s.Plan); err != nil {
		return nil, err
	}
	if q.ByTheBook() {
		a, err = crewed(ctx, d.TeamOf(course, q), q, s)
	} else {
		a, err = Run(ctx, course, q, s)
	}
	if err != nil {
		return nil, err
	}
	a.Desk, a.Ground = d, d.ground
	a.Ledger.Forbidden = a.forbidden()
	return a, nil
}

// Acting flies a scenario that has been read, on a course of the desk, with a crew by
// the book who act on it.
func (d *Desk) Acting(ctx context.Context, course *run.Course, s run.Scenario) (*ledger.Ledger, error) {
	a, err := d.Fly(ctx, course, Question{}, s)
	if err != nil {
		return nil, err
	}
	return a.Ledger, nil
}

// Run flies a scenario with and without its failures and what the crew move
// because of them, and compares the two.
func Run(ctx context.Context, course *run.Course, q Question, s run.Scenario) (*Answer, error) {
	if _, err := course.Healthy(ctx, s); err != nil {
		return nil, blame("out", ctx, err)
	}
	here, err := course.Fly(ctx, s)
	if err != nil {
		return nil, blame("at", ctx, err)
	}
	there, err := course.Beside(ctx, here)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	return &Answer{Question: q, Course: course, Scenario: s, Here: here, There: there, Ledger: ledger.Of(here, there)}, nil
}

func blame(part string, ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if plan := (*run.PlanError)(nil); errors.As(err, &plan) {
		part = "plan"
	}
	return &Trouble{Part: part, Text: err.Error()}
}

// Explain says why a value is what it is at a moment of the answer's flight.
func (a *Answer) Explain(v circuit.Value, at book.Time) (*why.Step, bool) {
	s, ok := why.Compare(a.Here, a.There, v, at)
	if usual, err := a.Course.Healthy(context.Background(), a.Scenario); ok && err == nil {
		a.place(s, usual, map[*why.Step]bool{})
	}
	return s, ok
}

// place marks the steps at moments by which the flight with nothing failed is elsewhere.
func (a *Answer) place(s *why.Step, usual *run.Record, seen map[*why.Step]bool) {
	if seen[s] {
		return
	}
	seen[s] = true
	s.Elsewhere = elsewhere(a.Here, usual, s.At)
	for _, next := range slices.Concat(s.Because, s.While) {
		a.place(next, usual, seen)
	}
}

// Usually says whether a value is at a moment what it is in the flight with nothing
// failed, wherever that is by then; ok is false where that is not known.
func (a *Answer) Usually(n circuit.Node, at book.Time) (same, ok bool) {
	usual, err := a.Course.Healthy(context.Background(), a.Scenario)
	if err != nil || at > usual.End {
		return false, false
	}
	return a.Here.At(n, at) == usual.At(n, at), true
}

// FirstDifference is the first moment at which a value is not what it is in the
// flight without the failures, were it for no time.
func (a *Answer) FirstDifference(n circuit.Node) (at book.Time, ok bool) {
	times := slices.Concat(a.Here.Instants(), a.There.Instants())
	slices.Sort(times)
	for _, at := range slices.Compact(times) {
		if at > min(a.Here.End, a.There.End) {
			break
		}
		if a.Here.At(n, at) != a.There.At(n, at) || a.changesFor(n, at) {
			return at, true
		}
	}
	return 0, false
}

// changesFor says that a value changes at a moment and back, and does not in the
// flight without the failures.
func (a *Answer) changesFor(n circuit.Node, at book.Time) bool {
	count := func(r *run.Record) (count int) {
		if !r.Steady(n) {
			return 0
		}
		for _, ch := range r.History(n) {
			if ch.At == at {
				count++
			}
		}
		return count
	}
	return count(a.Here) > 1 && count(a.There) == 0
}

// Course returns the compiled course of a build and a flight ("" for the first).
func (d *Desk) Course(build, flight string) (*run.Course, error) { return d.Courses.Of(build, flight) }
