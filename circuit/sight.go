package circuit

import "knockon/book"

// Many tests look at the same moments between two instants, and through the same
// numbers: a height shown is held against twenty levels. So what a smooth node is at
// a moment is worked out once for all of them, and only where it is read: of a choice,
// the side that is chosen.

// sight is what smooth nodes are at a moment, as far as anybody asked.
type sight struct {
	at   book.Time
	of   int      // the stretch between two instants in which it was worked out
	have []uint64 // by place among the smooth nodes, as bits
	v    []float64
}

const sights = 32

// sightAt is the sight of a moment, empty where it was another one's.
func (m *Machine) sightAt(t book.Time) *sight {
	if m.sights == nil {
		m.sights = m.c.newSights()
	}
	s := &m.sights[slotOf(t, sights)]
	if s.at != t || s.of != m.stretch {
		s.at, s.of = t, m.stretch
		clear(s.have)
	}
	return s
}

func (c *Circuit) newSights() []sight {
	n := len(c.flowing)
	words := n/64 + 1
	list, have, v := make([]sight, sights), make([]uint64, sights*words), make([]float64, sights*n)
	for i := range list {
		list[i].of = -1
		list[i].have, list[i].v = have[i*words:(i+1)*words], v[i*n:(i+1)*n]
	}
	return list
}

// seen is what a node is at the moment of a sight.
func (m *Machine) seen(s *sight, n Node) float64 {
	k := m.c.places[n]
	if k < 0 {
		return m.val[n]
	}
	if s.have[k>>6]>>(k&63)&1 == 0 {
		s.v[k] = m.sighted(s, n)
		s.have[k>>6] |= 1 << (k & 63)
	}
	return s.v[k]
}

// sighted works out a smooth node at the moment of a sight.
func (m *Machine) sighted(s *sight, n Node) float64 {
	o, in := &m.c.ops[n], m.c.operands(n)
	switch o.code {
	case cReal:
		return m.real(int(o.num), s.at)
	case cTotal:
		return m.totalSeen(int(m.slot[n]), s.at)
	case cFrozen:
		if i := m.slot[n]; !m.openNow[i] {
			return m.keptNow[i]
		}
		return m.seen(s, in[0])
	case cBefore:
		return m.seen(s, in[0])
	case cIf:
		if m.val[in[0]] != 0 {
			return m.seen(s, in[1])
		}
		return m.seen(s, in[2])
	}
	first, last := in[0], in[len(in)-1]
	x, y := m.seen(s, first), m.seen(s, last)
	for i := 1; i < len(in)-1; i++ { // all of them before any: a total on the way looks at other moments
		m.seen(s, in[i])
	}
	for i := 1; i < len(in)-1; i++ {
		m.val[in[i]] = m.seen(s, in[i])
	}
	m.val[first], m.val[last] = x, y
	return m.arithmetic(n, o.code, in)
}

func (m *Machine) totalSeen(i int, t book.Time) float64 {
	was := m.looking
	m.looking = true
	v := m.totalAt(i, t)
	m.looking = was
	return v
}
