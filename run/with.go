package run

import (
	"context"

	"knockon/book"
	"knockon/circuit"
)

// Put is something that is put into a run: a way of failing, as it was from a
// moment up to another, or a control that was moved.
type Put struct {
	Way     *book.FailureRef // nil: a control
	Control circuit.Input
	From    book.Time
	To      book.Time // of a failure: book.Never if it stayed
}

// With flies a record's run once more, along the same flight and up to a moment,
// with more put in.
func (r *Record) With(ctx context.Context, puts []Put, until book.Time) (*Record, error) {
	p, err := r.Course.prepare(ctx, r.Scenario)
	if err != nil {
		return nil, err
	}
	for _, x := range puts {
		if err := p.put(x); err != nil {
			return nil, err
		}
	}
	p.timed = append(p.timed[:0:0], p.queue...)
	return p.flyTo(ctx, until)
}

func (p *pilot) put(x Put) error {
	if x.Way == nil {
		p.push(x.From, x.Control)
		return nil
	}
	k := Strike{Fail: []book.FailureRef{*x.Way}}
	if x.To != book.Never {
		k.Lasts = x.To - x.From
	}
	p.scenario.Strikes = append(p.scenario.Strikes, k)
	return p.addFailure(k, x.From)
}

// flyTo flies up to a moment, all its instants included.
func (p *pilot) flyTo(ctx context.Context, until book.Time) (*Record, error) {
	m, again, err := p.start()
	if err != nil {
		return nil, err
	}
	until = min(until, p.flown().End())
	for steps := 0; m.Now() < until || again; steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if again, err = p.instant(m, again, until); err != nil {
			return p.record.done(p, m, m.Now(), err), nil
		}
	}
	return p.record.done(p, m, m.Now(), nil), nil
}
