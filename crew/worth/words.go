package worth

import (
	"strings"

	"knockon/book"
	"knockon/say"
)

// words says a condition in titles, as a crew would: "on the ground, or “Left engine
// fire” is given". What no words are known for is given as the book writes it.
func (w *Worth) words(e *book.Expr) string {
	text, _ := w.clause(e, true)
	return text
}

// clause says that a condition is so, or that it is not: what is denied as a whole
// is denied part by part. or says that the words are an or, which stands in
// brackets inside of an and.
func (w *Worth) clause(e *book.Expr, so bool) (text string, or bool) {
	switch e.Op {
	case book.OpNot:
		return w.clause(e.Args[0], !so)
	case book.OpAnd, book.OpAll:
		return w.joined(e.Args, so, so)
	case book.OpOr, book.OpAny:
		return w.joined(e.Args, so, !so)
	case book.OpAtLeast:
		return w.counted(e, so), false
	case book.OpIf:
		return w.clause(either(e.Args[0], e.Args[1], e.Args[2]), so)
	case book.OpEq, book.OpNe:
		if a, b := e.Args[0], e.Args[1]; a.Type == book.YesNo {
			return w.clause(either(a, b, not(b)), so == (e.Op == book.OpEq))
		}
	}
	if how, ok := compared[e.Op]; ok {
		if !so {
			how = compared[opposite[e.Op]]
		}
		unit := unitOf(e)
		return w.thing(e.Args[0], unit) + how + w.thing(e.Args[1], unit), false
	}
	return w.stands(e, so), false
}

// either is the condition that a is so and b, or a is not and c.
func either(a, b, c *book.Expr) *book.Expr {
	return &book.Expr{Op: book.OpOr, Args: []*book.Expr{
		{Op: book.OpAnd, Args: []*book.Expr{a, b}}, {Op: book.OpAnd, Args: []*book.Expr{not(a), c}},
	}}
}

func not(e *book.Expr) *book.Expr {
	return &book.Expr{Op: book.OpNot, Args: []*book.Expr{e}, Type: book.YesNo}
}

// joined says that all of the parts are so, or not so, or that one of them is.
func (w *Worth) joined(parts []*book.Expr, so, all bool) (text string, or bool) {
	if len(parts) == 1 {
		return w.clause(parts[0], so)
	}
	var texts []string
	for _, p := range parts {
		text, or := w.clause(p, so)
		if all && or {
			text = "(" + text + ")"
		}
		texts = append(texts, text)
	}
	if all {
		return strings.Join(texts, " and "), false
	}
	return strings.Join(texts, ", or "), true
}

// counted says that so many of some parts are so, or fewer.
func (w *Worth) counted(e *book.Expr, so bool) string {
	var texts []string
	for _, p := range e.Args {
		text, _ := w.clause(p, true)
		texts = append(texts, text)
	}
	how := "fewer than "
	if so {
		how = "at least "
	}
	return how + say.Whole(e.Num) + " of these: " + strings.Join(texts, "; ")
}

// compared is how a comparison is said.
var compared = map[book.Op]string{
	book.OpEq: " is at ", book.OpNe: " is not at ", book.OpLt: " is below ", book.OpLe: " is at most ", book.OpGt: " is above ", book.OpGe: " is at least ",
}

// opposite is what is so where a comparison is not.
var opposite = map[book.Op]book.Op{
	book.OpEq: book.OpNe, book.OpNe: book.OpEq, book.OpLt: book.OpGe, book.OpGe: book.OpLt, book.OpGt: book.OpLe, book.OpLe: book.OpGt,
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
	switch e.Op {
	case book.OpSeen:
		return seenWords[e.ID][i]
	case book.OpYesNo:
		return map[bool]string{true: "always", false: "never"}[so == (e.Num != 0)]
	case book.OpFault, book.OpFailed:
		return say.Lower(w.build().FailureTitle(strings.TrimSuffix(e.ID+"."+e.Word, "."))) + " has " + not + "failed"
	}
	item, _ := w.build().Item(e.ID)
	switch x := item.(type) {
	case *book.Phase:
		return not + "in the phase " + say.Quoted(x.Title)
	case *book.Alert:
		if e.Op == book.OpCalledBy {
			return "the list is " + not + "done for " + say.Quoted(x.Message)
		}
		return say.Quoted(x.Message) + " is " + not + "given"
	case *book.Indication:
		return say.Lower(x.Title) + " says " + map[bool]string{true: "yes", false: "no"}[so]
	case *book.Unit, *book.Function:
		return say.Lower(item.Named().Title) + map[bool]string{true: " works", false: " does not work"}[so]
	case nil:
		return map[bool]string{true: "", false: "not so: "}[so] + e.String()
	}
	return say.Lower(w.build().Title(e.ID)) + " is " + not + "so"
}
