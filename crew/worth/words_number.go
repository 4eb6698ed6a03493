package worth

import (
	"strings"

	"knockon/book"
	"knockon/say"
)

// unitOf is the unit of a number, or of what is compared, as far as one part of
// it has one.
func unitOf(e *book.Expr) string {
	if e.Unit != "" || e.Op == book.OpMul || e.Op == book.OpDiv {
		return e.Unit
	}
	for _, a := range e.Args {
		if u := unitOf(a); u != "" && a.Type == book.Number {
			return u
		}
	}
	return ""
}

// reckoned is how two numbers are put together.
var reckoned = map[book.Op]string{book.OpAdd: " plus ", book.OpSub: " less ", book.OpMul: " times ", book.OpDiv: " divided by "}

// listed is what is taken of several numbers.
var listed = map[book.Op]string{book.OpMin: "the least of ", book.OpMax: "the most of ", book.OpAbs: "the size of "}

// thing is one side of a comparison, in which numbers are of a unit where they
// say none.
func (w *Worth) thing(e *book.Expr, unit string) string {
	switch e.Op {
	case book.OpRef:
		return say.Lower(w.build().Title(e.ID))
	case book.OpWord:
		return say.Quoted(e.Word)
	case book.OpNumber:
		return say.Quantity(e.Num, unit)
	case book.OpFact:
		return w.fact(e)
	case book.OpPlan:
		return "the flight's " + strings.ReplaceAll(unitless(e.ID), "_", " ")
	case book.OpIf:
		return "(" + w.thing(e.Args[1], unit) + " if " + w.words(e.Args[0]) + ", else " + w.thing(e.Args[2], unit) + ")"
	}
	if how, ok := reckoned[e.Op]; ok {
		if e.Op == book.OpMul || e.Op == book.OpDiv {
			unit = ""
		}
		return w.part(e.Args[0], unit) + how + w.part(e.Args[1], unit)
	}
	if how, ok := listed[e.Op]; ok {
		var parts []string
		for _, a := range e.Args {
			parts = append(parts, w.part(a, unit))
		}
		return how + say.And(parts)
	}
	return e.String()
}

// part is a number that is a part of another: in brackets where it has parts.
func (w *Worth) part(e *book.Expr, unit string) string {
	text := w.thing(e, unit)
	if len(e.Args) > 0 && e.Op != book.OpAdd && e.Op != book.OpIf {
		text = "(" + text + ")"
	}
	return text
}

// fact is a number of the aircraft, as the book gives it.
func (w *Worth) fact(e *book.Expr) string {
	if a := w.build().Aircraft; a != nil {
		for _, n := range a.Numbers {
			if n.Name == e.ID {
				return say.Quantity(n.Value, e.Unit)
			}
		}
	}
	return "the aircraft's " + strings.ReplaceAll(unitless(e.ID), "_", " ")
}

// unitless is the name of a number without its unit: a bare "decision" is a speed.
func unitless(name string) string {
	unit := book.UnitOf(name)
	name = strings.TrimSuffix(name, "_"+unit)
	if unit == "kt" || unit == "mach" {
		name += " speed"
	}
	return name
}
