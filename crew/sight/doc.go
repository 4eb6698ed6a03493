// Package sight turns what a line of a procedure asks into what two pilots can
// see of it: yes, no, or that it cannot be seen.
//
// Invariant: the answer is a function of what indications show and whether they
// are lit, of alerts, controls, phases and what is seen without an instrument;
// only a part that asks for what is true gets that. Rules: docs/meaning.md,
// section 12.
//
// Start reading at Of; Eye is the same worked out the slow way, from a record.
package sight

import (
	"knockon/book"
	"knockon/circuit"
)

// Answer is what came of looking.
type Answer string

// Answers. None is that of lines that ask nothing, or nothing that the book knows.
const (
	None   Answer = ""
	Yes    Answer = "yes"
	No     Answer = "no"
	Unseen Answer = "cannot be seen"
)

func answer(yes bool) Answer {
	if yes {
		return Yes
	}
	return No
}

// Question is what a line asks, ready to be compiled.
type Question struct {
	Asks  *book.Expr // with called_by worked out
	known *book.Expr // yes while it can be seen; nil: always
}

// Of prepares a question for a list that is done for an alert; "" where it is not
// known for which: called_by is then yes while the alert is given.
func Of(b *book.Build, e *book.Expr, caller string) *Question {
	q := &Question{Asks: filled(e, caller)}
	q.known = b.SeenWhen(q.Asks)
	return q
}

// Watches lists what a circuit must observe for the question. What remembers is
// there for itself, for Eye.
func (q *Question) Watches() []*book.Expr {
	list := []*book.Expr{q.Asks}
	if q.known != nil {
		list = append(list, q.known)
	}
	q.Asks.Walk(func(e *book.Expr) {
		if remembers(e) {
			list = append(list, e)
		}
	})
	return list
}

// Look is a question on a circuit that observes it.
type Look struct {
	Asks         *book.Expr
	shown, known circuit.Node
}

// On finds a question in a circuit.
func (q *Question) On(c *circuit.Circuit) Look {
	l := Look{Asks: q.Asks, known: circuit.None}
	l.shown, _ = c.WatchOf(q.Asks)
	if q.known != nil {
		l.known, _ = c.WatchOf(q.known)
	}
	return l
}

// Sees lists the nodes that the answer is read from.
func (l Look) Sees() []circuit.Node {
	if l.known == circuit.None {
		return []circuit.Node{l.shown}
	}
	return []circuit.Node{l.shown, l.known}
}

// Answer looks at a moment, whose values are given.
func (l Look) Answer(value func(circuit.Node) float64) Answer {
	if l.known != circuit.None && value(l.known) == 0 {
		return Unseen
	}
	return answer(value(l.shown) != 0)
}

// filled is a condition with called_by worked out; the condition itself where it
// has none.
func filled(e *book.Expr, caller string) *book.Expr {
	if !CallsFor(e) {
		return e
	}
	n := *e
	switch {
	case e.Op == book.OpCalledBy && caller == "":
		n.Op = book.OpRef
	case e.Op == book.OpCalledBy:
		n = book.Expr{Op: book.OpYesNo, Type: book.YesNo, Range: e.Range}
		if e.ID == caller {
			n.Num = 1
		}
	}
	n.Args = nil
	for _, a := range e.Args {
		n.Args = append(n.Args, filled(a, caller))
	}
	return &n
}

// CallsFor says that a condition asks for which alert its list is done.
func CallsFor(e *book.Expr) (found bool) {
	e.Walk(func(e *book.Expr) { found = found || e.Op == book.OpCalledBy })
	return found
}

// remembers says that an expression has a past.
func remembers(e *book.Expr) bool {
	switch e.Op {
	case book.OpHeld, book.OpPulse, book.OpBefore, book.OpFrozen, book.OpTotal, book.OpCount:
		return true
	}
	return false
}
