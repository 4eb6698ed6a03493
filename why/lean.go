package why

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// contrast explains a value that is another there. The leaves that the walk
// gives are put into the other run: as long as the value there is not what it is
// here, what still differs is explained too; then each leaf that the others can
// do without is left out. Where not even all inputs together give the value, as
// with what strikes on a condition inside an instant whose outcome hangs on the
// order, the leaves are those of the walk.
func (x *explainer) contrast(p pair) *Step {
	all := x.inputs(p.here.at)
	r := x.walker(x.there, nil, false).reason(p)
	leaves := all
	if r != nil {
		leaves = r.leaves
	} else {
		r = &reason{}
	}
	if x.fly == nil || len(all) < 2 {
		return x.rooted(p, r, leaves)
	}
	walked := leaves
	leaves, others, ok := x.enough(p, walked, all)
	if !ok {
		// Some totals add up in other pieces there (docs/meaning.md 5).
		x.grace = book.Second / 1000
		leaves, others, ok = x.enough(p, walked, all)
	}
	if ok {
		leaves = x.lean(p, leaves)
	}
	if len(leaves) < len(r.leaves) || len(others) > 1 {
		r = x.again(p, leaves, others)
	}
	return x.rooted(p, r, leaves)
}

// inputs lists the failures and the hands on controls that are not in the other
// run, up to a moment.
func (x *explainer) inputs(until book.Time) (all []Input) {
	for n := range circuit.Node(x.c.Size()) {
		switch x.c.Gate(n).Kind {
		case circuit.GateWay:
			all = append(all, x.failures(n)...)
		case circuit.GateSwitch:
			all = append(all, x.hands(n)...)
		}
	}
	all = slices.DeleteFunc(all, func(l Input) bool { return l.From > until })
	slices.SortStableFunc(all, func(a, b Input) int { return cmp.Compare(a.From, b.From) })
	return union(nil, all)
}

func (x *explainer) failures(n circuit.Node) (all []Input) {
	for _, m := range x.here.MovesOf(n) {
		at := x.here.after(int(m.Instant))
		if m.To == 0 || x.there.value(n, x.there.settled(at.at)) != 0 {
			continue
		}
		if l, ok := x.here.stretch(n, stage{at.at, at.instant, int(m.Pass) + 1}); ok && !slices.Contains(all, l) {
			all = append(all, l)
		}
	}
	return all
}

func (x *explainer) hands(n circuit.Node) (all []Input) {
	for _, m := range x.here.MovesOf(n) {
		at := x.here.Instants()[m.Instant]
		if x.there.movesAlike(n, m.To, at) {
			continue
		}
		if f, fired := x.here.FiredBy(n, m); fired && x.there.Has(f, x.here.Trace) {
			continue
		}
		all = append(all, Input{n, m.To, at, at})
	}
	return all
}

// movesAlike says that a control goes to a position at a moment in this run too.
func (s *side) movesAlike(n circuit.Node, to float64, at book.Time) bool {
	return slices.ContainsFunc(s.MovesOf(n), func(m circuit.Move) bool {
		return m.To == to && s.Instants()[m.Instant] == at
	})
}

// enough adds leaves until the other run with them has the value; ok is false
// if it has it with none. It returns also the runs that did not have it yet.
func (x *explainer) enough(p pair, leaves, all []Input) (enough []Input, others []*side, ok bool) {
	others = []*side{x.there}
	for list := leaves; ; {
		run, same := x.with(p, list)
		switch {
		case same:
			return list, others, true
		case len(list) == len(all) || run == nil:
			return leaves, others[:1], false
		}
		q := pair{p.n, p.here, align(x.here, p.here, run)}
		more := list
		if r := x.walker(run, nil, false).reason(q); r != nil {
			more = union(list, r.leaves)
		}
		if len(more) == len(list) {
			more = all
		}
		list, others = more, append(others, run)
	}
}

// proof is how near a number in a run that proves leaves must come to that here:
// what is put in or left out cuts a total into other pieces, and their ends lie
// on whole microseconds.
const proof = 1e-6

