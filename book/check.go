package book

import (
	"math"
	"slices"

	"knockon/say"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// checker turns parsed expressions into checked ones. An expression in which
// something is wrong comes out with type Unknown, which fits everywhere, so
// that one mistake gives one message.
type checker struct {
	scope  scope
	report func(Diagnostic)
	claims bool // functions of a claim are allowed here
	looks  bool // a crew look: indications, seen.* and called_by are allowed
	// reads notes every symbol looked up, in order; facts whether a number of
	// the aircraft block was read.
	reads []read
	facts bool
}

type read struct {
	id  string
	sym *symbol
}

// check gives a checked expression; never nil.
func (c *checker) check(n hclsyntax.Expression) *Expr {
	switch n := n.(type) {
	case *hclsyntax.ParenthesesExpr:
		return c.check(n.Expression)
	case *hclsyntax.LiteralValueExpr:
		return c.literal(n)
	case *hclsyntax.TemplateExpr:
		return c.word(n)
	case *hclsyntax.ScopeTraversalExpr:
		return c.reference(n)
	case *hclsyntax.FunctionCallExpr:
		return c.call(n)
	case *hclsyntax.UnaryOpExpr:
		return c.unary(n)
	case *hclsyntax.BinaryOpExpr:
		return c.binary(n)
	case *hclsyntax.ConditionalExpr:
		return c.choice(n)
	case *hclsyntax.ExprSyntaxError:
		return broken(n.Range()) // the parser has told it
	case *hclsyntax.TupleConsExpr:
		return c.wrong(n, listNotAllowed)
	}
	return c.wrong(n, notInLanguage)
}

func broken(r hcl.Range) *Expr { return &Expr{Range: rangeOf(r)} }

func (c *checker) wrong(n hclsyntax.Expression, say func(Range) Diagnostic) *Expr {
	c.report(say(rangeOf(n.Range())))
	return broken(n.Range())
}

func (c *checker) literal(n *hclsyntax.LiteralValueExpr) *Expr {
	e := broken(n.Range())
	switch {
	case !n.Val.IsKnown(): // what the parser puts where it could not read; it has told
	case n.Val.IsNull():
		c.report(notInLanguage(e.Range))
	case n.Val.Type() == cty.Bool:
		e.Op, e.Type = OpYesNo, YesNo
		if n.Val.True() {
			e.Num = 1
		}
	case n.Val.Type() == cty.Number:
		num, ok := floatOf(n.Val)
		if !ok {
			c.report(numberOutOfRange(e.Range))
			return e
		}
		e.Op, e.Type, e.Num = OpNumber, Number, num
	default:
		c.report(notInLanguage(e.Range))
	}
	return e
}

// floatOf gives a number as written; ok is false if it is too big to be one.
func floatOf(v cty.Value) (num float64, ok bool) {
	num, _ = v.AsBigFloat().Float64()
	return num, !math.IsInf(num, 0) && !math.IsNaN(num) && math.Abs(num) <= mostNumber
}

// mostNumber is the largest number a book may write.
const mostNumber = 1e15

func (c *checker) word(n *hclsyntax.TemplateExpr) *Expr {
	text, ok := textOf(n)
	if !ok {
		return c.wrong(n, notInLanguage)
	}
	return &Expr{Op: OpWord, Type: Word, Word: text, Words: []string{text}, Range: rangeOf(n.Range())}
}

// textOf gives the text of a node if it is a plain text in quotes.
func textOf(n hclsyntax.Expression) (text string, ok bool) {
	t, ok := n.(*hclsyntax.TemplateExpr)
	if !ok {
		return "", false
	}
	for _, p := range t.Parts {
		part, ok := p.(*hclsyntax.LiteralValueExpr)
		if !ok || part.Val.IsNull() || part.Val.Type() != cty.String {
			return "", false
		}
		text += part.Val.AsString()
	}
	return text, true
}

// namesOf splits a reference into its names; ok is false for anything with an
// index in it.
func namesOf(n hclsyntax.Expression) (names []string, ok bool) {
	t, ok := n.(*hclsyntax.ScopeTraversalExpr)
	if !ok {
		return nil, false
	}
	for _, step := range t.Traversal {
		switch step := step.(type) {
		case hcl.TraverseRoot:
			names = append(names, step.Name)
		case hcl.TraverseAttr:
			names = append(names, step.Name)
		default:
			return nil, false
		}
	}
	return names, true
}

// look finds a symbol and notes that it was read.
func (c *checker) look(id string) *symbol {
	s := c.scope.symbol(id)
	if s != nil {
		c.reads = append(c.reads, read{id, s})
	}
	return s
}

func (c *checker) reference(n *hclsyntax.ScopeTraversalExpr) *Expr {
	names, ok := namesOf(n)
	at := rangeOf(n.Range())
	switch {
	case !ok || len(names) > 2:
		return c.wrong(n, notInLanguage)
	case names[0] == "real":
		return c.real(at, names)
	case names[0] == "aircraft":
		return c.fact(at, names)
	case names[0] == "seen":
		return c.sight(at, names)
	case names[0] == "flight":
		return c.planned(at, names)
	case len(names) == 2:
		return c.fault(at, names[0], names[1])
	}
	s, ok := c.find(at, names[0], valuedKinds...)
	if !ok {
		return &Expr{Range: at}
	}
	if !s.valued && !(c.looks && s.kind == "indication") {
		c.report(hasNoValue(at, names[0], s.kind))
		return &Expr{Range: at}
	}
	return &Expr{Op: OpRef, ID: names[0], Type: s.typ, Unit: s.unit, Words: s.words, fits: s.unnamed, Range: at}
}

// valuedKinds are the items that have a value in expressions.
var valuedKinds = []string{"unit", "function", "signal", "control", "phase", "alert"}

// find looks an id up and says what is wrong if it is not there; kinds are
// those that would do.
func (c *checker) find(at Range, id string, kinds ...string) (s *symbol, ok bool) {
	s = c.look(id)
	switch {
	case s == nil:
		c.report(unknownID(at, id, kinds, c.scope.suggest(at, id, kinds)))
	case s.spoiled: // told where the block stands
	case s.absent:
		c.report(absentID(at, id, s.kind, c.scope.where()))
	default:
		return s, true
	}
	return nil, false
}

func (c *checker) real(at Range, names []string) *Expr {
	name := ""
	if len(names) == 2 {
		name = names[1]
	}
	for i := range Quantities {
		if q := &Quantities[i]; q.Name == name {
			return &Expr{Op: OpReal, ID: name, Type: q.Type, Unit: q.Unit, Range: at}
		}
	}
	c.report(unknownReal(at, name, say.Nearest(name, quantityNames())))
	return &Expr{Range: at}
}

func quantityNames() []string {
	var names []string
	for _, q := range Quantities {
		names = append(names, q.Name)
	}
	return names
}

func (c *checker) fact(at Range, names []string) *Expr {
	c.facts = true
	if len(names) == 2 && c.scope.fact(names[1]) {
		return &Expr{Op: OpFact, ID: names[1], Type: Number, Unit: UnitOf(names[1]), Range: at}
	}
	name := ""
	if len(names) == 2 {
		name = names[1]
	}
	c.report(unknownFact(at, name, c.scope.suggestFact(name)))
	return &Expr{Range: at}
}

func (c *checker) fault(at Range, unit, fault string) *Expr {
	s, ok := c.find(at, unit, "unit")
	if !ok {
		return &Expr{Range: at}
	}
	if s.kind != "unit" {
		c.report(notAUnit(at, unit, s.kind))
		return &Expr{Range: at}
	}
	if !slices.Contains(s.faults, fault) {
		c.report(unknownFault(at, unit, fault, say.Nearest(fault, s.faults)))
		return &Expr{Range: at}
	}
	return &Expr{Op: OpFault, ID: unit, Word: fault, Type: YesNo, Range: at}
}
