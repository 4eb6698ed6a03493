package book

import (
	"fmt"
	"strconv"
	"strings"

	"knockon/say"
)

// The constructors of diagnostics about values and expressions.

func wantsText(at Range, name string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q needs a text in quotes", name), fmt.Sprintf("Write it as %s = \"…\".", name))
}

func emptyText(at Range, name string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("The text of %q is empty", name), "Write something, or leave the attribute out.")
}

func notPlainNumber(at Range, by string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q needs a plain number here", by), "Write digits, such as 2.5; no ids and no conditions.")
}

func notWhole(at Range, name string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q needs a whole number", name), "Write it without a fraction.")
}

func notTrueOrFalse(at Range, name string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q needs true or false", name), "Write true or false, without quotes.")
}

func wantsID(at Range, kinds string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("The id of %s is needed here", withArticle(kinds)), "Write the bare id, without quotes, dots or operators.")
}

func quotedID(at Range, id string) Diagnostic {
	return problem("quoted-id", at, "An id is needed here, not a text", fmt.Sprintf("Write it without quotes: %s.", shortened(id)))
}

func shortened(s string) string {
	if len(s) > 60 {
		return strings.ToValidUTF8(s[:60], "") + "…"
	}
	return s
}

func numberOutOfRange(at Range) Diagnostic {
	return problem("out-of-range", at, "The number is too big", "The largest number in a book is 1,000,000,000,000,000.")
}

func outOfRange(at Range, name string, least, most float64) Diagnostic {
	detail := fmt.Sprintf("It must be from %s to %s.", plainNumber(least), plainNumber(most))
	if least == 0 && most >= mostSeconds {
		detail = fmt.Sprintf("It must not be negative, and at most %s.", plainNumber(most))
	}
	return problem("out-of-range", at, fmt.Sprintf("The number of %q is out of range", name), detail)
}

func plainNumber(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }

func badDuration(at Range, by string) Diagnostic {
	return problem("out-of-range", at, fmt.Sprintf("The time of %q is out of range", by),
		fmt.Sprintf("Times are seconds; they cannot be negative, and not more than %s.", plainNumber(mostSeconds)))
}

func badCount(at Range, values int) Diagnostic {
	return problem("out-of-range", at, "at_least cannot ask for so many",
		fmt.Sprintf("Its first argument is a whole number from 1 to the number of values that follow, here %d.", values))
}

func rowsNotRising(at Range, x, next float64) Diagnostic {
	return problem("arguments", at, fmt.Sprintf("The rows of between do not rise: %s follows %s", formatNumber(next), formatNumber(x)),
		"Write between(x, x1, y1, x2, y2, …) with x1 < x2 < …; below the first row and above the last it stays at their y.")
}

func badBounds(at Range) Diagnostic {
	return problem("out-of-range", at, "The bounds of the total exclude its start", "Write total(x, start, least, most) with least ≤ start ≤ most.")
}

func notOneOf(at Range, name, word string, words []string) Diagnostic {
	return problem("unknown-word", at, fmt.Sprintf("%q cannot be %q", name, shortened(word)),
		say.DidYouMean(say.Nearest(word, words), "It is one of: "+quoted(words)+"."))
}

func quoted(words []string) string {
	list := make([]string, 0, len(words))
	for i, w := range words {
		if i == 12 {
			list = append(list, "…")
			break
		}
		list = append(list, strconv.Quote(shortened(w)))
	}
	return strings.Join(list, ", ")
}

func unknownPosition(at Range, control, word string, words []string) Diagnostic {
	return problem("unknown-word", at, fmt.Sprintf("Control %q has no position %q", control, shortened(word)),
		say.DidYouMean(say.Nearest(word, words), "Its positions are: "+quoted(words)+"."))
}

func neverThatWord(at Range, a, b *Expr, where string) Diagnostic {
	if where != "" {
		where = fmt.Sprintf(" So it is on build %q; if only there, let a variant block say what holds there.", where)
	}
	if b.Op == OpWord {
		return problem("never-equal", at, fmt.Sprintf("%s is never %q", a.name("This"), shortened(b.Word)),
			say.DidYouMean(say.Nearest(b.Word, a.Words), "It can be: "+quoted(a.Words)+".")+where)
	}
	return problem("never-equal", at, "These two have no word in common",
		fmt.Sprintf("One can be %s; the other can be %s.", quoted(a.Words), quoted(b.Words))+where)
}

// name is what to call a value in a message.
func (e *Expr) name(otherwise string) string {
	if e.Op == OpRef {
		return strconv.Quote(e.ID)
	}
	return otherwise
}

