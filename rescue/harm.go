package rescue

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/span"
)

// Harm is a line of a list that was called and makes things worse: without it the
// function is kept, or lost more than a minute later.
type Harm struct {
	Line    crew.Line
	Control *book.Control
	Was     string    // where the control stood before
	At      book.Time // when it was moved
	Later   book.Time // without the line it is lost so much later; 0: not at all
	Undo    []Window  // when the control, put back, keeps the function all the same
	Tried   []book.Time
}

// undoSteps is at how many moments between a move and the loss the control is put back.
const undoSteps = 6

// firstFrom is when a function first bites from a moment on; Never.
func firstFrom(s span.Set, t book.Time) book.Time {
	if b := from(s, t); len(b) > 0 {
		return b[0].From
	}
	return book.Never
}

// harms finds the lines to blame where a crew by the book lose the function, or
// lose it more than a minute sooner than nobody's hands do.
func (a *Answer) harms(ctx context.Context, team *crew.Team, s run.Scenario, plan *crew.Plan, workers int) error {
	lines := moving(plan, a.Crew.First)
	found := make([]*Harm, len(lines))
	err := share(ctx, workers, len(lines), func(ctx context.Context, i int) (err error) {
		found[i], err = a.harm(ctx, team, s, plan, lines[i])
		return err
	})
	for _, h := range found {
		if h != nil {
			a.Crew.Harms = append(a.Crew.Harms, *h)
		}
	}
	return err
}

// moving lists the lines of a plan that moved a control before a moment, each
// line of a list once.
func moving(p *crew.Plan, before book.Time) (list []crew.Line) {
	for _, l := range p.Lines {
		if l.Step == nil || l.Control == "" || l.Omitted || l.From >= before {
			continue
		}
		if !slices.ContainsFunc(list, func(o crew.Line) bool { return o.Step == l.Step }) {
			list = append(list, l)
		}
	}
	return list
}

// harm says what a line does to the function, and until when it can be undone; nil
// if leaving it out makes nothing better.
func (a *Answer) harm(ctx context.Context, team *crew.Team, s run.Scenario, plan *crew.Plan, l crew.Line) (*Harm, error) {
	p, err := team.Fly(ctx, s, crew.Change{Kind: crew.Omit, Step: l.Step})
	if err != nil {
		return nil, err
	}
	x, arrives, err := a.crewed(ctx, team, p)
	without := firstFrom(x.bites, a.Strike+soonest)
	if err != nil || !arrives || without <= a.Crew.First+aMinute {
		return nil, err
	}
	h := &Harm{Line: l, At: movedAt(plan, l)}
	if without < book.Never {
		h.Later = without - a.Crew.First
	}
	if h.Control, err = book.Find("control", l.Control, team.Build().Controls); err != nil {
		return nil, err
	}
	c := plan.Record.Circuit()
	n, _ := c.Node(circuit.Value{Item: l.Control})
	h.Was = c.WordText(plan.Record.Before(n, h.At))
	return h, a.undo(ctx, team, s, h)
}

// movedAt is when a line moved its control.
func movedAt(p *crew.Plan, l crew.Line) book.Time {
	for _, x := range p.Actions() {
		if x.Control == l.Control && x.Position == l.Position && x.At.Offset >= l.From {
			return x.At.Offset
		}
	}
	return l.To
}

// undo works out until when putting the control back keeps the function, with the
// crew going on by the book.
func (a *Answer) undo(ctx context.Context, team *crew.Team, s run.Scenario, h *Harm) (err error) {
	if h.Was == h.Line.Position {
		return nil
	}
	first := h.At + soonest
	for k := range undoSteps {
		if at := first + (a.Crew.First-first)*book.Time(k)/undoSteps; at >= first {
			h.Tried = append(h.Tried, at)
		}
	}
	h.Tried = inOrder(h.Tried)
	h.Undo, err = windows(h.Tried, func(t book.Time) (bool, error) {
		s := s
		s.Actions = append(slices.Clone(s.Actions), run.Action{Control: h.Control.ID, Position: h.Was, At: book.Moment{Offset: t}}.Taken())
		p, err := team.Fly(ctx, s)
		if err != nil {
			return false, err
		}
		x, arrives, err := a.crewed(ctx, team, p)
		return err == nil && arrives && len(from(x.bites, t)) == 0, err
	})
	return err
}
