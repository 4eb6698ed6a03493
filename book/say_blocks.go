package book

import (
	"fmt"
	"slices"
	"strings"

	"knockon/say"
)

// The constructors of diagnostics about blocks, attributes and builds.

func attributeOutside(at Range, name string) Diagnostic {
	return problem("unknown-attribute", at, fmt.Sprintf("%q stands outside any block", name),
		"A file holds blocks; attributes go inside their braces. Perhaps a brace was closed too early.")
}

func chapterTooLate(at Range) Diagnostic {
	return problem("unknown-attribute", at, "\"chapter\" stands outside any block, and blocks stand before it",
		"The chapter of a whole file is said once, before its first block. For one block it goes inside the braces.")
}

func mirrorOfNothing(at Range) Diagnostic {
	return problem("bad-mirror", at, "The other side of this block has the same id",
		"A mirrored block is read a second time with left and right exchanged. Its id has neither: take mirror away, or give it a side.")
}

func mirrorOff(at Range) Diagnostic {
	return problem("bad-mirror", at, "\"mirror\" is false", "Only true means anything: take the line away.")
}

func unknownBlock(at Range, word, inside, near string) Diagnostic {
	place := "in " + withArticle(inside)
	if inside == "a book" {
		place = "in a book"
	}
	other := fmt.Sprintf("The blocks of a book are: %s.", strings.Join(append(slices.Clone(topWords), actWord), ", "))
	if inside != "a book" {
		other = "Look up in the language page which blocks it may hold. Perhaps a brace before it is missing."
	}
	return problem("unknown-block", at, fmt.Sprintf("There is no block %q %s", word, place), say.DidYouMean(near, other))
}

func unknownAttribute(at Range, name string, k *blockKind, near string) Diagnostic {
	other := fmt.Sprintf("%s takes: %s.", say.Capital(withArticle(k.word)), strings.Join(k.may, ", "))
	if len(k.may) == 0 {
		other = fmt.Sprintf("%s takes only blocks.", say.Capital(withArticle(k.word)))
	}
	return problem("unknown-attribute", at, fmt.Sprintf("%s has no attribute %q", say.Capital(withArticle(k.word)), name), say.DidYouMean(near, other))
}

func factWithoutUnit(at Range, name, near string) Diagnostic {
	other := "A number of the aircraft ends in its unit, such as wing_area_m2. The endings are: " + strings.Join(Units, ", ") + "."
	if strings.Contains(name, "-") {
		other = "Ids have no dashes; use _. " + other
	}
	return problem("unknown-attribute", at, fmt.Sprintf("An aircraft has no attribute %q", name), say.DidYouMean(near, other))
}

// givenTwice takes the line of the first as the parser tells it.
func givenTwice(at Range, name string, first []string) Diagnostic {
	detail := "Leave one of the two out."
	if len(first) == 2 {
		detail += " The first is in line " + first[1] + "."
	}
	return problem("attribute-twice", at, fmt.Sprintf("%q is given twice", name), detail)
}

func blockAsAttribute(at Range, name string) Diagnostic {
	return problem("unknown-attribute", at, fmt.Sprintf("%q is a block, not an attribute", name),
		fmt.Sprintf("Write it without the equals sign: %s { … }.", name))
}

func missingAttribute(at Range, name, kind, where string) Diagnostic {
	detail := fmt.Sprintf("Add a line %s = … to the block.", name)
	if where != "" {
		detail = fmt.Sprintf("On build %q nothing gives it. Add a line %s = … to the block, or to its variant block.", where, name)
	}
	return problem("missing-attribute", at, fmt.Sprintf("%s needs %q", say.Capital(withArticle(kind)), name), detail)
}

func missingLabel(at Range, word string, id bool) Diagnostic {
	what := "an id"
	if !id {
		what = "a title"
	}
	return problem("label", at, fmt.Sprintf("The %s has no name", word), fmt.Sprintf("Write %s in quotes before the brace: %s \"…\" { … }.", what, word))
}

func surplusLabel(at Range, word string, most int) Diagnostic {
	form := word + " { … }"
	if most == 1 {
		form = word + ` "name" { … }`
	}
	return problem("label", at, fmt.Sprintf("The %s has one name too many", word), "Write it as "+form+".")
}

