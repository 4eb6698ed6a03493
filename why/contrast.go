package why

import (
	"slices"

	"knockon/circuit"
)

// walker goes from a value that differs between two runs to the inputs that
// make it differ. A value that differs reads one that does, so the way never
// ends before an input.
type walker struct {
	*explainer
	allowed map[Input]bool // nil: any leaf will do
	partly  bool           // the other run has some of the leaves put in
	strict  bool           // what needs a leaf that is not allowed is no reason
	reasons reasons[pair]
}

func (x *explainer) walker(there *side, allowed []Input, strict bool) *walker {
	e := *x
	e.there = there
	w := &walker{explainer: &e, strict: strict, partly: there != x.there, reasons: newReasons[pair]()}
	if allowed != nil {
		w.allowed = map[Input]bool{}
	}
	for _, l := range allowed {
		w.allowed[l] = true
	}
	return w
}

// reason returns nil where the allowed leaves do not make the difference.
func (w *walker) reason(p pair) *reason {
	if w.here.quiet(p.n, p.here) && w.there.quiet(p.n, p.there) {
		p.here.pass, p.there.pass = 0, 0
	}
	return w.reasons.of(p, w.work, w.wrap)
}

// reasons keeps what was found. Of what is being worked out there is no reason
// yet, so that a loop comes to an end.
type reasons[P comparable] struct {
	found map[P]*reason
	busy  map[P]bool
}

func newReasons[P comparable]() reasons[P] {
	return reasons[P]{map[P]*reason{}, map[P]bool{}}
}

func (s reasons[P]) of(p P, work func(P) *reason, wrap func(P, *reason) *reason) *reason {
	if r, ok := s.found[p]; ok || s.busy[p] {
		return r
	}
	s.busy[p] = true
	r := work(p)
	delete(s.busy, p)
	if r != nil {
		r = wrap(p, r)
	}
	s.found[p] = r
	return r
}

// wrap makes a named node a step of its own.
func (w *walker) wrap(p pair, r *reason) *reason {
	v, named := w.c.NameOf(p.n)
	if !named || (len(r.steps) == 1 && r.steps[0].Value == v && r.steps[0].At == p.here.at) {
		return r
	}
	s := w.step(point{p.n, p.here}, v, Derived)
	s.Because, s.While = r.steps, r.while
	if r.stayed != nil {
		s.Stayed, s.Other = true, *r.stayed
	}
	return &reason{leaves: r.leaves, steps: []*Step{s}}
}

func (w *walker) leaf(p point, l Input, k Kind) *reason {
	if w.allowed != nil && !w.allowed[l] {
		return nil
	}
	v, _ := w.c.NameOf(p.n)
	s := w.step(p, v, k)
	s.Since = l.From
	return &reason{leaves: []Input{l}, steps: []*Step{s}}
}

// work finds what makes a node differ, by what it does.
func (w *walker) work(p pair) *reason {
	g := w.c.Gate(p.n)
	switch g.Kind {
	case circuit.GateWay:
		return w.way(p)
	case circuit.GateSwitch:
		return w.control(p)
	case circuit.GateGiven:
		return w.phase(p)
	case circuit.GateAnd, circuit.GateOr:
		return w.gate(p, g)
	case circuit.GateAtLeast:
		return w.quorum(p, g)
	case circuit.GateIf:
		return w.choice(p, g)
	case circuit.GateNot, circuit.GateMinus, circuit.GateTest, circuit.GatePlain:
		return w.all(w.at(p, g.Args...))
	}
	return w.memory(p, g)
}

// at gives operands in the same evaluations.
func (w *walker) at(p pair, nodes ...circuit.Node) (list []pair) {
	for _, n := range nodes {
		list = append(list, pair{n, p.here, p.there})
	}
	return list
}

// all is the reason of what differs among some pairs; nil if nothing does.
func (w *walker) all(list []pair) *reason {
	together := &reason{}
	for _, p := range list {
		if !w.differs(p) {
			continue
		}
		r := w.reason(p)
		switch {
		case r != nil:
			together = join(together, r)
		case w.strict:
			return nil
		}
	}
	if len(together.leaves) == 0 {
		return nil
	}
	return together
}

// gate is an and/or: all operands that differ where all are needed, and else
// the one with the fewest leaves.
func (w *walker) gate(p pair, g circuit.Gate) *reason {
	decides := 0.0
	if g.Kind == circuit.GateOr {
		decides = 1
	}
	in := w.at(p, g.Args...)
	if w.here.value(p.n, p.here) == decides {
		return w.fewest(w.only(in, decides), 1)
	}
	r := w.all(in)
	if r != nil {
		r.while = union(r.while, w.conditions(in))
	}
	return r
}

// only lists those that differ and have a value here.
func (w *walker) only(in []pair, v float64) []pair {
	return slices.DeleteFunc(slices.Clone(in), func(p pair) bool {
		return w.here.value(p.n, p.here) != v || !w.differs(p)
	})
}

// quorum is at_least: as many of those that differ as are missing there.
func (w *walker) quorum(p pair, g circuit.Gate) *reason {
	v := w.here.value(p.n, p.here)
	need := int(g.Num)
	if v == 0 {
		need = len(g.Args) - need + 1
	}
	var same []pair
	in := w.at(p, g.Args...)
	for _, q := range in {
		if w.here.value(q.n, q.here) == v && !w.differs(q) {
			same = append(same, q)
		}
	}
	r := w.fewest(w.only(in, v), max(need-len(same), 1))
	if r != nil {
		r.while = union(r.while, w.conditions(same))
	}
	return r
}

// fewest takes so many of some pairs, those with the fewest leaves first.
func (w *walker) fewest(list []pair, need int) *reason {
	var found []*reason
	for _, p := range list {
		if r := w.reason(p); r != nil {
			found = append(found, r)
		}
	}
	if len(found) < need && (w.strict || len(found) == 0) {
		return nil
	}
	slices.SortStableFunc(found, func(a, b *reason) int { return len(a.leaves) - len(b.leaves) })
	together := &reason{}
	for _, r := range found[:min(need, len(found))] {
		together = join(together, r)
	}
	return together
}

// choice is an if: its condition, and the branch taken here as that branch is
// there.
func (w *walker) choice(p pair, g circuit.Gate) *reason {
	taken := g.Args[2]
	if w.here.value(g.Args[0], p.here) != 0 {
		taken = g.Args[1]
	}
	return w.all(w.at(p, g.Args[0], taken))
}

// conditions are the steps of operands that are the same there: they are named,
// not explained. That a unit has not failed goes without saying, and so does
// what lasts for no time.
func (w *walker) conditions(in []pair) (list []*Step) {
	for _, p := range in {
		if w.partly {
			break
		}
		n := p.n
		for w.c.Gate(n).Kind == circuit.GateNot {
			n = w.c.Gate(n).Args[0]
		}
		if w.c.Constant(n) || w.c.Gate(n).Kind == circuit.GateWay {
			continue
		}
		v, named := w.c.NameOf(n)
		if _, _, expr := w.c.Source(n); !named && expr == nil {
			continue
		}
		if w.differs(pair{n, p.here, p.there}) || !w.here.lasting(n, p.here) {
			continue
		}
		list = append(list, w.step(point{n, p.here}, v, Condition))
	}
	return list
}
