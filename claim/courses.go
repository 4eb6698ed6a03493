package claim

import (
	"slices"

	"knockon/book"
	"knockon/scenario"
)

// newCourses are the courses of a book on which all that some claims observe there
// is observed.
func newCourses(b *book.Book, claims []*book.Claim) *scenario.Courses {
	c := scenario.NewCourses(b)
	c.Watch = func(build *book.Build, flight *book.Flight) (list []*book.Expr) {
		for _, claim := range claims {
			for _, g := range claim.Given {
				on, _ := b.Build(g.Variant)
				if f, err := on.FlightNamed(g.Flight); err == nil && on == build && f == flight {
					list = append(list, Observed(g)...)
				}
			}
		}
		return list
	}
	return c
}

// Observed lists the expressions that a given watches: what its expectations
// ask about, and its own conditions.
func Observed(g *book.Given) []*book.Expr {
	var list []*book.Expr
	for _, e := range g.Expect {
		e.Walk(func(x *book.Expr) {
			if x.Op == book.OpLedger {
				if w := watched(x); w != nil {
					list = append(list, w)
				}
			}
		})
	}
	for _, k := range g.Strikes {
		if k.When != nil {
			list = append(list, k.When)
		}
	}
	for _, a := range slices.Concat(g.SetUps, g.Acts) {
		if a.When != nil {
			list = append(list, a.When)
		}
	}
	return list
}

// watched is the expression that a function of a claim observes; nil for one
// that asks the ledger.
func watched(e *book.Expr) *book.Expr {
	for _, f := range book.ClaimFunctions {
		if f.Name == e.Word && f.Args[len(f.Args)-1] == 'e' {
			return e.Args[len(e.Args)-1]
		}
	}
	return nil
}
