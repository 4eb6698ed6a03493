package oracle

import (
	"math"

	"knockon/book"
)

// evaluate works out every value from the memories: step 3 of an instant.
// Every node gets a value in every evaluation, whether needed or not.
func (m *machine) evaluate() {
	m.pass++
	for i := range m.flow {
		s := &m.flow[i]
		if s.logic {
			m.now[s.slot] = bit(logic(s.op, s.in, s.num, m.now))
		} else {
			m.now[s.slot] = m.apply(s.node)
		}
	}
}

// apply gives the value of a node whose arguments have been worked out.
func (m *machine) apply(n *node) float64 {
	switch n.op {
	case opCell:
		return n.cell.value
	case opPhase:
		return bit(n.cell.value == n.num)
	case opHolds:
		return n.holds.value(m.now[n.in[0]])
	case opGiven:
		can, quiet := m.now[n.in[0]], m.now[n.in[1]]
		return bit(can == 1 && (quiet == 0 || m.stood[n.slot] == 1))
	case book.OpReal:
		return m.real[n.real]
	case book.OpHeld, book.OpPulse:
		return n.timer.value
	case book.OpBefore:
		return n.before.value
	case book.OpFrozen:
		return n.frozen.value(m.now[n.in[0]])
	case book.OpTotal:
		return n.total.value
	case book.OpCount:
		return n.count.value
	}
	return operate(n, m.now)
}

// operate applies an operator without memory to the values of its arguments,
// which stand in their slots.
func operate(n *node, values []float64) float64 {
	if isLogic(n.op) {
		return bit(logic(n.op, n.in, n.num, values))
	}
	switch n.op {
	case book.OpIf:
		if values[n.in[0]] == 1 {
			return values[n.in[1]]
		}
		return values[n.in[2]]
	case book.OpMin, book.OpMax:
		return extreme(n, values)
	}
	x := values[n.in[0]]
	switch n.op {
	case book.OpNeg:
		return -x
	case book.OpAbs:
		return math.Abs(x)
	}
	y := values[n.in[len(n.in)-1]]
	if n.op == book.OpLaw {
		if n.law == "between" {
			return between(x, n.table)
		}
		return law(n.law, x, y)
	}
	if n.op >= book.OpEq && n.op <= book.OpGe {
		return bit(compare(n.op, x, y))
	}
	return arithmetic(n.op, x, y)
}

// isLogic tells whether an operator turns yes and no into yes or no.
func isLogic(op book.Op) bool {
	switch op {
	case book.OpNot, book.OpAnd, book.OpOr, book.OpAny, book.OpAll, book.OpAtLeast:
		return true
	}
	return false
}

func logic(op book.Op, in []int, num float64, values []float64) bool {
	yes := 0.0
	for _, slot := range in {
		yes += values[slot]
	}
	switch op {
	case book.OpNot:
		return yes == 0
	case book.OpOr, book.OpAny:
		return yes > 0
	case book.OpAtLeast:
		return yes >= num
	}
	return yes == float64(len(in)) // and, all
}

func compare(op book.Op, x, y float64) bool {
	switch op {
	case book.OpEq:
		return x == y
	case book.OpNe:
		return x != y
	case book.OpLt:
		return x < y
	case book.OpLe:
		return x <= y
	case book.OpGt:
		return x > y
	}
	return x >= y
}

func arithmetic(op book.Op, x, y float64) float64 {
	switch op {
	case book.OpAdd:
		return finite(x + y)
	case book.OpSub:
		return finite(x - y)
	case book.OpMul:
		return finite(x * y)
	}
	return finite(divide(x, y))
}

// finite cuts a result that is too large.
func finite(x float64) float64 {
	return min(max(x, -math.MaxFloat64), math.MaxFloat64)
}

func extreme(n *node, values []float64) float64 {
	best := values[n.in[0]]
	for _, slot := range n.in[1:] {
		if n.op == book.OpMin {
			best = math.Min(best, values[slot])
		} else {
			best = math.Max(best, values[slot])
		}
	}
	return best
}

func divide(x, y float64) float64 {
	if y != 0 {
		return x / y
	}
	if x == 0 {
		return 0
	}
	return math.Copysign(math.MaxFloat64, x)
}

// value of a frozen whose first argument is x.
func (f *frozen) value(x float64) float64 {
	if f.closed {
		return f.kept
	}
	return x
}
