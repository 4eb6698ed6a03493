package circuit

import (
	"sort"

	"knockon/book"
)

// A total may follow itself: the air in a cabin that leaks the faster the more of
// it there is, a brake that cools. Then its value is the solution of an equation,
// which is gone towards piece by piece.

// grownAt gives total i, which follows itself, at t.
func (m *Machine) grownAt(i int, t book.Time) float64 {
	s := sum{m.baseAt[i], m.base[i], true}
	if m.rests(i) {
		m.rateOf(i, t, s.value)
		return s.value
	}
	known := m.grown[i]
	if k := sort.Search(len(known), func(k int) bool { return known[k].at > t }); k > 0 {
		s = known[k-1]
	}
	for s.at < t {
		end := m.course.knots.StretchEnd(s.at, m.boundAfter(m.c.rates[i], s.at))
		if end > t {
			s = sum{t, m.grow(i, s, t), true}
			break
		}
		s = sum{end, m.grow(i, s, end), true}
		m.grown[i] = append(m.grown[i], s)
	}
	m.rateOf(i, t, s.value)
	return s.value
}

func (m *Machine) grow(i int, s sum, to book.Time) float64 {
	return m.course.knots.Grow(func(t book.Time, v float64) float64 { return m.rateOf(i, t, v) }, s.at, to, s.value)
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
