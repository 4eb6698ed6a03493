package why

import "knockon/circuit"

// memory explains what a memory holds by the evaluation in which it took it.
func (f *plain) memory(p point, g circuit.Gate) *reason {
	x := g.Args[0]
	switch g.Kind {
	case circuit.GateLatch:
		return f.latch(p, g)
	case circuit.GateHeld, circuit.GatePulse:
		return f.timer(p, x)
	case circuit.GateBefore:
		at := f.stood(p)
		if at == p.at && !f.c.Smooth(x) {
			return f.leaf(p, FromStart)
		}
		return f.reason(point{x, at})
	case circuit.GateFrozen:
		return f.frozen(p, g)
	case circuit.GateCount:
		ch, moved := f.here.LastChange(p.n, p.at.instant)
		if !moved {
			return f.leaf(p, FromStart)
		}
		return f.reason(point{x, f.here.after(int(ch.Instant) - 1)})
	}
	if f.c.Smooth(x) {
		return f.leaf(p, Flown)
	}
	return f.orLeaf(f.reason(point{x, f.here.earlier(p.at)}), p)
}

// orLeaf is a reason, or the memory itself as it was at the start where nothing
// but constants gave it its value.
func (f *plain) orLeaf(r *reason, p point) *reason {
	if r != nil && len(r.points) > 0 {
		return r
	}
	return f.leaf(p, FromStart)
}

// stood is the stage whose value before(x) has; its own if it had it always.
func (f *plain) stood(p point) stage {
	w := walker{explainer: f.explainer}
	at := w.stood(f.here, p.n, p.at)
	if x := f.c.Gate(p.n).Args[0]; at == p.at && !f.c.Smooth(x) {
		if ch, moved := f.here.LastChange(x, p.at.instant); moved {
			return f.here.after(int(ch.Instant))
		}
	}
	return at
}

// latch: set by its set and no reset, or reset. One that never moved is as it
// was at the start.
func (f *plain) latch(p point, g circuit.Gate) *reason {
	m, moved := f.here.LastMove(p.n, p.at.instant, p.at.pass)
	if !moved {
		return f.leaf(p, FromStart)
	}
	by := g.Args[0]
	if m.To == 0 {
		by = g.Args[1]
	}
	return f.orLeaf(f.reason(point{by, f.here.in(int(m.Instant), int(m.Pass))}), p)
}

// timer: yes or no by what it times, at the moment at which that took its value;
// where it is no though that is yes, by that having been no until then.
func (f *plain) timer(p point, x circuit.Node) *reason {
	at := f.here.earlier(p.at)
	if f.value(point{x, at}) == 0 {
		return f.orLeaf(f.reason(point{x, at}), p)
	}
	ch, moved := f.here.LastChange(x, at.instant)
	if at.pass != 0 || !moved {
		return f.orLeaf(f.reason(point{x, at}), p)
	}
	if held := f.c.Gate(p.n).Kind == circuit.GateHeld; held && f.value(p) == 0 && ch.Instant > 0 {
		return f.orLeaf(f.reason(point{x, f.here.after(int(ch.Instant) - 1)}), p)
	}
	return f.orLeaf(f.reason(point{x, f.here.after(int(ch.Instant))}), p)
}

// frozen: what passes while it is open; else when it closed and what it kept.
func (f *plain) frozen(p point, g circuit.Gate) *reason {
	w := walker{explainer: f.explainer}
	kept, closed := w.closed(f.here, g.Args[1], p.at)
	if !closed {
		return f.all(p.at, g.Args)
	}
	shut := f.here.earlier(p.at)
	if ch, ok := f.here.LastChange(g.Args[1], p.at.instant); ok && shut.pass == 0 {
		shut = f.here.after(int(ch.Instant))
	}
	why, what := f.reason(point{g.Args[1], shut}), f.reason(point{g.Args[0], kept})
	if why == nil || what == nil {
		return nil
	}
	return join(why, what)
}
