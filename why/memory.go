package why

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// memory finds what makes a memory differ. In a record that does not begin at
// the start it may have done so before.
func (w *walker) memory(p pair, g circuit.Gate) *reason {
	r := w.remembered(p, g)
	if begins := w.here.Instants()[0]; r == nil && begins > 0 {
		return w.leaf(point{p.n, p.here}, Input{Node: p.n, From: begins}, FromStart)
	}
	return r
}

func (w *walker) remembered(p pair, g circuit.Gate) *reason {
	switch g.Kind {
	case circuit.GateLatch:
		return w.latch(p, g)
	case circuit.GateHeld, circuit.GatePulse:
		return w.lately(pair{g.Args[0], w.here.earlier(p.here), w.there.earlier(p.there)})
	case circuit.GateBefore:
		return w.all([]pair{{g.Args[0], w.stood(w.here, p.n, p.here), w.stood(w.there, p.n, p.there)}})
	case circuit.GateFrozen:
		return w.frozen(p, g)
	case circuit.GateTotal:
		return w.total(p, g.Args[0])
	}
	return w.count(p, g.Args[0])
}

// moments are where a memory took its value here and where it took its value
// there, the later first: at the later one of the two it began to differ as it
// does, be it that the one moved or that the other did and this one stayed put.
func (w *walker) moments(p pair) (list []pair) {
	here, hereMoved := w.here.LastMove(p.n, p.here.instant, p.here.pass)
	there, thereMoved := w.there.LastMove(p.n, p.there.instant, p.there.pass)
	if hereMoved {
		at := w.here.in(int(here.Instant), int(here.Pass))
		list = append(list, pair{p.n, at, align(w.here, at, w.there)})
	}
	if thereMoved {
		at := w.there.in(int(there.Instant), int(there.Pass))
		list = append(list, pair{p.n, align(w.there, at, w.here), at})
	}
	if len(list) == 2 && later(w.there, list[1].there, w.here, list[0].here) {
		slices.Reverse(list)
	}
	return list
}

// first is the first reason that some way of looking gives.
func first(ways ...func() *reason) *reason {
	for _, way := range ways {
		if r := way(); r != nil {
			return r
		}
	}
	return nil
}

// latch: by its set and its reset, in the evaluation in which the one of the two
// runs moved that moved last.
func (w *walker) latch(p pair, g circuit.Gate) *reason {
	for _, at := range w.moments(p) {
		// The evaluations of the two instants may not be in step.
		late := pair{p.n, w.here.settled(at.here.at), w.there.settled(at.there.at)}
		r := first(func() *reason { return w.all(w.at(at, g.Args...)) }, func() *reason { return w.all(w.at(late, g.Args...)) })
		if r != nil {
			return w.kept(p, at, r)
		}
	}
	return nil
}

// kept marks the reason of a memory that stayed put at a moment at which the
// other run's changed.
func (w *walker) kept(p, at pair, r *reason) *reason {
	m, moved := w.here.LastMove(p.n, p.here.instant, p.here.pass)
	if w.partly || moved && w.here.in(int(m.Instant), int(m.Pass)) == at.here {
		return r
	}
	marked := *r
	marked.stayed = &at.there.at
	return &marked
}

// way: a failure that is not in the other run.
func (w *walker) way(p pair) *reason {
	if w.here.value(p.n, p.here) == 0 {
		return nil
	}
	l, ok := w.here.stretch(p.n, p.here)
	if !ok { // it had failed before the record begins
		l.Value, l.From = 1, w.here.Instants()[0]
	}
	return w.leaf(point{p.n, p.here}, l, Fails)
}

// stretch is the time for which a node keeps the value that it has at a stage.
func (s *side) stretch(n circuit.Node, st stage) (l Input, ok bool) {
	l.Node, l.To = n, book.Never
	for _, m := range s.lastingMoves(n, st) {
		at := s.Instants()[m.Instant]
		if int(m.Instant) > st.instant || int(m.Instant) == st.instant && st.pass != 0 && int(m.Pass) >= st.pass {
			if m.To != l.Value {
				l.To = at
				break
			}
			continue
		}
		if !ok || m.To != l.Value {
			l.From, l.Value, ok = at, m.To, true
		}
	}
	return l, ok
}

