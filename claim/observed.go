package claim

import (
	"slices"

	"knockon/book"
)

// Observed lists the expressions that a given watches: what its expectations
// ask about, and its own conditions.
func Observed(g *book.Given) []*book.Expr {
	var list []*book.Expr
	for _, e := range g.Expect {
		e.Walk(func(x *book.Expr) {
			if x.Op == book.OpLedger {
				list = append(list, watched(x)...)
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
	for _, l := range g.Plan {
		if l.When != nil {
			list = append(list, l.When)
		}
	}
	return list
}

// watched lists the expressions that a function of a claim observes itself.
func watched(e *book.Expr) (list []*book.Expr) {
	f, _ := book.ClaimFunctionNamed(e.Word)
	forms := f.Forms(len(e.Args))
	for i, a := range e.Args {
		switch {
		case forms[i] == "e", forms[i] == "x" && a.Op != book.OpLedger, e.Word == "ticks" && i == 2:
			list = append(list, a)
		}
	}
	return list
}
