package sweep

import (
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
	if len(e.puts) > 0 {
		t = e.puts[0].at
	}
	if e.nextGiven < len(e.p.given) {
		t = min(t, e.p.given[e.nextGiven].at)
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
	for {
		e.arrive(t)
		e.strike(strikes)
		strikes = nil
		e.putDue(t)
		e.settle()
		again := e.over()
		if e.passes > mostPasses {
			e.lost = e.lost.or(again)
		}
		if again = again.but(e.lost); !again.any() {
			return
		}
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

// put is a node that is yes, or no again, in some lanes from a moment on.
type put struct {
	at   book.Time
	node circuit.Node
	on   bool
	in   word
}

func (e *engine) putDue(t book.Time) {
	for ; len(e.puts) > 0 && e.puts[0].at <= t; e.puts = e.puts[1:] {
		x := e.puts[0]
		v := e.val[x.node].or(x.in)
		if !x.on {
			v = e.val[x.node].but(x.in)
		}
		e.put(x.node, &v)
	}
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
// lane move only when its following memories stand (docs/meaning.md 3). Lanes
// that do not settle are given up.
func (e *engine) settle() {
	for {
		e.evaluate()
		e.passes++
		changed := e.follow()
		if changed != all && (changed.any() || e.waiting()) {
			changed = changed.or(e.latch(changed))
		}
		if e.passes > mostPasses {
			e.lost = e.lost.or(changed)
		}
		if going := changed.but(e.lost); !going.any() {
			return
		}
	}
}

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
