package rescue

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
)

// Listing is a list that moves some of what a set moves.
type Listing struct {
	Procedure *book.Procedure
	Moves     Set  // of the set
	Called    bool // by an alert on the flight without the set, hands of the crew included
}

// Crewed is what a crew by the book make of the question.
type Crewed struct {
	Bites   bool // the function bites with them, from ten seconds after the strike on
	First   book.Time
	Arrives bool
	Over    book.Time // when it has bitten for the last time, and works when the flight is over; 0: it does not
	landed  string    // what is bad about their landing; ""
	Worse   bool      // they lose it, or more than a minute sooner than nobody's hands do
	Harms   []Harm    // lines that are to blame for that, in the order in which they are done
}

// WithCrew flies what was found once more with a crew who act by the book, and
// says which of their lists move what a set moves, and which of their lines make
// things worse.
func (a *Answer) WithCrew(ctx context.Context, team *crew.Team, s run.Scenario, workers int) error {
	plain, err := team.Fly(ctx, s)
	if err != nil {
		return err
	}
	without, _, err := a.crewed(ctx, team, plain)
	if err != nil {
		return err
	}
	first := a.Strike + soonest
	a.Crew = &Crewed{First: firstFrom(without.bites, first), Arrives: plain.Record.Ending().Arrived()}
	a.Crew.landed = ill(plain.Record)
	a.Crew.Bites = a.Crew.First < book.Never
	a.Crew.Over = without.over()
	a.Crew.Worse = a.Crew.Bites && a.Crew.First+aMinute < firstFrom(a.loss, first)
	if a.Crew.Worse {
		if err := a.harms(ctx, team, s, plain, workers); err != nil {
			return err
		}
	}
	return share(ctx, workers, len(a.Rescues), func(ctx context.Context, i int) error {
		r := a.Rescues[i]
		r.Lists = listings(team, plain, r.Set)
		return a.fly(ctx, team, s, r, last(without.bites))
	})
}

// crewed says what became of the function on a flight with a crew, and whether
// both runs arrived.
func (a *Answer) crewed(ctx context.Context, team *crew.Team, p *crew.Plan) (x trace, arrives bool, err error) {
	there, err := team.Course().Beside(ctx, p.Record)
	if err != nil {
		return x, false, err
	}
	if a.f == flight {
		loss, err := brokenOff(p.Record)
		return trace{bites: loss}, len(loss) == 0, err
	}
	l := lineOf(p.Record, there, a.Function)
	return l.trace(min(p.Record.End, there.End), a.wrong), p.Record.Ending().Arrived() && there.Ending().Arrived(), nil
}

func (a *Answer) fly(ctx context.Context, team *crew.Team, s run.Scenario, r *Rescue, until book.Time) error {
	if !r.Counts {
		return nil
	}
	s.Actions = append(slices.Clone(s.Actions), r.Set.actions(r.At, a.stood(r.At))...)
	p, err := team.Fly(ctx, s)
	if err != nil {
		return err
	}
	x, arrives, err := a.crewed(ctx, team, p)
	if err != nil {
		return err
	}
	r.Crewed, r.HeldBy = true, x.judge(r.At, until)
	r.Held = arrives && r.HeldBy != Fails
	if arrives {
		r.HeldFrom = x.over()
	}
	return nil
}

// over is when a function that works in the end has bitten for the last time; 0 where
// it does not work then.
func (x trace) over() book.Time {
	if !x.works {
		return 0
	}
	return last(x.bites)
}

// listings lists the procedures that move some of a set, those that are called first.
func listings(team *crew.Team, p *crew.Plan, set Set) (list []Listing) {
	for _, x := range team.Build().Procedures {
		l := Listing{Procedure: x, Called: slices.ContainsFunc(p.Calls, func(c crew.Call) bool { return c.Procedure == x })}
		for _, m := range set {
			if moved(team, x, m.Move) {
				l.Moves = append(l.Moves, m)
			}
		}
		if len(l.Moves) > 0 {
			list = append(list, l)
		}
	}
	slices.SortStableFunc(list, func(a, b Listing) int {
		if a.Called != b.Called {
			if a.Called {
				return -1
			}
			return 1
		}
		return len(b.Moves) - len(a.Moves)
	})
	return list
}

// moved says that a line of a procedure sets a control so; of a move that is put
// back, that a line sets it at all.
func moved(team *crew.Team, p *book.Procedure, m Move) (yes bool) {
	crew.Walk(team.Steps(p), func(s *book.Step, _ string) {
		yes = yes || s.Kind == "do" && s.Set == m.Control.ID && s.To == m.Position
	})
	return yes
}
