package still

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/ways/logic"
)

// hold gives a memory a new value; changed says whether it differs for any set
// of failures.
func (p *picture) hold(n circuit.Node, v value) (changed bool) {
	if p.equal(n, p.memory[n], v) {
		return false
	}
	p.memory[n], p.stale[n] = v, true
	return true
}

// equal says whether two values are the same for all sets of failures.
func (p *picture) equal(n circuit.Node, a, b value) bool {
	if a.lost != "" || b.lost != "" {
		return a.lost == b.lost
	}
	if p.c.Type(n) == book.YesNo {
		return p.prints.same(a.yes, b.yes)
	}
	if len(a.choices) != len(b.choices) {
		return false
	}
	for i := range a.choices {
		if a.choices[i].number != b.choices[i].number || !p.prints.same(a.choices[i].when, b.choices[i].when) {
			return false
		}
	}
	return true
}

// follow gives the following memories their new values.
func (p *picture) follow() (changed bool) {
	for _, n := range p.list {
		g := p.c.Gate(n)
		switch g.Kind {
		case circuit.GateHeld, circuit.GatePulse:
			changed = p.hold(n, p.timerOf(n, g)) || changed
		case circuit.GateFrozen:
			changed = p.holdClosed(n, p.value[g.Args[1]]) || changed
		}
	}
	return changed
}

func (p *picture) holdClosed(n circuit.Node, closed value) (changed bool) {
	was := p.memory[n]
	if closed.lost == was.lost && (closed.lost != "" || p.prints.same(closed.yes, was.yes)) {
		return false
	}
	p.memory[n], p.stale[n] = closed, true
	return true
}

// latch gives the latching memories their new values, all from the same
// evaluation.
func (p *picture) latch() (changed bool) {
	for _, n := range p.list {
		if g := p.c.Gate(n); g.Kind == circuit.GateLatch {
			changed = p.hold(n, p.latched(n, g)) || changed
		}
	}
	for i, a := range p.acts {
		changed = p.act(i, a) || changed
	}
	return changed
}

// latched applies set and reset to what the latch holds. Doing so again with
// the same two changes nothing, so it is not done.
func (p *picture) latched(n circuit.Node, g circuit.Gate) value {
	set, reset := p.value[g.Args[0]], p.value[g.Args[1]]
	if set.lost != "" || reset.lost != "" {
		return value{lost: set.lost + reset.lost}
	}
	inputs := [2]logic.Term{set.yes, reset.yes}
	if last, ok := p.by[n]; ok && last == inputs {
		return p.memory[n]
	}
	p.by[n] = inputs
	return value{yes: p.l.And(reset.yes.Not(), p.l.Or(set.yes, p.memory[n].yes))}
}

// act moves a control when its condition is yes and was no before this instant,
// once in an instant.
func (p *picture) act(i int, a circuit.ActOf) (changed bool) {
	n := p.control[a.Control]
	now, was := p.value[a.When], p.settled[a.When]
	if !p.reached[a.When] {
		return false
	}
	if now.lost != "" {
		return p.hold(n, value{lost: now.lost})
	}
	fires := p.l.And(now.yes, was.yes.Not(), p.fired[i].Not())
	if p.prints.never(fires) {
		return false
	}
	p.fired[i] = p.l.Or(p.fired[i], fires)
	to := value{choices: []choice{{a.To, logic.True}}}
	return p.hold(n, p.pick(n, fires, to, p.memory[n]))
}

// over ends an instant: what counts or looks back takes its new value. It says
// whether another instant follows.
func (p *picture) over() (again bool) {
	for _, n := range p.list {
		g := p.c.Gate(n)
		switch g.Kind {
		case circuit.GateBefore:
			again = p.hold(n, p.value[g.Args[0]]) || again
		case circuit.GateCount:
			again = p.hold(n, p.counted(n, g)) || again
		case circuit.GateFrozen:
			p.keep(n, p.memory[n], p.value[g.Args[0]])
		case circuit.GateHeld, circuit.GatePulse:
			p.lasts(n, g)
		}
	}
	for _, n := range p.list {
		p.settled[n] = p.value[n]
	}
	return again
}

// keep notes what a frozen value keeps should it close: what it kept where it is
// closed, and else x.
func (p *picture) keep(n circuit.Node, closed, x value) {
	v := p.pick(n, closed.yes, p.kept[n], x)
	if !p.equal(n, p.kept[n], v) {
		p.kept[n], p.stale[n] = v, true
	}
}

// counted is one more where x is yes and was no before this instant.
func (p *picture) counted(n circuit.Node, g circuit.Gate) value {
	x, was := p.value[g.Args[0]], p.settled[g.Args[0]]
	if x.lost != "" || p.memory[n].lost != "" {
		return value{lost: p.item(n)}
	}
	rose := p.l.And(x.yes, was.yes.Not())
	more := value{}
	for _, c := range p.memory[n].choices {
		more.choices = append(more.choices, choice{c.number + 1, c.when})
	}
	return p.pick(n, rose, more, p.memory[n])
}
