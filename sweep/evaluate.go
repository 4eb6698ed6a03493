package sweep

import (
	"math/bits"

	"knockon/book"
	"knockon/circuit"
)

// evaluate brings every dirty node up to date, operands first.
func (e *engine) evaluate() {
	for w := range e.dirty {
		for e.dirty[w] != 0 {
			b := bits.TrailingZeros64(e.dirty[w])
			e.dirty[w] &^= 1 << b
			e.node(circuit.Node(w<<6 + b))
		}
	}
}

func (e *engine) node(n circuit.Node) {
	g := &e.p.gates[n]
	switch g.kind {
	case isSource, isMemory:
	case isNot:
		var v word
		for i, x := range &e.val[g.args[0]] {
			v[i] = ^x
		}
		e.put(n, &v)
	case isAnd:
		v := all
		for _, a := range g.args {
			for i, x := range &e.val[a] {
				v[i] &= x
			}
		}
		e.put(n, &v)
	case isOr:
		var v word
		for _, a := range g.args {
			for i, x := range &e.val[a] {
				v[i] |= x
			}
		}
		e.put(n, &v)
	case isAtLeast:
		v := e.atLeast(g)
		e.put(n, &v)
	case isTest:
		e.test(n, g)
	default:
		if g.yes {
			v := e.yesNo(n, g)
			e.put(n, &v)
			return
		}
		e.mixed = e.number(n, g, e.mixed[:0])
		e.putAlts(n, e.mixed)
	}
}

// atLeast counts in all lanes at once: row k has the lanes with k or more.
func (e *engine) atLeast(g *gate) word {
	most := int(g.num)
	if float64(most) < g.num {
		most++
	}
	if most <= 0 {
		return all
	}
	rows := make([]word, most+1)
	rows[0] = all
	for _, a := range g.args {
		for k := most; k > 0; k-- {
			rows[k] = rows[k].or(rows[k-1].and(e.val[a]))
		}
	}
	return rows[most]
}

// yesNo works out a choice, a frozen value, or another function that is yes or no.
func (e *engine) yesNo(n circuit.Node, g *gate) word {
	switch g.kind {
	case isIf:
		c := e.val[g.args[0]]
		return e.val[g.args[1]].and(c).or(e.val[g.args[2]].but(c))
	case isFrozen:
		return e.val[g.args[0]].and(e.openNow[n]).or(e.yesNow[n].but(e.openNow[n]))
	}
	var v word
	e.combine(g.args, all, func(args []term, in word) {
		if x := e.terms.gate(n, args); e.terms.list[x].value != 0 {
			v = v.or(in)
		}
	})
	return v
}

// number works out the alternatives of a number or a word.
func (e *engine) number(n circuit.Node, g *gate, list []alt) []alt {
	switch g.kind {
	case isIf:
		c := e.val[g.args[0]]
		list = cut(list, e.alts[g.args[1]], c)
		return cut(list, e.alts[g.args[2]], all.but(c))
	case isFrozen:
		list = cut(list, e.alts[g.args[0]], e.openNow[n])
		return cut(list, e.keptNow[n], all.but(e.openNow[n]))
	}
	e.combine(g.args, all, func(args []term, in word) { list = join(list, e.terms.gate(n, args), in) })
	return list
}

// cut adds those of some alternatives that are in some lanes.
func cut(list, from []alt, lanes word) []alt {
	for _, a := range from {
		if in := a.in.and(lanes); in.any() {
			list = join(list, a.term, in)
		}
	}
	return list
}

// combine calls visit for every combination of what operands are in some lanes.
func (e *engine) combine(args []circuit.Node, in word, visit func([]term, word)) {
	e.picked = e.picked[:0]
	e.pick(args, in, visit)
}

func (e *engine) pick(args []circuit.Node, in word, visit func([]term, word)) {
	if len(args) == 0 {
		visit(e.picked, in)
		return
	}
	choose := func(x term, lanes word) {
		if both := in.and(lanes); both.any() {
			e.picked = append(e.picked, x)
			e.pick(args[1:], both, visit)
			e.picked = e.picked[:len(e.picked)-1]
		}
	}
	for _, a := range e.altsOf(args[0]) {
		choose(a.term, a.in)
	}
}

// test works out a comparison of numbers and when it turns next.
func (e *engine) test(n circuit.Node, g *gate) {
	var v word
	next := book.Never
	for _, a := range e.alts[g.args[0]] {
		for _, b := range e.alts[g.args[1]] {
			in := a.in.and(b.in)
			if !in.any() {
				continue
			}
			if e.terms.isConst(a.term) && e.terms.isConst(b.term) {
				if e.terms.list[e.terms.gate(n, []term{a.term, b.term})].value != 0 {
					v = v.or(in)
				}
				continue
			}
			f := e.terms.compared(asked{n, a.term, b.term}, e.now)
			if f.is(e.now) {
				v = v.or(in)
			}
			next = min(next, f.after(e.now))
		}
	}
	e.turn(n, next)
	e.put(n, &v)
}

// turn notes when a node has to be looked at next.
func (e *engine) turn(n circuit.Node, at book.Time) {
	e.turns[n] = at
	if at != book.Never && !e.isLive[n] {
		e.isLive[n] = true
		e.live = append(e.live, n)
	}
}

// altsOf gives the alternatives of any node; yes is 1 and no is 0.
func (e *engine) altsOf(n circuit.Node) []alt {
	if !e.p.gates[n].yes {
		return e.alts[n]
	}
	list := make([]alt, 0, 2)
	for i, in := range [2]word{all.but(e.val[n]), e.val[n]} {
		if in.any() {
			list = append(list, alt{e.terms.constant(float64(i)), in})
		}
	}
	return list
}
