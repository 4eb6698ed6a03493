package rescue

import (
	"context"
	"slices"

	"knockon/book"
)

// toGo is the place of real.to_go_nm.
var toGo = slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "to_go_nm" })

// way is a path, as far as it is asked here.
type way interface {
	Value(quantity int, at book.Time) float64
}

func leftNM(p way, at book.Time) float64 { return p.Value(toGo, at) }

// nearerNM is how much nearer to its end a flight that breaks off later has to come: what
// only takes longer, such as an engine less, is no help.
const nearerNM = 5

// putsOff says that a loss that comes later is one put off, and not the flight: for a
// function the flight must be the one that it was, for a flight it must break
// off nearer to where it goes than it would have.
func (b *base) putsOff(o *outcome) bool {
	if b.f == flight {
		return o.leftNM <= leftNM(b.here.Path(), b.here.End)-nearerNM
	}
	return !o.apart
}

// dearHalf takes away what puts the breaking off of a flight off longest where it costs
// a function whose loss is major or worse, such as an engine: that ends the flight later
// and worse. Another move may do with less; none is claimed to be the longest then.
func (s *Search) dearHalf(ctx context.Context, a *Answer) error {
	if s.f != flight || a.Delay == 0 {
		return nil
	}
	o, err := s.made(ctx, s.whole, a.DelayAt, a.DelayBy, true)
	if err == nil && o != nil && severest(o.costs) >= slices.Index(book.Severities, "major") {
		a.Delay, a.DearHalf = 0, true
	}
	return err
}