func badMoment(at Range, text, why string) Diagnostic {
	return problem("bad-moment", at, fmt.Sprintf("%q is no moment of a flight", shortened(text)), why)
}

func unknownID(at Range, id string, kinds []string, near string) Diagnostic {
	if base, rest, ok := strings.Cut(id, "-"); ok && near == "" {
		return problem("unknown-id", at, fmt.Sprintf("Nothing is called %q", shortened(id)),
			fmt.Sprintf("A dash is part of a name in HCL. For a difference put spaces around the minus: %s - %s.", shortened(base), shortened(rest)))
	}
	if len(kinds) <= 2 {
		what := strings.Join(kinds, " or ")
		return problem("unknown-id", at, fmt.Sprintf("No %s is called %q", what, shortened(id)),
			say.DidYouMean(near, fmt.Sprintf("Check the spelling, or add %s %q { … }.", kinds[0], shortened(id))))
	}
	return problem("unknown-id", at, fmt.Sprintf("Nothing is called %q", shortened(id)),
		say.DidYouMean(near, "Check the spelling, or add the item. A word, such as a position of a control, goes in quotes."))
}

func wordWithoutQuotes(at Range, word string) Diagnostic {
	return problem("unknown-id", at, fmt.Sprintf("Nothing is called %q", word), fmt.Sprintf("As a word it goes in quotes: %q.", word))
}

func unknownFault(at Range, unit, fault, near string) Diagnostic {
	return problem("unknown-fault", at, fmt.Sprintf("Unit %q has no fault %q", unit, shortened(fault)),
		say.DidYouMean(near, fmt.Sprintf("Add fault %q { … } to the unit, or check the spelling.", shortened(fault))))
}

func unknownReal(at Range, name, near string) Diagnostic {
	if name == "" {
		return problem("unknown-real", at, "A name must follow after real", "There are: real."+strings.Join(quantityNames(), ", real.")+".")
	}
	if near != "" {
		near = "real." + near
	}
	return problem("unknown-real", at, fmt.Sprintf("There is no real.%s", shortened(name)),
		say.DidYouMean(near, "There are: "+strings.Join(quantityNames(), ", ")+"."))
}

func unknownFact(at Range, name, near string) Diagnostic {
	if name == "" {
		return problem("unknown-fact", at, "A name must follow after aircraft", "Write aircraft.name_unit with a number of the aircraft block.")
	}
	if near != "" {
		near = "aircraft." + near
	}
	return problem("unknown-fact", at, fmt.Sprintf("The aircraft block gives no %q", shortened(name)),
		say.DidYouMean(near, "Add it there, with its unit at the end of its name."))
}

func unknownFunction(at Range, name, near string) Diagnostic {
	return problem("unknown-function", at, fmt.Sprintf("There is no function %q", shortened(name)),
		say.DidYouMean(near, "Look the functions up in the language page. A plain id takes no parentheses."))
}

func absentID(at Range, id, kind, where string) Diagnostic {
	return problem("absent", at, fmt.Sprintf("%s %q does not exist on every build that needs it", say.Capital(kind), id),
		fmt.Sprintf("On build %q it is needed here but left out. Say here, in a variant block, what holds on that build, or limit this item to the same builds with only or except.", where))
}

func wrongKind(at Range, id, kind, wanted string) Diagnostic {
	return problem("wrong-kind", at, fmt.Sprintf("%q is %s, not %s", id, withArticle(kind), withArticle(wanted)), fmt.Sprintf("Name %s here.", withArticle(wanted)))
}

func notAUnit(at Range, id, kind string) Diagnostic {
	return problem("wrong-kind", at, fmt.Sprintf("%q is %s, not a unit", id, withArticle(kind)), "Only units have faults; nothing else is read with a dot (except real and aircraft).")
}

func hasNoValue(at Range, id, kind string) Diagnostic {
	detail := "Use a unit, function, signal, control, phase or alert."
	if kind == "indication" {
		detail = "Use the signal that it shows."
	}
	return problem("wrong-kind", at, fmt.Sprintf("%q is %s; it has no value", id, withArticle(kind)), detail)
}

func notInLanguage(at Range) Diagnostic {
	return problem("not-in-language", at, "HCL allows this, the book language does not",
		"Expressions are made of ids, numbers, words in quotes, true and false, operators, parentheses and the functions of the language page.")
}

func listNotAllowed(at Range) Diagnostic {
	return problem("not-in-language", at, "A list cannot stand here", "Give a single value. To join conditions use any(a, b), all(a, b), && or ||.")
}

func noSuchOperator(at Range) Diagnostic {
	return problem("not-in-language", at, "The language has no such operator", "The operators are && || ! == != < <= > >= + - * / and a ? b : c.")
}

