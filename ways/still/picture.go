package still

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ways/logic"
)

// picture is the state of the circuit for all failures at once. It goes through
// the steps of docs/meaning.md, section 3, with terms for values.
type picture struct {
	c      *circuit.Circuit
	t      *circuit.Trace
	at     book.Time
	l      *logic.Logic
	calc   *circuit.Calculator
	struck []logic.Term // by way to fail
	prints *prints

	wanted  []bool           // by node: it is wanted, or something wanted is worked out from it
	reached []bool           // by node: some failure reaches it
	builtUp []bool           // by node: it reads a total that failures would move
	list    []circuit.Node   // those that are reached, in order
	readers [][]circuit.Node // by node: those that are reached and read it
	stale   []bool           // by node: what it is worked out from has changed
	value   []value          // by node
	memory  []value          // by node: what a memory holds
	settled []value          // by node: when the last instant was over
	kept    []value          // by node: of a frozen value
	now     book.Time        // since the failures struck
	timed   []circuit.Node   // timers, in order
	timers  map[circuit.Node]*timer
	fired   []logic.Term // by act: when it has fired in this instant
	acts    []circuit.ActOf
	// by holds what a memory was last worked out from: set and reset of a latch,
	// x and whether it has lasted of a timer, x and whether it is closed of a
	// frozen value.
	by      map[circuit.Node][2]logic.Term
	control map[int]circuit.Node // by number
}

// newPicture is one of what is wanted and all that it is worked out from.
func newPicture(t *circuit.Trace, at book.Time, l *logic.Logic, ps *prints, wanted []circuit.Node) *picture {
	c := t.Circuit()
	n := c.Size()
	p := &picture{
		c: c, t: t, at: at, l: l, calc: circuit.NewCalculator(c), acts: c.Acts(),
		struck: make([]logic.Term, len(c.Ways())), reached: make([]bool, n), builtUp: make([]bool, n),
		value: make([]value, n), memory: make([]value, n), kept: make([]value, n),
		control: map[int]circuit.Node{}, prints: ps, wanted: make([]bool, n), by: map[circuit.Node][2]logic.Term{},
		timers: map[circuit.Node]*timer{}, stale: make([]bool, n), readers: make([][]circuit.Node, n),
	}
	for i := range n {
		if g := c.Gate(circuit.Node(i)); g.Kind == circuit.GateSwitch {
			p.control[int(g.Num)] = circuit.Node(i)
		}
	}
	p.need(wanted)
	p.spread()
	for i := range n {
		node := circuit.Node(i)
		p.value[i] = p.constant(node, p.before(node))
		p.memory[i], p.kept[i] = p.value[i], p.value[i]
		if g := c.Gate(node); g.Kind == circuit.GateFrozen {
			p.close(node, g)
		}
	}
	p.connect()
	p.acts = slices.DeleteFunc(p.acts, func(a circuit.ActOf) bool { return !p.wanted[p.control[a.Control]] })
	p.fired = make([]logic.Term, len(p.acts))
	return p
}

// close prepares the memory of a frozen value: whether it is closed, and what
// it keeps from the moment at which it closes.
func (p *picture) close(n circuit.Node, g circuit.Gate) {
	p.memory[n] = value{yes: logic.True}
	if p.before(g.Args[1]) == 0 {
		p.memory[n] = value{yes: logic.False}
		p.kept[n] = p.constant(n, p.before(g.Args[0]))
	}
}

// before is a node's value without failures.
func (p *picture) before(n circuit.Node) float64 { return p.t.At(n, p.at) }

// need marks what nodes are worked out from, by way of acts too.
func (p *picture) need(nodes []circuit.Node) {
	for _, n := range nodes {
		if p.wanted[n] {
			continue
		}
		p.wanted[n] = true
		g := p.c.Gate(n)
		p.need(g.Args)
		for _, a := range p.acts {
			if g.Kind == circuit.GateSwitch && a.Control == int(g.Num) {
				p.need([]circuit.Node{a.When})
			}
		}
	}
}

// spread finds the nodes that failures reach. What they do not reach stays as
// it is. A total stands still with the flight.
func (p *picture) spread() {
	p.flood(p.reached, p.isReached)
	p.flood(p.builtUp, p.isBuiltUp)
	for i, r := range p.reached {
		if r && p.wanted[i] {
			p.list = append(p.list, circuit.Node(i))
		}
	}
}

