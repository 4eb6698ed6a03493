package why

import (
	"slices"

	"knockon/circuit"
)

// plain explains a value that is the same in both runs, or has nothing to be
// held against: by what forces it. Where one operand is enough, the one is taken
// that needs the fewest leaves, those first that differ from the other run; a
// second pass then drops every leaf that the rest can do without:
//
//	reason(and = no)   one operand that is no
//	reason(and = yes)  all operands
//	reason(latch)      its set or reset, in the evaluation in which it moved
//
// Only nodes with a name become steps; what lies between two names is merged.
type plain struct {
	*explainer
	allowed map[point]bool // nil: any leaf will do
	reasons reasons[point]
}

func (x *explainer) plainly(p point) *Step {
	f := &plain{explainer: x}
	f.reset(nil)
	r := f.reason(p)
	if r != nil {
		r = f.lean(p, r)
	}
	if r != nil && len(r.steps) == 1 && r.steps[0].Value == x.value && r.steps[0].At == p.at.at {
		return r.steps[0]
	}
	root := x.step(p, x.value, Derived)
	if r != nil {
		root.Because = r.steps
	}
	return root
}

func (f *plain) reset(allowed map[point]bool) {
	f.allowed, f.reasons = allowed, newReasons[point]()
}

// lean drops every leaf that the others can do without.
func (f *plain) lean(p point, r *reason) *reason {
	allowed := map[point]bool{}
	for _, l := range r.points {
		allowed[l] = true
	}
	for _, l := range r.points {
		delete(allowed, l)
		f.reset(allowed)
		if f.reason(p) == nil {
			allowed[l] = true
		}
	}
	f.reset(allowed)
	return f.reason(p)
}

// reason returns nil where the allowed leaves do not force the value.
func (f *plain) reason(p point) *reason {
	if f.here.quiet(p.n, p.at) {
		p.at.pass = 0
	}
	return f.reasons.of(p, f.work, f.wrap)
}

// wrap makes a named node a step of its own.
func (f *plain) wrap(p point, r *reason) *reason {
	v, named := f.c.NameOf(p.n)
	if !named || (len(r.steps) == 1 && r.steps[0].Value == v && r.steps[0].At == p.at.at) {
		return r
	}
	s := f.step(p, v, Derived)
	s.Because = r.steps
	return &reason{points: r.points, steps: []*Step{s}}
}

func (f *plain) leaf(p point, k Kind) *reason {
	if f.allowed != nil && !f.allowed[p] {
		return nil
	}
	v, _ := f.c.NameOf(p.n)
	return &reason{points: []point{p}, steps: []*Step{f.step(p, v, k)}}
}

func (f *plain) value(p point) float64 { return f.here.value(p.n, p.at) }

// elsewhere says that the other run has another value at the same moment.
func (f *plain) elsewhere(p point) bool { return f.there != nil && f.differs(f.beside(p)) }

// work finds the reason of a node by what it does.
func (f *plain) work(p point) *reason {
	g := f.c.Gate(p.n)
	switch g.Kind {
	case circuit.GateGiven:
		if f.c.Constant(p.n) {
			return &reason{}
		}
		return f.leaf(p, Flown)
	case circuit.GateWay:
		return f.leaf(p, f.kindOf(p))
	case circuit.GateSwitch:
		return f.control(p)
	case circuit.GateNot:
		return f.reason(point{g.Args[0], p.at})
	case circuit.GateAnd, circuit.GateOr:
		return f.gate(p, g)
	case circuit.GateAtLeast:
		return f.quorum(p, g)
	case circuit.GateIf:
		return f.choice(p, g)
	case circuit.GateMinus, circuit.GateTest, circuit.GatePlain:
		if f.onlyFlight(p.n) {
			return f.leaf(p, Flown)
		}
		return f.all(p.at, g.Args)
	}
	return f.memory(p, g)
}

func (f *plain) kindOf(p point) Kind {
	if f.value(p) == 0 {
		return Intact
	}
	return Fails
}

