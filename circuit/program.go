package circuit

import (
	"slices"

	"knockon/book"
)

// program is what finish derives: who reads whom, what is continuous, and
// where the memories are. All lists are in the order of the nodes.
type program struct {
	fanout    [][]Node // nodes that are evaluated again when this one changes
	smooth    []bool   // a number that may change between instants
	flowing   []Node   // the smooth nodes
	places    []int32  // a smooth node's place in flowing; -1: it is steady
	rim       []Node   // steady nodes that read smooth ones
	reals     []Node
	latches   []Node
	timers    []Node // held and pulse
	befores   []Node // before and stood
	frozens   []Node
	totals    []Node
	counts    []Node
	tests     []test    // comparisons of smooth numbers
	levels    []gauged  // of tests
	testFeeds [][]int32 // steady node -> tests to search again when it changes
	rates     [][]Node  // per total: the smooth nodes under its rate
	ratesRead []test    // per total: what else its rate reads
	follows   []bool    // per total: its rate follows the total itself
	slots     []int32   // a memory's place in the list of its kind
}

// test is a comparison whose truth can change between instants.
type test struct {
	node Node
	cone []Node // smooth nodes that it reads, in order
	pure bool   // reads only real.* numbers and constants

	levelled bool // one real.* number and a constant: see gauged

	steady, frozen, totals []Node // that it reads: beside the cone, and in it
	recalls                bool   // it reads no total of a rate that is not steady: see lore
}

func (k *compiler) finish() {
	c := k.Circuit
	n := len(c.ops)
	c.fanout, c.smooth = make([][]Node, n), make([]bool, n)
	c.slots = make([]int32, n)
	for i := range c.ops {
		c.place(Node(i))
	}
	for c.spreadBefore() {
	}
	c.flow()
	for i := range c.ops {
		if n := Node(i); !c.smooth[n] && c.anySmooth(n) {
			c.rim = append(c.rim, n)
		}
	}
	c.findTests()
	c.groupLevels()
	for _, t := range c.totals {
		under := c.under(c.operands(t)[0])
		c.rates, c.ratesRead = append(c.rates, under.cone), append(c.ratesRead, under)
	}
	for i, n := range c.totals {
		c.follows = append(c.follows, slices.Contains(c.rates[i], n))
	}
	k.refuseRings()
}

// refuseRings refuses totals that follow each other with no comparison between. One
// may follow itself. book.Load refuses such a book before.
func (k *compiler) refuseRings() {
	for i, n := range k.totals {
		for j, m := range k.totals[:i] {
			if slices.Contains(k.rates[i], m) && slices.Contains(k.rates[j], n) {
				k.refuse("%s: two totals of each other with no comparison between", k.ops[n].where)
			}
		}
	}
}

// delayed says that a node reads its i-th operand through a memory.
func delayed(o code, i int) bool {
	switch o {
	case cLatch, cHeld, cPulse, cBefore, cStood, cTotal, cCount:
		return true
	case cFrozen:
		return i == 1
	}
	return false
}

func (c *Circuit) place(n Node) {
	o := &c.ops[n]
	flows := (o.code == cReal && o.kind == book.Number) || o.code == cTotal
	for i, a := range c.operands(n) {
		if delayed(o.code, i) {
			continue
		}
		c.fanout[a] = append(c.fanout[a], n)
		flows = flows || (o.kind == book.Number && c.smooth[a])
	}
	if flows {
		c.smooth[n] = true
	}
	c.list(n)
}

// spreadBefore makes before(x) of a smooth number smooth, and what reads it.
func (c *Circuit) spreadBefore() (changed bool) {
	for i := range c.ops {
		n, o := Node(i), &c.ops[i]
		if c.smooth[n] || o.kind != book.Number {
			continue
		}
		for j, a := range c.operands(n) {
			if c.smooth[a] && (o.code == cBefore || !delayed(o.code, j)) {
				c.smooth[n], changed = true, true
			}
		}
	}
	return changed
}

