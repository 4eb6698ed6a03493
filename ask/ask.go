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
	"fmt"
	"slices"
	"strings"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/why"
)

// Question is what a person asks, as typed.
type Question struct {
	Fail       []string // units, unit.fault, or events
	Out        []string // inoperative at dispatch
	At         string   // when the failures come: "climb + 120 s"; "" the start
	When       string   // or: when this expression becomes yes
	ForS       float64  // the failures pass after so many seconds; 0: they last
	Resettable bool
	Sets       []string // how the aircraft is set, whatever fails: "control=position" from the start, or "control=position@moment"
	Acts       []string // what the crew move with the failure: the same
	Build      string   // "" for the first
	Flight     string   // "" for the first
}

// Answer is a question with what came of it.
type Answer struct {
	Question Question
	Course   *run.Course
	Scenario run.Scenario
	Here     *run.Record
	There    *run.Record
	Ledger   *ledger.Ledger
}

// Trouble is a question that cannot be asked: which part of it, and what to do.
type Trouble struct {
	Part string // the field's word: fail, out, at, when, for, set, act, build, flight
	Text string
}

func (t *Trouble) Error() string { return t.Part + ": " + t.Text }

func trouble(part, format string, a ...any) error {
	return &Trouble{part, fmt.Sprintf(format, a...)}
}

// Desk answers questions about one book. It keeps what questions share and may
// be used from many goroutines.
type Desk struct {
	Book *book.Book

	mu      sync.Mutex
	courses map[[2]string]*run.Course
}

// NewDesk returns a desk for a book.
func NewDesk(b *book.Book) *Desk {
	return &Desk{Book: b, courses: map[[2]string]*run.Course{}}
}

// Answer answers a question. The error is a *Trouble where the question is at fault.
func (d *Desk) Answer(ctx context.Context, q Question) (*Answer, error) {
	course, err := d.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	s, err := q.Scenario(course.Build)
	if err != nil {
		return nil, err
	}
	return Run(ctx, course, q, s)
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
	return &Trouble{part, err.Error()}
}

// Explain says why a value is what it is at a moment of the answer's flight.
func (a *Answer) Explain(v circuit.Value, at book.Time) (*why.Step, bool) {
	return why.Compare(a.Here, a.There, v, at)
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
func (d *Desk) Course(build, flight string) (*run.Course, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if c, ok := d.courses[[2]string{build, flight}]; ok {
		return c, nil
	}
	b, err := d.Book.BuildNamed(build)
	if err != nil {
		return nil, trouble("build", "%v", err)
	}
	f, err := b.FlightNamed(flight)
	if err != nil {
		return nil, trouble("flight", "%v", err)
	}
	c, err := run.NewCourse(b, f, run.Setting{})
	if err != nil {
		return nil, trouble("flight", "%v", err)
	}
	d.courses[[2]string{build, flight}] = c
	return c, nil
}

// Scenario reads the question against a build.
func (q Question) Scenario(b *book.Build) (s run.Scenario, err error) {
	strike := run.Strike{Lasts: book.AtSeconds(q.ForS), Resettable: q.Resettable}
	if !(q.ForS >= 0 && q.ForS <= 1e6) {
		return s, trouble("for", "a failure lasts from 0 (for good) to 1,000,000 seconds; %g is outside", q.ForS)
	}
	if strike.Fail, err = failures("fail", q.Fail, b); err != nil {
		return s, err
	}
	if s.Inoperative, err = failures("out", q.Out, b); err != nil {
		return s, err
	}
	if strike.At, err = book.ParseMoment(q.At, b); err != nil {
		return s, trouble("at", "%v", err)
	}
	if q.When != "" {
		if strike.When, err = condition(q.When, b); err != nil {
			return s, err
		}
	}
	if len(strike.Fail) > 0 {
		s.Strikes = append(s.Strikes, strike)
	}
	if s.SetUp, err = actions("set", q.Sets, b); err != nil {
		return s, err
	}
	s.Actions, err = actions("act", q.Acts, b)
	return s, err
}

func actions(part string, texts []string, b *book.Build) (list []run.Action, err error) {
	for _, text := range texts {
		a, err := action(part, text, b)
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}

func failures(part string, texts []string, b *book.Build) (refs []book.FailureRef, err error) {
	for _, t := range texts {
		r, err := book.ParseFailure(strings.TrimSpace(t), b)
		if err != nil {
			return nil, trouble(part, "%v", err)
		}
		refs = append(refs, r)
	}
	return refs, nil
}

func condition(text string, b *book.Build) (*book.Expr, error) {
	e, diags := book.ParseExpr(text, b)
	if diags.HasErrors() {
		return nil, trouble("when", "%s", diags[0].Summary+". "+diags[0].Detail)
	}
	if e.Type != book.YesNo {
		return nil, trouble("when", "%q is a %s; a yes/no is needed, such as real.height_ft > 500", text, e.Type)
	}
	return e, nil
}

func action(part, text string, b *book.Build) (run.Action, error) {
	what, at, _ := strings.Cut(text, "@")
	id, position, ok := strings.Cut(what, "=")
	if !ok {
		return run.Action{}, trouble(part, "%q: write control=position@moment, such as gear_lever=down@approach", text)
	}
	m, err := book.ParseMoment(at, b)
	if err != nil {
		return run.Action{}, trouble(part, "%v", err)
	}
	a := run.Action{Control: strings.TrimSpace(id), Position: strings.TrimSpace(position), At: m}
	return a, checkControl(part, a, b)
}

func checkControl(part string, a run.Action, b *book.Build) error {
	c, err := book.Find("control", a.Control, b.Controls)
	if err != nil {
		return trouble(part, "%v", err)
	}
	if !slices.Contains(c.Positions, a.Position) {
		return trouble(part, "%s", say.No("position of "+c.ID, a.Position, c.Positions))
	}
	return nil
}
