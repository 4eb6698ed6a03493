package circuit

import (
	"math"

	"knockon/book"
	"knockon/circuit/smooth"
)

// GateKind sorts the operations for those who work a circuit out in another way
// than Machine does, such as for all failures at once.
type GateKind uint8

// Kinds of nodes. The comment gives the operands and, if it has one, Num.
const (
	GateGiven   GateKind = iota // a constant, a real quantity, the phase: no failure reaches it
	GateWay                     // Num: index into Ways
	GateSwitch                  // the position of a control; Num: its number
	GateLatch                   // set, reset
	GateHeld                    // x; Num: seconds
	GatePulse                   // x; Num: seconds
	GateBefore                  // x just before this instant
	GateFrozen                  // x, when
	GateTotal                   // x
	GateCount                   // x
	GateNot                     // a
	GateAnd                     // all
	GateOr                      // any
	GateAtLeast                 // Num: how many
	GateIf                      // condition, then, else
	GateMinus                   // the first number less the second
	GateTest                    // a comparison of two numbers
	GatePlain                   // any other function of its operands: see Calculator
)

// Gate is one node as it was compiled. The caller must not change Args.
type Gate struct {
	Kind GateKind
	Num  float64
	Args []Node
}

// Gate returns what a node does. Operands come before the node, except those
// of memories (GateLatch to GateCount), which read what their operands were.
func (c *Circuit) Gate(n Node) Gate {
	return Gate{c.kindOf(n), c.ops[n].num, c.operands(n)}
}

func (c *Circuit) kindOf(n Node) GateKind {
	switch c.ops[n].code {
	case cConst, cReal, cPhase:
		return GateGiven
	case cWay:
		return GateWay
	case cControl:
		return GateSwitch
	case cLatch:
		return GateLatch
	case cHeld:
		return GateHeld
	case cPulse:
		return GatePulse
	case cBefore, cStood:
		return GateBefore
	case cFrozen:
		return GateFrozen
	case cTotal:
		return GateTotal
	case cCount:
		return GateCount
	case cNot:
		return GateNot
	case cAnd:
		return GateAnd
	case cOr:
		return GateOr
	case cAtLeast:
		return GateAtLeast
	case cIf:
		return GateIf
	case cSub:
		return GateMinus
	case cEq, cNe, cLt, cLe, cGt, cGe:
		return GateTest
	}
	return GatePlain
}

// NameOf is the first name of a node.
func (c *Circuit) NameOf(n Node) (v Value, named bool) { v, named = c.names[n]; return v, named }

// PhaseNode is the node that holds the number of the current phase.
func (c *Circuit) PhaseNode() Node { return c.phaseNode }

// Constant says that a node has one value, always.
func (c *Circuit) Constant(n Node) bool { return c.ops[n].code == cConst }

// Quantity is the real quantity that a node is; ok is false if it is none.
func (c *Circuit) Quantity(n Node) (q book.Quantity, ok bool) {
	if c.ops[n].code != cReal {
		return q, false
	}
	return book.Quantities[int(c.ops[n].num)], true
}

// Smooth says that a node is a number that may change between instants.
func (c *Circuit) Smooth(n Node) bool { return c.smooth[n] }

// Follows says of a node of kind GateTotal that its rate follows the total itself,
// with no comparison between.
func (c *Circuit) Follows(n Node) bool { return c.ops[n].code == cTotal && c.follows[c.slots[n]] }

// Lags says of a node of kind GateBefore that its change asks for no further
// instant at the same moment.
func (c *Circuit) Lags(n Node) bool { return c.ops[n].code == cStood }

// PhaseGates returns for each phase the node that is yes in it, and the node
// whose yes begins it (None for the first).
func (c *Circuit) PhaseGates() (in, begins []Node) {
	for _, p := range c.phases {
		in, begins = append(in, p.node), append(begins, p.begins)
	}
	return in, begins
}

// ActOf is a control that the flight's ordinary handling moves when a node
// becomes yes.
type ActOf struct {
	When    Node
	Control int
	To      float64
}

// Acts lists the acts that were compiled in, in the order of the flight.
func (c *Circuit) Acts() []ActOf {
	list := make([]ActOf, len(c.acts))
	for i, a := range c.acts {
		list[i] = ActOf{a.when, a.control, a.to}
	}
	return list
}

// ResetOf is a unit whose failures end when a node becomes yes.
type ResetOf struct {
	When Node
	Unit string
}

// Resets lists the resets in the order of the book.
func (c *Circuit) Resets() []ResetOf {
	list := make([]ResetOf, len(c.resets))
	for i, r := range c.resets {
		list[i] = ResetOf{r.when, r.unit}
	}
	return list
}

// ControlNode is the node of a control, by its number.
func (c *Circuit) ControlNode(number int) Node { return c.controls[number].node }

// WayNode is the node of a way to fail, by its number.
func (c *Circuit) WayNode(number int) Node { return c.wayNode[number] }

// Calculator works out single nodes without a run.
type Calculator struct{ m Machine }

// NewCalculator returns a calculator for the nodes of a circuit that no memory feeds.
func NewCalculator(c *Circuit) *Calculator {
	return &Calculator{Machine{c: c, val: make([]float64, len(c.ops)), warned: map[Node]bool{}}}
}

// Value returns a node's value for given values of its operands.
func (k *Calculator) Value(n Node, operands []float64) float64 {
	for i, a := range k.m.c.operands(n) {
		k.m.val[a] = operands[i]
	}
	return k.m.eval(n, 0)
}

// Operation is a number, or a comparison, as it comes from one other number or two.
type Operation struct {
	code code
	law  func(x, y float64) float64
}

// Operation gives that of a node; ok is false for one that takes more numbers, or
// that something remembers.
func (c *Circuit) Operation(n Node) (o Operation, ok bool) {
	x := &c.ops[n]
	if x.n < 1 || x.n > 2 {
		return o, false
	}
	switch x.code {
	case cNeg, cAbs, cLaw, cMin, cMax, cAdd, cSub, cMul, cDiv, cEq, cNe, cLt, cLe, cGt, cGe:
		return Operation{x.code, x.law}, true
	}
	return o, false
}

// Of works it out; b is a where there is one number only.
func (o Operation) Of(a, b float64) float64 {
	switch o.code {
	case cNeg:
		return -a
	case cAbs:
		return math.Abs(a)
	case cLaw:
		return o.law(a, b)
	case cMin:
		if b < a {
			return b
		}
		return a
	case cMax:
		if b > a {
			return b
		}
		return a
	case cAdd, cSub, cMul, cDiv:
		return smooth.Finite(combined(o.code, a, b))
	}
	return yes(compare(o.code, a, b))
}

// Lasting says of a comparison that it stays yes once it is: a total of a yes/no
// without bounds, or a count, has passed a number.
func (c *Circuit) Lasting(n Node) bool {
	o, in := &c.ops[n], c.operands(n)
	switch o.code {
	case cGt, cGe:
		return c.grows(in[0]) && c.Constant(in[1])
	case cLt, cLe:
		return c.grows(in[1]) && c.Constant(in[0])
	}
	return false
}

func (c *Circuit) grows(n Node) bool {
	o := &c.ops[n]
	return o.code == cCount || o.code == cTotal && o.expr.Bound == nil && c.ops[c.operands(n)[0]].kind == book.YesNo
}
