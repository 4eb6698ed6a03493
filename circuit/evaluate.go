package circuit

import (
	"math"

	"knockon/book"
	"knockon/circuit/smooth"
)

// eval computes a node from its operands' present values; a memory gives what
// it remembers.
func (m *Machine) eval(n Node, t book.Time) float64 {
	c := m.c
	o := &c.ops[n]
	in := c.args[o.first : o.first+o.n]
	switch o.code {
	case cConst:
		return o.num
	case cNot:
		return yes(m.val[in[0]] == 0)
	case cAnd:
		for _, a := range in {
			if m.val[a] == 0 {
				return 0
			}
		}
		return 1
	case cOr:
		for _, a := range in {
			if m.val[a] != 0 {
				return 1
			}
		}
		return 0
	case cAtLeast:
		k := 0.0
		for _, a := range in {
			k += m.val[a]
		}
		return yes(k >= o.num)
	case cIf:
		if m.val[in[0]] != 0 {
			return m.val[in[1]]
		}
		return m.val[in[2]]
	case cReal:
		return m.real(int(o.num), t)
	case cIsPhase:
		return yes(m.val[in[0]] == o.num)
	case cFrozen:
		if i := m.slot[n]; !m.openNow[i] {
			return m.keptNow[i]
		}
		return m.val[in[0]]
	case cTotal:
		return m.totalAt(int(m.slot[n]), t)
	case cSame, cDiffer, cEq, cNe, cLt, cLe, cGt, cGe:
		return yes(compare(o.code, m.val[in[0]], m.val[in[1]]))
	case cBefore:
		if m.looking {
			return m.val[in[0]]
		}
		return m.val[n]
	case cWay, cControl, cPhase, cLatch, cHeld, cPulse, cStood, cCount:
		return m.val[n]
	}
	return m.arithmetic(n, o.code, in)
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func compare(o code, a, b float64) bool {
	switch o {
	case cSame, cEq:
		return a == b
	case cDiffer, cNe:
		return a != b
	case cLt:
		return a < b
	case cLe:
		return a <= b
	case cGt:
		return a > b
	}
	return a >= b
}

func (m *Machine) arithmetic(n Node, o code, in []Node) float64 {
	a := m.val[in[0]]
	switch o {
	case cNeg:
		return -a
	case cAbs:
		return math.Abs(a)
	case cLaw:
		return m.c.ops[n].law(a, m.val[in[len(in)-1]])
	case cMin, cMax:
		for _, other := range in[1:] {
			if b := m.val[other]; (o == cMin) == (b < a) && b != a {
				a = b
			}
		}
		return a
	}
	b := m.val[in[1]]
	switch o {
	case cAdd:
		a += b
	case cSub:
		a -= b
	case cMul:
		a *= b
	case cDiv:
		a = m.divide(n, a, b)
	}
	return smooth.Finite(a)
}

// divide gives x/0 as 0 for x = 0 and as the largest number otherwise, and
// warns once.
func (m *Machine) divide(n Node, a, b float64) float64 {
	if b != 0 {
		return a / b
	}
	if !m.warned[n] {
		m.warned[n] = true
		m.Warnings = append(m.Warnings, Warning{m.now, n, "division by zero"})
	}
	if a == 0 {
		return 0
	}
	return math.Copysign(math.MaxFloat64, a)
}

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
	if !m.c.smooth[rate] {
		return m.tank(i).Value(t)
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
	values := make([]float64, len(m.c.totals))
	for i := range m.c.totals {
		values[i] = m.totalAt(i, t)
	}
	for i, v := range values {
		if m.baseAt[i] != t {
			m.base[i], m.baseAt[i] = v, t
			m.sums[i] = sum{}
		}
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
