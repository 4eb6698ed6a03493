package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

var binaryOps = map[*hclsyntax.Operation]Op{
	hclsyntax.OpLogicalAnd:         OpAnd,
	hclsyntax.OpLogicalOr:          OpOr,
	hclsyntax.OpEqual:              OpEq,
	hclsyntax.OpNotEqual:           OpNe,
	hclsyntax.OpLessThan:           OpLt,
	hclsyntax.OpLessThanOrEqual:    OpLe,
	hclsyntax.OpGreaterThan:        OpGt,
	hclsyntax.OpGreaterThanOrEqual: OpGe,
	hclsyntax.OpAdd:                OpAdd,
	hclsyntax.OpSubtract:           OpSub,
	hclsyntax.OpMultiply:           OpMul,
	hclsyntax.OpDivide:             OpDiv,
}

func (c *checker) unary(n *hclsyntax.UnaryOpExpr) *Expr {
	a := c.check(n.Val)
	e := &Expr{Args: []*Expr{a}, Range: rangeOf(n.Range())}
	if n.Op == hclsyntax.OpLogicalNot {
		e.Op, e.Type = OpNot, YesNo
		c.want(a, YesNo, "!")
		return e
	}
	c.want(a, Number, "-")
	if a.Op == OpNumber {
		a.Num, a.Range = -a.Num, e.Range
		return a
	}
	e.Op, e.Type, e.Unit, e.fits = OpNeg, Number, a.Unit, a.fits
	return e
}

func (c *checker) binary(n *hclsyntax.BinaryOpExpr) *Expr {
	op, ok := binaryOps[n.Op]
	if !ok {
		c.report(noSuchOperator(rangeOf(n.Range())))
		c.check(n.LHS)
		c.check(n.RHS)
		return broken(n.Range())
	}
	var a, b *Expr
	if op == OpEq || op == OpNe {
		a, b = c.wordMeets(n.LHS, n.RHS)
	} else {
		a, b = c.check(n.LHS), c.check(n.RHS)
	}
	e := &Expr{Op: op, Args: []*Expr{a, b}, Range: rangeOf(n.Range())}
	switch op {
	case OpAnd, OpOr:
		e.Type = YesNo
		c.want(a, YesNo, op.sign())
		c.want(b, YesNo, op.sign())
	case OpAdd, OpSub, OpMul, OpDiv:
		c.arithmetic(e, a, b)
	default:
		e.Type = YesNo
		if compares(n.LHS) || compares(n.RHS) {
			c.report(chained(e.Range))
			break
		}
		c.comparison(e, a, b)
	}
	return e
}

// wordMeets checks both sides of an equation. A name that nothing has may be a
// word of the other side whose quotes were forgotten.
func (c *checker) wordMeets(left, right hclsyntax.Expression) (a, b *Expr) {
	switch {
	case c.nameless(right):
		a = c.check(left)
		b = c.bareWord(right, a)
	case c.nameless(left):
		b = c.check(right)
		a = c.bareWord(left, b)
	default:
		a, b = c.check(left), c.check(right)
	}
	return a, b
}

// nameless tells whether n is a single name that nothing has.
func (c *checker) nameless(n hclsyntax.Expression) bool {
	names, ok := namesOf(bare(n))
	return ok && len(names) == 1 && names[0] != "real" && names[0] != "aircraft" && names[0] != "seen" && c.scope.symbol(names[0]) == nil
}

func (c *checker) bareWord(n hclsyntax.Expression, other *Expr) *Expr {
	names, _ := namesOf(bare(n))
	if !slices.Contains(other.Words, names[0]) {
		return c.check(n)
	}
	c.report(wordWithoutQuotes(rangeOf(n.Range()), names[0]))
	return broken(n.Range())
}

// compares tells whether a node is itself a comparison, not in parentheses.
func compares(n hclsyntax.Expression) bool {
	b, ok := n.(*hclsyntax.BinaryOpExpr)
	return ok && binaryOps[b.Op] >= OpEq && binaryOps[b.Op] <= OpGe
}

