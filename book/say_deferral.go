package book

import (
	"fmt"

	"knockon/say"
)

// The constructors of diagnostics about deferrals.

func daysMissing(at Range, id string) Diagnostic {
	return problem("missing-attribute", at, fmt.Sprintf("Deferral %q is of category A and does not say for how many days", id),
		"Add a line days = …, the day of discovery not counted; or choose B (3 days), C (10) or D (120).")
}

func daysOfItsOwn(at Range, category string, days int) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("Category %s has days of its own", category),
		fmt.Sprintf("It is %s. Leave days out, or write category = \"A\".", say.Counted(days, "day")))
}

func setUpLater(at Range) Diagnostic {
	return problem("contradiction", at, "A deferral's set-up holds from the start", "Leave at and when out: the control stands so before the flight, and stays.")
}

func setUpTwice(at Range, control string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("The deferral sets %q twice", control), "A control stands in one position for the whole flight: leave one out.")
}

func notBeforehand(e *Expr) Diagnostic {
	return problem("not-beforehand", e.Range, fmt.Sprintf("%s is not known before the flight", e.String()),
		"only_if may read numbers of the flight (flight.…) and of the aircraft (aircraft.…), and what is inoperative: failed(unit), or unit.fault.")
}

func excludesItself(at Range, id string) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("Deferral %q excludes itself", id),
		"Nothing could ever go by it. To let one of its items be broken and not two, write only_if = !all(failed(a), failed(b)).")
}
