package logic

// Reach returns the nodes that t is built from, as plain terms, each after its
// arguments. t's own node is the last.
func (l *Logic) Reach(t Term) []Term {
	seen := make([]bool, len(l.nodes))
	var order []Term
	var visit func(Term)
	visit = func(t Term) {
		if seen[t>>1] {
			return
		}
		seen[t>>1] = true
		for _, a := range l.nodes[t>>1].args {
			visit(a)
		}
		order = append(order, t.Plain())
	}
	visit(t)
	return order
}

// Eval returns t's value when exactly the events for which failed says yes have
// happened.
func (l *Logic) Eval(t Term, failed func(event int) bool) bool {
	lanes := l.Lanes(t, func(event int) uint64 {
		if failed(event) {
			return 1
		}
		return 0
	})
	return lanes&1 == 1
}

// Lanes evaluates t for 64 cases at once: bit i of failed(event) says whether
// the event has happened in case i, bit i of the result is t's value there.
func (l *Logic) Lanes(t Term, failed func(event int) uint64) uint64 {
	value := make([]uint64, len(l.nodes))
	for _, n := range l.Reach(t) {
		value[n>>1] = l.lane(n, value, failed)
	}
	return lookUp(value, t)
}

func lookUp(value []uint64, t Term) uint64 { return value[t>>1] ^ -uint64(t&1) }

func (l *Logic) lane(t Term, value []uint64, failed func(int) uint64) uint64 {
	n := &l.nodes[t>>1]
	switch n.op {
	case Basic:
		return failed(n.k)
	case And:
		v := ^uint64(0)
		for _, a := range n.args {
			v &= lookUp(value, a)
		}
		return v
	case Or:
		v := uint64(0)
		for _, a := range n.args {
			v |= lookUp(value, a)
		}
		return v
	case Xor:
		v := uint64(0)
		for _, a := range n.args {
			v ^= lookUp(value, a)
		}
		return v
	case AtLeast:
		return atLeastLanes(n, value)
	}
	return 0
}

// atLeastLanes keeps, for each count up to K, the lanes in which at least that
// many arguments are yes.
func atLeastLanes(n *node, value []uint64) uint64 {
	counts := make([]uint64, n.k+1)
	counts[0] = ^uint64(0)
	for _, a := range n.args {
		v := lookUp(value, a)
		for k := n.k; k > 0; k-- {
			counts[k] |= counts[k-1] & v
		}
	}
	return counts[n.k]
}
