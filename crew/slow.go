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
// that is not known, add it, and fly again. One flight for each action.
func (t *Team) FlySlowly(ctx context.Context, s run.Scenario, changes ...Change) (*Plan, error) {
	known := s
	known.Actions = slices.Clone(s.Actions)
	for {
		r, err := t.course.Fly(ctx, known)
		if err != nil {
			return nil, err
		}
		d, err := t.begin(changes)
		if err != nil {
			return nil, err
		}
		more := d.watch(r, known.Actions[len(s.Actions):])
		if len(more) == 0 {
			return d.plan(s, r), nil
		}
		for _, a := range more {
			known.Actions = append(known.Actions, a.Taken())
		}
	}
}

// moment is a record at a moment.
type moment struct {
	*run.Record
	at book.Time
}

func (m moment) Now() book.Time               { return m.at }
func (m moment) Value(n circuit.Node) float64 { return m.At(n, m.at) }

// watch lets the crew live through a record until they do something that is not
// among the actions known, and gives that.
func (d *duty) watch(r *run.Record, known []run.Action) []run.Action {
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
		var moves []run.Action
		moves, look = d.Sees(moment{r, at})
		moves = slices.DeleteFunc(moves, func(a run.Action) bool { return a.At.Offset > r.End })
		if done == len(known) && len(moves) > 0 {
			return moves
		}
		done += len(moves)
	}
	return nil
}
