package book

import "fmt"

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
