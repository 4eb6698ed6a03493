package circuit

// flow is how a number runs while all steady values stay as they are.
type flow uint8

const (
	still  flow = iota // it does not move
	even               // along a straight line, from one bound of a total to the next
	curved             // with the flight, or in any other way
)

// flowOf is how the two sides of a test run, at most.
func (m *Machine) flowOf(t *test) flow {
	for _, n := range t.cone {
		m.flows[n] = m.flow(n)
	}
	in := m.c.operands(t.node)
	return max(m.flows[in[0]], m.flows[in[1]])
}

// flow of a smooth node, those of its operands being known. A steady node's is
// still, always.
func (m *Machine) flow(n Node) flow {
	in, f := m.c.operands(n), m.flows
	switch m.c.ops[n].code {
	case cReal:
		return curved
	case cTotal:
		return m.flowOfTotal(int(m.slot[n]), in[0])
	case cFrozen:
		if !m.openNow[m.slot[n]] {
			return still
		}
		return f[in[0]]
	case cBefore, cNeg:
		return f[in[0]]
	case cIf:
		if m.val[in[0]] != 0 {
			return f[in[1]]
		}
		return f[in[2]]
	case cAdd, cSub:
		return max(f[in[0]], f[in[1]])
	}
	return m.bent(n, in)
}

func (m *Machine) flowOfTotal(i int, rate Node) flow {
	switch {
	case m.c.follows[i] && m.rests(i):
		return still
	case m.c.smooth[rate]:
		return curved
	case m.val[rate] == 0:
		return still
	}
	return even
}

// bent is the flow of what makes no straight line of two, or of one with a bend
// in it.
func (m *Machine) bent(n Node, in []Node) flow {
	most := still
	for _, a := range in {
		most = max(most, m.flows[a])
	}
	switch m.c.ops[n].code {
	case cMul:
		if min(m.flows[in[0]], m.flows[in[1]]) == still {
			return most
		}
	case cDiv:
		if m.flows[in[1]] == still {
			return most
		}
	}
	if most == even {
		return curved
	}
	return most
}
