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

// race lets the runners try in turn, each with a few nodes, then with eight
// times as many, and so on, until one is through. Once that takes long only the
// half of them that came furthest go on; at the last limit all may try again.
// Before the first long attempt it calls hard, unless that is nil. The outcome
// depends on no clock.
func race(ctx context.Context, runners []*runner, first, last int, hard func()) (*solved, error) {
	field := runners
	for limit := min(first, last); ; limit = min(8*limit, last) {
		if limit == last {
			field = runners
		}
		if limit > easy && hard != nil {
			hard()
			hard = nil
		}
		for _, r := range slices.Clone(field) {
			found, done, err := r.run(ctx, limit)
			switch {
			case err == nil:
				return found, nil
			case errors.Is(err, errNegation):
				done = -1
			case !errors.Is(err, diagram.ErrNodes):
				return nil, err
			}
			r.done = done
		}
		runners = slices.DeleteFunc(runners, func(r *runner) bool { return r.done < 0 })
		switch {
		case len(runners) == 0:
			return nil, errNegation
		case limit == last:
			return nil, diagram.ErrNodes
		}
		slices.SortStableFunc(runners, func(a, b *runner) int { return cmp.Compare(b.done, a.done) })
		if field = runners[:min(len(field), len(runners))]; limit > easy {
			field = field[:(len(field)+1)/2]
		}
	}
}

const (
	firstLimit = 1 << 12
	// dearer is how much longer a node takes in families of all orders.
	dearer = 8
	easy   = 1 << 17
)

// exactly finds all smallest sets of a net: through its decision diagram, or
// directly if it has no negation, in one of several orders.
func exactly(ctx context.Context, n *module.Net, last int, hard func()) (*solved, error) {
	var runners []*runner
	for i, o := range orders {
		leaves := o(n)
		runners = append(runners, byDecisions(n, leaves, diagram.AllOrders))
		if i < 2 {
			runners = append(runners, directly(n, leaves, diagram.AllOrders))
		}
	}
	return race(ctx, runners, firstLimit, last, hard)
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
		if highest == diagram.AllOrders {
			limit /= dearer
		}
		s, z, done, err := gather(ctx, n, leaves, limit, highest)
		if err != nil {
			return nil, done, err
		}
		s.Seal()
		return &solved{s: s, sets: z, setsAt: leaves}, done, nil
	}
	return &runner{run: run}
}

// upTo finds the smallest sets of a net up to the highest order: directly, or,
// if it has negation, through its decision diagram or by trying all sets.
func upTo(ctx context.Context, n *module.Net, last, highest int) (*solved, error) {
	var direct, others []*runner
	for _, o := range orders {
		leaves := o(n)
		direct = append(direct, directly(n, leaves, highest))
		others = append(others, byDecisions(n, leaves, highest))
	}
	found, err := race(ctx, direct, 1<<15, last, nil)
	if errors.Is(err, errNegation) {
		return race(ctx, append(others, byTrial(n, highest)), firstLimit, last, nil)
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
	return race(ctx, runners, firstLimit, last, nil)
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
