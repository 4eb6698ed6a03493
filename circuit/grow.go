package circuit

import (
	"knockon/book"
	"knockon/circuit/smooth"
)

// A total may follow itself: the air in a cabin that leaks the faster the more of
// it there is, a brake that cools. Then its value is the solution of an equation,
// which is gone towards piece by piece.

// grownAt gives total i, which follows itself, at t.
func (m *Machine) grownAt(i int, t book.Time) float64 {
	s := m.atBase(i)
	if m.rests(i) {
		m.rateOf(i, t, s.value)
		return s.value
	}
	if known := m.grown[i]; t > s.at {
		if k := smooth.ArcAt(known, t); k < len(known) {
			s.value = known[k].At(t)
		} else {
			s.value = m.grow(i, t)
		}
	}
	m.rateOf(i, t, s.value)
	return s.value
}

// grow solves for total i on from where that was done, up to t, and keeps how each
// stretch ran that the flight is known for.
func (m *Machine) grow(i int, t book.Time) float64 {
	at, v := m.baseAt[i], m.base[i]
	if n := len(m.grown[i]); n > 0 {
		at, v = m.grown[i][n-1].To, m.grown[i][n-1].End
	}
	for at < t {
		end := m.stretchEnd(i, at)
		keep := end <= m.course.end()
		if !keep {
			end = min(end, t)
		}
		arcs := m.course.knots.Arcs(m.grown[i], func(at book.Time, v float64) float64 { return m.rateOf(i, at, v) }, at, end, v)
		if keep {
			m.grown[i] = arcs
		}
		at, v = end, arcs[len(arcs)-1].End
		if at >= t {
			return arcs[smooth.ArcAt(arcs, t)].At(t)
		}
	}
	return v
}

// rateOf is the rate of total i at a moment at which the total is worth v. All that
// it reads is left as it is then.
func (m *Machine) rateOf(i int, t book.Time, v float64) float64 {
	m.trial[i], m.trying[i] = v, true
	m.look(m.c.rates[i], t)
	m.trying[i] = false
	return m.val[m.c.operands(m.c.totals[i])[0]]
}

// rests says that the rate of total i is nothing for as long as all steady values
// stand, so that nothing need be added up.
func (m *Machine) rests(i int) bool {
	return m.stillUnder(i) && m.rateOf(i, m.baseAt[i], m.base[i]) == 0
}

// stillUnder says that the rate of a total stands for as long as all steady values
// and the total do.
func (m *Machine) stillUnder(i int) bool {
	if m.calm[i] == nil {
		m.calm[i] = make([]flow, len(m.val))
	}
	was := m.flows
	m.flows = m.calm[i]
	defer func() { m.flows = was }()
	for _, n := range m.c.rates[i] {
		if n != m.c.totals[i] {
			m.flows[n] = m.flow(n)
		}
	}
	return m.flows[m.c.operands(m.c.totals[i])[0]] == still
}
