package dispatch

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// facts are what is known before a flight.
type facts struct {
	build  *book.Build
	flight *book.Flight
	out    []book.FailureRef // inoperative
}

func (f facts) broken(ref book.FailureRef) bool {
	return slices.ContainsFunc(f.out, func(o book.FailureRef) bool { return o.Unit == ref.Unit && o.Fault == ref.Fault })
}

// holds says that a condition of a deferral is so; nil always is.
func (f facts) holds(e *book.Expr) bool { return e == nil || f.value(e) != 0 }

// value works out an expression of what is known before a flight; yes is 1.
func (f facts) value(e *book.Expr) float64 {
	switch e.Op {
	case book.OpYesNo, book.OpNumber:
		return e.Num
	case book.OpFact:
		v, _ := f.build.Aircraft.Number(e.ID)
		return v
	case book.OpPlan:
		return f.flight.Planned(e.ID)
	case book.OpFailed, book.OpFault:
		return yes(f.broken(book.FailureRef{Unit: e.ID, Fault: e.Word}))
	case book.OpIf:
		if f.value(e.Args[0]) != 0 {
			return f.value(e.Args[1])
		}
		return f.value(e.Args[2])
	case book.OpEq, book.OpNe:
		return yes(f.same(e.Args[0], e.Args[1]) == (e.Op == book.OpEq))
	}
	var args []float64
	for _, a := range e.Args {
		args = append(args, f.value(a))
	}
	if e.Type == book.YesNo {
		return yes(logic(e, args))
	}
	return number(e.Op, args)
}

// same compares numbers, yes/no and words.
func (f facts) same(a, b *book.Expr) bool {
	if a.Type == book.Word {
		return f.word(a) == f.word(b)
	}
	return f.value(a) == f.value(b)
}

// word is what an expression of words comes to: before a flight only those that are
// written, and a choice of them.
func (f facts) word(e *book.Expr) string {
	if e.Op != book.OpIf {
		return e.Word
	}
	if f.value(e.Args[0]) != 0 {
		return f.word(e.Args[1])
	}
	return f.word(e.Args[2])
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func logic(e *book.Expr, args []float64) bool {
	count := 0
	for _, a := range args {
		if a != 0 {
			count++
		}
	}
	switch e.Op {
	case book.OpNot:
		return count == 0
	case book.OpAnd, book.OpAll:
		return count == len(args)
	case book.OpOr, book.OpAny:
		return count > 0
	case book.OpAtLeast:
		return count >= int(e.Num)
	case book.OpLt:
		return args[0] < args[1]
	case book.OpLe:
		return args[0] <= args[1]
	case book.OpGt:
		return args[0] > args[1]
	}
	return args[0] >= args[1] // book.OpGe
}

func number(op book.Op, args []float64) float64 {
	switch op {
	case book.OpAdd:
		return args[0] + args[1]
	case book.OpSub:
		return args[0] - args[1]
	case book.OpMul:
		return args[0] * args[1]
	case book.OpDiv:
		return quotient(args[0], args[1])
	case book.OpNeg:
		return -args[0]
	case book.OpMin:
		return slices.Min(args)
	case book.OpMax:
		return slices.Max(args)
	}
	return math.Abs(args[0]) // book.OpAbs
}

// quotient is that of the language: 0/0 is 0, and x/0 as large as a number gets.
func quotient(a, b float64) float64 {
	if b != 0 {
		return a / b
	}
	if a == 0 {
		return 0
	}
	return math.Copysign(math.MaxFloat64, a)
}

// unmet lists the parts of a condition that are not so, each as the book has it with
// what its numbers are.
func (f facts) unmet(e *book.Expr) (list []string) {
	if f.holds(e) {
		return nil
	}
	if e.Op == book.OpAnd || e.Op == book.OpAll {
		for _, a := range e.Args {
			list = append(list, f.unmet(a)...)
		}
		return list
	}
	return []string{e.String() + f.numbers(e)}
}

// numbers says what the numbers of the flight are that a condition reads, and what
// is inoperative of what it asks for.
func (f facts) numbers(e *book.Expr) string {
	var parts []string
	e.Walk(func(e *book.Expr) {
		text := ""
		switch {
		case e.Op == book.OpPlan:
			text = fmt.Sprintf("%s is %s", e.String(), say.Figures(f.value(e)))
		case (e.Op == book.OpFailed || e.Op == book.OpFault) && f.value(e) != 0:
			text = f.build.FailureTitle(book.FailureRef{Unit: e.ID, Fault: e.Word}.String()) + " is inoperative"
		}
		if text != "" && !slices.Contains(parts, text) {
			parts = append(parts, text)
		}
	})
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}
