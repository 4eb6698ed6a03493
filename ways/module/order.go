package module

import (
	"cmp"
	"encoding/binary"
	"hash/fnv"
	"slices"

	"knockon/ways/logic"
)

// traits are what a term is sorted by. They depend on what it says, not on the
// order in which it or anything else was written.
type traits struct {
	depth  int     // gates on the longest way down to an event
	events float64 // the events below it, as often as they stand there
	print  uint64
}

// inOrder lists the terms below t, each after its arguments, and its arguments in
// an order of their own: the shallow and the small first. The order in which the
// lines of a tree stand so decides nothing, and neither does the order in a line.
func inOrder(l *logic.Logic, t logic.Term) (terms []logic.Term, args map[logic.Term][]logic.Term) {
	known := map[logic.Term]traits{}
	args = map[logic.Term][]logic.Term{}
	for _, x := range l.Reach(t) {
		known[x] = traitsOf(l, x, known)
		sorted := slices.Clone(l.Args(x))
		slices.SortStableFunc(sorted, func(a, b logic.Term) int {
			return compare(known[a.Plain()].marked(a), known[b.Plain()].marked(b))
		})
		args[x] = sorted
	}
	seen := map[logic.Term]bool{}
	var visit func(logic.Term)
	visit = func(x logic.Term) {
		if seen[x] {
			return
		}
		seen[x] = true
		for _, a := range args[x] {
			visit(a.Plain())
		}
		terms = append(terms, x)
	}
	visit(t.Plain())
	return terms, args
}

// marked is the traits of a term or, where that is negated, of its opposite.
func (t traits) marked(as logic.Term) traits {
	t.print ^= uint64(as&1) * 0x9E3779B97F4A7C15
	return t
}

func compare(a, b traits) int {
	return cmp.Or(cmp.Compare(a.depth, b.depth), cmp.Compare(a.events, b.events), cmp.Compare(a.print, b.print))
}

func traitsOf(l *logic.Logic, x logic.Term, known map[logic.Term]traits) traits {
	h := fnv.New64a()
	add := func(n uint64) { _, _ = h.Write(binary.LittleEndian.AppendUint64(nil, n)) }
	add(uint64(l.Op(x)))
	if l.Op(x) == logic.Basic {
		_, _ = h.Write([]byte(l.Events()[l.K(x)].Name))
		return traits{events: 1, print: h.Sum64()}
	}
	add(uint64(l.K(x)))
	of := operands(l, x, known)
	if len(of) == 1 {
		return of[0]
	}
	t := traits{}
	for _, k := range of {
		t.depth, t.events = max(t.depth, k.depth+1), t.events+k.events
		add(k.print)
	}
	t.print = h.Sum64()
	return t
}

// operands are the traits of the arguments of a term, sorted. What is written
// twice, in one order and in another, counts once where once is enough.
func operands(l *logic.Logic, x logic.Term, known map[logic.Term]traits) (list []traits) {
	for _, a := range l.Args(x) {
		list = append(list, known[a.Plain()].marked(a))
	}
	slices.SortFunc(list, compare)
	if op := l.Op(x); op == logic.And || op == logic.Or {
		return slices.Compact(list)
	}
	return list
}
