package web

import (
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
)

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
		g := c.Given[0]
		if len(g.Strikes) != 1 || g.Strikes[0].When != nil || len(g.Acts) > 0 {
			continue
		}
		k := g.Strikes[0]
		example_ := question{shelf: q.shelf, Question: ask.Question{
			Fail: refs(k.Fail), Out: refs(g.Inoperative), At: k.At, ForS: k.ForS, Resettable: k.Resettable, Build: g.Variant, Flight: g.Flight,
		}}
		list = append(list, example{c.Says, "/?" + example_.Query()})
	}
	return slices.Clip(list)
}

func refs(list []book.FailureRef) (texts []string) {
	for _, r := range list {
		texts = append(texts, strings.TrimSpace(r.String()))
	}
	return texts
}
