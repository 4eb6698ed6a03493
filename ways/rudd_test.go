package ways_test

import (
	"context"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/dalzilio/rudd"

	"knockon/ways/diagram"
	"knockon/ways/logic"
)

// Trees whose diagrams take about a million nodes or more to build.
var largeTrees = []string{"cea9601", "edf9202", "edf9203", "edf9204", "edfpa14b", "edfpa14o", "edfpa14q"}

// TestDecisions_AgainstLibrary builds the same diagrams, whole, gate by gate and
// in the same order, with package diagram and with github.com/dalzilio/rudd, a
// general-purpose decision-diagram library, and compares the number of nodes
// and the processor time. It takes a minute, so KNOCKON_SLOW=1 asks for it;
// otherwise it does one small tree.
func TestDecisions_AgainstLibrary(t *testing.T) {
	slow := os.Getenv("KNOCKON_SLOW") != ""
	for _, o := range openTrees(t) {
		if o.name != "baobab3" && !(slow && slices.Contains(largeTrees, o.name)) {
			continue
		}
		order, own := bestOrder(t, o)
		lib := byLibrary(t, o, order)
		t.Logf("%-9s %8d nodes made, own %6.2f s, library %6.2f s, ratio %4.1f",
			o.name, own.nodes, own.seconds, lib.seconds, lib.seconds/own.seconds)
		if slow && o.name != "baobab3" && lib.seconds < own.seconds {
			t.Errorf("%s: the library is faster", o.name)
		}
		if !near(lib.share, own.share, 1e-9) {
			t.Errorf("%s: true in %g of all cases, by library in %g", o.name, own.share, lib.share)
		}
	}
}

// built is what one build took and gave.
type built struct {
	seconds float64
	nodes   int
	share   float64 // of all cases in which the tree is true
}

// bestOrder tries three orders within few nodes, then within more, and returns
// the first that suffices, with that one build.
func bestOrder(t *testing.T, o openTree) (level map[logic.Term]int, own built) {
	for limit := 1 << 18; limit < 1<<24; limit *= 4 {
		for kind := range 3 {
			level := walkOrder(o.l, o.top, kind)
			start := cpuTime()
			d, f, err := byDiagram(o, level, limit)
			if err != nil {
				continue
			}
			took := (cpuTime() - start).Seconds()
			half := make([]float64, len(level))
			for i := range half {
				half[i] = 0.5
			}
			return level, built{took, d.Len(), d.Chance(f, half)}
		}
	}
	t.Fatalf("%s: no order suffices", o.name)
	return nil, built{}
}

// walkOrder gives each event its level by a walk from the top, into arguments
// as written, light ones first, or heavy ones first.
func walkOrder(l *logic.Logic, top logic.Term, kind int) map[logic.Term]int {
	weight := map[logic.Term]float64{}
	for _, t := range l.Reach(top) {
		weight[t] = 1
		for _, a := range l.Args(t) {
			weight[t] += weight[a.Plain()]
		}
	}
	level, seen := map[logic.Term]int{}, map[logic.Term]bool{}
	var visit func(logic.Term)
	visit = func(t logic.Term) {
		if t = t.Plain(); seen[t] {
			return
		}
		seen[t] = true
		if l.Op(t) == logic.Basic {
			level[t] = len(level)
			return
		}
		args := slices.Clone(l.Args(t))
		slices.SortStableFunc(args, func(a, b logic.Term) int {
			return []int{0, 1, -1}[kind] * int(math.Copysign(1, weight[a.Plain()]-weight[b.Plain()]))
		})
		for _, a := range args {
			visit(a)
		}
	}
	visit(top)
	return level
}

func byDiagram(o openTree, level map[logic.Term]int, limit int) (*diagram.Decisions, diagram.Ref, error) {
	d := diagram.NewDecisions(context.Background(), limit)
	value := map[logic.Term]diagram.Ref{}
	of := func(t logic.Term) diagram.Ref { return value[t.Plain()] ^ diagram.Ref(t&1) }
	for _, t := range o.l.Reach(o.top) {
		args := make([]diagram.Ref, len(o.l.Args(t)))
		for i, a := range o.l.Args(t) {
			args[i] = of(a)
		}
		var err error
		switch o.l.Op(t) {
		case logic.Basic:
			value[t], err = d.Var(level[t])
		case logic.And:
			value[t], err = d.And(args...)
		case logic.Or:
			for i := range args {
				args[i] = args[i].Not()
			}
			value[t], err = d.And(args...)
			value[t] = value[t].Not()
		case logic.Xor:
			value[t], err = d.Xor(args...)
		case logic.AtLeast:
			value[t], err = d.AtLeast(o.l.K(t), args...)
		}
		if err != nil {
			return nil, 0, err
		}
	}
	return d, of(o.top), nil
}

func byLibrary(t *testing.T, o openTree, level map[logic.Term]int) built {
	b, err := rudd.New(len(level), rudd.Nodesize(1_000_000), rudd.Cachesize(1_000_000), rudd.Maxnodeincrease(0))
	if err != nil {
		t.Fatal(err)
	}
	start := cpuTime() // without the making of its first table
	value := map[logic.Term]rudd.Node{}
	of := func(t logic.Term) rudd.Node {
		if t.Negated() {
			return b.Not(value[t.Plain()])
		}
		return value[t]
	}
	for _, x := range o.l.Reach(o.top) {
		args := make([]rudd.Node, len(o.l.Args(x)))
		for i, a := range o.l.Args(x) {
			args[i] = of(a)
		}
		switch o.l.Op(x) {
		case logic.Basic:
			value[x] = b.Ithvar(level[x])
		case logic.And:
			value[x] = b.And(args...)
		case logic.Or:
			value[x] = b.Or(args...)
		case logic.Xor:
			value[x] = args[0]
			for _, a := range args[1:] {
				value[x] = b.Apply(value[x], a, rudd.OPxor)
			}
		case logic.AtLeast:
			value[x] = libraryAtLeast(b, o.l.K(x), args)
		}
		if b.Errored() {
			t.Fatalf("%s: library: %s", o.name, b.Error())
		}
	}
	took := (cpuTime() - start).Seconds()
	cases, _ := b.Satcount(of(o.top)).Float64()
	return built{seconds: took, share: cases / math.Exp2(float64(len(level)))}
}

func libraryAtLeast(b *rudd.BDD, k int, args []rudd.Node) rudd.Node {
	rows := make([]rudd.Node, k+1)
	for i := range rows {
		rows[i] = b.False()
	}
	rows[0] = b.True()
	for _, a := range args {
		for j := k; j > 0; j-- {
			rows[j] = b.Or(rows[j], b.And(rows[j-1], a))
		}
	}
	return rows[k]
}
