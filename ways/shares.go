package ways

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// Share is what the sets that hold an event add to the sum over all sets of
// their probabilities, as a part of that sum.
type Share struct {
	Event int
	Sum   float64
}

// Shares returns the share of each event that plays a part, in the order of
// their declaration. It fails like Bounds.
func (w *Ways) Shares() ([]Share, error) {
	if err := w.needSums(); err != nil || w.parts.Top < 0 {
		return nil, err
	}
	value := w.fold(1, (*diagram.Families).Sum)
	slope := make([]float64, len(value))
	slope[w.parts.Top] = 1
	var shares []Share
	for part := len(value) - 1; part >= 0; part-- {
		f := w.found[part]
		if f.solved == nil {
			sum := value[part] * slope[part] / value[w.parts.Top]
			shares = append(shares, Share{w.parts.List[part].Event, sum})
			continue
		}
		_, slopes := f.s.SumSlopes(f.sets, byLevel(value, f.setsAt))
		for level, leaf := range f.setsAt {
			slope[leaf] = slope[part] * slopes[level]
		}
	}
	slices.SortFunc(shares, func(a, b Share) int { return cmp.Compare(a.Event, b.Event) })
	return shares, nil
}

// FussellVesely returns the probability that all members of one of the sets
// that hold the event have failed, as a part of the probability of the
// condition. It fails like Bounds and like Risk. Elsewhere the same name is also
// used for Importance.Diagnostic, for Importance.Criticality and for Share.Sum.
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
