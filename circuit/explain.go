package circuit

import (
	"slices"

	"knockon/book"
)

// Explaining (docs/meaning.md section 6). A reason for a node's value is a set
// of leaves that force it. Where one operand is enough, the one is taken that
// needs the fewest leaves, those first that differ from the other run; a
// second pass then drops every leaf that the rest can do without:
//
//	reason(and = no)   one operand that is no
//	reason(and = yes)  all operands
//	reason(latch)      its set or reset, at the instant at which it moved
//
// Only nodes with a name become steps; what lies between two names is merged.

// Kind of a step.
type Kind string

// Kinds of step. All but Derived are leaves.
const (
	Derived   Kind = "derived"
	Fails     Kind = "failure"   // a unit fails or has a fault
	Acted     Kind = "action"    // a control is where somebody put it
	Flown     Kind = "flight"    // what is physically true, or the phase
	Condition Kind = "condition" // the same in the other run
	FromStart Kind = "start"     // as it was at the start
)

// Step is one step of an explanation: a value, and what forced it. A step that
// is needed twice is the same pointer in both places.
type Step struct {
	Value   Value  // the named value; its Item is "" for a bare comparison
	Label   string // what a person calls it
	Says    string // its value in words
	Yes     bool   // a yes/no that is yes
	Kind    Kind
	At      book.Time  // the moment at which it is explained
	Since   book.Time  // since when it has had this value, 0 for the start
	Where   book.Range // its place in the book
	Because []*Step
}

// Explain says why a value is what it is at a moment of a run; there is the
// run to compare with, or nil. ok is false if the circuit has no such value.
func Explain(here, there *Trace, v Value, at book.Time) (s *Step, ok bool) {
	c := here.course.c
	n, ok := c.Node(v)
	if !ok {
		return nil, false
	}
	x := &explainer{c: c, here: here, there: there}
	return x.explain(n, v, here.instantAt(at)), true
}

type explainer struct {
	c           *Circuit
	here, there *Trace
	allowed     map[point]bool // nil: any leaf will do
	memo        map[point]*reason
	busy        map[point]bool
}

// point is a node after an instant.
type point struct {
	n Node
	i int
}

// reason is why a point has its value: the leaves, sorted, and the steps.
type reason struct {
	leaves []point
	steps  []*Step
}

func (x *explainer) explain(n Node, v Value, i int) *Step {
	x.reset(nil)
	r := x.reason(point{n, i})
	if r != nil {
		r = x.lean(point{n, i}, r)
	}
	if r != nil && len(r.steps) == 1 && r.steps[0].Value == v {
		return r.steps[0]
	}
	root := x.step(point{n, i}, v, Derived)
	if r != nil {
		root.Because = r.steps
	}
	return root
}

func (x *explainer) reset(allowed map[point]bool) {
	x.allowed, x.memo, x.busy = allowed, map[point]*reason{}, map[point]bool{}
}

// lean drops every leaf that the others can do without.
func (x *explainer) lean(p point, r *reason) *reason {
	allowed := map[point]bool{}
	for _, l := range r.leaves {
		allowed[l] = true
	}
	for _, l := range r.leaves {
		delete(allowed, l)
		x.reset(allowed)
		if x.reason(p) == nil {
			allowed[l] = true
		}
	}
	x.reset(allowed)
	return x.reason(p)
}

// reason returns nil where the allowed leaves do not force the value, or where
// the value would have to explain itself.
func (x *explainer) reason(p point) *reason {
	if r, ok := x.memo[p]; ok {
		return r
	}
	if x.busy[p] {
		return nil
	}
	x.busy[p] = true
	r := x.work(p)
	delete(x.busy, p)
	if r != nil {
		r = x.wrap(p, r)
	}
	x.memo[p] = r
	return r
}

// wrap makes a named node a step of its own.
func (x *explainer) wrap(p point, r *reason) *reason {
	v, named := x.c.names[p.n]
	if !named || (len(r.steps) == 1 && r.steps[0].Value == v) {
		return r
	}
	s := x.step(p, v, Derived)
	s.Because = r.steps
	return &reason{r.leaves, []*Step{s}}
}

func (x *explainer) leaf(p point, k Kind) *reason {
	if x.allowed != nil && !x.allowed[p] {
		return nil
	}
	v := x.c.names[p.n]
	return &reason{[]point{p}, []*Step{x.step(p, v, k)}}
}

func (x *explainer) value(p point) float64 {
	if x.c.smooth[p.n] {
		return x.here.smoothAt(p.n, x.here.instants[p.i])
	}
	return x.here.after(p.n, p.i)
}

// differs says that the other run has another value at the same moment.
func (x *explainer) differs(p point) bool {
	return x.there != nil && x.there.At(p.n, min(x.here.instants[p.i], x.there.End)) != x.value(p)
}

