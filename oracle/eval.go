package oracle

import (
	"math"

	"knockon/book"
)

// evaluate works out every value from the memories: step 3 of an instant.
func (m *machine) evaluate() {
	m.pass++
	for _, p := range m.parts {
		m.part(p)
	}
	for _, n := range m.roots {
		m.eval(n)
	}
}

// part gives the value of a part, worked out at its first reading.
func (m *machine) part(p *part) float64 {
	if p.seen != m.pass {
		p.seen = m.pass
		m.eval(p.root)
	}
	return m.now[p.root.slot]
}

// eval works a node out, with everything below it whether needed or not, so
// that every node has a value in every evaluation.
func (m *machine) eval(n *node) float64 {
	v := m.apply(n)
	m.now[n.slot] = v
	return v
}

func (m *machine) apply(n *node) float64 {
	switch n.op {
	case opPart:
		return m.part(n.part)
	case opCell:
		return n.cell.value
	case opPhase:
		return bit(n.cell.value == n.num)
	case opGiven:
		can, quiet := m.eval(n.args[0]), m.eval(n.args[1])
		return bit(can == 1 && (quiet == 0 || m.stood[n.slot] == 1))
	case book.OpYesNo, book.OpNumber, book.OpWord:
		return n.num
	case book.OpReal:
		return m.real[n.real]
	case book.OpHeld, book.OpPulse:
		return n.timer.value
	case book.OpBefore:
		return n.before.value
	case book.OpFrozen:
		return n.frozen.value(m.eval(n.args[0]))
	case book.OpTotal:
		return n.total.value
	case book.OpCount:
		return n.count.value
	}
	return operate(n, func(a *node) float64 { return m.eval(a) })
}

// operate applies an operator without memory to what value gives for each of
// its arguments.
func operate(n *node, value func(*node) float64) float64 {
	var few [4]float64
	v := few[:0]
	for _, a := range n.args {
		v = append(v, value(a))
	}
	switch n.op {
	case book.OpNot, book.OpAnd, book.OpOr, book.OpAny, book.OpAll, book.OpAtLeast:
		return bit(logic(n, v))
	case book.OpEq, book.OpNe, book.OpLt, book.OpLe, book.OpGt, book.OpGe:
		return bit(compare(n.op, v[0], v[1]))
	case book.OpIf:
		if v[0] == 1 {
			return v[1]
		}
		return v[2]
	}
	return arithmetic(n.op, v)
}

func logic(n *node, v []float64) bool {
	yes := 0
	for _, x := range v {
		yes += int(x)
	}
	switch n.op {
	case book.OpNot:
		return yes == 0
	case book.OpOr, book.OpAny:
		return yes > 0
	case book.OpAtLeast:
		return float64(yes) >= n.num
	}
	return yes == len(v) // and, all
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

func arithmetic(op book.Op, v []float64) float64 {
	switch op {
	case book.OpAdd:
		return v[0] + v[1]
	case book.OpSub:
		return v[0] - v[1]
	case book.OpMul:
		return v[0] * v[1]
	case book.OpDiv:
		return divide(v[0], v[1])
	case book.OpNeg:
		return -v[0]
	case book.OpAbs:
		return math.Abs(v[0])
	}
	best := v[0]
	for _, x := range v[1:] {
		if op == book.OpMin {
			best = math.Min(best, x)
		} else {
			best = math.Max(best, x)
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
