package still

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/ways/logic"
)

// timer is what held or pulse has counted when an instant is over: for which
// failures x has been yes for its whole time, and for which since when.
type timer struct {
	length book.Time
	lasted logic.Term
	ends   []end
	lost   string // the item whose number could not be followed, "" if it was
}

// end is a moment at which a timer runs out, and for which failures.
type end struct {
	at   book.Time
	when logic.Term
}

// start takes the timers as they stand without failures.
func (p *picture) start() {
	for _, n := range p.list {
		if g := p.c.Gate(n); g.Kind == circuit.GateHeld || g.Kind == circuit.GatePulse {
			p.timers[n] = p.begun(g)
			p.timed = append(p.timed, n)
		}
	}
}

// begun is a timer as it stands: what has been yes from the start on has been
// so for a long time.
func (p *picture) begun(g circuit.Gate) *timer {
	tm := &timer{length: length(g), lasted: logic.False}
	if p.before(g.Args[0]) == 0 {
		return tm
	}
	at := p.since(g.Args[0]) + tm.length - p.at
	if at <= 0 || p.since(g.Args[0]) == 0 {
		tm.lasted = logic.True
	} else {
		tm.ends = []end{{at, logic.True}}
	}
	return tm
}

// since is the moment from which a node has been yes without failures.
func (p *picture) since(n circuit.Node) (from book.Time) {
	for _, s := range p.t.Spans(n) {
		if s.From <= p.at {
			from = s.From
		}
	}
	return from
}

// length of a timer; one that does not end within any flight is cut.
func length(g circuit.Gate) book.Time { return book.AtSeconds(max(0, min(g.Num, 1e9))) }

// next is the next moment at which a timer runs out.
func (p *picture) next() book.Time {
	next := book.Never
	for _, n := range p.timed {
		for _, e := range p.timers[n].ends {
			next = min(next, e.at)
		}
	}
	return next
}

// runOut notes which timers have run out by now.
func (p *picture) runOut() {
	for _, n := range p.timed {
		tm := p.timers[n]
		left := tm.ends[:0]
		for _, e := range tm.ends {
			if e.at > p.now {
				left = append(left, e)
			} else {
				tm.lasted = p.l.Or(tm.lasted, e.when)
			}
		}
		tm.ends = left
	}
}

// timerOf is held: x where it has lasted, or pulse: x where it has not.
func (p *picture) timerOf(n circuit.Node, g circuit.Gate) value {
	x, tm := p.value[g.Args[0]], p.timers[n]
	switch {
	case tm.lost != "":
		return value{lost: tm.lost}
	case x.lost != "":
		return x
	}
	lasted := tm.lasted
	if tm.length == 0 {
		lasted = logic.True
	}
	inputs := [2]logic.Term{x.yes, lasted}
	if last, ok := p.by[n]; ok && last == inputs {
		return p.memory[n]
	}
	p.by[n] = inputs
	if g.Kind == circuit.GatePulse {
		return value{yes: p.l.And(x.yes, lasted.Not())}
	}
	return value{yes: p.narrowed(lasted, x.yes)}
}

// narrowed is what of a term is true where x is too; the term itself if that is
// all of it, for it is the shorter one.
func (p *picture) narrowed(t, x logic.Term) logic.Term {
	both := p.l.And(t, x)
	switch {
	case p.prints.same(both, t):
		return t
	case p.prints.never(both):
		return logic.False
	}
	return both
}

// lasts ends an instant for a timer: where x is no it counts no more, and where
// x is newly yes it begins to. Where x was yes it has lasted or still counts.
func (p *picture) lasts(n circuit.Node, g circuit.Gate) {
	x, was, tm := p.value[g.Args[0]], p.settled[g.Args[0]], p.timers[n]
	if x.lost != "" {
		tm.lost, tm.ends = x.lost, nil
	}
	if tm.lost != "" || tm.length == 0 || x.is(was) {
		return
	}
	if !p.prints.never(p.l.And(was.yes, x.yes.Not())) {
		tm.stop(func(t logic.Term) logic.Term { return p.narrowed(t, x.yes) })
	}
	if begins := p.narrowed(x.yes, was.yes.Not()); begins != logic.False {
		tm.ends = append(tm.ends, end{p.now + tm.length, begins})
	}
}

// stop narrows what has lasted and what still counts.
func (tm *timer) stop(narrowed func(logic.Term) logic.Term) {
	tm.lasted = narrowed(tm.lasted)
	left := tm.ends[:0]
	for _, e := range tm.ends {
		if e.when = narrowed(e.when); e.when != logic.False {
			left = append(left, e)
		}
	}
	tm.ends = left
}
