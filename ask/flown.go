package ask

import (
	"context"
	"errors"
	"slices"

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
	"knockon/ways/sets"
)

// Ways says which failures bring a condition about: with the aircraft held
// still, and, where functions are lost, on the flight as it goes on from there.
// It is not safe for concurrent use.
func (s *Standing) Ways(ctx context.Context, c sets.Condition, a sets.Ask) (*sets.Report, error) {
	r, err := c.Of(ctx, s.Stander, a)
	if err != nil {
		return nil, err
	}
	r.Means = c.Means()
	if c.When != nil {
		r.Flown = sets.NotFlown("Not flown on from there: an expression is looked at with the aircraft held still only. Fly a set of failures to see what follows.")
		return r, nil
	}
	order := sets.FlownOrder
	if a.Order == 1 {
		order = 1
	}
	f, err := s.fly(ctx, order)
	if err != nil {
		r.Flown = sets.NotFlown("Not flown on from there to the end of the flight: " + broken(err) + ".")
		return r, nil
	}
	var functions []int32
	for _, sought := range c.Functions {
		functions = append(functions, int32(slices.Index(s.Course.Build.Functions, sought)))
	}
	c.Fly(r, s.Still.Logic, f, functions, a.Most)
	return r, nil
}

func broken(err error) string {
	if errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled) {
		return "the time was over"
	}
	return err.Error()
}

// fly flies every failure, or every two, that strike at the moment, to the end
// of the flight.
func (s *Standing) fly(ctx context.Context, order int) (sets.Flights, error) {
	if s.flown == nil || s.flown.Sheet.Order < order {
		w, err := s.sweep()
		if err != nil {
			return sets.Flights{}, err
		}
		sheet, err := w.RunAt(ctx, s.strike(), order, nil)
		if err != nil {
			return sets.Flights{}, err
		}
		s.flown = &sets.Flights{Sheet: sheet, Failures: say.Texts(w.Failures())}
	}
	f := *s.flown
	f.Order = order
	return f, nil
}

// strike is the moment, which for a sweep is after the start.
func (s *Standing) strike() book.Time { return max(s.At, 1) }

// sweep prepares to fly many failures along the flight with nothing failed.
func (s *Standing) sweep() (*sweep.Sweep, error) {
	return sweep.New(s.Course.Along(s.there.Path()), sweep.Setting{Inoperative: s.there.Scenario.Inoperative})
}