func wrongArguments(at Range, name, form string, count int) Diagnostic {
	return problem("arguments", at, fmt.Sprintf("%q is called with %s", name, say.Counted(count, "argument")), "It is called as "+form+".")
}

func wrongType(e *Expr, want Type, by string) Diagnostic {
	return problem("wrong-type", e.Range, fmt.Sprintf("%q needs %s here, and this is %s", by, typeWithArticle(want), typeWithArticle(e.Type)), typeHint(e, want))
}

func typeWithArticle(t Type) string { return "a " + t.String() }

func typeHint(e *Expr, want Type) string {
	switch {
	case e.Type == Number && want == YesNo:
		return "Compare the number with something, such as x > 0."
	case e.Type == Word && want == YesNo && e.Op == OpWord:
		return "Write ids without quotes; compare a word with something, such as lever == \"down\"."
	case e.Type == Word && want == YesNo:
		return "Compare it with a word, such as lever == \"down\"."
	case e.Type == YesNo && want == Number:
		return "Choose a number for each case: x ? 1 : 0."
	}
	return "Use " + typeWithArticle(want) + "."
}

func typesDiffer(at Range, a, b *Expr) Diagnostic {
	return problem("wrong-type", at, fmt.Sprintf("%s and %s do not go together", say.Capital(typeWithArticle(a.Type)), typeWithArticle(b.Type)), "Both sides must be of one type.")
}

func unitsDiffer(at Range, a, b *Expr) Diagnostic {
	return problem("wrong-unit", at, fmt.Sprintf("A number in %s meets one in %s", a.Unit, b.Unit),
		"Numbers with different units cannot be compared, added or chosen between. Convert one of them: a product, such as 3.28 * x_m, goes with any unit.")
}

func nameSaysOther(at Range, id, says, is string) Diagnostic {
	return problem("wrong-unit", at, fmt.Sprintf("%q should be in %s by its name, and is in %s", id, says, is),
		fmt.Sprintf("Let the id end in _%s, or convert the value.", is))
}

func chained(at Range) Diagnostic {
	return problem("chained", at, "Comparisons do not chain", "Write both: 1 < x && x < 3. To compare two yes/no values put each in parentheses.")
}

func dividesByZero(at Range) Diagnostic {
	return problem("zero-division", at, "This divides by zero", "Divide by something else.")
}

func onlyInClaims(at Range, name string) Diagnostic {
	return problem("only-in-claims", at, fmt.Sprintf("%q is only for what a claim expects", name),
		"It speaks about a whole flight with failures, so nothing in the aircraft can depend on it, nor can it stand inside another such function.")
}

func noMoment(at Range) Diagnostic {
	return problem("no-moment", at, "A claim must say when this holds",
		"Write ever(x), always(x), at(seconds, x) or in_phase(phase, x).")
}

func typeNotKnown(at Range, id string) Diagnostic {
	return problem("untyped", at, fmt.Sprintf("Nothing says what type %q has", id), "It only depends on itself. Give it a value to start from.")
}

func onlyInSteps(at Range, name string) Diagnostic {
	return problem("only-in-steps", at, fmt.Sprintf("%q is only for what a crew look at", name),
		"It stands in that of a check or decide, in when of a later, or in if of a line.")
}

func unknownPlan(at Range, name, near string) Diagnostic {
	if near != "" {
		near = "flight." + near
	}
	return problem("unknown-fact", at, fmt.Sprintf("A flight has no number %q", shortened(name)),
		say.DidYouMean(near, "Read one that flights give, such as flight.decision_kt."))
}

func unknownSight(at Range, name, near string) Diagnostic {
	if name == "" {
		return problem("unknown-real", at, "A name must follow after seen", "There are: seen."+strings.Join(sightNames(), ", seen.")+".")
	}
	if near != "" {
		near = "seen." + near
	}
	return problem("unknown-real", at, fmt.Sprintf("There is no seen.%s", shortened(name)),
		say.DidYouMean(near, "There are: seen."+strings.Join(sightNames(), ", seen.")+"."))
}

func cannotKnow(at Range, name, parts string) Diagnostic {
	return problem("cannot-know", at, fmt.Sprintf("%q asks for what is true, and a crew know only what is shown", name),
		"Read an indication, an alert, a control, a phase or seen.* instead of: "+parts+".")
}

func neverCalled(at Range, a *Alert, list string) Diagnostic {
	return problem("never-called", at, fmt.Sprintf("%q does not call for %q, so this is never yes", a.ID, list),
		"Give the alert procedure = "+list+", or name one that has it.").with("the alert", a.Range)
}
