package dispatch

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
	"knockon/scenario"
)

// Question is what a person asks before a flight, as typed.
type Question struct {
	Items    []string // inoperative: units or unit.fault
	Build    string   // "" for the first
	Flight   string   // "" for the first
	In       string   // when the next failure strikes: a moment; "" in every phase
	Found    string   // the day on which it was found, as 2026-11-25; "" not said
	Thorough bool     // with hidden failures, and with each other item that can be deferred

	Acts     Acting               // a crew; nil: nobody is flown with one
	Progress func(done, of int64) // nil: nobody watches
}

// Answer is what comes of it.
type Answer struct {
	Question Question
	Build    *book.Build
	Planned  *book.Flight // as asked for
	Relief   *Relief
	Flown    *book.Flight // under the conditions; nil: it does not go, and nothing was flown
	Moments  []Moment     // at which a failure strikes
	Already  []Already    // lost with nothing more failed
	Away     []Away       // one failure away, the severest first
	Breaks   []Break      // where the deferral breaks the principle
	Short    []string     // failures with which the flight arrives neither so nor with everything working
	NotKnown []string     // what could not be worked out, and why
}

// Moment is when failures strike.
type Moment struct {
	Phase string // id; "" in a book without phases
	At    book.Time
}

// Of answers a question. The error is a *scenario.Trouble where the question is at
// fault. What cannot be worked out, since a flight breaks off, is said in the answer.
func Of(ctx context.Context, courses *scenario.Courses, q Question) (*Answer, error) {
	a, course, err := asked(courses, q)
	if err != nil || !a.Relief.Goes() {
		return a, err
	}
	s := &survey{Answer: a, course: course, courses: courses}
	switch err = s.prepare(ctx); {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.As(err, new(*scenario.Trouble)):
		return nil, err
	case err != nil:
		a.NotKnown = append(a.NotKnown, "What is then one failure away is not known: "+err.Error()+".")
		return a, nil
	}
	return a, s.run(ctx)
}

// Verdict answers by the deferrals alone: whether it may go, until when and under which
// conditions. What is then one failure away is not looked at, and the answer says that it
// is not known.
func Verdict(courses *scenario.Courses, q Question) (*Answer, error) {
	a, _, err := asked(courses, q)
	return a, err
}

func trouble(part, format string, a ...any) error {
	return &scenario.Trouble{Part: part, Text: fmt.Sprintf(format, a...)}
}

// asked reads a question and decides by the deferrals.
func asked(courses *scenario.Courses, q Question) (*Answer, *run.Course, error) {
	course, err := courses.Of(q.Build, q.Flight)
	if err != nil {
		return nil, nil, err
	}
	a := &Answer{Question: q, Build: course.Build, Planned: course.Flight}
	if q.Found != "" && !book.ValidDay(q.Found) {
		return nil, nil, trouble("found", "%q is not a day: write year, month and day, such as 2026-11-25", q.Found)
	}
	items, err := itemsOf(q.Items, course.Build)
	if err != nil {
		return nil, nil, err
	}
	a.Relief = Decide(course.Build, course.Flight, items)
	return a, course, nil
}

// itemsOf reads what is inoperative.
func itemsOf(texts []string, b *book.Build) (items []book.FailureRef, err error) {
	if len(texts) == 0 {
		return nil, trouble("item", "say what is inoperative, such as %s", append(deferrable(b), "pump_1")[0])
	}
	for _, t := range texts {
		f, err := book.ParseFailure(t, b)
		if err != nil {
			return nil, trouble("item", "%v", err)
		}
		if item, _ := b.Item(f.Unit); item.Named().Kind != "unit" {
			return nil, trouble("item", "%q is an event: name the units or faults that it leaves inoperative", f.Unit)
		}
		if slices.ContainsFunc(items, func(o book.FailureRef) bool { return o.String() == f.String() }) {
			return nil, trouble("item", "%s is named twice: name it once", f)
		}
		items = append(items, f)
	}
	return items, nil
}

// survey is an answer that is being worked out.
type survey struct {
	*Answer
	courses *scenario.Courses
	course  *run.Course // of the flight as planned, then under the conditions
	before  *Aircraft   // with everything working
	after   *Aircraft   // as it goes
	had     []*Singles  // by moment
	has     []*Singles
	broken  []string // what runs broke off with in a loop
	done    int
}

