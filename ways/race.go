package ways

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// solved is a net with what has been found out about it. Sets and diagram may
// decide the leaves in different orders.
type solved struct {
	s        *diagram.Families
	sets     diagram.Family
	setsAt   []int // the part of each level of s
	d        *diagram.Decisions
	f        diagram.Ref
	decideAt []int // the part of each level of d; nil if d was not built
}

// A runner is one way to solve a net. Within a limit on nodes it fails with
// diagram.ErrNodes, and done says how far it came.
type runner struct {
	run  func(ctx context.Context, limit int) (found *solved, done int, err error)
	done int
}

// race lets the runners try in turn, each with a few nodes, then those that
// came furthest first with eight times as many, and so on, until one is through
// or the last limit is reached. The outcome depends on no clock.
func race(ctx context.Context, runners []*runner, first, last int) (*solved, error) {
	for limit := min(first, last); ; limit = min(8*limit, last) {
		for _, r := range slices.Clone(runners) {
			found, done, err := r.run(ctx, limit)
			switch {
			case err == nil:
				return found, nil
			case errors.Is(err, errNegation):
				runners = slices.DeleteFunc(runners, func(x *runner) bool { return x == r })
			case !errors.Is(err, diagram.ErrNodes):
				return nil, err
			}
			r.done = done
		}
		if len(runners) == 0 {
			return nil, errNegation
		}
		if limit == last {
			return nil, diagram.ErrNodes
		}
		slices.SortStableFunc(runners, func(a, b *runner) int { return cmp.Compare(b.done, a.done) })
	}
}

const firstLimit = 1 << 12

// exactly finds all smallest sets of a net: through its decision diagram, or
// directly if it has no negation, in one of several orders.
func exactly(ctx context.Context, n *module.Net, last int) (*solved, error) {
	var runners []*runner
	for i, o := range orders {
		leaves := o(n)
		runners = append(runners, byDecisions(n, leaves, diagram.AllOrders))
		if i < 2 {
			runners = append(runners, directly(n, leaves, diagram.AllOrders))
		}
	}
	return race(ctx, runners, firstLimit, last)
}

func byDecisions(n *module.Net, leaves []int, highest int) *runner {
	run := func(ctx context.Context, limit int) (*solved, int, error) {
		d, f, done, err := decide(ctx, n, leaves, limit)
		if err != nil {
			return nil, done, err
		}
		s := diagram.NewFamilies(ctx, limit)
		z, err := s.Minimal(d, f, highest)
		if err != nil {
			return nil, done, err
		}
		found := &solved{s: s, sets: s.Keep(z), setsAt: leaves, d: d, f: f, decideAt: leaves}
		s.Seal()
		d.Seal()
		return found, done, nil
	}
	return &runner{run: run}
}

func directly(n *module.Net, leaves []int, highest int) *runner {
	run := func(ctx context.Context, limit int) (*solved, int, error) {
		s, z, done, err := gather(ctx, n, leaves, limit, highest)
		if err != nil {
			return nil, done, err
		}
		s.Seal()
		return &solved{s: s, sets: z, setsAt: leaves}, done, nil
	}
	return &runner{run: run}
}

// upTo finds the smallest sets of a net up to the highest order.
func upTo(ctx context.Context, n *module.Net, last, highest int) (*solved, error) {
	var direct, decisions []*runner
	for _, o := range orders {
		leaves := o(n)
		direct = append(direct, directly(n, leaves, highest))
		decisions = append(decisions, byDecisions(n, leaves, highest))
	}
	found, err := race(ctx, direct, 1<<15, last)
	if errors.Is(err, errNegation) {
		return race(ctx, decisions, firstLimit, last)
	}
	return found, err
}

// decideOnly builds the decision diagram of a net and nothing else.
func decideOnly(ctx context.Context, n *module.Net, last int) (*solved, error) {
	var runners []*runner
	for _, o := range orders {
		leaves := o(n)
		runners = append(runners, &runner{run: func(ctx context.Context, limit int) (*solved, int, error) {
			d, f, done, err := decide(ctx, n, leaves, limit)
			if err != nil {
				return nil, done, err
			}
			d.Seal()
			return &solved{d: d, f: f, decideAt: leaves}, done, nil
		}})
	}
	return race(ctx, runners, firstLimit, last)
}

// monotone says whether a net has no negation in front of a leaf and nothing
// that works like one.
func monotone(n *module.Net) bool {
	type side struct {
		r module.Ref
	}
	seen := map[side]bool{}
	var plain func(r module.Ref) bool
	plain = func(r module.Ref) bool {
		if seen[side{r}] {
			return true
		}
		seen[side{r}] = true
		node := &n.Nodes[r>>1]
		switch node.Op {
		case module.Leaf:
			return r&1 == 0
		case module.Odd:
			return false
		}
		for _, a := range node.Args {
			if !plain(a ^ r&1) {
				return false
			}
		}
		return true
	}
	return plain(n.Top)
}
