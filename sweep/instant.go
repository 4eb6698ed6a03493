package sweep

import (
	"math/bits"

	"knockon/book"
	"knockon/circuit"
)

// mostPasses is how many evaluations a moment may take before the lanes that
// still change are given up, and mostEvents how many moments a block may have.
// Lanes that are given up are flown one at a time.
const (
	mostPasses = 200
	mostEvents = 20000
)

// fly works out the block from the snapshot's moment to the end of the flight.
// strikes lists for each lane the ways that fail at the first moment.
func (e *engine) fly(at book.Time, strikes [][]int) {
	for t := at; ; {
		e.moment(t, strikes)
		strikes = nil
		if e.events++; e.events > mostEvents {
			e.lost = all
		}
		if e.lost == all {
			return
		}
		if t = e.next(); t > e.p.end {
			return
		}
	}
}

// next is the first moment after the present one at which something happens in
// some lane.
func (e *engine) next() book.Time {
	t := book.Never
	if e.nextGiven < len(e.p.given) {
		t = e.p.given[e.nextGiven].at
	}
	kept := e.live[:0]
	for _, n := range e.live {
		at := e.turns[n]
		if at == book.Never {
			e.isLive[n] = false
			continue
		}
		kept = append(kept, n)
		t = min(t, at)
	}
	e.live = kept
	return t
}

// moment works out all instants at a moment.
func (e *engine) moment(t book.Time, strikes [][]int) {
	e.now, e.passes = t, 0
	for _, n := range e.live {
		if e.turns[n] <= t {
			if e.p.gates[n].kind == isTest {
				e.mark(n)
			} else {
				e.wake(n)
			}
		}
	}
	for again := true; again; {
		e.arrive(t)
		e.strike(strikes)
		strikes = nil
		e.settle()
		again = e.over()
	}
}

// arrive gives the memories of the instant and the flight their new values.
func (e *engine) arrive(t book.Time) {
	for _, n := range e.toBefore {
		x := e.p.gates[n].args[0]
		if e.p.gates[n].yes {
			v := e.val[x]
			e.put(n, &v)
		} else {
			e.putAlts(n, e.alts[x])
		}
	}
	e.toBefore = e.toBefore[:0]
	for _, n := range e.p.counts {
		if e.rose[n].any() {
			e.countUp(n)
		}
	}
	for ; e.nextGiven < len(e.p.given) && e.p.given[e.nextGiven].at <= t; e.nextGiven++ {
		m := e.p.given[e.nextGiven]
		var v word
		if m.to {
			v = all
		}
		e.put(m.node, &v)
	}
}

func (e *engine) countUp(n circuit.Node) {
	list := e.spare[:0]
	for _, a := range e.alts[n] {
		if up := a.in.and(e.rose[n]); up.any() {
			list = join(list, e.terms.constant(e.terms.list[a.term].value+1), up)
		}
		if rest := a.in.but(e.rose[n]); rest.any() {
			list = join(list, a.term, rest)
		}
	}
	e.rose[n] = word{}
	e.spare = list
	e.putAlts(n, list)
}

func (e *engine) strike(strikes [][]int) {
	hit := map[circuit.Node]word{}
	for lane, ways := range strikes {
		for _, w := range ways {
			v := hit[e.p.ways[w]]
			v.set(lane)
			hit[e.p.ways[w]] = v
		}
	}
	for n, v := range hit {
		v = v.or(e.val[n])
		e.put(n, &v)
	}
}

// settle repeats evaluation until no memory changes in any lane. Latches of a
// lane move only when its following memories stand (docs/meaning.md 3).
func (e *engine) settle() {
	for {
		e.evaluate()
		if e.passes++; e.passes > mostPasses {
			e.lost = e.lost.or(e.moving())
			clear(e.woken)
			return
		}
		followed := e.follow()
		if followed == all {
			continue
		}
		if !followed.any() && !e.waiting() {
			return
		}
		if latched := e.latch(followed).or(followed); !latched.any() {
			return
		}
	}
}

// moving are the lanes in which some memory would still change. To be safe all
// lanes are given up: it hardly ever happens.
func (e *engine) moving() word { return all }

