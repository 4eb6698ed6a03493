package worth

import (
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
)

// words says a condition in titles, as a crew would: "on the ground, or “Left engine
// fire” is given". What no words are known for is given as the book writes it.
func (w *Worth) words(e *book.Expr) string {
	switch e.Op {
	case book.OpAnd, book.OpAll:
		return w.joined(e, " and ")
	case book.OpOr, book.OpAny:
		return w.joined(e, ", or ")
	case book.OpNot:
		return w.stands(e.Args[0], false)
	case book.OpRef, book.OpSeen:
		return w.stands(e, true)
	}
	if how, ok := compared[e.Op]; ok && e.Args[0].Op == book.OpRef {
		return w.thing(e.Args[0]) + how + w.thing(e.Args[1])
	}
	return e.String()
}

// compared is how a comparison is said.
var compared = map[book.Op]string{
	book.OpEq: " is at ", book.OpNe: " is not at ", book.OpLt: " is below ", book.OpLe: " is at most ", book.OpGt: " is above ", book.OpGe: " is at least ",
}

// joined says the parts of an and or an or; an or inside of an and stands in brackets.
func (w *Worth) joined(e *book.Expr, by string) string {
	var parts []string
	for _, a := range e.Args {
		text := w.words(a)
		if by == " and " && (a.Op == book.OpOr || a.Op == book.OpAny) {
			text = "(" + text + ")"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, by)
}

// seenWords are the things that are seen without an instrument.
var seenWords = map[string][2]string{
	"on_ground": {"in the air", "on the ground"}, "icing": {"out of the ice", "in ice"}, "outside_visible": {"in cloud", "with the ground or the horizon in sight"},
}

// stands says that something is so, or not.
func (w *Worth) stands(e *book.Expr, so bool) string {
	i, not := 0, "not "
	if so {
		i, not = 1, ""
	}
	if e.Op == book.OpSeen {
		return seenWords[e.ID][i]
	}
	item, _ := w.build().Item(e.ID)
	switch x := item.(type) {
	case *book.Phase:
		return not + "in the phase " + say.Quoted(x.Title)
	case *book.Alert:
		return say.Quoted(x.Message) + " is " + not + "given"
	case *book.Indication:
		return say.Lower(x.Title) + " says " + map[bool]string{true: "yes", false: "no"}[so]
	case nil:
		return map[bool]string{true: "", false: "!"}[so] + "(" + e.String() + ")"
	}
	return say.Lower(w.build().Title(e.ID)) + " is " + not + "so"
}

// thing is one side of a comparison.
func (w *Worth) thing(e *book.Expr) string {
	switch e.Op {
	case book.OpRef:
		return say.Lower(w.build().Title(e.ID))
	case book.OpWord:
		return say.Quoted(e.Word)
	case book.OpNumber:
		return strings.TrimSpace(strconv.FormatFloat(e.Num, 'f', -1, 64) + " " + e.Unit)
	case book.OpPlan:
		name, speed := strings.CutSuffix(e.ID, "_kt")
		if speed {
			name += " speed"
		}
		return "the flight's " + strings.ReplaceAll(name, "_", " ")
	}
	return e.String()
}
