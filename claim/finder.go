package claim

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/flight/air"
	"knockon/ledger"
	"knockon/region"
	"knockon/rescue"
)

// finder answers the expectations of one given.
type finder struct {
	ctx    context.Context
	given  *book.Given
	a      *ask.Answer
	l      *ledger.Ledger
	ground *region.Region // nil: not known
	strike book.Time      // what seconds count from
	got    []string       // what was found, one for each function asked
	asked  book.Time      // the moment that at() asks about
	bill   *bill          // what airfields cost, once that was asked

	rescues map[string]*rescue.Answer // by function and moves, once they were asked

	open     bool // the flight with the failures breaks off
	openRows bool // it does, or the one beside it
}

func newFinder(ctx context.Context, g *book.Given, a *ask.Answer, ground *region.Region) *finder {
	l := a.Ledger
	f := &finder{ctx: ctx, given: g, a: a, l: l, ground: ground, strike: l.Strike, open: !l.Here.Ending().Arrived()}
	f.openRows = f.open || !l.There.Ending().Arrived()
	if len(l.Here.Scenario.Strikes) == 0 || nothingFails(g) {
		f.strike = 0
	}
	return f
}

func nothingFails(g *book.Given) bool {
	for _, k := range g.Strikes {
		if len(k.Fail) > 0 {
			return false
		}
	}
	return true
}

// find works one expectation out and says what was found.
func (f *finder) find(e *book.Expr) Finding {
	f.got = nil
	v, err := f.value(e)
	got := strings.Join(f.got, "; ")
	if err != nil {
		return Finding{Expect: e, Got: err.Error()}
	}
	if math.IsNaN(v) {
		return Finding{Expect: e, Undecided: true, Got: "undecided, since the flight breaks off; up to there: " + got}
	}
	found := Finding{Expect: e, Holds: v != 0, Got: got}
	if !found.Holds {
		found.Why = f.why(e)
	}
	return found
}

// value of an expectation; a yes/no is 1 or 0.
func (f *finder) value(e *book.Expr) (float64, error) {
	switch e.Op {
	case book.OpLedger:
		return f.ask(e)
	case book.OpYesNo, book.OpNumber:
		return e.Num, nil
	case book.OpFact:
		return f.fact(e.ID)
	}
	args := make([]float64, len(e.Args))
	for i, a := range e.Args {
		v, err := f.value(a)
		if err != nil {
			return 0, err
		}
		args[i] = v
	}
	return combine(e, args)
}

func (f *finder) fact(id string) (float64, error) {
	if v, ok := f.l.Here.Course.Build.Aircraft.Number(id); ok {
		return v, nil
	}
	return 0, fmt.Errorf("the aircraft has no %s", id)
}

// combine works out an operator of the ordinary language.
func combine(e *book.Expr, a []float64) (float64, error) {
	switch e.Op {
	case book.OpAnd, book.OpAll:
		return atLeast(len(a), a), nil
	case book.OpOr, book.OpAny:
		return atLeast(1, a), nil
	case book.OpAtLeast:
		return atLeast(int(math.Ceil(e.Num)), a), nil
	case book.OpIf:
		switch {
		case math.IsNaN(a[0]):
			return undecided, nil
		case a[0] != 0:
			return a[1], nil
		}
		return a[2], nil
	}
	if slices.ContainsFunc(a, math.IsNaN) {
		return undecided, nil
	}
	switch e.Op {
	case book.OpNot:
		return yes(a[0] == 0), nil
	case book.OpEq:
		return yes(a[0] == a[1]), nil
	case book.OpNe:
		return yes(a[0] != a[1]), nil
	case book.OpLt:
		return yes(a[0] < a[1]), nil
	case book.OpLe:
		return yes(a[0] <= a[1]), nil
	case book.OpGt:
		return yes(a[0] > a[1]), nil
	case book.OpGe:
		return yes(a[0] >= a[1]), nil
	}
	return arithmetic(e, a)
}

func arithmetic(e *book.Expr, a []float64) (float64, error) {
	switch e.Op {
	case book.OpAdd:
		return a[0] + a[1], nil
	case book.OpSub:
		return a[0] - a[1], nil
	case book.OpMul:
		return a[0] * a[1], nil
	case book.OpDiv:
		return divide(a[0], a[1]), nil
	case book.OpNeg:
		return -a[0], nil
	case book.OpAbs:
		return math.Abs(a[0]), nil
	case book.OpLaw:
		return air.Law(e.Word, e.Table...)(a[0], a[len(a)-1]), nil
	case book.OpMin, book.OpMax:
		best := a[0]
		for _, v := range a[1:] {
			if (e.Op == book.OpMin) == (v < best) {
				best = v
			}
		}
		return best, nil
	}
	return 0, fmt.Errorf("%s: this cannot stand in an expectation", e.Range)
}

// divide as docs/meaning.md section 4 says.
func divide(a, b float64) float64 {
	switch {
	case b != 0:
		return a / b
	case a == 0:
		return 0
	}
	return math.Copysign(math.MaxFloat64, a)
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
