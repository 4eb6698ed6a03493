package ways

import (
	"context"
	"math/bits"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// How much a search by trial may cost. The unit is the evaluation of one node
// for 64 cases, about a nanosecond.
const (
	trialPerNode = 64      // for each node that a diagram might have instead
	trialPerSet  = 64      // for each set, however small the net
	trialQuick   = 1 << 26 // well under a second
	trialLong    = 1 << 30 // seconds
)

// byTrial tries every set of up to so many leaves, 64 at a time. It is slow in
// the number of leaves and in the order but does not mind how tangled a net is.
func byTrial(n *module.Net, highest int) *runner {
	run := func(ctx context.Context, limit int) (*solved, int, error) {
		s, err := try(ctx, n, highest, trialPerNode*limit)
		return s, 0, err
	}
	return &runner{run: run}
}

// anyhow finds the sets of a net up to a low order in whichever way is sure to
// end: directly, or by trial if there is negation.
func anyhow(ctx context.Context, n *module.Net, limit, highest, patience int) (*solved, error) {
	if !monotone(n) {
		return try(ctx, n, highest, patience)
	}
	var direct []*runner
	for _, o := range orders {
		direct = append(direct, directly(n, o(n), highest))
	}
	return race(ctx, direct, 1<<15, limit, nil)
}

// try fails with diagram.ErrNodes if it would cost more than allowed.
func try(ctx context.Context, n *module.Net, highest, allowed int) (*solved, error) {
	t := trial{ctx: ctx, n: n, leaves: n.Leaves(), value: make([]uint64, len(n.Nodes))}
	highest = min(highest, len(t.leaves))
	if t.cost(highest) > float64(allowed) {
		return nil, diagram.ErrNodes
	}
	t.failed = make([]uint64, len(t.leaves))
	t.ending = make([][][]int, len(t.leaves))
	t.leafOf = make([]int, len(n.Nodes))
	at := levels(t.leaves)
	for i, node := range n.Nodes {
		if node.Op == module.Leaf {
			t.leafOf[i] = at[node.K]
		}
	}
	for order := 0; order <= highest; order++ {
		t.extend(make([]int, 0, order), 0, order)
		t.flush()
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		t.settle()
	}
	return t.solved()
}

// trial is the state of a search by trial. Sets are sorted indices of leaves.
type trial struct {
	ctx    context.Context
	n      *module.Net
	leaves []int
	leafOf []int    // by node: the index of its leaf
	failed []uint64 // by leaf: in which cases of the batch it has failed
	value  []uint64 // by node: in which cases of the batch it is yes
	batch  [][]int
	hits   [][]int   // sets of the order being tried that suffice
	sets   [][]int   // smaller ones
	ending [][][]int // sets, by their last member
}

// cost is what trying all sets up to an order costs.
func (t *trial) cost(highest int) float64 {
	sets, total := 1.0, 1.0
	for k := 1; k <= highest; k++ {
		sets *= float64(len(t.leaves)-k+1) / float64(k)
		total += sets
	}
	return total * (float64(len(t.n.Nodes))/64 + trialPerSet)
}

// extend tries every set that begins with set and has more members from from
// on, except those of which a part suffices.
func (t *trial) extend(set []int, from, more int) {
	if more == 0 {
		t.batch = append(t.batch, slices.Clone(set))
		if len(t.batch) == 64 {
			t.flush()
		}
		return
	}
	for i := from; i <= len(t.leaves)-more && t.ctx.Err() == nil; i++ {
		if longer := append(set, i); !t.suffices(longer) {
			t.extend(longer, i+1, more-1)
		}
	}
}

// suffices says whether a smaller set with the same last member is part of it.
func (t *trial) suffices(set []int) bool {
	return slices.ContainsFunc(t.ending[set[len(set)-1]], func(s []int) bool { return subset(s, set) })
}

// subset says whether sorted a is part of sorted b.
func subset(a, b []int) bool {
	for _, x := range a {
		i, ok := slices.BinarySearch(b, x)
		if !ok {
			return false
		}
		b = b[i+1:]
	}
	return true
}

// flush evaluates the sets of the batch and keeps those that suffice.
func (t *trial) flush() {
	clear(t.failed)
	for lane, set := range t.batch {
		for _, i := range set {
			t.failed[i] |= 1 << lane
		}
	}
	for i := range t.n.Nodes {
		t.value[i] = t.node(i)
	}
	result := lanes(t.value, t.n.Top) & (1<<len(t.batch) - 1)
	for ; result != 0; result &= result - 1 {
		t.hits = append(t.hits, t.batch[bits.TrailingZeros64(result)])
	}
	t.batch = t.batch[:0]
}

func lanes(value []uint64, r module.Ref) uint64 { return value[r>>1] ^ -uint64(r&1) }

func (t *trial) node(i int) uint64 {
	node := &t.n.Nodes[i]
	switch node.Op {
	case module.Leaf:
		return t.failed[t.leafOf[i]]
	case module.And:
		v := ^uint64(0)
		for _, a := range node.Args {
			v &= lanes(t.value, a)
		}
		return v
	case module.Odd:
		v := uint64(0)
		for _, a := range node.Args {
			v ^= lanes(t.value, a)
		}
		return v
	case module.AtLeast:
		return t.atLeast(node)
	}
	return 0
}

func (t *trial) atLeast(node *module.Node) uint64 {
	counts := make([]uint64, node.K+1) // by k: at least k so far
	counts[0] = ^uint64(0)
	for _, a := range node.Args {
		v := lanes(t.value, a)
		for k := node.K; k > 0; k-- {
			counts[k] |= counts[k-1] & v
		}
	}
	return counts[node.K]
}

// settle moves the hits of one order to the sets that larger ones may not hold.
func (t *trial) settle() {
	for _, s := range t.hits {
		if len(s) > 0 {
			last := s[len(s)-1]
			t.ending[last] = append(t.ending[last], s)
		}
	}
	t.sets = append(t.sets, t.hits...)
	t.hits = nil
}

// solved makes a family of the sets.
func (t *trial) solved() (*solved, error) {
	s := diagram.NewFamilies(t.ctx, 1<<28)
	z, err := s.Of(t.sets)
	if err != nil {
		return nil, err
	}
	z = s.Keep(z)
	s.Seal()
	return &solved{s: s, sets: z, setsAt: t.leaves}, nil
}
