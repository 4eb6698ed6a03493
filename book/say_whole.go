package book

import (
	"fmt"
	"strconv"
	"strings"
)

// The constructors of diagnostics about the book as a whole.

func andMore(n int) Diagnostic {
	return problem("more", Range{}, fmt.Sprintf("And %d more", n), "Mend the ones above first; many of the others may go with them.")
}

func noFlight() Diagnostic {
	return problem("no-flight", Range{}, "The book has no flight", `Nothing can be flown without one: add flight "name" { … }.`)
}

func noPhase() Diagnostic {
	return problem("no-phase", Range{}, "The book has no phase",
		`Add phase blocks in the order of the flight, so that moments and quiet_in can name them.`)
}

func loop(first *declaration, ring []*Expr) Diagnostic {
	names := strconv.Quote(first.id)
	for _, e := range ring {
		names += " → " + strconv.Quote(e.ID)
	}
	d := problem("loop", ring[0].Range, fmt.Sprintf("%q depends on itself", first.id),
		"The ring is "+shortRing(names)+". Somewhere in it a memory is needed: a latch, held, pulse, before, total, count or a control.")
	d = d.within(first.at)
	for i, e := range ring {
		if i == mostRing {
			break
		}
		d = d.with(fmt.Sprintf("%q is read here", e.ID), e.Range)
	}
	return d
}

// mostRing is how many members of a ring a message names.
const mostRing = 20

func shortRing(names string) string {
	parts := strings.SplitN(names, " → ", mostRing+2)
	if len(parts) <= mostRing+1 {
		return names
	}
	return strings.Join(parts[:mostRing], " → ") + " → …"
}

func totalRing(at, other Range) Diagnostic {
	return problem("loop", at, "Two totals follow each other",
		"Each is summed from a number that changes continuously with the other. One total may follow itself; between two let a comparison stand, such as x > 20 ? 2.5 : 0.").
		with("the other total is here", other)
}

func boundedContinuous(at Range, source *Expr) Diagnostic {
	return problem("continuous", at, "A total with bounds takes a value that changes continuously",
		fmt.Sprintf("It follows %s. Only values that change at moments will do, such as x ? 2.5 : 0; or leave the bounds away.", source.String()))
}

func unusedUnit(at Range, id string) Diagnostic {
	return problem("unused-unit", at, fmt.Sprintf("Nothing uses unit %q", id), "Its failure takes nothing away. Name it in what needs it, or leave it out.")
}

func unusedControl(at Range, id string) Diagnostic {
	return problem("unused-control", at, fmt.Sprintf("Nothing reads control %q", id), "Moving it changes nothing. Read its position somewhere, or leave it out.")
}

func untold(at Range, id string) Diagnostic {
	return problem("untold", at, fmt.Sprintf("No alert or indication tells of function %q", id),
		"Its loss is never told. If something does tell of it, name it in tells of the alert or the indication.")
}

func oneAnswer(at Range, answer, branch string) Diagnostic {
	return problem("one-answer", at, fmt.Sprintf("This decision says nothing for the answer %s", answer), fmt.Sprintf("The other answer moves a control. Say in %s what to do, or at least that nothing is to be done.", branch))
}

func notCatastrophic(at Range, id string) Diagnostic {
	return problem("flyable", at, fmt.Sprintf("The aircraft cannot be flown without %q, whose loss is not catastrophic here", id),
		`Say severity = "catastrophic" there: the sweep and ways count losses by their severity.`)
}

func flownWithoutFunction(at Range) Diagnostic {
	return problem("flyable", at, "What the aircraft cannot be flown without is not a function",
		"Name functions with severity = \"catastrophic\": the sweep and ways count functions that are lost.")
}

func noProcedure(at Range, id, level string) Diagnostic {
	return problem("no-procedure", at, fmt.Sprintf("Alert %q has no procedure", id), fmt.Sprintf("A %s calls for action. Name the checklist in procedure, if there is one.", level))
}

func noMeaning(at Range, id string) Diagnostic {
	return problem("no-meaning", at, fmt.Sprintf("Indication %q has no meaning", id), "Without means it can never be found wrong. Say what it stands for, as a value of real.* or of the systems.")
}

func noUnit(at Range, id string) Diagnostic {
	return problem("no-unit", at, fmt.Sprintf("Number signal %q does not say its unit", id),
		"Let its id end in its unit, such as _ft or _kg, so that units can be checked; _count or _ratio for a bare number.")
}

func constant(at Range, name string) Diagnostic {
	return problem("constant", at, fmt.Sprintf("This %s never changes", name), "It reads nothing that can change in a flight.")
}
