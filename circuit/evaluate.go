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
	if o == cDiv && b == 0 {
		m.warn(n)
	}
	return smooth.Finite(combined(o, a, b))
}

// combined is a sum, difference, product or quotient.
func combined(o code, a, b float64) float64 {
	switch o {
	case cAdd:
		return a + b
	case cSub:
		return a - b
	case cMul:
		return a * b
	}
	return divided(a, b)
}

// divided gives x/0 as 0 for x = 0 and as the largest number otherwise.
func divided(a, b float64) float64 {
	switch {
	case b != 0:
		return a / b
	case a == 0:
		return 0
	}
	return math.Copysign(math.MaxFloat64, a)
}

// warn says once that a node divides by zero.
func (m *Machine) warn(n Node) {
	if !m.warned[n] {
		m.warned[n] = true
		m.Warnings = append(m.Warnings, Warning{m.now, n, "division by zero"})
	}
}
