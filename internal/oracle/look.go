package oracle

import "knockon/book"

// What people can see of a condition (docs/meaning.md, section 12): every part of
// it has, beside its value, whether it is unknown.

// noticed adds whether the loss of a function can be seen to be noticed.
func (b *builder) noticed(f *book.Function) {
	if f.Noticed == nil || f.Noticed.When == nil {
		return
	}
	b.looks = true
	yes, unknown := b.expr(f.Noticed.When), b.unknown(f.Noticed.When)
	b.looks = false
	b.extra(f.ID, Noticeable, b.op(book.OpAll, yes, b.not(unknown)))
}

// sight is what can be seen without an instrument.
func (b *builder) sight(name string) *node {
	for _, s := range book.Sights {
		if s.Name != name {
			continue
		}
		n := b.slot(&node{op: book.OpReal, typ: book.YesNo, real: b.quantity(s.Real)})
		if s.Not {
			return b.not(n)
		}
		return n
	}
	return b.fail("nothing is seen by the name of %s", name)
}

// unknown is whether what e is cannot be seen.
func (b *builder) unknown(e *book.Expr) *node {
	switch e.Op {
	case book.OpRef:
		if lit := b.lit[e.ID]; lit != nil {
			return b.not(b.ref(lit))
		}
	case book.OpAnd, book.OpAll:
		return b.open(e, b.surely(e, false, 1))
	case book.OpOr, book.OpAny:
		return b.open(e, b.surely(e, true, 1))
	case book.OpAtLeast:
		k, n := int(e.Num), len(e.Args)
		return b.op(book.OpAll, b.not(b.surely(e, true, k)), b.not(b.surely(e, false, n-k+1)))
	case book.OpIf:
		way := b.op(book.OpIf, b.expr(e.Args[0]), b.unknown(e.Args[1]), b.unknown(e.Args[2]))
		return b.op(book.OpAny, b.unknown(e.Args[0]), way)
	}
	return b.anyUnknown(e)
}

func (b *builder) anyUnknown(e *book.Expr) *node {
	any := b.op(book.OpAny)
	for _, a := range e.Args {
		any.args = append(any.args, b.unknown(a))
	}
	return any
}

// open: some operand is unknown, and what the others are does not decide it.
func (b *builder) open(e *book.Expr, decided *node) *node {
	return b.op(book.OpAll, b.anyUnknown(e), b.not(decided))
}

// surely is whether at least k operands are known to be yes, or to be no.
func (b *builder) surely(e *book.Expr, yes bool, k int) *node {
	n := b.op(book.OpAtLeast)
	n.num = float64(k)
	for _, a := range e.Args {
		value := b.expr(a)
		if !yes {
			value = b.not(value)
		}
		n.args = append(n.args, b.op(book.OpAll, value, b.not(b.unknown(a))))
	}
	return n
}
