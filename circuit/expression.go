package circuit

import (
	"knockon/book"
	"knockon/flight/air"
)

// plain maps the operations whose operands are all evaluated first.
var plain = map[book.Op]code{
	book.OpNot: cNot, book.OpAnd: cAnd, book.OpAll: cAnd, book.OpOr: cOr, book.OpAny: cOr,
	book.OpAtLeast: cAtLeast, book.OpLt: cLt, book.OpLe: cLe, book.OpGt: cGt, book.OpGe: cGe,
	book.OpAdd: cAdd, book.OpSub: cSub, book.OpMul: cMul, book.OpDiv: cDiv, book.OpNeg: cNeg,
	book.OpAbs: cAbs, book.OpMin: cMin, book.OpMax: cMax, book.OpIf: cIf,
}

// remembering maps the operations whose operands are compiled later.
var remembering = map[book.Op]code{
	book.OpHeld: cHeld, book.OpPulse: cPulse, book.OpBefore: cBefore, book.OpTotal: cTotal, book.OpCount: cCount,
}

func (k *compiler) expr(e *book.Expr) Node {
	if k.alike == nil || !comparesNumbers(e) {
		return k.made(e)
	}
	text := e.String()
	n, ok := k.alike[text]
	if !ok {
		n = k.made(e)
		k.alike[text] = n
	}
	return n
}

// comparesNumbers says that an expression takes a new value at crossings, which are
// dear to find: what is watched in many places is compiled once.
func comparesNumbers(e *book.Expr) bool {
	return e.Op >= book.OpEq && e.Op <= book.OpGe && e.Args[0].Type == book.Number
}

func (k *compiler) made(e *book.Expr) Node {
	o := op{kind: e.Type, num: e.Num, where: e.Range, expr: e}
	if c, ok := remembering[e.Op]; ok {
		o.code = c
		return k.memory(o, e.Args...)
	}
	if c, ok := plain[e.Op]; ok {
		o.code = c
		return k.add(o, k.exprs(e.Args)...)
	}
	switch e.Op {
	case book.OpYesNo, book.OpNumber:
		o.code = cConst
		return k.add(o)
	case book.OpWord:
		o.code, o.num = cConst, k.word(e.Word)
		return k.add(o)
	case book.OpEq, book.OpNe:
		return k.equality(e, o)
	case book.OpLaw:
		o.code, o.law = cLaw, air.Law(e.Word, e.Table...)
		return k.add(o, k.exprs(e.Args)...)
	case book.OpFrozen:
		return k.frozen(e, o)
	}
	return k.leaf(e)
}

// leaf compiles what names something.
func (k *compiler) leaf(e *book.Expr) Node {
	switch e.Op {
	case book.OpRef:
		return k.ref(e.ID)
	case book.OpReal:
		return k.real(e)
	case book.OpSeen:
		return k.sight(e)
	case book.OpFact:
		return k.fact(e)
	case book.OpPlan:
		return k.planned(e)
	case book.OpFailed:
		return k.wayRef(e, book.FailureRef{Unit: e.ID})
	case book.OpFault:
		return k.wayRef(e, book.FailureRef{Unit: e.ID, Fault: e.Word})
	}
	k.refuse("%s: expression cannot stand here", e.Range)
	return None
}

func (k *compiler) exprs(list []*book.Expr) []Node {
	nodes := make([]Node, len(list))
	for i, e := range list {
		nodes[i] = k.expr(e)
	}
	return nodes
}

func (k *compiler) equality(e *book.Expr, o op) Node {
	operands := k.exprs(e.Args)
	number := e.Args[0].Type == book.Number
	switch {
	case number && e.Op == book.OpEq:
		o.code = cEq
	case number:
		o.code = cNe
	case e.Op == book.OpEq:
		o.code = cSame
	default:
		o.code = cDiffer
	}
	return k.add(o, operands...)
}

// frozen passes its first operand straight through while it is open, so that
// one is compiled at once; only the second waits.
func (k *compiler) frozen(e *book.Expr, o op) Node {
	x := k.expr(e.Args[0])
	o.code = cFrozen
	n := k.memory(o, e.Args[0], e.Args[1])
	k.args[k.ops[n].first] = x
	k.later[len(k.later)-1] = k.frozenInput(n, e.Args[1])
	return n
}

func (k *compiler) frozenInput(n Node, when *book.Expr) func() {
	item := k.item
	return func() {
		k.item = item
		input := k.expr(when)
		k.args[k.ops[n].first+1] = input
	}
}

func (k *compiler) real(e *book.Expr) Node {
	for i, q := range book.Quantities {
		if q.Name == e.ID {
			return k.source("real "+e.ID, op{code: cReal, kind: q.Type, num: float64(i), expr: e, where: e.Range})
		}
	}
	k.refuse("%s: no real.%s", e.Range, e.ID)
	return None
}

func (k *compiler) sight(e *book.Expr) Node {
	s, ok := book.SightNamed(e.ID)
	if !ok {
		k.refuse("%s: no seen.%s", e.Range, e.ID)
	}
	n := k.real(&book.Expr{Op: book.OpReal, ID: s.Real, Type: book.YesNo, Range: e.Range})
	if s.Not {
		return k.not(n)
	}
	return n
}

func (k *compiler) fact(e *book.Expr) Node {
	v, ok := k.Build.Aircraft.Number(e.ID)
	if !ok {
		k.refuse("%s: no aircraft.%s", e.Range, e.ID)
		return None
	}
	return k.add(op{code: cConst, kind: book.Number, num: v, expr: e, where: e.Range})
}

// planned is a number of the flight that the circuit is compiled for.
func (k *compiler) planned(e *book.Expr) Node {
	if k.flight == nil {
		k.refuse("%s: flight.%s is read, and nothing says which flight", e.Range, e.ID)
		return None
	}
	return k.add(op{code: cConst, kind: book.Number, num: k.flight.Planned(e.ID), expr: e, where: e.Range})
}

func (k *compiler) wayRef(e *book.Expr, r book.FailureRef) Node {
	w, ok := k.wayOf[r]
	if !ok {
		k.refuse("%s: no failure %s", e.Range, r)
	}
	return k.wayNode[w]
}