func badID(at Range, id, repaired string, other *declaration) Diagnostic {
	detail := "Ids are lower-case letters, digits and _, and begin with a letter."
	if repaired != "" {
		detail += fmt.Sprintf(" Write %q.", repaired)
	}
	d := problem("bad-id", at, fmt.Sprintf("%q is no id", id), detail)
	if other != nil {
		d.Summary = fmt.Sprintf("%q is no id, and hardly differs from %q", id, repaired)
		d.Detail = "Ids are lower-case letters, digits and _, and begin with a letter. Choose one that people can tell from the other."
		d = d.with("the other is here", other.at)
	}
	return d
}

func reservedID(at Range, id string) Diagnostic {
	return problem("bad-id", at, fmt.Sprintf("%q cannot be an id", id), "The language uses this word itself. Choose another.")
}

func duplicateID(at Range, id, kind string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("The id %q is there twice", id),
		fmt.Sprintf("It is already the id of %s. An id is unique in the whole book, in all files and on all builds.", withArticle(kind))).with("the first is here", first)
}

func duplicateFault(at Range, unit, fault string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("Unit %q has two faults %q", unit, fault), "Give one of them another name.").with("the first is here", first)
}

func duplicateOverride(at Range, id string) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two variant blocks for build %q", id), "Put all attributes of a build into one.")
}

func listedTwice(at Range, word string) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("%q is in the list twice", word), "Leave it out once.")
}

func secondBranch(at Range, word string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two %s blocks", word), "Put all steps into one.").with("the first is here", first)
}

func notInOverride(at Range, word string) Diagnostic {
	return problem("variant", at, fmt.Sprintf("A variant block cannot change %q", word),
		"It replaces attributes. For another set of builds or other sub-blocks write a second item, with only = [ … ].")
}

func unknownVariant(at Range, id, near string) Diagnostic {
	return problem("variant", at, fmt.Sprintf("There is no build %q", id),
		say.DidYouMean(near, "Builds are the ids of variant blocks outside other blocks."))
}

func onlyAndExcept(at Range) Diagnostic {
	return problem("variant", at, "Both only and except are given", "Say either on which builds the item exists, or on which it does not.")
}

func onNoBuild(at Range, id string) Diagnostic {
	return problem("variant", at, fmt.Sprintf("%q exists on no build", id), "Change its only or except, or leave the item out.")
}

func claimNotThere(at Range, claim, variant string) Diagnostic {
	return problem("variant", at, fmt.Sprintf("The claim %q does not exist on build %q", claim, variant), "Change its only or except, or the build of this given.")
}

func secondAircraft(at, first Range) Diagnostic {
	return problem("no-aircraft", at, "The book has two aircraft blocks", "A book describes one type. Put everything into one block.").with("the first is here", first)
}

func noAircraft(where string) Diagnostic {
	detail := `Every book has one: aircraft "name" { title = "…" }.`
	if where != "" {
		detail += fmt.Sprintf(" On build %q there is none.", where)
	}
	return problem("no-aircraft", Range{}, "The book has no aircraft block", detail)
}

func valueAndLatch(at Range, id string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("Signal %q is both a value and a latch", id),
		"Give either value, or set and reset (and initial).")
}

func halfLatch(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Latch %q lacks set or reset", id),
		"A latch needs both. If it is never reset, write reset = false.")
}

func atAndWhen(at Range, what string) Diagnostic {
	return problem("contradiction", at, "Both at and when are given", what+" comes either at a moment or when something becomes true.")
}

func withinNothing(at Range) Diagnostic {
	return problem("contradiction", at, "There is nothing that within could be compared with",
		"It says how far a number shown may be from the number meant. Give means, or leave it out.")
}

func firstPhaseBegins(at Range, id string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("The first phase, %q, begins with the flight", id),
		"Leave its begins out. The first phase is the first in the order of the files and of their lines.")
}

func limitWithoutBound(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Limit %q has no bound", id), "Give most, least, or both.")
}

func tooFewPositions(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Control %q has fewer than two positions", id), `List them all: positions = ["off", "on"].`)
}

func emptyList(at Range, name string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("The list %q is empty", name), "Put at least one entry into it.")
}

func noSteps(at Range, word string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("The %s has no steps", word), "Add do, check, decide, note or later blocks (to a decide inside then and else).")
}

func triesWithoutReset(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Unit %q has tries but no reset", id), "Say what resets it with reset_by, such as reset_by = gen_switch == \"off\", or leave reset_tries out.")
}

