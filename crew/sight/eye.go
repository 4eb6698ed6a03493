package sight

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/air"
	"knockon/run"
)

// Eye looks at a record at a moment, and works a question out from what stands
// there, part by part. It is the plain way; a Look reads what the circuit has
// observed.
type Eye struct {
	Record *run.Record
	At     book.Time
	Told   []*book.Indication // that are taken as what they mean, and as lit
}

// Answer is what is seen of a question.
func (y Eye) Answer(e *book.Expr) Answer {
	v, seen := y.value(e)
	if !seen {
		return Unseen
	}
	return answer(v != 0)
}

// Dark lists the indications of a question that are not lit, in its order.
func (y Eye) Dark(e *book.Expr) []*book.Indication {
	return y.among(e, func(i *book.Indication) bool { return y.node(i.ID, circuit.Lit) == 0 })
}

// Wrong lists the indications of a question that show wrong and are believed, in
// its order: what is held against another that means the same is not.
func (y Eye) Wrong(e *book.Expr) (list []*book.Indication) {
	if y.compares(e) {
		return nil
	}
	if i := y.indication(e); i != nil && i.Means != nil && y.node(i.ID, circuit.Wrong) != 0 {
		list = append(list, i)
	}
	for _, a := range e.Args {
		for _, i := range y.Wrong(a) {
			if !slices.Contains(list, i) {
				list = append(list, i)
			}
		}
	}
	return list
}

// Misleads lists those of the wrong indications of a question that make its answer
// another: with what they mean in their place, all else as it is seen, and no fewer of
// them. It gives that answer; the same as is seen, and none, where nothing misleads.
func (y Eye) Misleads(e *book.Expr) (list []*book.Indication, right Answer) {
	seen, all := y.Answer(e), y.Wrong(e)
	if y.told(all).Answer(e) == seen {
		return nil, seen
	}
	for k := 0; k < len(all); {
		rest := slices.Delete(slices.Clone(all), k, k+1)
		if y.told(rest).Answer(e) == seen {
			k++
			continue
		}
		all, k = rest, 0
	}
	return all, y.told(all).Answer(e)
}

func (y Eye) told(list []*book.Indication) Eye { y.Told = list; return y }

// compares says that an operation holds two indications against each other that
// mean the same: so a wrong one is found out.
func (y Eye) compares(e *book.Expr) bool {
	switch e.Op {
	case book.OpSub, book.OpEq, book.OpNe, book.OpLt, book.OpLe, book.OpGt, book.OpGe:
	default:
		return false
	}
	all := func(*book.Indication) bool { return true }
	for _, i := range y.among(e.Args[0], all) {
		if slices.ContainsFunc(y.among(e.Args[1], all), func(j *book.Indication) bool { return i != j && i.Means != nil && i.Means.String() == j.Means.String() }) {
			return true
		}
	}
	return false
}

func (y Eye) among(e *book.Expr, is func(*book.Indication) bool) (list []*book.Indication) {
	e.Walk(func(e *book.Expr) {
		if i := y.indication(e); i != nil && !slices.Contains(list, i) && is(i) {
			list = append(list, i)
		}
	})
	return list
}

func (y Eye) indication(e *book.Expr) *book.Indication {
	if e.Op != book.OpRef {
		return nil
	}
	item, _ := y.Record.Course.Build.Item(e.ID)
	i, _ := item.(*book.Indication)
	return i
}

// node is the value of an item. Reading what the build does not have is a fault
// of this package.
func (y Eye) node(id string, a circuit.Aspect) float64 {
	n, ok := y.Record.Circuit().Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		panic("sight: no value " + id)
	}
	return y.Record.At(n, y.At)
}