// waiting says that some latching memory may change.
func (e *engine) waiting() bool {
	if e.beginsNow || len(e.actNow) > 0 {
		return true
	}
	for _, w := range e.woken {
		if w != 0 {
			return true
		}
	}
	return false
}

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
		case g.memory == circuit.GateHeld, g.memory == circuit.GatePulse:
			v := e.timer(n, g)
			if d := v.xor(e.val[n]); d.any() {
				changed = changed.or(d)
				news = append(news, setting{n: n, v: v})
			}
			return false
		}
		return g.memory == circuit.GateLatch
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
		if out == (g.memory == circuit.GateHeld) {
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

// latch gives the latching memories their new values, all from the same
// evaluation, in the lanes in which no following one changed.
func (e *engine) latch(followed word) (changed word) {
	may := all.but(followed)
	var news []setting
	e.eachWoken(func(n circuit.Node, g *gate) bool {
		if g.memory != circuit.GateLatch || g.kind != isMemory {
			return g.memory == circuit.GateHeld || g.memory == circuit.GatePulse || g.kind == isFrozen
		}
		v := e.val[n].or(e.val[g.args[0]]).but(e.val[g.args[1]])
		if d := v.xor(e.val[n]).and(may); d.any() {
			news = append(news, setting{n: n, v: e.val[n].xor(d)})
			changed = changed.or(d)
		}
		return followed.any()
	})
	news, acted := e.act(may, news)
	news, begun := e.begin(may, news)
	for _, s := range news {
		if s.list != nil {
			e.putAlts(s.n, s.list)
		} else {
			e.put(s.n, &s.v)
		}
	}
	return changed.or(acted).or(begun)
}

// act moves the controls of acts that fire.
func (e *engine) act(may word, news []setting) ([]setting, word) {
	var changed word
	moved := map[circuit.Node][]alt{}
	var order []circuit.Node
	for i, a := range e.p.acts {
		if !e.isAct[i] {
			continue
		}
		fire := e.val[a.When].but(e.settled[a.When]).but(e.fired[i]).and(may)
		if !fire.any() {
			continue
		}
		e.fired[i] = e.fired[i].or(fire)
		n := e.p.switch_[a.Control]
		list, ok := moved[n]
		if !ok {
			list = e.alts[n]
			order = append(order, n)
		}
		to := e.terms.constant(a.To)
		next := cut(nil, list, all.but(fire))
		moved[n] = join(next, to, fire)
	}
	for _, n := range order {
		for _, a := range moved[n] {
			for _, was := range e.alts[n] {
				if a.term != was.term {
					changed = changed.or(a.in.and(was.in))
				}
			}
		}
		news = append(news, setting{n: n, list: moved[n]})
	}
	return news, changed
}

// begin moves on to the next phase where it begins.
func (e *engine) begin(may word, news []setting) ([]setting, word) {
	var changed word
	if !e.beginsNow {
		return news, changed
	}
	now := make([]word, len(e.p.phases))
	for k, n := range e.p.phases {
		now[k] = e.val[n]
	}
	for k := len(now) - 1; k > 0; k-- {
		if e.p.begins[k] == circuit.None {
			continue
		}
		if on := e.val[e.p.phases[k-1]].and(e.val[e.p.begins[k]]).and(may); on.any() {
			now[k-1], now[k] = now[k-1].but(on), now[k].or(on)
			changed = changed.or(on)
		}
	}
	if !changed.any() {
		e.beginsNow = may != all
		return news, changed
	}
	for k, n := range e.p.phases {
		news = append(news, setting{n: n, v: now[k]})
	}
	return news, changed
}

// over makes the memories of the settled instant final. again says that another
// instant follows at the same moment in some lane.
func (e *engine) over() (again bool) {
	for _, a := range e.actNow {
		e.isAct[a] = false
	}
	e.actNow = e.actNow[:0]
	clear(e.fired)
	e.beginsNow = false
	clear(e.woken)
	list := e.touched
	for _, n := range list {
		again = e.finish(n) || again
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
func (e *engine) finish(n circuit.Node) (again bool) {
	g := &e.p.gates[n]
	for _, m := range g.wakes {
		switch mg := &e.p.gates[m]; {
		case mg.kind == isFrozen:
		case mg.memory == circuit.GateHeld, mg.memory == circuit.GatePulse:
			e.timers[m] = append(e.timers[m][:0], e.running[m]...)
		case mg.memory == circuit.GateBefore:
			e.toBefore = append(e.toBefore, m)
			again = again || !mg.stood && e.moved(m, mg)
		case mg.memory == circuit.GateCount:
			if up := e.val[n].but(e.settled[n]); up.any() {
				e.rose[m] = up
				again = true
			}
		case mg.memory == circuit.GateTotal:
			e.fresh = append(e.fresh, m)
		}
	}
	if g.kind == isFrozen {
		e.open[n], e.keptYes[n] = e.openNow[n], e.yesNow[n]
		e.kept[n] = append(e.kept[n][:0], e.keptNow[n]...)
	}
	return again
}

// moved says that a before is not what its operand is now.
func (e *engine) moved(n circuit.Node, g *gate) bool {
	if g.yes {
		return e.val[n] != e.val[g.args[0]]
	}
	return !sameAlts(e.alts[n], e.alts[g.args[0]])
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
				if e.terms.list[x].args[0] != rate.term {
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
		e.log[i] = append(l, entry{at: e.now, alts: append([]alt(nil), e.alts[n]...)})
	}
	if len(l) == 0 {
		e.logged = append(e.logged, i)
	}
}