// with is the other run with leaves put in, and whether it has the value.
func (x *explainer) with(p pair, leaves []Input) (run *side, same bool) {
	t, err := x.fly(leaves, p.here.at+x.grace)
	if err != nil || t.End < p.here.at {
		return nil, false
	}
	run = newSide(t, x.c)
	v := x.here.value(p.n, p.here)
	stages := []stage{align(x.here, p.here, run), run.settled(p.here.at + x.grace)}
	if k, count := run.instantsAt(p.here.at); x.here.InstantAt(p.here.at) != p.here.instant {
		for i := range count {
			stages = append(stages, run.after(k+i))
		}
		stages = slices.Delete(stages, 1, 2)
	}
	return run, slices.ContainsFunc(stages, func(st stage) bool { return within(proof, v, run.value(p.n, st)) })
}

// lean leaves out each leaf that the others can do without, the latest first.
func (x *explainer) lean(p pair, leaves []Input) []Input {
	for _, l := range slices.Backward(slices.Clone(leaves)) {
		if len(leaves) == 1 {
			break
		}
		rest := slices.DeleteFunc(slices.Clone(leaves), func(o Input) bool { return o == l })
		if _, same := x.with(p, rest); same {
			leaves = rest
		}
	}
	return leaves
}

// again makes the tree of given leaves: what makes the value differ from the
// other run, and then from the runs that had only some of the leaves.
func (x *explainer) again(p pair, leaves []Input, others []*side) *reason {
	together := &reason{}
	for _, other := range others {
		q := pair{p.n, p.here, align(x.here, p.here, other)}
		if x.walker(other, nil, false).same(q) {
			continue
		}
		missing := slices.DeleteFunc(slices.Clone(leaves), func(l Input) bool { return slices.Contains(together.leaves, l) })
		if len(missing) == 0 {
			break
		}
		r := x.walker(other, leaves, true).reason(q)
		if r == nil {
			r = x.walker(other, leaves, false).reason(q)
		}
		if r != nil {
			together = x.merged(q, together, r)
		}
	}
	return together
}

func (w *walker) same(p pair) bool { return !w.differs(p) }

// merged puts the causes of the same value under one step.
func (x *explainer) merged(p pair, a, b *reason) *reason {
	v, named := x.c.NameOf(p.n)
	if !named || len(a.steps) != 1 || len(b.steps) != 1 || a.steps[0].Value != v || a.steps[0].Kind != Derived || b.steps[0].Value != v {
		return join(a, b)
	}
	s := a.steps[0]
	if s == b.steps[0] {
		return a
	}
	if b.steps[0].Kind != Derived {
		s.Because = union(s.Because, b.steps)
	}
	s.Because = union(s.Because, b.steps[0].Because)
	s.While = slices.DeleteFunc(s.While, func(c *Step) bool {
		return slices.ContainsFunc(s.Because, func(o *Step) bool { return o.Value == c.Value && o.Label == c.Label })
	})
	return &reason{leaves: union(a.leaves, b.leaves), steps: a.steps}
}

// rooted is the root step of a reason. Leaves that no chain leads to, since
// evaluations inside an instant were out of step, stand directly under it.
func (x *explainer) rooted(p pair, r *reason, leaves []Input) *Step {
	root := x.step(point{p.n, p.here}, x.value, Derived)
	root.Because, root.While = r.steps, r.while
	if len(r.steps) == 1 && r.steps[0].Value == x.value && r.steps[0].At == root.At {
		root = r.steps[0]
	}
	if root.Kind != Derived && len(leaves) > 1 {
		root = x.step(point{p.n, p.here}, x.value, Derived)
		root.Because = r.steps
	}
	for _, l := range leaves {
		if !slices.Contains(r.leaves, l) {
			root.Because = append(root.Because, x.bare(l))
		}
	}
	return root
}

// bare is a leaf as a step, at the moment from which it is so.
func (x *explainer) bare(l Input) *Step {
	v, _ := x.c.NameOf(l.Node)
	k := Fails
	if x.c.Gate(l.Node).Kind == circuit.GateSwitch {
		k = Acted
	}
	s := x.step(point{l.Node, x.here.taken(l)}, v, k)
	s.Since = l.From
	return s
}

// taken is the stage at which an input is so first.
func (s *side) taken(l Input) stage {
	for _, m := range s.MovesOf(l.Node) {
		if s.Instants()[m.Instant] == l.From && m.To == l.Value {
			return s.in(int(m.Instant), int(m.Pass)+1)
		}
	}
	return s.settled(l.From)
}