// value is what an expression is seen to be; a word is its number in the circuit,
// one that no item can be is below zero.
func (y Eye) value(e *book.Expr) (v float64, seen bool) {
	if remembers(e) {
		return y.past(e)
	}
	switch e.Op {
	case book.OpRef:
		return y.item(e)
	case book.OpSeen:
		s, _ := book.SightNamed(e.ID)
		return yes((y.real(s.Real) != 0) != s.Not), true
	case book.OpReal:
		return y.real(e.ID), true
	case book.OpFact:
		v, _ = y.Record.Course.Build.Aircraft.Number(e.ID)
		return v, true
	case book.OpPlan:
		return y.Record.Course.Flight.Planned(e.ID), true
	case book.OpFailed:
		return y.node(e.ID, circuit.Failed), true
	case book.OpFault:
		return y.node(e.ID, circuit.Aspect(e.Word)), true
	case book.OpWord:
		return y.word(e.Word), true
	case book.OpYesNo, book.OpNumber:
		return e.Num, true
	case book.OpIf:
		return y.choice(e)
	case book.OpAnd, book.OpAll:
		return y.enough(e.Args, len(e.Args))
	case book.OpOr, book.OpAny:
		return y.enough(e.Args, 1)
	case book.OpAtLeast:
		return y.enough(e.Args, int(e.Num))
	}
	return y.worked(e)
}

// past is what a timer or another memory gives, which the record observes. It
// counts as seen if its parts can be seen now.
func (y Eye) past(e *book.Expr) (v float64, seen bool) {
	n, seen := y.Record.Circuit().WatchOf(e)
	for _, a := range e.Args {
		_, s := y.value(a)
		seen = seen && s
	}
	return y.Record.At(n, y.At), seen
}

func (y Eye) item(e *book.Expr) (v float64, seen bool) {
	i := y.indication(e)
	switch {
	case i == nil:
		return y.node(e.ID, circuit.Main), true
	case i.Means != nil && slices.Contains(y.Told, i):
		return y.node(e.ID, circuit.Means), true
	}
	return y.node(e.ID, circuit.Main), y.node(e.ID, circuit.Lit) != 0
}

func (y Eye) real(name string) float64 {
	q := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name })
	return y.Record.Path().Value(q, y.At)
}

func (y Eye) word(word string) float64 {
	for i := 0; ; i++ {
		switch y.Record.Circuit().WordText(float64(i)) {
		case word:
			return float64(i)
		case "":
			return -1
		}
	}
}

func (y Eye) choice(e *book.Expr) (v float64, seen bool) {
	c, seen := y.value(e.Args[0])
	if !seen {
		return 0, false
	}
	if c != 0 {
		return y.value(e.Args[1])
	}
	return y.value(e.Args[2])
}

// enough counts what is seen to be yes and what is seen to be no.
func (y Eye) enough(args []*book.Expr, want int) (v float64, seen bool) {
	yeses, noes := 0, 0
	for _, a := range args {
		switch v, seen := y.value(a); {
		case seen && v != 0:
			yeses++
		case seen:
			noes++
		}
	}
	return yes(yeses >= want), yeses >= want || noes > len(args)-want
}

// worked works out what needs all its parts.
func (y Eye) worked(e *book.Expr) (v float64, seen bool) {
	x := make([]float64, len(e.Args))
	seen = true
	for i, a := range e.Args {
		v, s := y.value(a)
		x[i], seen = v, seen && s
	}
	switch e.Op {
	case book.OpNot:
		return 1 - x[0], seen
	case book.OpEq:
		return yes(x[0] == x[1]), seen
	case book.OpNe:
		return yes(x[0] != x[1]), seen
	case book.OpLt:
		return yes(x[0] < x[1]), seen
	case book.OpLe:
		return yes(x[0] <= x[1]), seen
	case book.OpGt:
		return yes(x[0] > x[1]), seen
	case book.OpGe:
		return yes(x[0] >= x[1]), seen
	case book.OpMin:
		return slices.Min(x), seen
	case book.OpMax:
		return slices.Max(x), seen
	case book.OpAbs:
		return math.Abs(x[0]), seen
	case book.OpNeg:
		return -x[0], seen
	case book.OpLaw:
		return air.Law(e.Word, e.Table...)(x[0], x[len(x)-1]), seen
	}
	return arithmetic(e.Op, x[0], x[1]), seen
}

func arithmetic(op book.Op, a, b float64) float64 {
	switch op {
	case book.OpAdd:
		a += b
	case book.OpSub:
		a -= b
	case book.OpMul:
		a *= b
	case book.OpDiv:
		a = divided(a, b)
	default:
		panic("sight: an operation that is none")
	}
	return max(-math.MaxFloat64, min(a, math.MaxFloat64))
}

// divided is docs/meaning.md, section 4.
func divided(a, b float64) float64 {
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
