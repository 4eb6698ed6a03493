package ask

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
	"knockon/dispatch"
	"knockon/run"
	"knockon/say"
)

// Deferral is what inoperative units leave one failure away at a moment.
type Deferral struct {
	*Standing
	Units  []string // inoperative
	Away   []Away   // the severest losses first
	Broken []string // failures whose run breaks off: of what comes after that nothing is known
}

// Away is a function for which one failure is enough now that a unit is deferred,
// and was not before.
type Away struct {
	Function *book.Function
	Lost     bool     // it does not work at the moment, with nothing else failed, and would without the deferral
	Later    bool     // the same at some later moment of the flight only
	By       []string // the failures that are enough now
}

// Lead says what the list is of.
func (x *Deferral) Lead() string {
	with := "With " + x.Out + " inoperative, "
	if len(x.Away) == 0 {
		return with + "no single failure that strikes " + x.Moment + " takes away more by the end of the flight than it does with that working."
	}
	return with + "what one failure that strikes " + x.Moment + " takes away there or by the end of the flight, beyond what it does with that working."
}

// BrokenOff says of which failures not everything is known; "" if of none.
func (x *Deferral) BrokenOff() string {
	if len(x.Broken) == 0 {
		return ""
	}
	return "Runs with these failures broke off in a loop that never settles, and what comes after that is not known: " + strings.Join(x.Broken, ", ") + "."
}

// Head is the heading of a function's severity.
func (a Away) Head() string {
	if s := a.Function.Severity; s != "" {
		return say.Capital(s)
	}
	return "Of no stated severity"
}

// Already says that a function is lost with nothing more failed; "" if it is not.
func (a Away) Already() string {
	switch {
	case a.Lost:
		return "lost already"
	case a.Later:
		return "lost later with nothing more failed"
	}
	return ""
}

// Dispatch says what the inoperative units of a question leave one failure away:
// for each function the failures that take it away at the moment of the question
// or later on that flight, and do not on the aircraft without the deferral. It
// says what the ledgers of all these flights say (docs/meaning.md, section 9).
func (d *Desk) Dispatch(ctx context.Context, q Sought) (*Deferral, error) {
	if len(q.Out) == 0 {
		return nil, trouble("out", "say what is inoperative at dispatch")
	}
	after, err := d.Stand(ctx, q)
	if err != nil {
		return nil, err
	}
	units := q.Out
	quiet := after.there.Scenario
	has, err := dispatch.NewAircraft(ctx, after.Course, quiet)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	had, err := dispatch.NewAircraft(ctx, after.Course, run.Scenario{})
	if err != nil {
		return nil, blame("flight", ctx, err)
	}
	x, err := after.deferral(ctx, had, has)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	x.Units = units
	return x, nil
}

// deferral puts together what each failure takes without and with the deferral,
// and what the deferral takes alone.
func (s *Standing) deferral(ctx context.Context, before, after *dispatch.Aircraft) (*Deferral, error) {
	had, err := before.Singles(ctx, s.strike())
	if err != nil {
		return nil, err
	}
	has, err := after.Singles(ctx, s.strike())
	if err != nil {
		return nil, err
	}
	gone, err := s.gone(ctx, after)
	if err != nil {
		return nil, err
	}
	x := &Deferral{Standing: s, Broken: union(had.Broken, has.Broken)}
	for i, f := range s.Course.Build.Functions {
		a := Away{Function: f}
		if from, ok := gone[f]; ok {
			a.Lost, a.Later = from <= s.At, from > s.At
		}
		for k, name := range after.Failures() {
			_, was := had.Outcomes[k].Loss(int32(i))
			if _, is := has.Outcomes[k].Loss(int32(i)); is && !was {
				a.By = append(a.By, name.String())
			}
		}
		if a.Lost || a.Later || len(a.By) > 0 {
			x.Away = append(x.Away, a)
		}
	}
	slices.SortStableFunc(x.Away, func(a, b Away) int { return severity(b) - severity(a) })
	return x, nil
}

func union(a, b []string) []string {
	both := slices.Concat(a, b)
	slices.Sort(both)
	return slices.Compact(both)
}

// severity is how bad the loss of a function is.
func severity(a Away) int { return slices.Index(book.Severities, a.Function.Severity) }

// gone says which functions the deferral alone takes away, and from when on:
// they would work at that moment of the same flight without it.
func (s *Standing) gone(ctx context.Context, after *dispatch.Aircraft) (map[*book.Function]book.Time, error) {
	l, err := after.Beside(ctx, run.Scenario{})
	if err != nil {
		return nil, err
	}
	from := map[*book.Function]book.Time{}
	for _, l := range l.Losses {
		for _, span := range l.Spans {
			if _, had := from[l.Function]; !had && span.To > s.At {
				from[l.Function] = span.From
			}
		}
	}
	return from, nil
}