// prepare flies both aircraft under the conditions, with nothing failed.
func (s *survey) prepare(ctx context.Context) (err error) {
	c := s.Relief.Conditions()
	if id := c.Flown(s.Planned); id != s.Planned.ID {
		if s.course, err = s.courses.Of(s.Build.Variant, id); err != nil {
			return fmt.Errorf("the flight cannot be flown under these conditions: %w", errors.New(err.Error()))
		}
	}
	s.Flown = s.course.Flight
	if s.before, err = NewAircraft(ctx, s.course, run.Scenario{}); err != nil {
		return err
	}
	if s.after, err = NewAircraft(ctx, s.course, goes(s.Relief.Items, c)); err != nil {
		return err
	}
	return s.moments(ctx)
}

// goes is the scenario of an aircraft that goes with items inoperative.
func goes(items []book.FailureRef, c Conditions) run.Scenario {
	x := run.Scenario{Inoperative: items}
	for _, set := range c.SetUps {
		x.SetUp = append(x.SetUp, run.Action{Control: set.Set, Position: set.To, Held: true})
	}
	return x
}

// lag is how long after a phase begins failures strike in it, unless it is shorter
// than twice that; as in a sweep.
const lag = 5 * book.Second

// moments finds when failures strike: at the one that is asked for, or in each phase
// of the flight with everything working.
func (s *survey) moments(ctx context.Context) error {
	if s.Question.In != "" {
		m, err := scenario.Moment("in", s.Question.In, s.Build)
		if err != nil {
			return err
		}
		at, err := s.course.Resolve(ctx, m)
		if err != nil {
			return trouble("in", "%v", err)
		}
		s.Moments = []Moment{{s.before.There.PhaseAt(at), max(at, 1)}}
		return nil
	}
	for _, p := range s.before.There.Phases() {
		s.Moments = append(s.Moments, Moment{p.ID, p.From + max(1, min(lag, p.Length()/2))})
	}
	if len(s.Moments) == 0 {
		s.Moments = []Moment{{"", max(s.before.There.End/2, 1)}}
	}
	return nil
}

// run flies everything and finds what there is to find.
func (s *survey) run(ctx context.Context) error {
	for _, work := range []func(context.Context) error{s.already, s.singles, s.away, s.silenced, s.lists, s.thorough} {
		if err := work(ctx); err != nil {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			return err
		}
	}
	if slices.Sort(s.broken); len(s.broken) > 0 {
		s.NotKnown = append(s.NotKnown, "Runs with these failures broke off in a loop that never settles, and what comes after that is not known: "+strings.Join(slices.Compact(s.broken), ", ")+".")
	}
	s.spell()
	s.Breaks = slices.Concat(s.alone(), s.next(), s.short(), s.Breaks)
	slices.SortStableFunc(s.Breaks, func(a, b Break) int { return severityIndex(b.Severity) - severityIndex(a.Severity) })
	for i := range s.Breaks {
		s.Breaks[i].Says += stated(s.Breaks[i].Function)
	}
	return s.crewed(ctx)
}

// step counts how far the work is.
func (s *survey) step() {
	s.done++
	if of := 2*len(s.Moments) + 1; s.Question.Progress != nil {
		s.Question.Progress(int64(min(s.done, of)), int64(of))
	}
}

// singles flies every failure alone at every moment, on both aircraft.
func (s *survey) singles(ctx context.Context) error {
	for _, m := range s.Moments {
		had, err := s.whole(ctx, m.At)
		if err != nil {
			return err
		}
		s.step()
		has, err := s.after.Singles(ctx, m.At)
		if err != nil {
			return err
		}
		s.step()
		s.had, s.has = append(s.had, had), append(s.has, has)
		s.broken = slices.Concat(s.broken, had.Broken, has.Broken)
		s.Short = append(s.Short, bothShort(had, has)...)
	}
	slices.Sort(s.Short)
	s.Short = slices.Compact(s.Short)
	return nil
}

// bothShort lists the failures with which neither flight arrives.
func bothShort(had, has *Singles) (list []string) {
	for name := range has.Short {
		if _, was := had.Short[name]; was {
			list = append(list, name)
		}
	}
	return list
}

type wholeKey struct{ at book.Time }

// whole is what each failure takes away with everything working: worked out once for
// all who ask of the same flight.
func (s *survey) whole(ctx context.Context, at book.Time) (*Singles, error) {
	kept := s.course.Once(wholeKey{at}, func() any { return &keeper{} }).(*keeper)
	return kept.of(func() (*Singles, error) { return s.before.Singles(ctx, at) })
}

// phase is what a person calls the phase of a moment.
func (a *Answer) phase(m Moment) string {
	if m.Phase == "" {
		return "at " + say.Clock(m.At)
	}
	return a.Build.Title(m.Phase)
}
