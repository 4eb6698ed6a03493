package oracle

import "knockon/book"

// node is an expression of the book with its ids looked up. Every node has a
// slot, and a value in it after every evaluation. An opPart has the slot of
// the part that it reads.
type node struct {
	op    book.Op
	typ   book.Type
	slot  int
	in    []int // the slots of its arguments
	args  []*node
	num   float64   // of literals, counts of at_least, phases
	part  *part     // opPart
	cell  *cell     // opCell, opPhase
	real  int       // OpReal: index of book.Quantities
	law   string    // OpLaw: its name
	table []float64 // of the law between

	timer  *timer  // OpHeld, OpPulse
	before *before // OpBefore
	frozen *frozen // OpFrozen
	total  *total  // OpTotal
	count  *count  // OpCount
	holds  *holds  // opHolds
}

// step is a node where an evaluation works it out, with what logic needs of it beside
// it: most nodes are that, and an evaluation goes over all of them.
type step struct {
	op    book.Op
	logic bool
	slot  int
	num   float64
	in    []int
	node  *node
}

// Operations that no book can write.
const (
	opPart  book.Op = 200 + iota // the value of a part
	opCell                       // what a cell holds
	opPhase                      // whether the cell holds num
	opGiven                      // can be given, quiet: the alert is given
	opHolds                      // a value, or what it is held to be
)

// still tells whether a node has nothing to be worked out: a literal, or a
// part, which has been worked out before.
func (n *node) still() bool {
	return n.op == opPart || n.op == book.OpYesNo || n.op == book.OpNumber || n.op == book.OpWord
}

// read is the node that works out what n reads: n itself unless it is an opPart.
func (n *node) read() *node {
	for n.op == opPart {
		n = n.part.root
	}
	return n
}

// part is one value of one item, worked out once in an evaluation.
type part struct {
	Aspect
	root *node
}

// unit is what can fail about a unit, and its reset.
type unit struct {
	failed  *cell
	faults  map[string]*cell
	resetBy *node
	reset   rise
}

// timer is the memory of a held or a pulse.
type timer struct {
	self, x *node
	lasts   book.Time
	since   book.Time // of x, if x was yes when the last instant was over
	value   float64
}

// before is the memory of a before: the left limit of x.
type before struct {
	x     *node
	value float64
}

// frozen is the memory of a frozen.
type frozen struct {
	x, when   *node
	closed    bool
	kept      float64
	wasClosed bool    // when the last instant was over
	wasKept   float64 // then
	left      float64 // limit of x at this instant
}

// total is the memory of a total. The sum is kept in units of x times 2^20
// microseconds: steps of whole microseconds then add up without rounding.
type total struct {
	x     *node
	bound *book.Bounds
	sum   float64
	slope float64 // rise of x from the last moment to this one
	value float64
}

// count is the memory of a count.
type count struct {
	x     *node
	value float64
}

// latch is a signal with a memory.
type latch struct {
	set, reset *node
	cell       *cell
}
