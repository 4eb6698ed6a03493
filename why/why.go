// Package why says why a value is what it is at a moment of a run, as a tree
// of steps whose leaves are failures, controls that were moved, and the flight
// (docs/meaning.md section 6).
//
// Where the value is not what it is in the run without the failures, the tree
// follows what differs (contrast.go, memory.go), and its leaves are those that,
// put into the other run, make the value there what it is here, and no fewer
// (lean.go). Where it is the same in both, the tree holds what forces it
// (plain.go). Invariant: every step is true of the run at its moment.
//
// Start reading at Explain.
package why

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// Kind of a step.
type Kind string

// Kinds of step. All but Derived are leaves.
const (
	Derived   Kind = "derived"
	Fails     Kind = "failure"   // a unit has failed or has a fault
	Intact    Kind = "intact"    // it has not
	Acted     Kind = "action"    // a control was moved
	Flown     Kind = "flight"    // what is physically true, or the phase
	Condition Kind = "condition" // the same in the other run
	FromStart Kind = "start"     // as it was at the start
)

// Step is one step of an explanation: a value, and what made it so. A step that
// is needed twice is the same pointer in both places.
type Step struct {
	Value    circuit.Value // the named value; its Item is "" for a bare comparison
	Label    string        // what a person calls it
	Says     string        // its value in words
	Yes      bool          // a yes/no that is yes
	Kind     Kind
	At       book.Time // the moment at which it has the value and is explained
	Since    book.Time // since when it has had it at that moment, 0 for the start
	Fleeting bool      // it had it there for no time: other values settled
	Stayed   bool      // it stayed as it was when, at Other, the other run's changed
	Other    book.Time
	Where    book.Range // its place in the book
	// Elsewhere says that by then the flight with nothing failed is not where this one
	// is: what is the same in the run that it is held against is so along this path.
	Elsewhere bool
	Because   []*Step
	While     []*Step // what is needed beside it and is the same in the other run
}

// Fly flies the other run once more with leaves put in, up to a moment.
type Fly func(put []Input, until book.Time) (*circuit.Trace, error)

// Input is a leaf as it is put into another run: a way of failing that was so
// from a moment up to another (book.Never: to the end), or a control that was
// moved.
type Input struct {
	Node  circuit.Node
	Value float64
	From  book.Time
	To    book.Time
}

// Explain says why a value of the run here is what it is at a moment; there is
// the run to compare with, or nil, and fly flies that one again, or nil: then
// the leaves are those of the tree, unproven. ok is false if the circuit has no
// such value.
func Explain(here, there *circuit.Trace, v circuit.Value, at book.Time, fly Fly) (s *Step, ok bool) {
	c := here.Circuit()
	n, ok := c.Node(v)
	if !ok {
		return nil, false
	}
	x := &explainer{c: c, here: newSide(here, c), value: v, fly: fly}
	at = min(max(at, 0), here.End)
	root := point{n, x.here.settled(at)}
	if there == nil || at > there.End {
		return x.plainly(root), true
	}
	x.there = newSide(there, c)
	for i := root.at.instant; i >= 0 && here.Instants()[i] == at || i == root.at.instant; i-- {
		p := x.beside(point{n, stage{at, i, 0}})
		if x.differs(p) {
			return x.contrast(p), true
		}
	}
	return x.plainly(root), true
}

// explainer explains one value.
type explainer struct {
	c           *circuit.Circuit
	here, there *side
	value       circuit.Value
	fly         Fly
	grace       book.Time // how much later the other run may have the value
}

// point is a node at a stage of the run that is explained.
type point struct {
	n  circuit.Node
	at stage
}

// pair is a node at a stage here and the stage there that it is held against.
type pair struct {
	n           circuit.Node
	here, there stage
}

func (x *explainer) beside(p point) pair {
	return pair{p.n, p.at, align(x.here, p.at, x.there)}
}

// differs says that a node has another value there.
func (x *explainer) differs(p pair) bool {
	return !alike(x.here.value(p.n, p.here), x.there.value(p.n, p.there))
}

// alike says that two values are the same but for rounding.
func alike(a, b float64) bool { return within(1e-9, a, b) }

// within says that two values are as near as a share of the larger.
func within(share, a, b float64) bool {
	return a == b || max(a-b, b-a) <= share*max(a, b, -a, -b)
}

// reason is why a value is what it is: the leaves, the steps, and what is so
// beside them in both runs.
type reason struct {
	leaves []Input
	points []point // leaves of the plain way
	steps  []*Step
	while  []*Step
	stayed *book.Time // the other run's memory changed then
}

// join unites two reasons; everything stands once.
func join(a, b *reason) *reason {
	return &reason{leaves: union(a.leaves, b.leaves), points: union(a.points, b.points), steps: union(a.steps, b.steps), while: union(a.while, b.while)}
}

func union[T comparable](a, b []T) []T {
	all := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}
