package book

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// String gives an expression in the book language with no more parentheses than
// it needs. Reading it again gives the same expression.
func (e *Expr) String() string {
	if e == nil {
		return ""
	}
	var s strings.Builder
	e.write(&s)
	return s.String()
}

// How tightly operators bind, loosest first.
const (
	bindsIf = iota + 1
	bindsOr
	bindsAnd
	bindsEqual
	bindsLess
	bindsAdd
	bindsMultiply
	bindsNot
	bindsTerm
)

func (o Op) binds() int {
	switch o {
	case OpIf:
		return bindsIf
	case OpOr:
		return bindsOr
	case OpAnd:
		return bindsAnd
	case OpEq, OpNe:
		return bindsEqual
	case OpLt, OpLe, OpGt, OpGe:
		return bindsLess
	case OpAdd, OpSub:
		return bindsAdd
	case OpMul, OpDiv:
		return bindsMultiply
	case OpNot, OpNeg:
		return bindsNot
	}
	return bindsTerm
}

func (e *Expr) write(s *strings.Builder) {
	switch e.Op {
	case OpYesNo:
		s.WriteString(strconv.FormatBool(e.Num != 0))
	case OpNumber:
		s.WriteString(formatNumber(e.Num))
	case OpWord:
		s.WriteString(quote(e.Word))
	case OpRef:
		s.WriteString(e.ID)
	case OpReal:
		s.WriteString("real." + e.ID)
	case OpFact:
		s.WriteString("aircraft." + e.ID)
	case OpPlan:
		s.WriteString("flight." + e.ID)
	case OpSeen:
		s.WriteString("seen." + e.ID)
	case OpFault:
		s.WriteString(e.ID + "." + e.Word)
	case OpNot, OpNeg:
		s.WriteString(e.Op.sign())
		e.Args[0].writeIn(s, bindsTerm)
	case OpIf:
		e.Args[0].writeIn(s, bindsOr)
		s.WriteString(" ? ")
		e.Args[1].writeIn(s, bindsIf)
		s.WriteString(" : ")
		e.Args[2].writeIn(s, bindsIf)
	case OpAnd, OpOr, OpAdd, OpSub, OpMul, OpDiv, OpEq, OpNe, OpLt, OpLe, OpGt, OpGe:
		e.writeBinary(s)
	default:
		e.writeCall(s)
	}
}

// writeIn writes e where something must bind at least so tightly.
func (e *Expr) writeIn(s *strings.Builder, binds int) {
	tight := e.Op.binds() >= binds
	if e.Op == OpNumber && e.Num < 0 && binds == bindsTerm {
		tight = false // -(-5)
	}
	if !tight {
		s.WriteByte('(')
	}
	e.write(s)
	if !tight {
		s.WriteByte(')')
	}
}

func (e *Expr) writeBinary(s *strings.Builder) {
	left, right := e.Op.binds(), e.Op.binds()+1
	if e.Op >= OpEq && e.Op <= OpGe { // comparisons do not chain
		left, right = bindsAdd, bindsAdd
	}
	e.Args[0].writeIn(s, left)
	s.WriteString(" " + e.Op.sign() + " ")
	e.Args[1].writeIn(s, right)
}

// function gives the name of an operation written as a call.
func (e *Expr) function() string {
	switch e.Op {
	case OpAny:
		return "any"
	case OpAll:
		return "all"
	case OpAtLeast:
		return "at_least"
	case OpMin:
		return "least_of"
	case OpMax:
		return "most_of"
	case OpAbs:
		return "size"
	case OpFailed:
		return "failed"
	case OpCalledBy:
		return "called_by"
	case OpHeld:
		return "held"
	case OpPulse:
		return "pulse"
	case OpBefore:
		return "before"
	case OpFrozen:
		return "frozen"
	case OpTotal:
		return "total"
	case OpCount:
		return "count"
	case OpLedger, OpLaw:
		return e.Word
	}
	return "invalid"
}

func (e *Expr) writeCall(s *strings.Builder) {
	var args []string
	switch e.Op {
	case OpFailed, OpCalledBy:
		args = append(args, e.ID)
	case OpAtLeast:
		args = append(args, formatNumber(e.Num))
	}
	written := e.Args
	if e.Op == OpLedger && e.Word == "ticks" { // what the line looks at stands behind it
		written = e.Args[:min(2, len(e.Args))]
	}
	for _, a := range written {
		args = append(args, a.String())
	}
	switch {
	case e.Op == OpHeld || e.Op == OpPulse:
		args = append(args, formatNumber(e.Num))
	case len(e.Table) > 0:
		for _, v := range e.Table {
			args = append(args, formatNumber(v))
		}
	case e.Bound != nil:
		args = append(args, formatNumber(e.Bound.Start), formatNumber(e.Bound.Least), formatNumber(e.Bound.Most))
	}
	s.WriteString(e.function() + "(" + strings.Join(args, ", ") + ")")
}

// formatNumber gives the shortest form that reads back as the same number.
func formatNumber(n float64) string {
	if size := math.Abs(n); size != 0 && (size < 1e-4 || size >= 1e15) {
		return strings.Replace(strconv.FormatFloat(n, 'e', -1, 64), "e-0", "e-", 1)
	}
	return strconv.FormatFloat(n, 'f', -1, 64)
}

// quote writes a text as HCL reads it.
func quote(text string) string {
	var s strings.Builder
	s.WriteByte('"')
	for i, r := range text {
		switch {
		case r == '"' || r == '\\':
			s.WriteByte('\\')
			s.WriteRune(r)
		case r == '\n':
			s.WriteString(`\n`)
		case r < ' ' || r == 0x7f, (r == '$' || r == '%') && strings.HasPrefix(text[i+1:], "{"):
			fmt.Fprintf(&s, `\u%04x`, r)
		default:
			s.WriteRune(r)
		}
	}
	s.WriteByte('"')
	return s.String()
}
