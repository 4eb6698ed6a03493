// Package logic turns statements about failures ("both pumps", "two of the
// three computers, and not the override") into one shared graph of yes/no
// terms over named events.
//
// The one invariant: a term never changes its meaning. Terms are built bottom
// up, equal terms are one term, and so the graph cannot hold a loop.
//
// Start reading at Logic.
package logic

import (
	"encoding/binary"
	"fmt"
	"math"
)

// Term is a yes/no value of a Logic: one of its nodes, plain or negated.
// A Term means nothing outside the Logic that made it.
type Term uint32

// The two constants.
const (
	False Term = 0
	True  Term = 1
)

// Not returns the opposite of t. It costs nothing and makes no node.
func (t Term) Not() Term { return t ^ 1 }

// Negated says whether t is the opposite of its node.
func (t Term) Negated() bool { return t&1 == 1 }

// Plain returns the node of t without its negation.
func (t Term) Plain() Term { return t &^ 1 }

// Op says what a node does with its arguments.
type Op uint8

// The operations.
const (
	Constant Op = iota // false
	Basic              // an event
	And                // all arguments
	Or                 // any argument
	AtLeast            // at least K arguments
	Xor                // an odd number of arguments
)

func (op Op) String() string {
	return [...]string{"constant", "event", "and", "or", "at_least", "xor"}[op]
}

// Event is something that either happens or does not: yes means it has failed.
type Event struct {
	Name string
	// P is its probability, from 0 to 1; NaN if none was given.
	P float64
}

// Logic is a growing graph of terms. It is not safe for use from several
// goroutines while it grows; reading it is.
type Logic struct {
	nodes  []node
	terms  map[string]Term // by spelling, see key
	events []Event
	byName map[string]Term
	basics []Term // by event
}

type node struct {
	op   Op
	k    int // AtLeast: the threshold. Basic: the event
	args []Term
}

// New returns a Logic with no events.
func New() *Logic {
	return &Logic{
		nodes:  []node{{op: Constant}},
		terms:  map[string]Term{},
		byName: map[string]Term{},
	}
}

// Event returns the term of the event with this name, declaring it, with no
// probability, when it is new. Events keep the order of their declaration.
func (l *Logic) Event(name string) Term {
	if t, ok := l.byName[name]; ok {
		return t
	}
	t := l.add(node{op: Basic, k: len(l.events)})
	l.events = append(l.events, Event{Name: name, P: math.NaN()})
	l.basics = append(l.basics, t)
	l.byName[name] = t
	return t
}

// Find returns the term of an event that has been declared.
func (l *Logic) Find(name string) (t Term, ok bool) { t, ok = l.byName[name]; return t, ok }

// EventTerm returns the term of an event by its index.
func (l *Logic) EventTerm(event int) Term { return l.basics[event] }

// SetP gives an event its probability. It fails for a term that is no event and
// for a number that is no probability.
func (l *Logic) SetP(event Term, p float64) error {
	n := l.nodes[event>>1]
	if n.op != Basic || event.Negated() {
		return fmt.Errorf("only an event has a probability")
	}
	if !(p >= 0 && p <= 1) {
		return fmt.Errorf("probability of %s is %v; it must lie between 0 and 1", l.events[n.k].Name, p)
	}
	l.events[n.k].P = p
	return nil
}

// Events returns all events in the order of their declaration. The caller must
// not change the slice.
func (l *Logic) Events() []Event { return l.events }

// Op returns the operation of t's node; for a negated term that of the node
// that it negates.
func (l *Logic) Op(t Term) Op { return l.nodes[t>>1].op }

// Args returns the arguments of t's node. The caller must not change the slice.
func (l *Logic) Args(t Term) []Term { return l.nodes[t>>1].args }

// K returns the threshold of an AtLeast node and the index of an event.
func (l *Logic) K(t Term) int { return l.nodes[t>>1].k }

// And is yes when all terms are; And() is True.
func (l *Logic) And(terms ...Term) Term { return l.junction(And, False, terms) }

// Or is yes when any term is; Or() is False.
func (l *Logic) Or(terms ...Term) Term { return l.junction(Or, True, terms) }

// junction builds an And or an Or. lord is the constant that decides it alone.
func (l *Logic) junction(op Op, lord Term, terms []Term) Term {
	args := make([]Term, 0, len(terms))
	seen := make(map[Term]bool, len(terms))
	for _, t := range terms {
		switch {
		case t == lord || seen[t.Not()]:
			return lord
		case t == lord.Not() || seen[t]:
		default:
			seen[t] = true
			args = append(args, t)
		}
	}
	switch len(args) {
	case 0:
		return lord.Not()
	case 1:
		return args[0]
	}
	return l.add(node{op: op, args: args})
}

// AtLeast is yes when k or more of the terms are. A term that stands in the
// list twice counts twice.
func (l *Logic) AtLeast(k int, terms ...Term) Term {
	args := make([]Term, 0, len(terms))
	for _, t := range terms {
		switch t {
		case True:
			k--
		case False:
		default:
			args = append(args, t)
		}
	}
	switch {
	case k <= 0:
		return True
	case k > len(args):
		return False
	case k == 1:
		return l.Or(args...)
	case k == len(args):
		return l.And(args...)
	}
	return l.add(node{op: AtLeast, k: k, args: args})
}

// Xor is yes when an odd number of the terms are.
func (l *Logic) Xor(terms ...Term) Term {
	odd := make(map[Term]bool, len(terms))
	flip := Term(0)
	for _, t := range terms {
		flip ^= t & 1
		odd[t.Plain()] = !odd[t.Plain()]
	}
	var args []Term
	for _, t := range terms {
		if t = t.Plain(); t != False && odd[t] {
			odd[t] = false
			args = append(args, t)
		}
	}
	switch len(args) {
	case 0:
		return False ^ flip
	case 1:
		return args[0] ^ flip
	}
	return l.add(node{op: Xor, args: args}) ^ flip
}

// If is then when cond is yes, and otherwise otherwise.
func (l *Logic) If(cond, then, otherwise Term) Term {
	return l.Or(l.And(cond, then), l.And(cond.Not(), otherwise))
}

// add returns the node's term, making the node only if there is none like it.
func (l *Logic) add(n node) Term {
	key := n.key()
	if t, ok := l.terms[key]; ok {
		return t
	}
	t := Term(len(l.nodes)) << 1
	l.nodes = append(l.nodes, n)
	l.terms[key] = t
	return t
}

func (n node) key() string {
	b := make([]byte, 0, 8+4*len(n.args))
	b = append(b, byte(n.op))
	b = binary.AppendUvarint(b, uint64(n.k))
	for _, a := range n.args {
		b = binary.LittleEndian.AppendUint32(b, uint32(a))
	}
	return string(b)
}
