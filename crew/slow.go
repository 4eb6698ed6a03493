package crew

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// FlySlowly is Fly the obvious way: fly the whole flight with the actions known
// so far, let the crew watch the record from its start until they take an action
// that is not known, add it, and fly again. One flight for each action. What
// lines ask is worked out part by part from the record (sight.Eye). Where the nearest
// field is, which hangs on what they will yet do, they are told by Fly.
func (t *Team) FlySlowly(ctx context.Context, s run.Scenario, changes ...Change) (*Plan, error) {
	right, err := t.Fly(ctx, s, changes...)
	if err != nil {
		return nil, err
	}
	known := s
	known.Actions, known.Plan = slices.Clone(s.Actions), slices.Clone(s.Plan)
	for {
		r, err := t.course.Fly(ctx, known)
		if err != nil {
			return nil, err
		}
		d, err := t.begin(s, changes)
		if err != nil {
			return nil, err
		}
		d.slowly = true
		more := d.watch(r, len(known.Actions)-len(s.Actions)+len(known.Plan)-len(s.Plan))
		if len(more.Moves)+len(more.Legs) == 0 {
			return d.plan(s, r), nil
		}
		for _, a := range more.Moves {
			known.Actions = append(known.Actions, a.Acted())
		}
		for _, l := range more.Legs {
			known.Plan = append(known.Plan, found(l, right.Record))
		}
	}
}

// found is a leg as it was flown in a record, with where it went.
func found(l run.Leg, in *run.Record) run.Leg {
	for _, x := range in.Scenario.Plan {
		if x.Do == l.Do && x.At == l.At {
			return x
		}
	}
	return l.Taken()
}

// moment is a record at a moment.
type moment struct {
	*run.Record
	at book.Time
}

func (m moment) Now() book.Time               { return m.at }
func (m moment) Value(n circuit.Node) float64 { return m.At(n, m.at) }

// watch lets the crew live through a record until they decide on more than is
// known, and gives that.
func (d *duty) watch(r *run.Record, known int) (more run.Will) {
	instants, look, done := slices.Compact(slices.Clone(r.Instants())), book.Never, 0
	for i := 0; i < len(instants); {
		at := instants[i]
		if look < at { // wanted before anything changes
			at = look
		} else {
			i++
		}
		if at >= r.End {
			break
		}
		more = d.Sees(moment{r, at})
		look = more.Look
		more.Moves = slices.DeleteFunc(more.Moves, func(a run.Action) bool { return a.At.Offset > r.End })
		if count := len(more.Moves) + len(more.Legs); count > 0 {
			if done == known {
				return more
			}
			done += count
		}
	}
	return run.Will{}
}
