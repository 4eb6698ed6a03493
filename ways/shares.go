package ways

import (
	"context"
	"errors"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// FussellVesely returns the probability that all members of one of the sets
// that hold the event have failed, as a part of the probability of the
// condition. It fails like Bounds and like Risk. Elsewhere the same name is also
// used for Importance.Diagnostic and for Importance.Criticality.
func (w *Ways) FussellVesely(ctx context.Context, event int) (float64, error) {
	if err := w.needSums(); err != nil {
		return 0, err
	}
	part := slices.IndexFunc(w.parts.List, func(p module.Part) bool { return p.Net == nil && p.Event == event })
	if part < 0 || !w.reached()[part] {
		return 0, nil
	}
	c, err := w.chain(ctx)
	if err != nil {
		return 0, err
	}
	share := c.p[part]
	for part != w.parts.Top {
		outer := w.holder(part)
		own, err := w.holding(ctx, outer, part, c.p)
		if err != nil {
			return 0, err
		}
		share *= own
		part = outer
	}
	return share / c.p[w.parts.Top], nil
}

// holding returns the probability that the other members of one of the sets of
// the outer part that hold the inner one have failed.
func (w *Ways) holding(ctx context.Context, outer, inner int, p []float64) (float64, error) {
	f := w.found[outer]
	d := diagram.NewDecisions(ctx, w.limit)
	h, err := d.Holding(f.s, f.sets, slices.Index(f.setsAt, inner))
	if errors.Is(err, diagram.ErrNodes) {
		return 0, ErrMemory
	}
	if err != nil {
		return 0, err
	}
	return d.Chance(h, byLevel(p, f.setsAt)), nil
}

// holder returns the part whose net has this one as a leaf.
func (w *Ways) holder(part int) int {
	return slices.IndexFunc(w.found, func(f *found) bool {
		return f.solved != nil && slices.Contains(f.setsAt, part)
	})
}
