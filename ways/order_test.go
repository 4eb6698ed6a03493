package ways_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"knockon/ways/logic"
	"knockon/ways/module"
)

// TestSplit_KnowsNoOrderOfLines writes the open trees again with the arguments of
// every gate, and so the gates, in another order: what is to be solved is the same
// net, node for node, and so is the work, since no clock decides anything.
func TestSplit_KnowsNoOrderOfLines(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 7))
	shuffle := func(a []logic.Term) { r.Shuffle(len(a), func(i, j int) { a[i], a[j] = a[j], a[i] }) }
	for _, o := range openTrees(t) {
		want := parts(o.l, o.top)
		for range 3 {
			if got := parts(rewritten(o.l, o.top, shuffle)); !reflect.DeepEqual(got, want) {
				t.Errorf("%s in another order is another net", o.name)
			}
		}
	}
}

// part is a part of a term taken apart, with an event by its name.
type part struct {
	event string
	nodes []module.Node
	top   module.Ref
}

func parts(l *logic.Logic, top logic.Term) (list []part) {
	for _, p := range module.SplitTidy(l, top).List {
		if p.Net == nil {
			list = append(list, part{event: l.Events()[p.Event].Name})
		} else {
			list = append(list, part{nodes: p.Net.Nodes, top: p.Net.Top})
		}
	}
	return list
}

// rewritten builds a term again, the arguments of each gate in another order.
func rewritten(l *logic.Logic, top logic.Term, arrange func([]logic.Term)) (*logic.Logic, logic.Term) {
	n := logic.New()
	image := map[logic.Term]logic.Term{}
	var visit func(t logic.Term) logic.Term
	visit = func(t logic.Term) logic.Term {
		p := t.Plain()
		if _, ok := image[p]; !ok {
			args := slices.Clone(l.Args(p))
			arrange(args)
			var to []logic.Term
			for _, a := range args {
				to = append(to, visit(a))
			}
			switch l.Op(p) {
			case logic.Basic:
				image[p] = n.Event(l.Events()[l.K(p)].Name)
			case logic.And:
				image[p] = n.And(to...)
			case logic.Or:
				image[p] = n.Or(to...)
			case logic.AtLeast:
				image[p] = n.AtLeast(l.K(p), to...)
			case logic.Xor:
				image[p] = n.Xor(to...)
			}
		}
		return image[p] ^ (t & 1)
	}
	top = visit(top)
	return n, top
}
