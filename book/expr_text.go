package book

import (
	"strconv"
	"strings"
)

// infix operators and how tightly they bind, as in HCL.
var infix = map[Op]struct {
	sign string
	rank int
}{
	OpOr: {"||", 1}, OpAnd: {"&&", 2}, OpEq: {"==", 3}, OpNe: {"!=", 3},
	OpLt: {"<", 4}, OpLe: {"<=", 4}, OpGt: {">", 4}, OpGe: {">=", 4},
	OpAdd: {"+", 5}, OpSub: {"-", 5}, OpMul: {"*", 6}, OpDiv: {"/", 6},
}

// calls are the operations written as a function.
var calls = map[Op]string{
	OpAny: "any", OpAll: "all", OpAtLeast: "at_least", OpMin: "least_of", OpMax: "most_of", OpAbs: "size",
	OpHeld: "held", OpPulse: "pulse", OpBefore: "before", OpFrozen: "frozen", OpTotal: "total", OpCount: "count",
}

// String writes the expression in the language's own words, with no more
// parentheses than it needs.
func (e *Expr) String() string {
	var b strings.Builder
	e.write(&b, 0)
	return b.String()
}

// write prints e where an operator that binds with rank outer surrounds it.
func (e *Expr) write(b *strings.Builder, outer int) {
	if in, ok := infix[e.Op]; ok {
		open(b, in.rank < outer)
		e.Args[0].write(b, in.rank)
		b.WriteString(" " + in.sign + " ")
		e.Args[1].write(b, in.rank+1)
		closed(b, in.rank < outer)
		return
	}
	switch e.Op {
	case OpNot, OpNeg:
		b.WriteString(map[Op]string{OpNot: "!", OpNeg: "-"}[e.Op])
		e.Args[0].write(b, 7)
	case OpIf:
		open(b, outer > 0)
		e.Args[0].write(b, 1)
		b.WriteString(" ? ")
		e.Args[1].write(b, 1)
		b.WriteString(" : ")
		e.Args[2].write(b, 0)
		closed(b, outer > 0)
	default:
		e.writeAtom(b)
	}
}

func open(b *strings.Builder, needed bool) {
	if needed {
		b.WriteByte('(')
	}
}

func closed(b *strings.Builder, needed bool) {
	if needed {
		b.WriteByte(')')
	}
}

// writeAtom prints what needs no parentheses.
func (e *Expr) writeAtom(b *strings.Builder) {
	switch e.Op {
	case OpYesNo:
		b.WriteString(strconv.FormatBool(e.Num != 0))
	case OpNumber:
		b.WriteString(number(e.Num))
	case OpWord:
		b.WriteString(strconv.Quote(e.Word))
	case OpRef:
		b.WriteString(e.ID)
	case OpReal:
		b.WriteString("real." + e.ID)
	case OpFact:
		b.WriteString("aircraft." + e.ID)
	case OpFault:
		b.WriteString(e.ID + "." + e.Word)
	case OpFailed:
		b.WriteString("failed(" + e.ID + ")")
	case OpLedger:
		e.writeCall(b, e.Word)
	default:
		e.writeCall(b, calls[e.Op])
	}
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func (e *Expr) writeCall(b *strings.Builder, name string) {
	var parts []string
	if e.Op == OpAtLeast {
		parts = append(parts, number(e.Num))
	}
	for _, a := range e.Args {
		parts = append(parts, a.String())
	}
	switch {
	case e.Op == OpHeld || e.Op == OpPulse:
		parts = append(parts, number(e.Num))
	case e.Bound != nil:
		parts = append(parts, number(e.Bound.Start), number(e.Bound.Least), number(e.Bound.Most))
	}
	b.WriteString(name + "(" + strings.Join(parts, ", ") + ")")
}