// control: by the act of the flight that moved it, or as somebody left it.
func (f *plain) control(p point) *reason {
	m, ok := f.here.LastMove(p.n, p.at.instant, p.at.pass)
	if !ok {
		return f.leaf(p, FromStart)
	}
	at := f.here.in(int(m.Instant), int(m.Pass))
	if act, fired := f.here.FiredBy(p.n, m); fired {
		return f.reason(point{act.When, at})
	}
	return f.leaf(point{p.n, f.here.in(int(m.Instant), int(m.Pass)+1)}, Acted)
}

// onlyFlight says that a comparison or sum reads nothing but the flight.
func (f *plain) onlyFlight(n circuit.Node) bool {
	for _, a := range f.c.Gate(n).Args {
		switch f.c.Gate(a).Kind {
		case circuit.GateGiven:
		case circuit.GateMinus, circuit.GateTest, circuit.GatePlain:
			if !f.onlyFlight(a) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// gate is an and/or: all operands where all are needed, one where one will do.
func (f *plain) gate(p point, g circuit.Gate) *reason {
	decides := 0.0
	if g.Kind == circuit.GateOr {
		decides = 1
	}
	if f.value(p) != decides {
		return f.all(p.at, g.Args)
	}
	return f.cheapest(p.at, f.having(p.at, g.Args, decides), 1)
}

// having lists the operands that have a value.
func (f *plain) having(at stage, in []circuit.Node, v float64) (list []circuit.Node) {
	for _, a := range in {
		if f.value(point{a, at}) == v {
			list = append(list, a)
		}
	}
	return list
}

// quorum is at_least: k operands that are yes, or enough that are no.
func (f *plain) quorum(p point, g circuit.Gate) *reason {
	v, need := f.value(p), int(g.Num)
	if v == 0 {
		need = len(g.Args) - need + 1
	}
	if need <= 0 {
		return &reason{}
	}
	return f.cheapest(p.at, f.having(p.at, g.Args, v), need)
}

// cheapest takes the given number of candidates: those that differ from the
// other run first, then those with the fewest leaves, then in order.
func (f *plain) cheapest(at stage, candidates []circuit.Node, need int) *reason {
	type option struct {
		r    *reason
		rank int
	}
	var options []option
	for _, a := range candidates {
		r := f.reason(point{a, at})
		if r == nil {
			continue
		}
		rank := len(r.points)
		if !f.elsewhere(point{a, at}) {
			rank += 1e6
		}
		options = append(options, option{r, rank})
	}
	if len(options) < need {
		return nil
	}
	slices.SortStableFunc(options, func(a, b option) int { return a.rank - b.rank })
	together := &reason{}
	for _, o := range options[:need] {
		together = join(together, o.r)
	}
	return together
}

// all needs every operand. Those that are the same in the other run are
// conditions, unless all are.
func (f *plain) all(at stage, in []circuit.Node) *reason {
	contrast := slices.ContainsFunc(in, func(a circuit.Node) bool { return f.elsewhere(point{a, at}) })
	together := &reason{}
	for _, a := range in {
		p := point{a, at}
		r := (*reason)(nil)
		if contrast && !f.elsewhere(p) {
			r = f.condition(p)
		} else {
			r = f.reason(p)
		}
		if r == nil {
			return nil
		}
		together = join(together, r)
	}
	return together
}

// condition is an operand that is the same in the other run: it is named, not
// explained. One without a name is explained.
func (f *plain) condition(p point) *reason {
	if f.c.Gate(p.n).Kind == circuit.GateNot {
		return f.condition(point{f.c.Gate(p.n).Args[0], p.at})
	}
	if _, named := f.c.NameOf(p.n); !named || f.elsewhere(p) {
		return f.reason(p)
	}
	if f.c.Gate(p.n).Kind == circuit.GateWay {
		return f.reason(p)
	}
	return f.leaf(p, Condition)
}

func (f *plain) choice(p point, g circuit.Gate) *reason {
	taken := g.Args[2]
	if f.value(point{g.Args[0], p.at}) != 0 {
		taken = g.Args[1]
	}
	return f.all(p.at, []circuit.Node{g.Args[0], taken})
}
