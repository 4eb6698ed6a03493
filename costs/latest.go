package costs

import (
	"context"
	"errors"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/region"
)

// Latest is the last moment of the flight at which an airfield is still good for
// the failed aircraft, which meanwhile flies on as it would have.
type Latest struct {
	Airfield airfield.Airfield
	Ever     bool      // it is good at some moment that was looked at
	Always   bool      // it is still good at the last one
	At       book.Time // to 30 s
	Then     Reason    // what binds after it, or what speaks against it all along
}

const (
	lookEvery = 10 * 60 * book.Second // moments that are looked at
	lookFine  = 30 * book.Second
)

// ErrBegun says that nothing can be put off any more.
var ErrBegun = errors.New("the approach has begun at this moment, so that nothing can be put off; ask for an earlier one")

// When gives the last moment for every place of the costs, in their order, or
// ErrBegun. It
// looks every ten minutes until the approach, and between two of these for a
// place that is good at one and not at the next.
func (c *Costs) When(ctx context.Context, region *region.Region, q Question) ([]Latest, error) {
	if c.Landing {
		return nil, ErrBegun
	}
	w := &watch{c: c, region: region, q: q, at: map[book.Time]*Costs{c.At: c}}
	whole := c.desk.whole
	w.q.Whole = whole
	var times []book.Time
	for t := c.At; t < whole.End && c.desk.under(t); t += lookEvery {
		times = append(times, t)
	}
	list := make([]Latest, len(c.Places))
	for i, p := range c.Places {
		l, err := w.latest(ctx, p.Airfield.Ident, times)
		if err != nil {
			return nil, err
		}
		l.Airfield = p.Airfield
		list[i] = l
	}
	return list, nil
}

// under says that the flight as it would go on can still be turned at a moment.
func (d *desk) under(at book.Time) bool {
	if d.rows != nil {
		return d.canDivert(at)
	}
	return d.whole.Path().(*energy.Path).CanDivert(at)
}

// watch keeps what was found at each moment.
type watch struct {
	c      *Costs
	region *region.Region
	q      Question
	at     map[book.Time]*Costs
}

// side is a place at a moment.
func (w *watch) side(ctx context.Context, ident string, t book.Time) (*Side, error) {
	c, ok := w.at[t]
	if !ok {
		q := w.q
		q.At = t
		d, err := newDesk(ctx, w.c.desk.course, w.region, q)
		if err != nil {
			return nil, err
		}
		c = &Costs{At: t, desk: d}
		w.at[t] = c
	}
	for i := range c.Places {
		if c.Places[i].Airfield.Ident == ident {
			return &c.Places[i].Failed, nil
		}
	}
	a, _ := w.region.Airfields.Find(ident)
	p := Place{Airfield: a, Line: geo.Between(c.desk.from, a.Place), Own: ident == c.desk.own.Ident}
	if err := c.desk.judgeBoth(ctx, &p); err != nil {
		return nil, err
	}
	c.Places = append(c.Places, p)
	return &c.Places[len(c.Places)-1].Failed, nil
}

// latest looks for the last good moment from behind.
func (w *watch) latest(ctx context.Context, ident string, times []book.Time) (l Latest, err error) {
	var after *Side
	for i := len(times) - 1; i >= 0; i-- {
		s, err := w.side(ctx, ident, times[i])
		if err != nil {
			return l, err
		}
		if s.Good() {
			l.Ever, l.At = true, times[i]
			if l.Always = i == len(times)-1; l.Always {
				return l, nil
			}
			return l, w.narrow(ctx, ident, &l, times[i], times[i+1], after)
		}
		after = s
	}
	if after != nil {
		l.Then = after.Reasons[0]
	}
	return l, nil
}

// narrow halves the stretch between a good and a bad moment.
func (w *watch) narrow(ctx context.Context, ident string, l *Latest, good, bad book.Time, then *Side) error {
	for bad-good > lookFine {
		mid := good + (bad-good)/2
		s, err := w.side(ctx, ident, mid)
		if err != nil {
			return err
		}
		if s.Good() {
			good = mid
		} else {
			bad, then = mid, s
		}
	}
	l.At, l.Then = good, then.Reasons[0]
	return nil
}
