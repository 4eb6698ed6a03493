package why

import (
	"slices"

	"knockon/circuit"
)

// any saves where one of what is read is as there, every where all of it is.
func anyOf(there []bool) bool   { return slices.Contains(there, true) }
func everyOf(there []bool) bool { return !slices.Contains(there, false) }

// ruleOf is how a pair comes to differ. One without anything that it reads is a
// failure, a hand on a control, or what was so before the record begins.
func (n *Needs) ruleOf(p pair) (from []pair, saved func([]bool) bool) {
	g := n.c.Gate(p.n)
	switch g.Kind {
	case circuit.GateWay:
		return nil, nil
	case circuit.GateSwitch:
		return n.moving(p), everyOf
	case circuit.GateGiven:
		return n.phasing(p), anyOf
	case circuit.GateLatch:
		return n.latching(p, g)
	case circuit.GateHeld, circuit.GatePulse:
		return n.timed(pair{g.Args[0], n.here.earlier(p.here), n.there.earlier(p.there)}), anyOf
	case circuit.GateBefore:
		return n.differing(pair{g.Args[0], n.stood(n.here, p.n, p.here), n.stood(n.there, p.n, p.there)}), anyOf
	case circuit.GateFrozen:
		return n.freezing(p, g)
	case circuit.GateTotal:
		return n.adding(p, g.Args[0]), everyOf
	case circuit.GateCount:
		return n.counting(p, g.Args[0]), anyOf
	}
	return n.working(p, g)
}

func (n *Needs) differing(list ...pair) []pair {
	return slices.DeleteFunc(list, func(q pair) bool { return !n.differs(q) })
}

// working: a gate would be as there if it came out so of the operands that are as
// there and the others as here.
func (n *Needs) working(p pair, g circuit.Gate) (from []pair, saved func([]bool) bool) {
	operands := n.at(p, g.Args...)
	from = n.differing(slices.Clone(operands)...)
	want := n.there.value(p.n, p.there)
	here, there := make([]float64, len(operands)), make([]float64, len(operands))
	which := make([]int, len(operands))
	for i, q := range operands {
		here[i], there[i] = n.here.value(q.n, q.here), n.there.value(q.n, q.there)
		which[i] = slices.Index(from, q)
	}
	return from, func(as []bool) bool {
		mixed := slices.Clone(here)
		for i, k := range which {
			if k >= 0 && as[k] {
				mixed[i] = there[i]
			}
		}
		return alike(n.calc.Value(p.n, mixed), want)
	}
}

// latching: at the moment at which the later of the two moved, by its set and reset.
func (n *Needs) latching(p pair, g circuit.Gate) (from []pair, saved func([]bool) bool) {
	for _, at := range n.moments(p) {
		late := pair{p.n, n.here.settled(at.here.at), n.there.settled(at.there.at)}
		for _, q := range []pair{at, late} {
			if from = n.differing(n.at(q, g.Args...)...); len(from) > 0 {
				return from, n.setting(p, q, g, from)
			}
		}
	}
	return nil, nil
}

func (n *Needs) setting(p, at pair, g circuit.Gate, from []pair) func([]bool) bool {
	want := n.there.value(p.n, p.there)
	return func(as []bool) bool {
		in := [2]float64{}
		for i, a := range g.Args {
			in[i] = n.here.value(a, at.here)
			if k := slices.IndexFunc(from, func(q pair) bool { return q.n == a }); k >= 0 && as[k] {
				in[i] = n.there.value(a, at.there)
			}
		}
		switch {
		case in[1] != 0:
			return want == 0
		case in[0] != 0:
			return want == 1
		}
		return true // nothing moves it: it stays as it was in both
	}
}

// timed is where what a timer reads last began to differ.
func (n *Needs) timed(p pair) []pair {
	if q, ok := n.lastly(p); ok {
		return []pair{q}
	}
	return nil
}

// moving: an act of the flight by its condition; a hand by nothing.
func (n *Needs) moving(p pair) []pair {
	for _, at := range n.moments(p) {
		for _, s := range []*side{n.here, n.there} {
			if from := n.acting(p, at, s); len(from) > 0 {
				return from
			}
		}
	}
	return nil
}

func (n *Needs) acting(p, at pair, mover *side) []pair {
	st, end := at.here, p.here
	other := n.there
	if mover == n.there {
		st, end, other = at.there, p.there, n.here
	}
	m, ok := mover.LastMove(p.n, end.instant, end.pass)
	if !ok || mover.in(int(m.Instant), int(m.Pass)) != st {
		return nil
	}
	f, fired := mover.FiredBy(p.n, m)
	if !fired || !other.Has(f, mover.Trace) {
		return nil
	}
	when := pair{n.here.own(f.When, mover), at.here, at.there}
	if now := n.differing(when); len(now) > 0 {
		return now
	}
	return n.differing(pair{when.n, n.here.after(at.here.instant - 1), n.there.after(at.there.instant - 1)})
}

// phasing: by what begins the next phase, at the last step of either run.
func (n *Needs) phasing(p pair) []pair {
	if p.n != n.c.PhaseNode() {
		return nil
	}
	_, begins := n.c.PhaseGates()
	for _, at := range n.moments(p) {
		for _, v := range []float64{n.here.value(p.n, at.here), n.there.value(p.n, at.there)} {
			if b := begins[int(v)]; b != circuit.None {
				if from := n.differing(pair{b, at.here, at.there}); len(from) > 0 {
					return from
				}
			}
		}
	}
	return nil
}

// freezing: what it reads while it is open here; else what closed it, and what it kept.
func (n *Needs) freezing(p pair, g circuit.Gate) (from []pair, saved func([]bool) bool) {
	now := n.at(p, g.Args...)
	here, hereClosed := n.closed(n.here, g.Args[1], p.here)
	there, thereClosed := n.closed(n.there, g.Args[1], p.there)
	if !hereClosed && !thereClosed {
		return n.differing(now[0]), everyOf
	}
	shut := n.timed(now[1])
	if !hereClosed || !thereClosed {
		return append(shut, n.differing(now[0])...), n.unfrozen(now[0], here, hereClosed, len(shut))
	}
	return append(n.differing(pair{g.Args[0], here, there}), shut...), anyOf
}

// unfrozen: where one of the two alone is closed, to have it open there, or what it
// reads as there.
func (n *Needs) unfrozen(x pair, here stage, hereClosed bool, shut int) func([]bool) bool {
	return func(as []bool) bool {
		open := shut == 0 || as[0]
		return open && (!n.differs(x) || everyOf(as[shut:])) || hereClosed && !open && alike(n.here.value(x.n, here), n.there.value(x.n, x.there))
	}
}

// adding: a total by its rate, at the last moment at which that differs.
func (n *Needs) adding(p pair, rate circuit.Node) []pair {
	if n.c.Smooth(rate) {
		return n.differing(slices.Clone(n.flows(p, rate))...)
	}
	if from := n.timed(pair{rate, flowed(n.here, p.here), flowed(n.there, p.there)}); len(from) > 0 {
		return from
	}
	return n.timed(pair{rate, n.here.earlier(p.here), n.there.earlier(p.there)})
}

// counting: by the last rise that one of the two runs alone has.
func (n *Needs) counting(p pair, x circuit.Node) []pair {
	for _, at := range n.rises(p) {
		if from := n.differing(pair{x, at.here, at.there}); len(from) > 0 {
			return from
		}
		before := pair{x, n.here.after(at.here.instant - 1), n.there.after(at.there.instant - 1)}
		if from := n.differing(before); len(from) > 0 {
			return from
		}
	}
	return n.timed(pair{x, p.here, p.there})
}