// flow lists the smooth nodes, operands first.
func (c *Circuit) flow() {
	seen := make([]bool, len(c.ops))
	var visit func(n Node)
	visit = func(n Node) {
		if seen[n] || !c.smooth[n] {
			return
		}
		seen[n] = true
		for i, a := range c.operands(n) {
			if !delayed(c.ops[n].code, i) || c.ops[n].code == cBefore {
				visit(a)
			}
		}
		c.flowing = append(c.flowing, n)
	}
	for i := range c.ops {
		visit(Node(i))
	}
	c.places = make([]int32, len(c.ops))
	for i := range c.places {
		c.places[i] = -1
	}
	for i, n := range c.flowing {
		c.places[n] = int32(i)
	}
}

func (c *Circuit) list(n Node) {
	switch c.ops[n].code {
	case cReal:
		c.program.reals = append(c.program.reals, n)
	case cLatch:
		c.slots[n] = int32(len(c.latches))
		c.latches = append(c.latches, n)
	case cHeld, cPulse:
		c.slots[n] = int32(len(c.timers))
		c.timers = append(c.timers, n)
	case cBefore, cStood:
		c.slots[n] = int32(len(c.befores))
		c.befores = append(c.befores, n)
	case cFrozen:
		c.slots[n] = int32(len(c.frozens))
		c.frozens = append(c.frozens, n)
	case cTotal:
		c.slots[n] = int32(len(c.totals))
		c.totals = append(c.totals, n)
	case cCount:
		c.slots[n] = int32(len(c.counts))
		c.counts = append(c.counts, n)
	}
}

func (c *Circuit) findTests() {
	c.testFeeds = make([][]int32, len(c.ops))
	for i := range c.ops {
		n := Node(i)
		if o := &c.ops[i]; o.code < cEq || o.code > cGe || !c.anySmooth(n) {
			continue
		}
		t := test{node: n, pure: true, recalls: true}
		seen := map[Node]bool{}
		for _, a := range c.operands(n) {
			c.cone(a, seen, &t, int32(len(c.tests)))
		}
		c.tests = append(c.tests, t)
	}
}

func (c *Circuit) anySmooth(n Node) bool {
	for i, a := range c.operands(n) {
		if c.smooth[a] && !delayed(c.ops[n].code, i) {
			return true
		}
	}
	return false
}

// noTest is the number of a cone that is no test's.
const noTest = -1

// feed notes that a change of a node makes a test worth searching again.
func (c *Circuit) feed(n Node, number int32) {
	if number != noTest {
		c.testFeeds[n] = append(c.testFeeds[n], number)
	}
}

// cone collects the smooth nodes under a test, operands first, and notes the
// steady ones whose change makes the test worth searching again.
func (c *Circuit) cone(n Node, seen map[Node]bool, t *test, number int32) {
	if seen[n] {
		return
	}
	seen[n] = true
	o := &c.ops[n]
	if !c.smooth[n] {
		if o.code != cConst {
			t.pure = false
			t.steady = append(t.steady, n)
			c.feed(n, number)
		}
		return
	}
	if o.code >= cLatch && o.code <= cCount {
		t.pure = false
	}
	for i, a := range c.operands(n) {
		if !delayed(o.code, i) || o.code == cTotal || o.code == cBefore {
			c.cone(a, seen, t, number)
		}
	}
	switch o.code {
	case cFrozen:
		t.frozen = append(t.frozen, n)
	case cTotal:
		t.totals = append(t.totals, n)
		t.recalls = t.recalls && !c.smooth[c.operands(n)[0]]
	}
	if o.code == cFrozen || o.code == cTotal {
		c.feed(n, number)
	}
	t.cone = append(t.cone, n)
}

// smoothUnder lists the smooth nodes that n reads, n included, operands first.
func (c *Circuit) smoothUnder(n Node) []Node {
	if !c.smooth[n] {
		return nil
	}
	return c.under(n).cone
}

// under is what a number reads, as a test of it would.
func (c *Circuit) under(n Node) (t test) {
	c.cone(n, map[Node]bool{}, &t, noTest)
	return t
}
