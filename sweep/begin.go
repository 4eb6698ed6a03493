package sweep

import (
	"fmt"

	"knockon/book"
	"knockon/circuit"
)

// snapshot is the flight without failures just before a moment, in all lanes.
type snapshot struct {
	at        book.Time // the moment: what happens at it has not happened yet
	state     state
	turns     []book.Time
	live      []circuit.Node
	nextGiven int
	toBefore  []circuit.Node
}

// before takes the state of the flight without failures just before a moment,
// from its record. The snapshot is good until the next one is taken.
func (e *engine) before(at book.Time) (*snapshot, error) {
	if at <= 0 || at > e.p.end {
		return nil, fmt.Errorf("a sweep strikes after the start of the flight and not after its end; %.1f s is not", at.Seconds())
	}
	b := &beginning{engine: e, at: at - 1, done: make([]bool, len(e.p.gates))}
	e.now = b.at
	e.reset()
	for i := range e.p.gates {
		b.value(circuit.Node(i))
	}
	for i := range e.p.gates {
		b.memory(circuit.Node(i))
	}
	if e.snapshot == nil {
		e.snapshot = &snapshot{state: *newState(len(e.p.gates))}
	}
	s := e.snapshot
	s.at, s.toBefore, s.nextGiven = at, b.toBefore, 0
	s.turns, s.live = append(s.turns[:0], e.turns...), append(s.live[:0], e.live...)
	s.state.copyFrom(&e.state, e.p)
	for s.nextGiven < len(e.p.given) && e.p.given[s.nextGiven].at < at {
		s.nextGiven++
	}
	return s, nil
}

// beginning fills in a state.
type beginning struct {
	*engine
	at       book.Time
	done     []bool
	toBefore []circuit.Node
}

// reset empties what a block leaves behind.
func (e *engine) reset() {
	clear(e.dirty)
	clear(e.woken)
	for _, n := range e.changed {
		e.ever[n], e.isEver[n] = word{}, false
	}
	for _, n := range e.touched {
		e.isTouch[n] = false
	}
	for _, n := range e.live {
		e.isLive[n] = false
	}
	for _, a := range e.actNow {
		e.isAct[a] = false
	}
	for _, i := range e.logged {
		e.log[i] = e.log[i][:0]
	}
	e.changed, e.touched, e.live, e.actNow, e.logged, e.fresh = e.changed[:0], e.touched[:0], e.live[:0], e.actNow[:0], e.logged[:0], e.fresh[:0]
	e.toBefore, e.lost, e.events, e.beginsNow = e.toBefore[:0], word{}, 0, false
	e.noted = e.noted[:0]
	clear(e.fired)
}

// load puts an engine into the state of a snapshot.
func (e *engine) load(s *snapshot) {
	e.reset()
	e.state.copyFrom(&s.state, e.p)
	copy(e.turns, s.turns)
	for _, n := range s.live {
		e.isLive[n] = true
	}
	e.live = append(e.live[:0], s.live...)
	e.nextGiven, e.toBefore = s.nextGiven, append(e.toBefore[:0], s.toBefore...)
}

// value gives a node its value at the moment.
func (b *beginning) value(n circuit.Node) {
	if b.done[n] {
		return
	}
	b.done[n] = true
	g := &b.p.gates[n]
	for _, a := range g.args {
		if b.p.c.Smooth(a) && !g.follows {
			b.value(a)
		}
	}
	v := 0.0
	if !b.p.c.Smooth(n) {
		v = b.p.there.At(n, b.at)
	}
	switch {
	case g.yes && v != 0:
		b.val[n] = all
	case g.yes:
		b.val[n] = word{}
	default:
		b.alts[n] = append(b.alts[n][:0], alt{b.term(n, g, v, b.termOf), all})
	}
}

// term is the term of a number or word that has a value at the moment; of gives that
// of what it reads.
func (b *beginning) term(n circuit.Node, g *gate, v float64, of func(circuit.Node) term) term {
	if !b.p.c.Smooth(n) {
		return b.terms.constant(v)
	}
	switch {
	case g.real >= 0:
		return b.terms.real(g.real)
	case g.op == circuit.GateBefore: // between moments it is what it reads
		return of(g.args[0])
	case g.kind == isMemory:
		if g.follows {
			of = b.ofItself(n)
		}
		return b.terms.total(n, b.p.there.At(n, b.at), b.at, of(g.args[0]))
	case g.kind == isFrozen:
		if b.p.there.At(g.args[1], b.at) != 0 {
			return b.terms.constant(b.p.there.At(n, b.at))
		}
		return of(g.args[0])
	case g.kind == isIf:
		if b.p.there.At(g.args[0], b.at) != 0 {
			return of(g.args[1])
		}
		return of(g.args[2])
	}
	var args []term
	for _, a := range g.args {
		args = append(args, of(a))
	}
	return b.terms.gate(n, args)
}

// ofItself gives the terms of what the rate of total n reads, in which the total
// stands for itself.
func (b *beginning) ofItself(n circuit.Node) (of func(circuit.Node) term) {
	known := map[circuit.Node]term{n: b.terms.self(n)}
	of = func(a circuit.Node) term {
		x, ok := known[a]
		if !ok {
			v := 0.0
			if !b.p.c.Smooth(a) {
				v = b.p.there.At(a, b.at)
			}
			x = b.term(a, &b.p.gates[a], v, of)
			known[a] = x
		}
		return x
	}
	return of
}

func (b *beginning) termOf(n circuit.Node) term {
	switch {
	case b.p.c.Smooth(n):
		return b.alts[n][0].term
	default:
		return b.terms.constant(b.p.there.At(n, b.at))
	}
}

// memory fills in what a node remembers beside its value, and when it turns.
func (b *beginning) memory(n circuit.Node) {
	g := &b.p.gates[n]
	if g.kept {
		b.keepSettled(n, g)
	}
	b.turns[n] = book.Never
	if !g.needed {
		return
	}
	b.rose[n] = word{}
	switch {
	case g.kind == isTest:
		was := b.val[n]
		b.test(n, g)
		if b.val[n] != was {
			b.val[n] = was // a comparison at its very edge: the record is right
		}
	case g.kind == isFrozen:
		b.open[n] = all.but(b.val[g.args[1]])
		b.openNow[n], b.keptYes[n], b.yesNow[n] = b.open[n], b.val[n], b.val[n]
		if !g.yes {
			b.kept[n] = append(b.kept[n][:0], alt{b.terms.constant(b.terms.at(b.alts[n][0].term, b.at)), all})
			b.keptNow[n] = append(b.keptNow[n][:0], b.kept[n]...)
		}
	case g.kind != isMemory:
	case g.op == circuit.GateHeld, g.op == circuit.GatePulse:
		b.timers[n] = b.timers[n][:0]
		if b.val[g.args[0]].any() {
			b.timers[n] = append(b.timers[n], since{b.risen(g.args[0]), all})
		}
		b.timer(n, g)
	case g.op == circuit.GateBefore:
		if in := b.moved(n, g); in.any() {
			b.toBefore = append(b.toBefore, n)
		}
	}
}

// risen is since when a node has been yes.
func (b *beginning) risen(n circuit.Node) book.Time {
	at := longAgo
	for _, ch := range b.p.there.History(n) {
		if ch.At > b.at {
			break
		}
		if ch.To != 0 {
			at = ch.At
		}
	}
	return at
}
