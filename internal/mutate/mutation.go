package mutate

import (
	"fmt"

	"knockon/book"
)

// mutation is one way to break one line of a book.
type mutation struct {
	head  *book.Head // the item
	where book.Range // the line, where it is known more closely than the item
	kind  kind
	text  string        // "works = true"
	about string        // of silence: the function
	apply func() func() // breaks the line and gives what mends it
}

// String says which line was broken how.
func (m mutation) String() string {
	where := m.head.Range
	if m.where.Line > 0 {
		where = m.where
	}
	return fmt.Sprintf("%s:%d: %s %s: %s", where.File, where.Line, m.head.Kind, m.head.ID, m.text)
}

// kind is what a mutation does, by which the likely ones are tried first.
type kind string

const (
	constYes  kind = "yes"     // an expression becomes yes
	constNo   kind = "no"      // an expression becomes no
	operand   kind = "operand" // an alternative or a condition is dropped
	timer     kind = "timer"   // a time or another number changes
	negate    kind = "negate"
	number    kind = "number"
	silence   kind = "tells" // a function is no longer told
	loud      kind = "quiet" // no quiet phases
	same      kind = "same"  // an indication shows what it means, or a claim is what is believed
	drawn     kind = "depends"
	otherwise kind = "other"
)

// set makes a mutation that puts a value in a place.
func set[T any](h *book.Head, k kind, text string, place *T, value T) mutation {
	return mutation{head: h, kind: k, text: text, apply: func() func() {
		old := *place
		*place = value
		return func() { *place = old }
	}}
}

func literal(yes bool) *book.Expr {
	e := &book.Expr{Op: book.OpYesNo, Type: book.YesNo}
	if yes {
		e.Num = 1
	}
	return e
}

// line is an expression of an item: where it stands and under which word.
// An expression that is not given is nil and means yes.
type line struct {
	head *book.Head
	word string
	at   **book.Expr
}

// mostOfLine bounds how many ways of breaking one expression are tried.
const mostOfLine = 30

// mutations of a line: the whole first, then its parts, outermost first.
func (l line) mutations() []mutation {
	if *l.at == nil {
		return nil
	}
	list := l.whole(l.at)
	level := []**book.Expr{l.at}
	for depth := 0; depth < 4; depth++ {
		var below []**book.Expr
		for _, at := range level {
			for i := range (*at).Args {
				below = append(below, &(*at).Args[i])
			}
		}
		for _, at := range below {
			list = append(list, l.whole(at)...)
		}
		level = below
	}
	return list[:min(len(list), mostOfLine)]
}

// whole lists ways to break one expression as a whole.
func (l line) whole(at **book.Expr) (list []mutation) {
	e := *at
	put := func(k kind, text string, with *book.Expr) {
		m := set(l.head, k, l.word+": "+text, at, with)
		m.where = e.Range
		list = append(list, m)
	}
	switch e.Type {
	case book.YesNo:
		if e.Op != book.OpYesNo {
			put(constYes, e.String()+" becomes true", literal(true))
			put(constNo, e.String()+" becomes false", literal(false))
		} else {
			put(negate, e.String()+" turned round", literal(e.Num == 0))
		}
	case book.Number:
		put(number, e.String()+" doubled and one more", more(e))
	case book.Word:
		for _, w := range e.Words {
			put(otherwise, fmt.Sprintf("%s becomes %q", e, w), &book.Expr{Op: book.OpWord, Type: book.Word, Word: w, Words: e.Words})
		}
	}
	for _, change := range changed(e) {
		put(change.kind, e.String()+" becomes "+change.to.String(), change.to)
	}
	return list
}

// more is twice a number and one more.
func more(e *book.Expr) *book.Expr {
	if e.Op == book.OpNumber {
		c := *e
		c.Num = 2*e.Num + 1
		return &c
	}
	one := &book.Expr{Op: book.OpNumber, Type: book.Number, Num: 1, Unit: e.Unit}
	two := &book.Expr{Op: book.OpNumber, Type: book.Number, Num: 2}
	double := &book.Expr{Op: book.OpMul, Type: book.Number, Unit: e.Unit, Args: []*book.Expr{e, two}}
	return &book.Expr{Op: book.OpAdd, Type: book.Number, Unit: e.Unit, Args: []*book.Expr{double, one}}
}

// change is an expression that another one becomes.
type change struct {
	kind kind
	to   *book.Expr
}

// changed lists what an operation may become.
func changed(e *book.Expr) (list []change) {
	with := func(k kind, edit func(c *book.Expr)) {
		c := *e
		edit(&c)
		list = append(list, change{k, &c})
	}
	switch e.Op {
	case book.OpAnd, book.OpOr, book.OpAny, book.OpAll:
		for i := range e.Args {
			list = append(list, change{operand, e.Args[i]})
		}
	case book.OpAtLeast:
		with(operand, func(c *book.Expr) { c.Num++ })
		with(operand, func(c *book.Expr) { c.Num-- })
	case book.OpIf:
		list = append(list, change{operand, e.Args[1]}, change{operand, e.Args[2]})
	case book.OpHeld, book.OpPulse:
		with(timer, func(c *book.Expr) { c.Num = 0 })
		with(timer, func(c *book.Expr) { c.Num = 3*e.Num + 30 })
	case book.OpNot, book.OpBefore, book.OpFrozen:
		list = append(list, change{negate, e.Args[0]})
	case book.OpTotal:
		if e.Bound != nil {
			with(timer, func(c *book.Expr) {
				c.Bound = &book.Bounds{Start: e.Bound.Least, Least: e.Bound.Least, Most: e.Bound.Most}
			})
			with(timer, func(c *book.Expr) {
				c.Bound = &book.Bounds{Start: e.Bound.Most, Least: e.Bound.Least, Most: e.Bound.Most}
			})
		}
	}
	return list
}