// work finds the reason of a node by what it does.
func (x *explainer) work(p point) *reason {
	o := &x.c.ops[p.n]
	in := x.c.operands(p.n)
	switch o.code {
	case cConst:
		return &reason{}
	case cWay:
		return x.leaf(p, Fails)
	case cControl:
		return x.leaf(p, Acted)
	case cReal, cPhase, cIsPhase:
		return x.leaf(p, Flown)
	case cNot:
		return x.reason(point{in[0], p.i})
	case cAnd, cOr:
		return x.gate(p, (o.code == cAnd) == (x.value(p) != 0))
	case cAtLeast:
		return x.quorum(p, int(o.num))
	case cIf:
		return x.choice(p)
	case cLatch, cHeld, cPulse, cBefore, cStood, cFrozen, cTotal, cCount:
		return x.memory(p)
	}
	if x.onlyFlight(p.n) {
		return x.leaf(p, Flown)
	}
	return x.all(p.i, in)
}

// onlyFlight says that a comparison or sum reads nothing but the flight.
func (x *explainer) onlyFlight(n Node) bool {
	real := false
	for _, a := range x.c.operands(n) {
		switch code := x.c.ops[a].code; {
		case code == cReal:
			real = true
		case code == cConst:
		case code > cIf || len(x.c.operands(a)) == 0 || code < cEq || !x.onlyFlight(a):
			return false
		default:
			real = true
		}
	}
	return real
}

// gate is an and/or: all operands where all are needed, one where one will do.
func (x *explainer) gate(p point, all bool) *reason {
	in := x.c.operands(p.n)
	if all {
		return x.all(p.i, in)
	}
	decisive := yes(x.c.ops[p.n].code == cOr)
	var candidates []Node
	for _, a := range in {
		if x.value(point{a, p.i}) == decisive {
			candidates = append(candidates, a)
		}
	}
	return x.cheapest(p.i, candidates, 1)
}

// quorum is at_least: k operands that are yes, or enough that are no.
func (x *explainer) quorum(p point, k int) *reason {
	in := x.c.operands(p.n)
	v := x.value(p)
	need := k
	if v == 0 {
		need = len(in) - k + 1
	}
	if need <= 0 {
		return &reason{}
	}
	var candidates []Node
	for _, a := range in {
		if x.value(point{a, p.i}) == v {
			candidates = append(candidates, a)
		}
	}
	return x.cheapest(p.i, candidates, need)
}

// cheapest takes the given number of candidates: those that differ from the
// other run first, then those with the fewest leaves, then in order.
func (x *explainer) cheapest(i int, candidates []Node, need int) *reason {
	type option struct {
		r      *reason
		differ bool
	}
	var options []option
	for _, a := range candidates {
		if r := x.reason(point{a, i}); r != nil {
			options = append(options, option{r, x.differs(point{a, i})})
		}
	}
	if len(options) < need {
		return nil
	}
	slices.SortStableFunc(options, func(a, b option) int {
		if a.differ != b.differ {
			if a.differ {
				return -1
			}
			return 1
		}
		return len(a.r.leaves) - len(b.r.leaves)
	})
	together := &reason{}
	for _, o := range options[:need] {
		together = join(together, o.r)
	}
	return together
}

// all needs every operand. Those that are the same in the other run are
// conditions, unless all are.
func (x *explainer) all(i int, in []Node) *reason {
	contrast := false
	for _, a := range in {
		contrast = contrast || x.differs(point{a, i})
	}
	together := &reason{}
	for _, a := range in {
		p := point{a, i}
		var r *reason
		if contrast && !x.differs(p) {
			r = x.condition(p)
		} else {
			r = x.reason(p)
		}
		if r == nil {
			return nil
		}
		together = join(together, r)
	}
	return together
}

// condition is an operand that is the same in the other run: it is named, not
// explained. One without a name is replaced by the names below it.
func (x *explainer) condition(p point) *reason {
	if x.c.ops[p.n].code == cConst {
		return &reason{}
	}
	_, named := x.c.names[p.n]
	if named || x.c.smooth[p.n] || x.onlyFlight(p.n) || len(x.c.operands(p.n)) == 0 || delayed(x.c.ops[p.n].code, 0) {
		return x.leaf(p, Condition)
	}
	r := &reason{}
	for _, a := range x.c.operands(p.n) {
		below := x.condition(point{a, p.i})
		if below == nil {
			return nil
		}
		r = join(r, below)
	}
	return r
}

func (x *explainer) choice(p point) *reason {
	in := x.c.operands(p.n)
	taken := in[2]
	if x.value(point{in[0], p.i}) != 0 {
		taken = in[1]
	}
	return x.all(p.i, []Node{in[0], taken})
}

// join unites two reasons; steps and leaves stand once.
func join(a, b *reason) *reason {
	r := &reason{slices.Clone(a.leaves), slices.Clone(a.steps)}
	for _, l := range b.leaves {
		if !slices.Contains(r.leaves, l) {
			r.leaves = append(r.leaves, l)
		}
	}
	for _, s := range b.steps {
		if !slices.Contains(r.steps, s) {
			r.steps = append(r.steps, s)
		}
	}
	return r
}