// flood marks nodes, and the controls that marked conditions move, for as long
// as there are more to mark.
func (p *picture) flood(marked []bool, is func(circuit.Node) bool) {
	for changed := true; changed; {
		changed = false
		for i := range marked {
			if n := circuit.Node(i); !marked[i] && is(n) {
				marked[i], changed = true, true
			}
		}
		for _, a := range p.acts {
			if n := p.control[a.Control]; marked[a.When] && !marked[n] {
				marked[n], changed = true, true
			}
		}
	}
}

func (p *picture) isBuiltUp(n circuit.Node) bool {
	g := p.c.Gate(n)
	return slices.ContainsFunc(g.Args, func(a circuit.Node) bool {
		return p.builtUp[a] || g.Kind == circuit.GateTotal && p.reached[a]
	})
}

func (p *picture) isReached(n circuit.Node) bool {
	g := p.c.Gate(n)
	switch g.Kind {
	case circuit.GateWay:
		return p.before(n) == 0
	case circuit.GateGiven, circuit.GateTotal, circuit.GateSwitch:
		return false
	}
	return slices.ContainsFunc(g.Args, func(a circuit.Node) bool { return p.reached[a] })
}

// mostRounds bounds how often the picture may change before it is said never to
// settle.
const mostRounds = 60

// mostMoments bounds the moments at which timers run out.
const mostMoments = 5000

// develop lets the failures strike, works out what follows at once, and then
// what follows at each moment at which for some failures a timer runs out.
func (p *picture) develop() error {
	p.settled = slices.Clone(p.value)
	p.start()
	for range mostMoments {
		if err := p.instants(); err != nil {
			return err
		}
		if p.now = p.next(); p.now == book.Never {
			return nil
		}
		p.runOut()
	}
	return p.unsettled()
}

// instants works out instants until none follows at the same moment.
func (p *picture) instants() error {
	for range mostRounds {
		clear(p.fired)
		if err := p.settle(); err != nil {
			return err
		}
		if !p.over() {
			return nil
		}
	}
	return p.unsettled()
}

func (p *picture) settle() error {
	for range mostRounds {
		p.evaluate()
		if !p.follow() && !p.latch() {
			return nil
		}
	}
	return p.unsettled()
}

func (p *picture) unsettled() error {
	return fmt.Errorf("at %.0f s some failures make a loop that does not settle", p.at.Seconds())
}

// connect notes who reads what. All that is reached is to be worked out.
func (p *picture) connect() {
	for _, n := range p.list {
		p.stale[n] = true
		for _, a := range p.c.Gate(n).Args {
			p.readers[a] = append(p.readers[a], n)
		}
	}
}

// evaluate works out every node that reads what has changed.
func (p *picture) evaluate() {
	for _, n := range p.list {
		if !p.stale[n] {
			continue
		}
		p.stale[n] = false
		v := p.node(n)
		if v.is(p.value[n]) || p.equal(n, p.value[n], v) {
			continue
		}
		p.value[n] = v
		for _, r := range p.readers[n] {
			p.stale[r] = true
		}
	}
}

func (p *picture) node(n circuit.Node) value {
	g := p.c.Gate(n)
	switch g.Kind {
	case circuit.GateWay:
		return value{yes: p.struck[int(g.Num)]}
	case circuit.GateSwitch, circuit.GateLatch, circuit.GateHeld, circuit.GatePulse, circuit.GateBefore, circuit.GateCount:
		return p.memory[n]
	case circuit.GateFrozen:
		// The memory says when it is closed.
		if p.memory[n].lost != "" {
			return value{lost: p.memory[n].lost}
		}
		return p.pick(n, p.memory[n].yes, p.kept[n], p.value[g.Args[0]])
	case circuit.GateIf:
		cond := p.value[g.Args[0]]
		if cond.lost != "" {
			return value{lost: cond.lost}
		}
		return p.pick(n, cond.yes, p.value[g.Args[1]], p.value[g.Args[2]])
	}
	for _, a := range g.Args {
		if p.value[a].lost != "" {
			return value{lost: p.value[a].lost}
		}
	}
	return p.gate(n, g)
}

func (p *picture) gate(n circuit.Node, g circuit.Gate) value {
	switch g.Kind {
	case circuit.GateMinus, circuit.GateTest, circuit.GatePlain:
		return p.plain(n, g.Args)
	}
	terms := make([]logic.Term, len(g.Args))
	for i, a := range g.Args {
		terms[i] = p.value[a].yes
	}
	switch g.Kind {
	case circuit.GateNot:
		return value{yes: terms[0].Not()}
	case circuit.GateAnd:
		return value{yes: p.l.And(terms...)}
	case circuit.GateOr:
		return value{yes: p.l.Or(terms...)}
	}
	return value{yes: p.l.AtLeast(int(g.Num), terms...)}
}
