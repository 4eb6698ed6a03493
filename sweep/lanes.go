package sweep

import (
	"math/bits"
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// width is how many machine words hold one yes/no of all lanes.
const width = 8

// lanes is how many scenarios are worked out at once. Lane 0 has no failure.
const lanes = 64 * width

// word is one yes/no of all lanes.
type word [width]uint64

var all = word{^uint64(0), ^uint64(0), ^uint64(0), ^uint64(0), ^uint64(0), ^uint64(0), ^uint64(0), ^uint64(0)}

func (w *word) any() bool { return w[0]|w[1]|w[2]|w[3]|w[4]|w[5]|w[6]|w[7] != 0 }

func (w word) and(o word) word {
	for i := range w {
		w[i] &= o[i]
	}
	return w
}

func (w word) or(o word) word {
	for i := range w {
		w[i] |= o[i]
	}
	return w
}

func (w word) xor(o word) word {
	for i := range w {
		w[i] ^= o[i]
	}
	return w
}

func (w word) but(o word) word {
	for i := range w {
		w[i] &^= o[i]
	}
	return w
}

func (w word) has(lane int) bool { return w[lane>>6]>>(lane&63)&1 != 0 }

func (w *word) set(lane int) { w[lane>>6] |= 1 << (lane & 63) }

// spread is the value of lane 0 in all lanes.
func (w word) spread() word {
	v := -(w[0] & 1)
	return word{v, v, v, v, v, v, v, v}
}

// each calls visit for every lane in a word.
func (w word) each(visit func(lane int)) {
	for i, v := range w {
		for ; v != 0; v &= v - 1 {
			visit(i<<6 + bits.TrailingZeros64(v))
		}
	}
}

// alt is a term and the lanes that have it. The alternatives of a node have all
// lanes between them, each once.
type alt struct {
	term term
	in   word
}

// since is a moment and the lanes in which an operand has been yes since then.
type since struct {
	at book.Time
	in word
}

// state is what all nodes and memories are in all lanes.
type state struct {
	val     []word  // yes/no nodes
	alts    [][]alt // the others
	settled []word  // when the last instant was over, of nodes that need it
	stood   [][]alt // the same
	timers  [][]since
	running [][]since // in the present evaluation
	open    []word    // frozen nodes, settled
	openNow []word
	kept    [][]alt // frozen nodes: what they keep
	keptNow [][]alt
	keptYes []word
	yesNow  []word
	rose    []word // counts: goes up at the next instant
}

func newState(n int) *state {
	words := make([]word, 7*n)
	cut := func() []word {
		w := words[:n:n]
		words = words[n:]
		return w
	}
	return &state{
		val: cut(), settled: cut(), open: cut(), openNow: cut(), keptYes: cut(), yesNow: cut(), rose: cut(),
		alts: make([][]alt, n), stood: make([][]alt, n), timers: make([][]since, n), running: make([][]since, n),
		kept: make([][]alt, n), keptNow: make([][]alt, n),
	}
}

// copyFrom takes over another state of the same program.
func (s *state) copyFrom(o *state, p *program) {
	copy(s.val, o.val)
	for _, n := range p.numbers {
		s.alts[n] = append(s.alts[n][:0], o.alts[n]...)
	}
	for _, n := range p.keeps {
		s.settled[n] = o.settled[n]
		s.stood[n] = append(s.stood[n][:0], o.stood[n]...)
	}
	for _, n := range p.timers {
		s.timers[n] = append(s.timers[n][:0], o.timers[n]...)
		s.running[n] = append(s.running[n][:0], o.running[n]...)
	}
	for _, n := range p.frozens {
		s.open[n], s.openNow[n], s.keptYes[n], s.yesNow[n] = o.open[n], o.openNow[n], o.keptYes[n], o.yesNow[n]
		s.kept[n] = append(s.kept[n][:0], o.kept[n]...)
		s.keptNow[n] = append(s.keptNow[n][:0], o.keptNow[n]...)
	}
	for _, n := range p.counts {
		s.rose[n] = o.rose[n]
	}
}

// engine works out one block of lanes. It is not safe for concurrent use.
type engine struct {
	p     *program
	terms *terms
	state

	now       book.Time
	dirty     []uint64 // nodes to work out
	woken     []uint64 // memories that may change
	touched   []circuit.Node
	isTouch   []bool
	ever      []word         // per node: lanes in which it was ever something else than in lane 0
	changed   []circuit.Node // nodes whose ever is not empty
	isEver    []bool
	fired     []word  // per act, in this instant
	actNow    []int32 // acts whose condition changed in this instant
	isAct     []bool
	turns     []book.Time    // per node: a comparison's next turn, or a timer's end
	live      []circuit.Node // nodes that have one
	isLive    []bool
	nextGiven int
	puts      []put          // what is still to be held or let go, in order
	toBefore  []circuit.Node // befores that take a new value at the next instant
	beginsNow bool
	lost      word // lanes that the engine gave up on
	passes    int
	events    int
	log       [][]entry      // per watched node
	logged    []int32        // watched nodes with a log
	fresh     []circuit.Node // totals with a new rate in this instant

	snapshot *snapshot
	noted    []alt // what the log's entries hold
	picked   []term
	mixed    []alt
	spare    []alt
}

// entry is a watched node's value from a moment on.
type entry struct {
	at   book.Time
	in   word
	alts []alt
}

func newEngine(p *program) *engine {
	n := len(p.gates)
	return &engine{
		p: p, terms: newTerms(p), state: *newState(n),
		dirty: make([]uint64, n/64+1), woken: make([]uint64, n/64+1), isTouch: make([]bool, n),
		ever: make([]word, n), isEver: make([]bool, n), fired: make([]word, len(p.acts)), isAct: make([]bool, len(p.acts)),
		turns: make([]book.Time, n), isLive: make([]bool, n), log: make([][]entry, len(p.watched)),
	}
}

func (e *engine) mark(n circuit.Node) { e.dirty[n>>6] |= 1 << (n & 63) }
func (e *engine) wake(n circuit.Node) { e.woken[n>>6] |= 1 << (n & 63) }

// put gives a yes/no node its value.
func (e *engine) put(n circuit.Node, w *word) {
	if e.val[n] == *w {
		return
	}
	e.val[n] = *w
	var d word
	usual := -(w[0] & 1)
	for i, x := range w {
		d[i] = x ^ usual
	}
	e.differ(n, &d)
	e.touch(n)
}

// differ notes the lanes in which a node is not what it is in lane 0.
func (e *engine) differ(n circuit.Node, w *word) {
	if !w.any() {
		return
	}
	ever := &e.ever[n]
	for i, x := range w {
		ever[i] |= x
	}
	if !e.isEver[n] {
		e.isEver[n] = true
		e.changed = append(e.changed, n)
	}
}

// touch notes a change of a node and passes it on.
func (e *engine) touch(n circuit.Node) {
	if !e.isTouch[n] {
		e.isTouch[n] = true
		e.touched = append(e.touched, n)
	}
	g := &e.p.gates[n]
	for _, r := range g.readers {
		e.mark(r)
	}
	for _, m := range g.wakes {
		e.wake(m)
	}
	for _, a := range g.acts {
		if !e.isAct[a] {
			e.isAct[a] = true
			e.actNow = append(e.actNow, a)
		}
	}
	e.beginsNow = e.beginsNow || g.begins
}

// putAlts gives another node its alternatives, which the caller keeps.
func (e *engine) putAlts(n circuit.Node, list []alt) {
	if sameAlts(e.alts[n], list) {
		return
	}
	e.alts[n] = append(e.alts[n][:0], list...)
	for _, a := range list {
		if a.in.has(0) {
			d := all.but(a.in)
			e.differ(n, &d)
		}
	}
	e.touch(n)
}

func sameAlts(a, b []alt) bool {
	if len(a) != len(b) {
		return false
	}
	for _, x := range a {
		if !slices.Contains(b, x) {
			return false
		}
	}
	return true
}

// join adds lanes with a term to a list of alternatives.
func join(list []alt, x term, in word) []alt {
	for i := range list {
		if list[i].term == x {
			list[i].in = list[i].in.or(in)
			return list
		}
	}
	return append(list, alt{x, in})
}

// termIn is the term that a node has in a lane.
func termIn(list []alt, lane int) term {
	for _, a := range list {
		if a.in.has(lane) {
			return a.term
		}
	}
	panic("sweep: a lane without a value")
}
