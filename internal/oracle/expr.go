package oracle

import (
	"fmt"

	"knockon/book"
)

// fail keeps the first error and gives a node to go on with.
func (b *builder) fail(format string, args ...any) *node {
	if b.err == nil {
		b.err = fmt.Errorf(format, args...)
	}
	return b.op(book.OpAny)
}

func (b *builder) slot(n *node) *node {
	n.slot = b.m.slots
	b.m.slots++
	b.m.first = append(b.m.first, n.num)
	return n
}

// op makes a node of the machine's own: a number for arithmetic, else yes/no.
func (b *builder) op(op book.Op, args ...*node) *node {
	n := &node{op: op, args: args, typ: book.YesNo}
	switch op {
	case book.OpAbs, book.OpSub:
		n.typ = book.Number
	}
	return b.slot(n)
}

func (b *builder) not(n *node) *node { return b.op(book.OpNot, n) }

func (b *builder) cell(c *cell, typ book.Type) *node {
	return b.slot(&node{op: opCell, cell: c, typ: typ})
}

// ref reads a part. Its type is known once the part has its root.
func (b *builder) ref(p *part) *node {
	n := &node{op: opPart, part: p, typ: book.YesNo}
	if p.root != nil {
		n.typ = p.root.typ
	}
	return n
}

func (b *builder) named(id string) *node {
	p := b.parts[id]
	if b.looks && b.shows[id] != nil {
		p = b.shows[id]
	}
	if p == nil {
		return b.fail("no item %s on build %s", id, b.build.Variant)
	}
	return b.ref(p)
}

// orYes is e, or yes where there is no e.
func (b *builder) orYes(e *book.Expr) *node {
	if e == nil {
		return b.op(book.OpAll)
	}
	return b.expr(e)
}

// word gives the number that stands for a word.
func (b *builder) word(w string) float64 {
	v, ok := b.words[w]
	if !ok {
		v = float64(len(b.m.words))
		b.words[w] = v
		b.m.words = append(b.m.words, w)
	}
	return v
}

// expr looks an expression up, with everything below it.
func (b *builder) expr(e *book.Expr) *node {
	if e == nil || e.Type == book.Unknown {
		return b.fail("an expression is missing or was not checked")
	}
	n := b.leaf(e)
	n.typ = e.Type
	switch e.Op {
	case book.OpHeld, book.OpPulse:
		b.timer(n, e)
	case book.OpBefore:
		b.before(n, e)
	case book.OpFrozen:
		x := b.expr(e.Args[0])
		n.frozen = &frozen{x: x, when: b.root(e.Args[1])}
		n.args = []*node{x}
		b.m.frozens = append(b.m.frozens, n.frozen)
	case book.OpTotal:
		b.total(n, e)
	case book.OpCount:
		n.count = &count{x: b.root(e.Args[0])}
		b.m.counts = append(b.m.counts, n.count)
	default:
		for _, a := range e.Args {
			n.args = append(n.args, b.expr(a))
		}
	}
	return n
}

// leaf makes the node itself and looks up the id in it.
func (b *builder) leaf(e *book.Expr) *node {
	n := &node{op: e.Op, num: e.Num}
	switch e.Op {
	case book.OpWord:
		n.num = b.word(e.Word)
	case book.OpLaw:
		n.law, n.table = e.Word, e.Table
	case book.OpRef:
		return b.named(e.ID)
	case book.OpFailed:
		return b.state(b.failed[e.ID], e.ID)
	case book.OpFault:
		return b.state(b.faults[e.ID+"."+e.Word], e.ID+"."+e.Word)
	case book.OpReal:
		n.real = b.quantity(e.ID)
	case book.OpSeen:
		return b.sight(e.ID)
	case book.OpFact:
		n.op, n.num = book.OpNumber, b.fact(e.ID)
	case book.OpLedger, book.OpInvalid:
		return b.fail("%s: %s has no value during a flight", e.Range, e.Word)
	}
	return b.slot(n)
}

// state reads whether a unit has failed in a way.
func (b *builder) state(p *part, name string) *node {
	if p == nil {
		return b.fail("no unit or fault %s on build %s", name, b.build.Variant)
	}
	return b.ref(p)
}

func (b *builder) quantity(name string) int {
	for i, q := range book.Quantities {
		if q.Name == name {
			b.m.reals[i] = true
			return i
		}
	}
	b.fail("no quantity real.%s", name)
	return 0
}

func (b *builder) fact(name string) float64 {
	if a := b.build.Aircraft; a != nil {
		for _, n := range a.Numbers {
			if n.Name == name {
				return n.Value
			}
		}
		for _, s := range a.Settings {
			if name == "most_lift_"+s.Name+"_ratio" {
				return s.MostLift
			}
		}
	}
	b.fail("no number aircraft.%s", name)
	return 0
}

func (b *builder) timer(n *node, e *book.Expr) {
	n.timer = &timer{self: n, x: b.root(e.Args[0]), lasts: book.AtSeconds(e.Num)}
	b.m.timers = append(b.m.timers, n.timer)
}

func (b *builder) before(n *node, e *book.Expr) {
	n.before = &before{x: b.root(e.Args[0])}
	if e.Type == book.Word && len(e.Words) > 0 {
		n.before.value = b.word(e.Words[0])
	}
	b.m.befores = append(b.m.befores, n.before)
}

func (b *builder) total(n *node, e *book.Expr) {
	n.total = &total{x: b.root(e.Args[0]), bound: e.Bound}
	if e.Bound != nil {
		n.total.value = min(max(e.Bound.Start, e.Bound.Least), e.Bound.Most)
		n.total.sum = n.total.value * sumsPerSecond
	}
	b.m.totals = append(b.m.totals, n.total)
}
