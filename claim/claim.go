// Package claim runs the claims of a book: it flies what each says is given,
// looks at the ledger and at what it observes, and says which claims hold.
//
// Invariant: a report depends on the book alone; the order of its results is
// that of the book, whatever ran first.
//
// Start reading at Check (check.go), then judge.go.
package claim

import (
	"slices"

	"knockon/book"
	"knockon/ledger"
)

// Report is what became of the claims.
type Report struct {
	Results []Result
}

// Result is one claim.
type Result struct {
	Claim  *book.Claim
	Givens []Outcome // one for each given
}

// Outcome is one scenario of a claim.
type Outcome struct {
	Given    *book.Given
	Trouble  string         // why the scenario could not be judged; "" if it could
	BrokeOff string         // that a flight breaks off, when and why; "" if it arrived
	Ledger   *ledger.Ledger // what was found, to look further; nil if all holds or nothing was flown
	Findings []Finding      // one for each expectation
}

// Finding is one expectation and what was found.
type Finding struct {
	Expect    *book.Expr
	Holds     bool
	Undecided bool     // it fails only because the flight breaks off before it is decided
	Got       string   // what was found instead or indeed, in words
	Why       []string // of one that fails: for each item it names, its value and what forced it
}

// Holds says that every expectation of every given holds.
func (r Result) Holds() bool {
	return !slices.ContainsFunc(r.Givens, func(o Outcome) bool { return !o.Holds() })
}

// Holds says that the scenario could be judged and every expectation holds.
func (o Outcome) Holds() bool {
	return o.Trouble == "" && !slices.ContainsFunc(o.Findings, func(f Finding) bool { return !f.Holds })
}

// Failing counts the claims that do not hold.
func (r *Report) Failing() int {
	n := 0
	for _, c := range r.Results {
		if !c.Holds() {
			n++
		}
	}
	return n
}

// All lists the claims of a book, each once, in the order of the book.
func All(b *book.Book) []*book.Claim {
	var list []*book.Claim
	seen := map[string]bool{}
	for _, v := range b.Variants {
		build, _ := b.Build(v.ID)
		for _, c := range build.Claims {
			if !seen[c.ID] {
				seen[c.ID] = true
				list = append(list, c)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b *book.Claim) int { return place(a.Range, b.Range) })
	return list
}

func place(a, b book.Range) int {
	switch {
	case a.File != b.File && a.File < b.File:
		return -1
	case a.File != b.File:
		return 1
	}
	return a.Offset - b.Offset
}