// lastingMoves are the moves of a node, without those that another in the same
// instant takes back: a failure that passes and strikes again at once has lasted.
// Those of the stage's own instant stay.
func (s *side) lastingMoves(n circuit.Node, st stage) (list []circuit.Move) {
	for _, m := range s.MovesOf(n) {
		k := len(list) - 1
		if k > 0 && int(m.Instant) != st.instant && list[k].Instant == m.Instant && list[k-1].To == m.To {
			list = list[:k]
			continue
		}
		list = append(list, m)
	}
	return list
}

// control: moved by an act of the flight, for its reason, or by hand. One that
// the flight's own act moved in the other run stayed put for the reason that
// kept the act from coming.
func (w *walker) control(p pair) *reason {
	for _, at := range w.moments(p) {
		if r := w.moved(p, at, w.here); r != nil {
			return r
		}
		if r := w.moved(p, at, w.there); r != nil {
			return r
		}
	}
	return nil
}

func (w *walker) moved(p, at pair, mover *side) *reason {
	st, end := at.here, p.here
	if mover == w.there {
		st, end = at.there, p.there
	}
	m, ok := mover.LastMove(p.n, end.instant, end.pass)
	if !ok || mover.in(int(m.Instant), int(m.Pass)) != st {
		return nil
	}
	other := w.there
	if mover == w.there {
		other = w.here
	}
	f, fired := mover.FiredBy(p.n, m)
	switch {
	case fired && other.Has(f, mover.Trace):
		// It came here or there alone since its condition is so in one of them
		// only, or rose in one of them only.
		when := pair{w.here.own(f.When, mover), at.here, at.there}
		risen := pair{when.n, w.here.after(at.here.instant - 1), w.there.after(at.there.instant - 1)}
		return first(func() *reason { return w.all([]pair{when}) }, func() *reason { return w.all([]pair{risen}) })
	case mover == w.here && (fired || !w.there.movesAlike(p.n, m.To, st.at)):
		return w.leaf(point{p.n, p.here}, Input{p.n, m.To, st.at, st.at}, Acted)
	}
	return nil
}

// phase: by what begins the next, at the last step of either run.
func (w *walker) phase(p pair) *reason {
	if p.n != w.c.PhaseNode() {
		return nil
	}
	_, begins := w.c.PhaseGates()
	for _, at := range w.moments(p) {
		for _, s := range []*side{w.here, w.there} {
			end := p.here
			if s == w.there {
				end = p.there
			}
			m, ok := s.LastMove(p.n, end.instant, end.pass)
			if !ok {
				continue
			}
			if r := w.all([]pair{{begins[int(m.To)], at.here, at.there}, {p.n, at.here, at.there}}); r != nil {
				return r
			}
		}
	}
	return nil
}

// lately is the reason of a steady node that differs or did so before: at the
// moment at which it last began to.
func (w *walker) lately(p pair) *reason {
	if q, ok := w.lastly(p); ok {
		return w.reason(q)
	}
	return nil
}

// lastly is where a steady node that differs, or did so before, last began to; ok is
// false where it never did.
func (w *walker) lastly(p pair) (q pair, ok bool) {
	if settled, mid := w.settledBefore(p); mid {
		if w.differs(p) && !w.lasted(settled, p) {
			return p, true
		}
		p = settled
	}
	for {
		here, hereMoved := w.here.LastChange(p.n, p.here.instant)
		there, thereMoved := w.there.LastChange(p.n, p.there.instant)
		if !hereMoved {
			here.At = 0
		}
		if !thereMoved {
			there.At = 0
		}
		if w.differs(p) {
			return w.began(p, here, there), true
		}
		if !hereMoved && !thereMoved {
			return p, false
		}
		if here.At >= there.At && hereMoved {
			p.here = w.here.after(int(here.Instant) - 1)
		}
		if there.At >= here.At && thereMoved {
			p.there = w.there.after(int(there.Instant) - 1)
		}
	}
}

// settledBefore gives the settled values before an evaluation; mid is false if
// the pair is settled itself.
func (w *walker) settledBefore(p pair) (q pair, mid bool) {
	q = p
	if p.here.pass != 0 {
		q.here = w.here.after(p.here.instant - 1)
	}
	if p.there.pass != 0 {
		q.there = w.there.after(p.there.instant - 1)
	}
	return q, q != p
}

