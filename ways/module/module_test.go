package module_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"knockon/ways/logic"
	"knockon/ways/module"
)

// back evaluates parts put back into one another, in one case.
func back(p *module.Parts, failed func(event int) bool) bool {
	if p.Top < 0 {
		return p.Opposite
	}
	value := make([]bool, len(p.List))
	for i, part := range p.List {
		if part.Net == nil {
			value[i] = failed(part.Event)
		} else {
			value[i] = eval(part.Net, value)
		}
	}
	return value[p.Top] != p.Opposite
}

func eval(n *module.Net, parts []bool) bool {
	value := make([]bool, len(n.Nodes))
	for i, node := range n.Nodes {
		count := 0
		for _, a := range node.Args {
			if value[a>>1] != (a&1 == 1) {
				count++
			}
		}
		switch node.Op {
		case module.Leaf:
			value[i] = parts[node.K]
		case module.And:
			value[i] = count == len(node.Args)
		case module.AtLeast:
			value[i] = count >= node.K
		case module.Odd:
			value[i] = count%2 == 1
		}
	}
	return value[n.Top>>1] != (n.Top&1 == 1)
}

func randomTerm(r *rand.Rand, events int) (*logic.Logic, logic.Term) {
	l := logic.New()
	var terms []logic.Term
	for i := range events {
		terms = append(terms, l.Event(fmt.Sprint("e", i)))
	}
	pick := func() logic.Term { return terms[r.IntN(len(terms))] ^ logic.Term(r.IntN(4)/3) }
	for range 2 * events {
		args := []logic.Term{pick(), pick(), pick()}[:2+r.IntN(2)]
		switch r.IntN(9) {
		case 0:
			terms = append(terms, l.Xor(args...))
		case 1:
			terms = append(terms, l.AtLeast(2, args...))
		case 2, 3, 4, 5:
			terms = append(terms, l.And(args...))
		default:
			terms = append(terms, l.Or(args...))
		}
	}
	return l, l.Or(terms[len(terms)-3:]...)
}

func TestSplit_PutBackIsTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	nets := 0
	for n := range 1500 {
		l, top := randomTerm(r, 3+r.IntN(6))
		for name, parts := range map[string]*module.Parts{"Split": module.Split(l, top), "SplitTidy": module.SplitTidy(l, top)} {
			checkParts(t, parts)
			nets += netsOf(parts)
			for c := range 1 << len(l.Events()) {
				failed := func(e int) bool { return c>>e&1 == 1 }
				if got, want := back(parts, failed), l.Eval(top, failed); got != want {
					t.Fatalf("term %d: %s gives %v in case %b, want %v", n, name, got, c, want)
				}
			}
		}
	}
	if nets < 1000 {
		t.Errorf("%d nets: the terms test too little", nets)
	}
}

func netsOf(p *module.Parts) (nets int) {
	for _, part := range p.List {
		if part.Net != nil {
			nets++
		}
	}
	return nets
}

// checkParts holds parts to what the package promises: each event in one part,
// each part in one net, leaves before the net, and no at rest.
func checkParts(t *testing.T, p *module.Parts) {
	t.Helper()
	events, inside := map[int]bool{}, map[int]bool{}
	for i, part := range p.List {
		if part.Net == nil {
			if events[part.Event] {
				t.Fatalf("event %d is two parts", part.Event)
			}
			events[part.Event] = true
			continue
		}
		if eval(part.Net, make([]bool, len(p.List))) {
			t.Fatalf("part %d is yes at rest", i)
		}
		for _, leaf := range part.Net.Leaves() {
			if inside[leaf] || leaf >= i {
				t.Fatalf("part %d is a leaf of part %d and of an earlier one, or stands after it", leaf, i)
			}
			inside[leaf] = true
		}
	}
}

// Two pumps and two valves in each of two lines, all separate: every gate is a
// net of its own.
func TestSplit_FindsModules(t *testing.T) {
	l := logic.New()
	e := func(name string) logic.Term { return l.Event(name) }
	line1 := l.Or(e("pump1"), e("valve1"))
	line2 := l.Or(e("pump2"), e("valve2"))
	shared := l.And(e("x"), l.Or(e("y"), line1), l.Or(e("y"), line2))
	largest := 0
	for _, p := range module.Split(l, shared).List {
		if p.Net != nil {
			largest = max(largest, len(p.Net.Leaves()))
		}
	}
	if largest != 4 {
		t.Errorf("the largest net has %d leaves, want 4: x, y and the two lines", largest)
	}
}
