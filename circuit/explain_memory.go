package circuit

// memory explains what a memory holds by the instant at which it took it.
func (x *explainer) memory(p point) *reason {
	o := &x.c.ops[p.n]
	in := x.c.operands(p.n)
	moved := p.i
	if !x.c.smooth[p.n] {
		change := x.here.lastChange(p.n, p.i)
		moved = 0
		if change >= 0 {
			moved = int(x.here.changes[change].Instant)
		}
	}
	switch o.code {
	case cLatch:
		return x.latch(p, moved)
	case cHeld, cPulse:
		return x.timer(p, moved)
	case cBefore, cStood:
		if moved == 0 {
			return x.leaf(p, FromStart)
		}
		return x.reason(point{in[0], max(moved-1, 0)})
	case cFrozen:
		return x.frozen(p)
	case cCount:
		if moved == 0 {
			return x.leaf(p, FromStart)
		}
		return x.reason(point{in[0], moved - 1})
	}
	if x.c.smooth[in[0]] {
		return x.leaf(p, Flown)
	}
	return orLeaf(x.reason(point{in[0], p.i}), func() *reason { return x.leaf(p, FromStart) })
}

func orLeaf(r *reason, leaf func() *reason) *reason {
	if r != nil && len(r.leaves) > 0 {
		return r
	}
	return leaf()
}

// latch: set by its set and no reset, or reset. One that never moved is as it
// was at the start.
func (x *explainer) latch(p point, moved int) *reason {
	in := x.c.operands(p.n)
	set, reset := point{in[0], moved}, point{in[1], moved}
	switch {
	case x.value(p) != 0 && x.value(set) != 0:
		return orLeaf(x.reason(set), func() *reason { return x.leaf(p, FromStart) })
	case x.value(p) == 0 && x.value(reset) != 0:
		return orLeaf(x.reason(reset), func() *reason { return x.leaf(p, FromStart) })
	}
	return x.leaf(p, FromStart)
}

// timer: yes or no by its operand, at the moment at which the operand moved
// where the operand has run long enough.
func (x *explainer) timer(p point, moved int) *reason {
	in := x.c.operands(p.n)[0]
	now := point{in, p.i}
	if x.value(now) == 0 {
		return x.reason(now)
	}
	if change := x.here.lastChange(in, p.i); change >= 0 {
		moved = int(x.here.changes[change].Instant)
	} else {
		moved = 0
	}
	return x.reason(point{in, moved})
}

func (x *explainer) frozen(p point) *reason {
	in := x.c.operands(p.n)
	when := point{in[1], p.i}
	if x.value(when) == 0 {
		return x.all(p.i, []Node{in[0], in[1]})
	}
	closed := 0
	if change := x.here.lastChange(in[1], p.i); change >= 0 {
		closed = int(x.here.changes[change].Instant)
	}
	why := x.reason(point{in[1], closed})
	kept := x.reason(point{in[0], max(closed-1, 0)})
	if why == nil || kept == nil {
		return why
	}
	return join(why, kept)
}
