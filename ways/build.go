package ways

import (
	"context"
	"errors"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// levels numbers the leaves of a net in the order in which they are decided.
func levels(leaves []int) map[int]int {
	level := make(map[int]int, len(leaves))
	for i, part := range leaves {
		level[part] = i
	}
	return level
}

// deciding builds the decision diagram of a net, gate by gate.
type deciding struct {
	n     *module.Net
	d     *diagram.Decisions
	level map[int]int
	value []diagram.Ref // by node, where it is still needed
	last  []int         // by node: the last node that needs it
	sweep int           // sweep when there are so many nodes
}

const firstSweep = 1 << 17

// decide builds the diagram of a net over leaves decided in the given order.
// done is how many of the net's nodes it got through.
func decide(ctx context.Context, n *module.Net, leaves []int, limit int) (d *diagram.Decisions, f diagram.Ref, done int, err error) {
	b := deciding{
		n:     n,
		d:     diagram.NewDecisions(ctx, limit),
		level: levels(leaves),
		value: make([]diagram.Ref, len(n.Nodes)),
		last:  lastUses(n),
		sweep: firstSweep,
	}
	for i := 1; i < len(n.Nodes); i++ {
		if err := b.node(i); err != nil {
			return nil, 0, i, err
		}
	}
	top := b.d.Keep([]diagram.Ref{b.value[n.Top>>1]})[0]
	return b.d, top ^ diagram.Ref(n.Top&1), len(n.Nodes), nil
}

// lastUses returns, by node, the index of the last node that reads it.
func lastUses(n *module.Net) []int {
	last := make([]int, len(n.Nodes))
	for i, node := range n.Nodes {
		for _, a := range node.Args {
			last[a>>1] = i
		}
	}
	last[n.Top>>1] = len(n.Nodes)
	return last
}

// node builds one node. Where the diagram is full it tries once more without
// what is no longer needed.
func (b *deciding) node(i int) error {
	if b.d.Len() > b.sweep {
		b.drop(i - 1)
	}
	f, err := b.apply(i)
	if errors.Is(err, diagram.ErrNodes) {
		full := b.d.Len()
		if b.drop(i - 1); b.d.Len() > full/2 {
			return err
		}
		f, err = b.apply(i)
	}
	b.value[i] = f
	return err
}

// drop forgets the nodes that nothing after node i needs.
func (b *deciding) drop(i int) {
	var nodes []int
	var live []diagram.Ref
	for j := 1; j <= i; j++ {
		if b.last[j] > i {
			nodes = append(nodes, j)
			live = append(live, b.value[j])
		}
	}
	for k, f := range b.d.Keep(live) {
		b.value[nodes[k]] = f
	}
	b.sweep = max(firstSweep, 3*b.d.Len())
}

func (b *deciding) apply(i int) (diagram.Ref, error) {
	node := &b.n.Nodes[i]
	if node.Op == module.Leaf {
		return b.d.Var(b.level[node.K])
	}
	args := make([]diagram.Ref, len(node.Args))
	for j, a := range node.Args {
		args[j] = b.value[a>>1] ^ diagram.Ref(a&1)
	}
	// Deepest first: each step then joins a short diagram to a long one above it.
	slices.SortStableFunc(args, func(f, g diagram.Ref) int { return b.d.Level(g) - b.d.Level(f) })
	switch node.Op {
	case module.AtLeast:
		return b.d.AtLeast(node.K, args...)
	case module.Odd:
		return b.d.Xor(args...)
	}
	return b.d.And(args...)
}

// errNegation says that a net is not one that only ever gets worse.
var errNegation = errors.New("a failure can also prevent it")

// gathering builds the smallest sets of a net without negation, from the
// leaves up.
type gathering struct {
	n       *module.Net
	s       *diagram.Families
	level   map[int]int
	highest int
	value   map[module.Ref]diagram.Family
}

// gather builds the smallest sets up to the highest order. It fails with
// errNegation for a net that it is not made for.
func gather(ctx context.Context, n *module.Net, leaves []int, limit, highest int) (*diagram.Families, diagram.Family, int, error) {
	g := gathering{
		n:       n,
		s:       diagram.NewFamilies(ctx, limit),
		level:   levels(leaves),
		highest: highest,
		value:   map[module.Ref]diagram.Family{},
	}
	z, err := g.family(n.Top)
	if err != nil {
		return nil, 0, len(g.value), err
	}
	return g.s, g.s.Keep(z), len(g.value), nil
}

func (g *gathering) family(r module.Ref) (diagram.Family, error) {
	if z, ok := g.value[r]; ok {
		return z, nil
	}
	z, err := g.build(r)
	if err == nil {
		g.value[r] = z
	}
	return z, err
}

func (g *gathering) build(r module.Ref) (diagram.Family, error) {
	node := &g.n.Nodes[r>>1]
	if node.Op == module.Leaf && r&1 == 0 {
		return g.s.Single(g.level[node.K])
	}
	if node.Op != module.And && node.Op != module.AtLeast {
		return 0, errNegation
	}
	args := make([]diagram.Family, len(node.Args))
	for i, a := range node.Args {
		var err error
		if args[i], err = g.family(a ^ r&1); err != nil {
			return 0, err
		}
	}
	slices.SortStableFunc(args, func(a, b diagram.Family) int { return g.s.Level(b) - g.s.Level(a) })
	switch {
	case node.Op == module.AtLeast && r&1 == 0:
		return g.s.AtLeast(g.highest, node.K, args...)
	case node.Op == module.AtLeast:
		return g.s.AtLeast(g.highest, len(args)-node.K+1, args...)
	case r&1 == 0:
		return g.s.And(g.highest, args...)
	}
	return g.s.Or(args...)
}
