package web

import "knockon/scenario"

// example is a question that the book itself asks: a claim of its.
type example struct {
	Says    string
	Address string
}

// examples lists the claims of a build that an address can ask, in the order
// of the book: those in which one set of failures comes at one moment.
func examples(q *question) []example {
	var list []example
	for _, c := range q.build.Claims {
		if len(c.Given) == 0 {
			continue
		}
		if t, ok := scenario.OfGiven(c.Given[0]); ok && len(t.Fail) == 1 {
			claimed := question{shelf: q.shelf, Strike: t.Fail[0], Out: t.Out, Build: t.Build, Flight: t.Flight}
			list = append(list, example{c.Says, "/?" + claimed.Query()})
		}
	}
	return list
}
