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
	case cSub:
		if m.alike(in[0], in[1]) {
			return still
		}
		return max(f[in[0]], f[in[1]])
	case cAdd:
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

// alike says that two numbers are one and the same as long as all steady values stay
// as they are, such as three heights that are shown with nothing failed: they are
// worked out in the same steps from the same numbers.
func (m *Machine) alike(a, b Node) bool {
	if a, b = m.behindChoices(a), m.behindChoices(b); a == b {
		return true
	}
	x, y := &m.c.ops[a], &m.c.ops[b]
	if x.code != y.code || x.n != y.n || !m.c.smooth[a] || !m.c.smooth[b] {
		return false
	}
	switch x.code {
	case cNeg, cAbs, cMin, cMax, cAdd, cSub, cMul, cDiv, cLaw:
	default:
		return false
	}
	if x.code == cLaw && x.expr.Word != y.expr.Word {
		return false
	}
	others := m.c.operands(b)
	for i, n := range m.c.operands(a) {
		if !m.alike(n, others[i]) {
			return false
		}
	}
	return true
}

// behindChoices is the node that a choice, or what is not held back, stands for now.
func (m *Machine) behindChoices(n Node) Node {
	for m.c.smooth[n] {
		switch in := m.c.operands(n); {
		case m.c.ops[n].code == cIf && m.val[in[0]] != 0:
			n = in[1]
		case m.c.ops[n].code == cIf:
			n = in[2]
		case m.c.ops[n].code == cBefore, m.c.ops[n].code == cFrozen && m.openNow[m.slot[n]]:
			n = in[0]
		default:
			return n
		}
	}
	return n
}