// lasted says that both values are those that settled before.
func (w *walker) lasted(before, p pair) bool {
	return alike(w.here.value(p.n, p.here), w.here.value(p.n, before.here)) && alike(w.there.value(p.n, p.there), w.there.value(p.n, before.there))
}

// began is the pair at the later of two changes.
func (w *walker) began(p pair, here, there circuit.Change) pair {
	at := max(here.At, there.At)
	q := pair{p.n, w.here.settled(at), w.there.settled(at)}
	if here.At == at {
		q.here = w.here.after(int(here.Instant))
	}
	if there.At == at {
		q.there = w.there.after(int(there.Instant))
	}
	if !w.differs(q) {
		return p
	}
	return q
}

// stood is the stage whose value before(x) has at a stage.
func (w *walker) stood(s *side, n circuit.Node, st stage) stage {
	x := w.c.Gate(n).Args[0]
	over := st.pass == 0 && s.InstantAt(st.at) == st.instant
	moving := w.c.Smooth(x) && st.at > s.Instants()[st.instant]
	if st.instant == 0 || moving || over && !w.c.Smooth(x) && !w.c.Lags(n) {
		st.pass = 0
		return st
	}
	was := s.after(st.instant - 1)
	if now := s.Instants()[st.instant]; w.c.Smooth(x) && now > was.at {
		was.at = now - 1
	}
	return was
}

// frozen: what it reads while it is open; when it was closed, and what it kept.
func (w *walker) frozen(p pair, g circuit.Gate) *reason {
	x, when := g.Args[0], g.Args[1]
	now := w.at(p, x, when)
	here, hereClosed := w.closed(w.here, when, p.here)
	there, thereClosed := w.closed(w.there, when, p.there)
	switch {
	case !hereClosed && !thereClosed:
		return w.all(now[:1])
	case !hereClosed:
		return first(func() *reason { return w.all(now) }, func() *reason { return w.lately(now[1]) })
	case !thereClosed:
		there = align(w.here, here, w.there)
	}
	kept := pair{x, here, there}
	return first(func() *reason {
		if thereClosed && w.differs(kept) {
			return w.reason(kept)
		}
		return nil
	}, func() *reason { return w.lately(now[1]) }, func() *reason { return w.all([]pair{kept}) }, func() *reason { return w.all(now[:1]) })
}

// closed is the stage just before a frozen closed, whose value it keeps; ok is
// false where it is open.
func (w *walker) closed(s *side, when circuit.Node, st stage) (at stage, ok bool) {
	if s.value(when, s.earlier(st)) == 0 {
		return st, false
	}
	instant := 0
	if ch, ok := s.LastChange(when, st.instant); ok {
		instant = int(ch.Instant)
	}
	if st.pass != 0 && s.value(when, s.after(st.instant-1)) == 0 {
		instant = st.instant
	}
	at = s.after(instant - 1)
	if now := s.Instants()[instant]; now > at.at {
		at.at = now - 1
	}
	return at, true
}

// count: by the last rise that only one of the two runs has: there what is
// counted differs, or did so just before.
func (w *walker) count(p pair, x circuit.Node) *reason {
	for _, at := range w.rises(p) {
		if r := w.all([]pair{{x, at.here, at.there}}); r != nil {
			return r
		}
		before := pair{x, w.here.after(at.here.instant - 1), w.there.after(at.there.instant - 1)}
		if r := w.all([]pair{before}); r != nil {
			return r
		}
	}
	return w.lately(pair{x, p.here, p.there})
}

// rises are the instants at which the two runs counted, the last first, up to
// the last one that only one of them has, and that one.
func (w *walker) rises(p pair) (list []pair) {
	here, there := p.here.instant, p.there.instant
	for {
		a, counted := w.here.LastChange(p.n, here)
		b, countedThere := w.there.LastChange(p.n, there)
		switch {
		case !counted && !countedThere:
			return nil
		case counted && countedThere && a.At == b.At:
			here, there = int(a.Instant)-1, int(b.Instant)-1
		case counted && (!countedThere || a.At > b.At):
			at := w.here.after(int(a.Instant) - 1)
			return []pair{{p.n, at, align(w.here, at, w.there)}}
		default:
			at := w.there.after(int(b.Instant) - 1)
			return []pair{{p.n, align(w.there, at, w.here), at}}
		}
	}
}