func overWithoutSeverity(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Function %q is over on purpose, and has no severity", id), "Without a severity there is nothing that it could be over. Give severity = \"major\" or another, or leave over_on_purpose out.")
}

func oddRate(at Range, rate float64) Diagnostic {
	if rate == 0 {
		return problem("odd-rate", at, "A rate of 0 says that this never fails", "It is then taken for one that is not given. Give the rate in failures an hour, such as 1e-5, or leave it out.")
	}
	return problem("odd-rate", at, "This fails more than once an hour", "Rates are failures an hour of flight: a pump that fails once in 20,000 hours has 5e-5.")
}

func replacesAndAfter(at Range, id string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("Bulletin %q has both replaces and after", id), "Its steps stand either in the place of one step (replaces) or behind one (after); with neither they stand for the whole procedure.")
}

func endsBeforeItBegins(at Range, id, from, until string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("Bulletin %q ends before it begins", id), fmt.Sprintf("It holds from %s until %s, the last day included.", from, until))
}

func badDay(at Range, text string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q is not a day", text), `Write year, month and day: "2026-11-25".`)
}

func noSuchStep(at Range, number int, p *Procedure) Diagnostic {
	return problem("out-of-range", at, fmt.Sprintf("Procedure %q has no step %d", p.ID, number), fmt.Sprintf("It has %d, counted from 1; those inside others do not count.", len(p.Steps))).with("the procedure", p.Range)
}

func bulletinsDisagree(x, y *Bulletin) Diagnostic {
	return problem("bulletins", x.Range, fmt.Sprintf("Bulletins %q and %q are in force at once and disagree", y.ID, x.ID),
		fmt.Sprintf("Both change the same step of %s, or one of them stands for all of it. Give them days that do not overlap, or make one of the two.", x.Procedure)).with("the other", y.Range)
}

func halfSetting(at Range) Diagnostic {
	return problem("incomplete", at, "A setting needs both set and to", `Say which control goes to which position: set = gear_lever, to = "down".`)
}

func halfLeg(at Range) Diagnostic {
	return problem("incomplete", at, "A descent needs its level, and only a descent has one", `Say to which level: leg = "descend", leg_ft = 10000.`)
}

func leavesForNothing(at Range) Diagnostic {
	return problem("contradiction", at, "The line leaves its list, and says for which not", "Name the procedure that is begun at once: go_to = other_list. Or leave it out.")
}

func listLoop(at Range, ring []string) Diagnostic {
	return problem("list-loop", at, "Procedures send to each other without end", "The way is "+strings.Join(ring, " → ")+". Take one of its go_to away: a crew who follow them would never be done.")
}

func emptyStep(at Range, word, one, other string) Diagnostic {
	what := one + " or " + other
	if one == other {
		what = one + " or steps"
	}
	return problem("incomplete", at, fmt.Sprintf("The step %q says nothing", word), "Give it "+what+".")
}

func expectsNothing(at Range) Diagnostic {
	return problem("incomplete", at, "The claim expects nothing", "Add expect = [ … ] with what must be true, such as lost(brakes).")
}

func badLeg(at Range, text string, err error) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q is no leg of a plan", text), say.Capital(err.Error())+".")
}

func waitsForWhat(at Range, nothing bool) Diagnostic {
	if nothing {
		return problem("missing-attribute", at, `A later needs "in" or "when"`, "Say for which phase its steps are left (in = approach), or what is waited for (when = …, such as what an altimeter shows).")
	}
	return problem("contradiction", at, "Both in and when are given", "Steps are left either for a phase or until something is seen to be so.")
}

func noticedHow(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("How the loss of %q is noticed is not said in one way", id),
		"Give either noticed_at_once = true or noticed_when = a condition that then becomes true.")
}

func noticedBare(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("By which sense the loss of %q is noticed, or where that is from, is missing", id),
		`Give noticed_by ("seen", "heard", "felt" or "tried") and noticed_source.`)
}

func claimsNumber(at Range, id string) Diagnostic {
	return problem("wrong-value", at, fmt.Sprintf("%q is not a yes/no, so it cannot be down", id), "Name a unit, a function, a yes/no signal, or a fault of a unit.")
}

func duplicateTelling(at Range, level string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two telling blocks for %q", level), "Put all ways of a level into one.").with("the first is here", first)
}

func noTelling(at Range, level string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("No way of telling a %s is given", level), "Give text, light or sound: what must work for it.")
}
