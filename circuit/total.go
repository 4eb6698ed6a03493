package circuit

import (
	"knockon/book"
	"knockon/circuit/smooth"
)

// sum is how far a total with a smooth rate has been integrated since its base.
type sum struct {
	at    book.Time
	value float64
	valid bool
}

// totalAt gives total i at t, not before its base.
func (m *Machine) totalAt(i int, t book.Time) float64 {
	n := m.c.totals[i]
	rate := m.c.operands(n)[0]
	switch {
	case m.trying[i]:
		return m.trial[i]
	case !m.c.smooth[rate]:
		return m.tank(i).Value(t)
	case m.c.follows[i]:
		return m.grownAt(i, t)
	}
	s := m.sums[i]
	if !s.valid || s.at > t {
		s = sum{m.baseAt[i], m.base[i], true}
	}
	for s.at < t {
		s = m.addPanel(i, s, t)
	}
	m.sums[i] = s
	m.look(m.c.rates[i], t)
	return s.value
}

// tank is total i with the rate that it has now.
func (m *Machine) tank(i int) smooth.Tank {
	n := m.c.totals[i]
	return smooth.Tank{Base: m.base[i], At: m.baseAt[i], Rate: m.val[m.c.operands(n)[0]], Bounds: m.c.ops[n].expr.Bound}
}

// addPanel adds one piece.
func (m *Machine) addPanel(i int, s sum, t book.Time) sum {
	end := m.course.knots.PanelEnd(s.at, m.boundAfter(m.c.rates[i], s.at))
	if end > t {
		return sum{t, smooth.Finite(s.value + m.simpson(i, s.at, t)), false}
	}
	return sum{end, smooth.Finite(s.value + m.simpson(i, s.at, end)), true}
}

// boundAfter is the first moment after t at which a bounded total among some
// nodes meets its bound, or Never.
func (m *Machine) boundAfter(nodes []Node, t book.Time) book.Time {
	next := book.Never
	for _, n := range nodes {
		if m.c.ops[n].code != cTotal || m.c.ops[n].expr.Bound == nil {
			continue
		}
		if at := m.tank(int(m.slot[n])).Full(); at > t {
			next = min(next, at)
		}
	}
	return next
}

func (m *Machine) simpson(i int, a, b book.Time) float64 {
	rate := m.c.operands(m.c.totals[i])[0]
	return m.course.knots.Simpson(func(t book.Time) float64 {
		m.look(m.c.rates[i], t)
		return m.val[rate]
	}, a, b)
}

// look evaluates smooth nodes at t, leaving everything else as it is.
func (m *Machine) look(cone []Node, t book.Time) {
	was := m.looking
	m.looking = true
	for _, n := range cone {
		m.val[n] = m.eval(n, t)
	}
	m.looking = was
}

// advanceTotals moves the base of every total to t, with the rates as they
// were until now.
func (m *Machine) advanceTotals(t book.Time) {
	m.summed = m.summed[:0]
	for i := range m.c.totals {
		m.summed = append(m.summed, m.totalAt(i, t))
	}
	for i, v := range m.summed {
		if m.baseAt[i] != t {
			m.base[i], m.baseAt[i] = v, t
		}
		m.sums[i], m.grown[i] = sum{}, nil // what it reads may become another at a moment that was over
	}
}

// originTotals lets a total whose steady rate has not changed run on from where
// it began to run so: its value then does not hang on which instants lay between.
func (m *Machine) originTotals() {
	for i, n := range m.c.totals {
		rate := m.c.operands(n)[0]
		if m.c.smooth[rate] {
			continue
		}
		if m.val[rate] == m.settled[rate] && !m.starting {
			m.base[i], m.baseAt[i] = m.origin[i], m.originAt[i]
		} else {
			m.origin[i], m.originAt[i] = m.base[i], m.baseAt[i]
		}
	}
}
