package circuit

import (
	"math"

	"knockon/book"
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
	return finite(a)
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

func finite(x float64) float64 {
	switch {
	case x != x:
		return 0
	case x > math.MaxFloat64:
		return math.MaxFloat64
	case x < -math.MaxFloat64:
		return -math.MaxFloat64
	}
	return x
}

// sum is how far a total with a smooth rate has been integrated since its base.
type sum struct {
	at    book.Time
	value float64
	valid bool
}

// panel is the longest piece over which a smooth rate is integrated at once.
const panel = book.Second

// totalAt gives total i at t, not before its base.
func (m *Machine) totalAt(i int, t book.Time) float64 {
	n := m.c.totals[i]
	rate := m.c.operands(n)[0]
	if !m.c.smooth[rate] {
		v := finite(m.base[i] + m.val[rate]*(t-m.baseAt[i]).Seconds())
		if b := m.c.ops[n].expr.Bound; b != nil {
			v = min(max(v, b.Least), b.Most)
		}
		return v
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

// addPanel adds one piece by Simpson's rule. Pieces end at whole seconds, at
// the flight's knots, and where a bounded total under the rate meets its bound,
// so that the sum does not depend on who asks when.
func (m *Machine) addPanel(i int, s sum, t book.Time) sum {
	end := min((s.at/panel+1)*panel, m.course.knotAfter(s.at), m.boundAfter(m.c.rates[i], s.at))
	if end > t {
		return sum{t, finite(s.value + m.simpson(i, s.at, t)), false}
	}
	return sum{end, finite(s.value + m.simpson(i, s.at, end)), true}
}

// boundAfter is the first moment after t at which a bounded total among some
// nodes meets its bound, or Never.
func (m *Machine) boundAfter(nodes []Node, t book.Time) book.Time {
	next := book.Never
	for _, n := range nodes {
		if m.c.ops[n].code != cTotal || m.c.ops[n].expr.Bound == nil {
			continue
		}
		if at := m.meetsBound(n); at > t {
			next = min(next, at)
		}
	}
	return next
}

// meetsBound is when a bounded total is at its bound if its rate stays.
func (m *Machine) meetsBound(n Node) book.Time {
	j, bound := m.slot[n], m.c.ops[n].expr.Bound
	rate, to := m.val[m.c.operands(n)[0]], bound.Most
	if rate < 0 {
		to = bound.Least
	}
	s := (to - m.base[j]) / rate
	if rate == 0 || s > 1e6 {
		return book.Never
	}
	return m.baseAt[j] + book.AtSeconds(s)
}

func (m *Machine) simpson(i int, a, b book.Time) float64 {
	rate := m.c.operands(m.c.totals[i])[0]
	at := func(t book.Time) float64 {
		m.look(m.c.rates[i], t)
		return m.val[rate]
	}
	// A value may jump at a knot, where it has its new value: the piece that
	// ends there takes what it was just before.
	last := b
	if m.course.isKnot(b) && b > a {
		last = b - 1
	}
	return (b - a).Seconds() / 6 * (at(a) + 4*at(a+(b-a)/2) + at(last))
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
