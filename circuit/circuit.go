// Package circuit turns one build of a book into a flat, ordered program and
// evaluates it.
//
// Invariant: a Circuit never changes after Compile; a Machine holds all that
// does, so any number of runs may share one circuit. The meaning implemented
// here is that of docs/meaning.md, sections 1 to 4.
//
// Start reading at Compile (compile.go), then Machine.Instant (machine.go),
// then Machine.NextCrossing (crossing.go).
package circuit

import (
	"fmt"

	"knockon/book"
)

// Node is one value of the program: its index. Operands come before the node
// that uses them, except through memories.
type Node int32

// None is no node.
const None Node = -1

// Aspect is which of an item's values is meant.
type Aspect string

// Aspects. Main is the one that a bare id means in an expression; for an
// indication it is what is shown.
const (
	Main     Aspect = ""
	Failed   Aspect = "failed"    // unit: plain loss; a fault's aspect is its id
	Wanted   Aspect = "wanted"    // function
	Believed Aspect = "believed"  // alert
	Possible Aspect = "possible"  // alert: believed, can be given, not until
	HeldBack Aspect = "held back" // alert
	False    Aspect = "false"     // alert
	ByText   Aspect = "text"      // alert: given, and shown as text; where it has that way
	ByLight  Aspect = "light"     // the same of a light
	BySound  Aspect = "sound"     // the same of a sound
	Lit      Aspect = "lit"       // indication
	Means    Aspect = "means"     // indication
	Wrong    Aspect = "wrong"     // indication
	Flyable  Aspect = "flyable"   // aircraft
	CrewAble Aspect = "crew_able" // aircraft
	Noticed  Aspect = "noticed"   // function: what its loss is noticed by can be seen, and is so
)

// Value names a value that can be asked for: an item and an aspect of it.
type Value struct {
	Item   string
	Aspect Aspect
}

func (v Value) String() string {
	if v.Aspect == Main {
		return v.Item
	}
	return v.Item + " " + string(v.Aspect)
}

// Circuit is a compiled build.
type Circuit struct {
	Build *book.Build
	holds []string // items that can be held

	ops   []op
	args  []Node // operand pool
	words []string
	named []Named
	index map[Value]Node
	names map[Node]Value // the first name of a node
	watch []watched

	ways      []book.FailureRef // way number -> unit or unit.fault
	wayOf     map[book.FailureRef]int
	wayNode   []Node
	controlOf map[string]int
	controls  []control
	acts      []act
	phases    []phase
	phaseNode Node
	resets    []reset

	program // what finish derives from the above
}

// Named is a value with its name, in the order of the book.
type Named struct {
	Value Value
	Node  Node
	Type  book.Type
}

type control struct {
	id      string
	node    Node
	initial float64
}

type act struct {
	when    Node
	control int
	to      float64
	source  book.Range
	title   string
}

type phase struct {
	id     string
	begins Node
	node   Node
}

type reset struct {
	unit string
	when Node
}

// op is one operation. Its operands are args[first : first+n].
type op struct {
	code  code
	kind  book.Type
	n     int32
	first int32
	num   float64
	item  string     // the item in whose text the operation stands
	where book.Range // its place there
	expr  *book.Expr // what it was compiled from, nil for what no one wrote
	law   func(x, y float64) float64
}

type code uint8

const (
	cConst   code = iota
	cReal         // num: index of the quantity
	cWay          // num: index of the failure way
	cControl      // num: index of the control
	cPhase        // the current phase's number
	cIsPhase      // num: phase number; arg: cPhase
	cLatch        // args: set, reset (delayed); num: initial
	cHeld         // arg: x (delayed); num: seconds
	cPulse        // arg: x (delayed); num: seconds
	cBefore       // arg: x (delayed)
	cStood        // like cBefore, but asks for no further instant
	cFrozen       // args: x, when (delayed)
	cTotal        // arg: x (delayed)
	cCount        // arg: x (delayed)
	cNot
	cAnd
	cOr
	cAtLeast // num: k
	cSame    // words or yes/no: equal
	cDiffer
	cEq // numbers
	cNe
	cLt
	cLe
	cGt
	cGe
	cAdd
	cSub
	cMul
	cDiv
	cNeg
	cAbs
	cMin
	cMax
	cLaw // args: of the law, in its order
	cIf  // args: condition, then, else
)

