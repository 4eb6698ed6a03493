// Package ways finds all the smallest sets of failures that make a condition
// true, counts them without listing them, and, where the failures have
// probabilities, works out how likely the condition is and which failures
// matter for it.
//
// The one invariant: a set that it reports makes the condition true when
// exactly its members have failed, no smaller part of it does, and up to the
// order named in Complete there is no other such set. docs/meaning.md, section
// 9, says this at length.
//
// Start reading at Find.
package ways

import (
	"context"
	"errors"
	"math/big"
	"sync"

	"knockon/ways/diagram"
	"knockon/ways/logic"
	"knockon/ways/module"
)

// AllOrders as Ways.Complete says that no set is missing.
const AllOrders = diagram.AllOrders

// ErrMemory says that an answer needed more memory than allowed.
var ErrMemory = errors.New("the memory allowed did not suffice")

// Options bound the work of Find. The zero value finds everything within the
// default memory.
type Options struct {
	// Order leaves out sets with more members; 0 leaves none out.
	Order int
	// Megabytes bounds the memory for diagrams, roughly; 0 means 900.
	Megabytes int
}

const (
	defaultMegabytes = 900
	// bytesPerNode covers a node, its share of the tables and caches, and the
	// copy that is made while a table grows, in the two diagrams of one net.
	bytesPerNode = 90
)

func (o Options) nodes() int {
	mb := o.Megabytes
	if mb <= 0 {
		mb = defaultMegabytes
	}
	return max(mb*1_000_000/bytesPerNode, 1000)
}

func (o Options) order() int {
	if o.Order <= 0 || o.Order > AllOrders {
		return AllOrders
	}
	return o.Order
}

// Ways is the answer of Find.
type Ways struct {
	// Complete is the order up to which every set is known: AllOrders, the
	// Order asked for, or less if the work was cut short.
	Complete int
	// Why says what cut the work short: ErrMemory or the context's error. It
	// is nil if Complete is what was asked for.
	Why error
	// Never and Always say that the condition is proven to be false, or true,
	// whatever fails.
	Never, Always bool

	l      *logic.Logic
	parts  *module.Parts
	found  []*found // by part
	limit  int
	counts []*big.Int // of the whole, by order
}

// found is what is known of a part.
type found struct {
	*solved        // nil for an event
	counts  counts // of its smallest sets, by order, up to Complete
}

// Find finds the smallest sets of failures that make top true. It returns an
// error only if it found nothing at all that it can vouch for; a partial answer
// comes with Complete and Why.
func Find(ctx context.Context, l *logic.Logic, top logic.Term, o Options) (*Ways, error) {
	w := &Ways{l: l, limit: o.nodes()}
	if o.order() == AllOrders {
		w.parts = module.SplitTidy(l, top)
	} else {
		w.parts = module.Split(l, top)
	}
	err := w.search(ctx, o.order())
	if err != nil {
		return nil, err
	}
	w.sum()
	w.judge(ctx)
	return w, nil
}

// search tries for all orders asked for and, where that is too much, for as
// many as can be had.
func (w *Ways) search(ctx context.Context, order int) error {
	var once sync.Once
	hard := func() { once.Do(func() { w.climb(ctx, min(order, 3), trialQuick) }) }
	found, err := w.solveAll(ctx, order, hard)
	if err == nil {
		w.found, w.Complete = found, order
		return nil
	}
	if w.Why = err; errors.Is(err, diagram.ErrNodes) {
		w.Why = ErrMemory
	}
	w.climb(ctx, order, trialLong)
	if w.found == nil {
		return w.Why
	}
	return nil
}

// climb solves for one order after another, up to the highest, as something to
// fall back on.
func (w *Ways) climb(ctx context.Context, highest, patience int) {
	for w.Complete < highest {
		order := w.Complete + 1
		found, err := w.solveParts(ctx, func(n *module.Net) (*solved, error) {
			return anyhow(ctx, n, w.limit, order, patience)
		}, order)
		if err != nil {
			return
		}
		w.found, w.Complete = found, order
	}
}

// solveAll solves every part up to the given order. Before the first long
// attempt at one it calls hard.
func (w *Ways) solveAll(ctx context.Context, order int, hard func()) ([]*found, error) {
	return w.solveParts(ctx, func(n *module.Net) (*solved, error) {
		if order == AllOrders {
			return exactly(ctx, n, w.limit, hard)
		}
		return upTo(ctx, n, w.limit, order)
	}, order)
}

func (w *Ways) solveParts(ctx context.Context, solve func(*module.Net) (*solved, error), order int) ([]*found, error) {
	all := make([]*found, len(w.parts.List))
	for i, p := range w.parts.List {
		if p.Net == nil {
			all[i] = &found{counts: oneEvent}
			continue
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s, err := solve(p.Net)
		if err != nil {
			return nil, err
		}
		all[i] = &found{solved: s, counts: s.count(all, order)}
	}
	return all, nil
}

// sum works out the counts of the whole from those of the top part.
func (w *Ways) sum() {
	switch {
	case w.parts.Opposite:
		w.counts = []*big.Int{big.NewInt(1)} // true with nothing failed
	case w.parts.Top >= 0:
		w.counts = w.found[w.parts.Top].counts.big()
	}
}

// judge sets Never and Always where that can be proven.
func (w *Ways) judge(ctx context.Context) {
	if w.parts.Top < 0 {
		w.Always, w.Never = w.parts.Opposite, !w.parts.Opposite
		return
	}
	w.Always = w.parts.Opposite && w.impossible(ctx)
	w.Never = !w.parts.Opposite && w.impossible(ctx)
}

// impossible says whether the top part is proven to be never true.
func (w *Ways) impossible(ctx context.Context) bool {
	top := w.found[w.parts.Top]
	if top.counts.len() > 0 || w.Complete == AllOrders {
		return top.counts.len() == 0
	}
	can := make([]bool, len(w.found))
	for i, f := range w.found {
		switch {
		case f.solved == nil:
			can[i] = true
		case w.decisions(ctx, i) != nil:
			return false
		default:
			can[i] = f.d.Possible(f.f, byLevel(can, f.decideAt))
		}
	}
	return !can[w.parts.Top]
}

// decisions sees to it that a part has its decision diagram.
func (w *Ways) decisions(ctx context.Context, part int) error {
	n := w.parts.List[part].Net
	if f := w.found[part]; n != nil && f.decideAt == nil {
		s, err := decideOnly(ctx, n, w.limit)
		if err != nil {
			return err
		}
		f.d, f.f, f.decideAt = s.d, s.f, s.decideAt
	}
	return nil
}

// Count returns the number of sets with so many members. Above Complete it is
// 0, which then says nothing.
func (w *Ways) Count(order int) *big.Int {
	if order < 0 || order >= len(w.counts) {
		return new(big.Int)
	}
	return new(big.Int).Set(w.counts[order])
}

// Highest returns the largest order of which a set is known, or -1.
func (w *Ways) Highest() int { return len(w.counts) - 1 }

// Monotone says whether a further failure can never make the condition false.
func (w *Ways) Monotone() bool {
	if w.parts.Top < 0 {
		return true
	}
	if w.parts.Opposite {
		return false
	}
	for part, in := range w.reached() {
		if n := w.parts.List[part].Net; in && n != nil && !monotone(n) {
			return false
		}
	}
	return true
}
