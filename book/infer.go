package book

import "github.com/hashicorp/hcl/v2/hclsyntax"

// inferSignals finds the type, unit and words of every signal. Most can be read
// from the outermost operator. The others are taken in such an order that what
// a signal reads comes before it; where signals read each other in a ring
// (through a memory) the ring is gone through until nothing changes.
func (b *builder) inferSignals() {
	var open []*declaration // signals whose type needs their expression
	position := map[string]int{}
	for _, d := range b.decls {
		if d.kind.word != "signal" || !d.on[b.n] {
			continue
		}
		s := b.symbols[d.n]
		value := b.node(d).attr("value")
		switch {
		case value == nil, obviousYesNo(value.Expr):
			s.typ = YesNo
		default:
			position[d.id] = len(open)
			open = append(open, d)
		}
	}
	for _, ring := range components(len(open), func(i int) []int {
		return b.signalsRead(b.node(open[i]).attr("value").Expr, position)
	}) {
		b.inferRing(open, ring)
	}
}

// obviousYesNo tells whether an expression is a yes/no whatever stands in it.
func obviousYesNo(n hclsyntax.Expression) bool {
	switch n := bare(n).(type) {
	case *hclsyntax.UnaryOpExpr:
		return n.Op == hclsyntax.OpLogicalNot
	case *hclsyntax.BinaryOpExpr:
		return binaryOps[n.Op] >= OpAnd && binaryOps[n.Op] <= OpGe
	case *hclsyntax.FunctionCallExpr:
		switch n.Name {
		case "any", "all", "at_least", "failed", "held", "pulse":
			return true
		}
	}
	return false
}

func (b *builder) signalsRead(n hclsyntax.Expression, position map[string]int) []int {
	var found []int
	for _, t := range hclsyntax.Variables(n) {
		if i, ok := position[t.RootName()]; ok {
			found = append(found, i)
		}
	}
	return found
}

// inferRing sets the symbols of signals that read each other; usually one signal.
func (b *builder) inferRing(open []*declaration, ring []int) {
	for range len(ring) + 3 {
		changed := false
		for _, i := range ring {
			changed = b.inferSignal(open[i]) || changed
		}
		if !changed {
			return
		}
	}
}

func (b *builder) inferSignal(d *declaration) (changed bool) {
	e := b.expr(b.node(d).attr("value").Expr, func(Diagnostic) {})
	next := *b.symbols[d.n]
	next.typ, next.words, next.unit = e.Type, e.Words, ""
	if e.Type == Number {
		next.unit = UnitOf(d.id)
		next.unnamed = next.unit == ""
	}
	if next.same(b.symbols[d.n]) {
		return false
	}
	b.symbols[d.n] = &next
	return true
}