// operands of a node.
func (c *Circuit) operands(n Node) []Node {
	o := &c.ops[n]
	return c.args[o.first : o.first+o.n]
}

// Node returns the node of a value; ok is false if this build has no such value.
func (c *Circuit) Node(v Value) (n Node, ok bool) { n, ok = c.index[v]; return n, ok }

// Values lists every named value in the order of the book.
func (c *Circuit) Values() []Named { return c.named }

// watched is an expression that is observed, and its node.
type watched struct {
	expr *book.Expr
	node Node
}

// WatchOf returns the node of an expression given to Compile or Watching.
func (c *Circuit) WatchOf(e *book.Expr) (n Node, ok bool) {
	for _, w := range c.watch {
		if w.expr == e {
			return w.node, true
		}
	}
	return None, false
}

// Size returns the number of nodes.
func (c *Circuit) Size() int { return len(c.ops) }

// Type returns the type of a node's value.
func (c *Circuit) Type(n Node) book.Type { return c.ops[n].kind }

// Source returns the item in whose text a node stands, its place and its
// expression (nil for a value that the language defines itself).
func (c *Circuit) Source(n Node) (item string, where book.Range, expr *book.Expr) {
	o := &c.ops[n]
	return o.item, o.where, o.expr
}

// Text gives a node's value as a person reads it.
func (c *Circuit) Text(n Node, v float64) string {
	switch c.ops[n].kind {
	case book.YesNo:
		if v != 0 {
			return "yes"
		}
		return "no"
	case book.Word:
		return c.WordText(v)
	}
	return fmt.Sprintf("%.6g", v)
}

// WordText gives the word that a value of type word stands for.
func (c *Circuit) WordText(v float64) string {
	if i := int(v); i >= 0 && i < len(c.words) {
		return c.words[i]
	}
	return ""
}

// Ways lists every way in which one unit can fail, in the order of the book:
// plain loss of each unit, followed by its faults.
func (c *Circuit) Ways() []book.FailureRef { return c.ways }

// Expand turns references (units, faults, events) into way numbers, each once,
// in order; bad is the first reference that this build does not have.
func (c *Circuit) Expand(refs []book.FailureRef) (ways []int, bad *book.FailureRef) {
	seen := map[int]bool{}
	for _, ref := range refs {
		for _, r := range c.membersOf(ref) {
			w, ok := c.wayOf[bare(r)]
			if !ok {
				return nil, &book.FailureRef{Unit: ref.Unit, Fault: ref.Fault, Range: ref.Range}
			}
			if !seen[w] {
				seen[w] = true
				ways = append(ways, w)
			}
		}
	}
	return ways, nil
}

func (c *Circuit) membersOf(ref book.FailureRef) []book.FailureRef {
	if item, ok := c.Build.Item(ref.Unit); ok && ref.Fault == "" {
		if e, ok := item.(*book.Event); ok {
			return e.Fails
		}
	}
	return []book.FailureRef{ref}
}

func bare(r book.FailureRef) book.FailureRef {
	return book.FailureRef{Unit: r.Unit, Fault: r.Fault}
}

// Control returns the number of a control and the value of one of its
// positions; ok is false if there is no such control or position.
func (c *Circuit) Control(id, position string) (number int, to float64, ok bool) {
	number, ok = c.controlOf[id]
	if !ok {
		return 0, 0, false
	}
	item, _ := c.Build.Item(id)
	for _, p := range item.(*book.Control).Positions {
		if p == position {
			return number, c.wordOf(p), true
		}
	}
	return 0, 0, false
}

// Phases lists the ids of the phases in order.
func (c *Circuit) Phases() []string {
	ids := make([]string, len(c.phases))
	for i, p := range c.phases {
		ids[i] = p.id
	}
	return ids
}

func (c *Circuit) wordOf(w string) float64 {
	for i, have := range c.words {
		if have == w {
			return float64(i)
		}
	}
	return -1
}
