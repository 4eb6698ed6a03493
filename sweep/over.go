package sweep

import "knockon/circuit"

// over makes the memories of the settled instant final and says in which lanes
// another instant follows at the same moment.
func (e *engine) over() (again word) {
	for _, a := range e.actNow {
		e.isAct[a] = false
	}
	e.actNow = e.actNow[:0]
	clear(e.fired)
	e.beginsNow = false
	clear(e.woken)
	list := e.touched
	for _, n := range list {
		again = again.or(e.finish(n))
	}
	for _, n := range list {
		e.isTouch[n] = false
		g := &e.p.gates[n]
		if g.kept {
			e.keepSettled(n, g)
		}
		if i := e.p.place[n]; i >= 0 {
			e.note(n, i, g)
		}
	}
	e.touched = list[:0]
	if len(e.fresh) > 0 {
		e.newRates()
	}
	return again
}

// finish ends an instant for what remembers a node.
func (e *engine) finish(n circuit.Node) (again word) {
	g := &e.p.gates[n]
	for _, m := range g.wakes {
		switch mg := &e.p.gates[m]; {
		case mg.kind == isFrozen:
		case mg.op == circuit.GateHeld, mg.op == circuit.GatePulse:
			e.timers[m] = append(e.timers[m][:0], e.running[m]...)
		case mg.op == circuit.GateBefore:
			e.toBefore = append(e.toBefore, m)
			if !mg.stood {
				again = again.or(e.moved(m, mg))
			}
		case mg.op == circuit.GateCount:
			if up := e.val[n].but(e.settled[n]); up.any() {
				e.rose[m] = up
				again = again.or(up)
			}
		case mg.op == circuit.GateTotal:
			e.fresh = append(e.fresh, m)
		}
	}
	if g.kind == isFrozen {
		e.open[n], e.keptYes[n] = e.openNow[n], e.yesNow[n]
		e.kept[n] = append(e.kept[n][:0], e.keptNow[n]...)
	}
	return again
}

// moved gives the lanes in which a before is not what its operand is now.
func (e *engine) moved(n circuit.Node, g *gate) (in word) {
	if g.yes {
		return e.val[n].xor(e.val[g.args[0]])
	}
	for _, was := range e.alts[n] {
		for _, is := range e.alts[g.args[0]] {
			if was.term != is.term {
				in = in.or(was.in.and(is.in))
			}
		}
	}
	return in
}

func (e *engine) keepSettled(n circuit.Node, g *gate) {
	if g.yes {
		e.settled[n] = e.val[n]
	} else {
		e.stood[n] = append(e.stood[n][:0], e.alts[n]...)
	}
}

// newRates lets totals go on from here with a new rate.
func (e *engine) newRates() {
	for _, n := range e.fresh {
		var list []alt
		for _, was := range e.alts[n] {
			for _, rate := range e.altsOf(e.p.gates[n].args[0]) {
				in := was.in.and(rate.in)
				if !in.any() {
					continue
				}
				x := was.term
				if e.terms.list[x].args[0] != e.terms.rateOf(n, rate.term) {
					x = e.terms.total(n, e.terms.at(x, e.now), e.now, rate.term)
				}
				list = join(list, x, in)
			}
		}
		e.putAlts(n, list)
	}
	e.fresh = e.fresh[:0]
	e.evaluate() // for the moments at which comparisons turn
}

// note adds a watched node's new value to its log.
func (e *engine) note(n circuit.Node, i int32, g *gate) {
	l := e.log[i]
	if g.yes {
		if len(l) > 0 && l[len(l)-1].in == e.val[n] {
			return
		}
		e.log[i] = append(l, entry{at: e.now, in: e.val[n]})
	} else {
		if len(l) > 0 && sameAlts(l[len(l)-1].alts, e.alts[n]) {
			return
		}
		from := len(e.noted)
		e.noted = append(e.noted, e.alts[n]...)
		e.log[i] = append(l, entry{at: e.now, alts: e.noted[from:len(e.noted):len(e.noted)]})
	}
	if len(l) == 0 {
		e.logged = append(e.logged, i)
	}
}
