package sweep

import (
	"math/bits"

	"knockon/book"
	"knockon/circuit"
)

// setting is a new value that waits until all have been worked out.
type setting struct {
	n    circuit.Node
	v    word
	list []alt
}

// eachWoken calls visit for the woken memories of some kinds and lets those
// sleep for which it returns false.
func (e *engine) eachWoken(visit func(n circuit.Node, g *gate) (stay bool)) {
	for w := range e.woken {
		for left := e.woken[w]; left != 0; left &= left - 1 {
			n := circuit.Node(w<<6 + bits.TrailingZeros64(left))
			if !visit(n, &e.p.gates[n]) {
				e.woken[w] &^= 1 << (n & 63)
			}
		}
	}
}

// follow gives the following memories their new values and says in which lanes
// one changed.
func (e *engine) follow() (changed word) {
	var news []setting
	e.eachWoken(func(n circuit.Node, g *gate) bool {
		switch {
		case g.kind == isFrozen:
			changed = changed.or(e.followFrozen(n, g))
			return false
		case g.op == circuit.GateHeld, g.op == circuit.GatePulse:
			v := e.timer(n, g)
			if d := v.xor(e.val[n]); d.any() {
				changed = changed.or(d)
				news = append(news, setting{n: n, v: v})
			}
			return false
		}
		return g.op == circuit.GateLatch
	})
	for _, s := range news {
		e.put(s.n, &s.v)
	}
	return changed
}

// timer works out since when a timer has been running in each lane, and its value.
func (e *engine) timer(n circuit.Node, g *gate) (v word) {
	x := e.val[g.args[0]]
	list := e.running[n][:0]
	start := x
	next := book.Never
	for _, s := range e.timers[n] {
		if in := s.in.and(x); in.any() {
			list = append(list, since{s.at, in})
			start = start.but(in)
		}
	}
	if start.any() {
		list = append(list, since{e.now, start})
	}
	e.running[n] = list
	for _, s := range list {
		end := s.at + g.length
		if s.at == longAgo {
			end = e.now
		}
		out := e.now >= end
		if out == (g.op == circuit.GateHeld) {
			v = v.or(s.in)
		}
		if !out {
			next = min(next, end)
		}
	}
	e.turn(n, next)
	return v
}

// longAgo is since when what was so at the start of the flight has been so.
const longAgo book.Time = -1 << 61

// followFrozen works out in which lanes a frozen value follows its operand, and
// what it keeps in the others.
func (e *engine) followFrozen(n circuit.Node, g *gate) (changed word) {
	open := all.but(e.val[g.args[1]])
	closing := e.open[n].but(open)
	changed = open.xor(e.openNow[n])
	e.openNow[n] = open
	x := g.args[0]
	if g.yes {
		kept := e.keptYes[n].but(closing).or(e.settled[x].and(closing))
		changed = changed.or(kept.xor(e.yesNow[n]).but(open))
		e.yesNow[n] = kept
	} else {
		list := cut(nil, e.kept[n], all.but(closing))
		for _, a := range e.stood[x] {
			if in := a.in.and(closing); in.any() {
				list = join(list, e.terms.constant(e.terms.at(a.term, e.now)), in)
			}
		}
		if !sameAlts(list, e.keptNow[n]) {
			changed = changed.or(closing)
		}
		e.keptNow[n] = list
	}
	if changed.any() {
		e.mark(n)
		e.touchMemory(n)
	}
	return changed
}

// touchMemory has the memory of a node looked at when the instant is over.
func (e *engine) touchMemory(n circuit.Node) {
	if !e.isTouch[n] {
		e.isTouch[n] = true
		e.touched = append(e.touched, n)
	}
}
