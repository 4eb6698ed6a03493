package ask

import (
	"context"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
	"knockon/scenario"
	"knockon/ways/sets"
	"knockon/ways/still"
)

// Sought is what a person asks about failure sets, as typed.
type Sought struct {
	Functions []string // all of them lost; ids
	Told      string   // how: "" anyhow, "not", "wrong"
	When      string   // an expression that holds; "" none
	Out       []string // inoperative at dispatch
	In        string   // the phase, taken at its middle, or any moment; "" the phase half-way
	Build     string
	Flight    string
}

// Standing is an aircraft held still at a moment, and what is sought of it.
type Standing struct {
	sets.Stander
	sets.Condition
	Course *run.Course
	At     book.Time

	there *run.Record   // the flight with nothing failed
	flown *sets.Flights // what was flown to its end so far
}

// Stand reads a question about failure sets and holds the aircraft still. The
// error is a *Trouble where the question is at fault. Without functions and
// without an expression the condition is empty: see Standing.Nothing.
func (d *Desk) Stand(ctx context.Context, q Sought) (*Standing, error) {
	course, err := d.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	s := &Standing{Course: course}
	if s.Condition, err = q.Condition(course.Build); err != nil {
		return nil, err
	}
	there, err := q.quiet(ctx, course, s.When)
	if err != nil {
		return nil, err
	}
	if s.At, err = q.moment(ctx, course, there); err != nil {
		return nil, err
	}
	if s.Still, err = still.At(there.Trace, s.At); err != nil {
		return nil, trouble("in", "%v", err)
	}
	s.there, s.Out = there, strings.Join(q.Out, " and ")
	s.Moment = "at " + say.Clock(s.At)
	if phase, ok := course.Build.Item(there.PhaseAt(s.At)); ok {
		s.Moment += " (" + phase.Named().Title + ")"
	}
	return s, nil
}

// Condition reads what a question seeks, for a build.
func (q Sought) Condition(b *book.Build) (c sets.Condition, err error) {
	switch t := sets.Told(q.Told); t {
	case sets.Anyhow, sets.Untold, sets.Wrong:
		c.Told = t
	default:
		return c, trouble("told", "%q: say not, wrong, or nothing", q.Told)
	}
	for _, id := range q.Functions {
		f, err := book.Find("function", id, b.Functions)
		if err != nil {
			return c, trouble("function", "%v", err)
		}
		c.Functions = append(c.Functions, f)
	}
	if c.Told != sets.Anyhow && len(c.Functions) == 0 {
		return c, trouble("function", "say which function is lost and how that is told")
	}
	if q.When != "" {
		c.When, err = scenario.Condition("when", q.When, b)
	}
	return c, err
}

// quiet flies the flight with its inoperative units and nothing else, observing
// an expression.
func (q Sought) quiet(ctx context.Context, c *run.Course, when *book.Expr) (*run.Record, error) {
	out, err := scenario.Failures("out", q.Out, c.Build)
	if err != nil {
		return nil, err
	}
	s := run.Scenario{Inoperative: out}
	if when == nil {
		return c.Healthy(ctx, s)
	}
	s.Strikes = []run.Strike{{When: when}}
	r, err := c.Fly(ctx, s)
	if err != nil {
		return nil, trouble("when", "%v", err)
	}
	return r, nil
}

// moment is the middle of a phase, or what was typed. Where nothing was, it is
// the phase half-way, or half-way itself in a book without phases.
func (q Sought) moment(ctx context.Context, c *run.Course, there *run.Record) (book.Time, error) {
	phase := q.In
	if phase == "" {
		if phase = there.PhaseAt(there.End / 2); phase == "" {
			return there.End / 2, nil
		}
	}
	if at, err := still.Middle(there.Trace, phase); err == nil {
		return at, nil
	}
	m, err := scenario.Moment("in", q.In, c.Build)
	if err != nil {
		return 0, err
	}
	at, err := c.Resolve(ctx, m)
	if err != nil {
		return 0, trouble("in", "%v", err)
	}
	return at, nil
}
