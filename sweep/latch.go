package sweep

import "knockon/circuit"

// latch gives the latching memories their new values, all from the same
// evaluation, in the lanes in which no following one changed.
func (e *engine) latch(followed word) (changed word) {
	may := all.but(followed)
	var news []setting
	e.eachWoken(func(n circuit.Node, g *gate) bool {
		if g.op != circuit.GateLatch || g.kind != isMemory {
			return g.op == circuit.GateHeld || g.op == circuit.GatePulse || g.kind == isFrozen
		}
		v := e.val[n].or(e.val[g.args[0]]).but(e.val[g.args[1]])
		if d := v.xor(e.val[n]).and(may); d.any() {
			news = append(news, setting{n: n, v: e.val[n].xor(d)})
			changed = changed.or(d)
		}
		return followed.any()
	})
	news, acted := e.act(may, news)
	news, begun := e.begin(may, news)
	for _, s := range news {
		if s.list != nil {
			e.putAlts(s.n, s.list)
		} else {
			e.put(s.n, &s.v)
		}
	}
	return changed.or(acted).or(begun)
}

// act moves the controls of acts that fire.
func (e *engine) act(may word, news []setting) ([]setting, word) {
	var changed word
	moved := map[circuit.Node][]alt{}
	var order []circuit.Node
	for i, a := range e.p.acts {
		if !e.isAct[i] {
			continue
		}
		fire := e.val[a.When].but(e.settled[a.When]).but(e.fired[i]).and(may)
		if !fire.any() {
			continue
		}
		e.fired[i] = e.fired[i].or(fire)
		n := e.p.controls[a.Control]
		list, ok := moved[n]
		if !ok {
			list = e.alts[n]
			order = append(order, n)
		}
		to := e.terms.constant(a.To)
		next := cut(nil, list, all.but(fire))
		moved[n] = join(next, to, fire)
	}
	for _, n := range order {
		for _, a := range moved[n] {
			for _, was := range e.alts[n] {
				if a.term != was.term {
					changed = changed.or(a.in.and(was.in))
				}
			}
		}
		news = append(news, setting{n: n, list: moved[n]})
	}
	return news, changed
}

// begin moves on to the next phase where it begins.
func (e *engine) begin(may word, news []setting) ([]setting, word) {
	var changed word
	if !e.beginsNow {
		return news, changed
	}
	now := make([]word, len(e.p.phases))
	for k, n := range e.p.phases {
		now[k] = e.val[n]
	}
	for k := len(now) - 1; k > 0; k-- {
		if e.p.begins[k] == circuit.None {
			continue
		}
		if on := e.val[e.p.phases[k-1]].and(e.val[e.p.begins[k]]).and(may); on.any() {
			now[k-1], now[k] = now[k-1].but(on), now[k].or(on)
			changed = changed.or(on)
		}
	}
	if !changed.any() {
		e.beginsNow = may != all
		return news, changed
	}
	for k, n := range e.p.phases {
		news = append(news, setting{n: n, v: now[k]})
	}
	return news, changed
}