func (c *checker) arithmetic(e, a, b *Expr) {
	e.Type = Number
	okA, okB := c.want(a, Number, e.Op.sign()), c.want(b, Number, e.Op.sign())
	if !okA || !okB {
		e.fits = true
		return
	}
	switch {
	case e.Op == OpAdd || e.Op == OpSub:
		c.sameUnit(e, a, b)
	default: // a product may be a conversion, so it goes with any unit
		e.fits = !a.bare() || !b.bare()
	}
	if e.Op == OpDiv && b.Op == OpNumber && b.Num == 0 {
		c.report(dividesByZero(b.Range))
	}
}

// bare tells whether a number has no unit at all, as a literal.
func (e *Expr) bare() bool { return e.Unit == "" && !e.fits }

// sameUnit checks that numbers go together and gives e their unit.
func (c *checker) sameUnit(e *Expr, args ...*Expr) {
	var first *Expr
	for _, a := range args {
		e.fits = e.fits || a.fits
		switch {
		case a.Unit == "":
		case first == nil:
			first = a
		case a.Unit != first.Unit:
			c.report(unitsDiffer(a.Range, first, a))
			e.fits = true
			return
		}
	}
	if first == nil {
		return
	}
	e.Unit, e.fits = first.Unit, false
	for _, a := range args {
		if a.Op == OpNumber {
			a.Unit = first.Unit
		}
	}
}

func (c *checker) comparison(e, a, b *Expr) {
	ordered := e.Op != OpEq && e.Op != OpNe
	switch {
	case a.Type == Unknown || b.Type == Unknown:
	case ordered && c.want(a, Number, e.Op.sign()) && c.want(b, Number, e.Op.sign()):
		c.sameUnit(&Expr{}, a, b)
	case ordered: // told by want
	case a.Type != b.Type:
		c.report(typesDiffer(e.Range, a, b))
	case a.Type == Number:
		c.sameUnit(&Expr{}, a, b)
	case a.Type == Word:
		c.canMeet(b, a, b)
	}
}

// canMeet checks that two words can be equal at all.
func (c *checker) canMeet(at, a, b *Expr) {
	if len(a.Words) == 0 || len(b.Words) == 0 {
		return
	}
	for _, w := range a.Words {
		if slices.Contains(b.Words, w) {
			return
		}
	}
	if a.Op == OpWord && b.Op != OpWord {
		a, b = b, a
		at = b
	}
	c.report(neverThatWord(at.Range, a, b, c.scope.where()))
}

func (c *checker) choice(n *hclsyntax.ConditionalExpr) *Expr {
	cond, yes, no := c.check(n.Condition), c.check(n.TrueResult), c.check(n.FalseResult)
	e := &Expr{Op: OpIf, Args: []*Expr{cond, yes, no}, Range: rangeOf(n.Range())}
	c.want(cond, YesNo, "?")
	switch {
	case yes.Type == Unknown || no.Type == Unknown:
		known := yes
		if yes.Type == Unknown {
			known = no
		}
		e.Type, e.Unit, e.fits, e.Words = known.Type, known.Unit, known.fits, known.Words
	case yes.Type != no.Type:
		c.report(typesDiffer(e.Range, yes, no))
	default:
		e.Type = yes.Type
		c.merge(e, yes, no)
	}
	return e
}

// merge gives e the unit or the words of values of which it is one.
func (c *checker) merge(e *Expr, args ...*Expr) {
	switch e.Type {
	case Number:
		c.sameUnit(e, args...)
	case Word:
		for _, a := range args {
			e.Words = append(e.Words, a.Words...)
		}
		e.Words = sortedWords(e.Words)
	}
}

// want reports an argument of the wrong type; true if it fits.
func (c *checker) want(a *Expr, t Type, by string) bool {
	if a.Type == Unknown || a.Type == t {
		return a.Type == t
	}
	c.report(wrongType(a, t, by))
	return false
}

// meets checks that two values of one type can be equal; at is where to say so.
func (c *checker) meets(at, a, b *Expr) {
	switch {
	case a.Type == Number && a.Unit != "" && b.Unit != "" && a.Unit != b.Unit:
		c.report(unitsDiffer(at.Range, a, b))
	case a.Type == Word:
		c.canMeet(at, a, b)
	}
}
