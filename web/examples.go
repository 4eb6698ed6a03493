package web

import (
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
		if len(c.Given) == 0 || !askable(c.Given[0]) {
			continue
		}
		g := c.Given[0]
		k := g.Strikes[0]
		claimed := question{shelf: q.shelf, Question: ask.Question{
			Fail: refs(k.Fail), Out: refs(g.Inoperative), At: k.At, ForS: k.ForS, Resettable: k.Resettable, Build: g.Variant, Flight: g.Flight,
		}}
		list = append(list, example{c.Says, "/?" + claimed.Query()})
	}
	return list
}

// askable says that a given fits an address as this page writes it.
func askable(g *book.Given) bool {
	return len(g.Strikes) == 1 && g.Strikes[0].When == nil && len(g.SetUps)+len(g.Acts) == 0
}

func refs(list []book.FailureRef) (texts []string) {
	for _, r := range list {
		texts = append(texts, strings.TrimSpace(r.String()))
	}
	return texts
}
