package rescue

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// A flight that breaks off is asked for in place of a function: moves rescue it if
// it arrives with them (docs/rescue.md). Its loss is all from where it breaks off on.

// flight stands for the number of a function.
const flight = -1

// brokenOff is the loss of a flight that does not arrive.
func brokenOff(r *run.Record) (span.Set, error) {
	switch e := r.Ending(); e.How {
	case run.Arrived:
		return nil, nil
	case run.NeverSettles:
		return nil, fmt.Errorf("the flight breaks off since %s: no move is looked for against a loop of the model", e.Why)
	}
	return since(r.End), nil
}

func since(t book.Time) span.Set { return span.Set{{From: t, To: book.Never}} }

// inQuestion is the function; nil: the flight.
func (b *base) inQuestion() *book.Function {
	if b.f == flight {
		return nil
	}
	return b.functions[b.f]
}

// own are the nodes of the function in question; of the flight the one that says
// whether the aircraft can be flown.
func (b *base) own(w *wiring) []circuit.Node {
	if f := b.inQuestion(); f != nil {
		return []circuit.Node{w.node(f.ID, circuit.Main), w.node(f.ID, circuit.Wanted)}
	}
	return b.flyable(w)
}

// flyable is the node that says whether the aircraft can be flown, if one does.
func (b *base) flyable(w *wiring) []circuit.Node {
	if a := b.course.Build.Aircraft; a != nil {
		if n := w.node(a.ID, circuit.Flyable); n != circuit.None {
			return []circuit.Node{n}
		}
	}
	return nil
}

// broken is the loss of a flight as far as it has been flown.
func (a *attempt) broken() span.Set {
	if a.here.Ended() && !a.here.Arrived() {
		return since(a.here.Now())
	}
	return nil
}

// toTheBreak adds where the flight breaks off to the moments, at which nothing can
// be moved any more.
func (s *Search) toTheBreak(times []book.Time, ok func(book.Time) (bool, error)) ([]book.Time, func(book.Time) (bool, error)) {
	breaks := s.loss[0].From
	return append(slices.Clone(times), breaks), func(t book.Time) (bool, error) {
		if t >= breaks {
			return false, nil
		}
		return ok(t)
	}
}

// landing flies a set that lets the flight arrive once more with all that there is,
// and notes what it has been without since it would have broken off.
func (s *Search) landing(ctx context.Context, r *Rescue, o *outcome) (err error) {
	for i, x := range o.traces {
		f := s.functions[s.whole.looked[i]]
		if len(from(x.bites, s.loss[0].From)) > 0 && !slices.ContainsFunc(r.Costs, func(c Cost) bool { return c.Function == f }) {
			r.Without = append(r.Without, f)
		}
	}
	slices.SortStableFunc(r.Without, func(a, b *book.Function) int { return severity(b) - severity(a) })
	asked := s.asked
	asked.Actions = append(slices.Clone(asked.Actions), r.Set.actions(r.At, s.stood(r.At))...)
	r.Landed, err = s.course.Fly(ctx, asked)
	return err
}
