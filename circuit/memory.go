package circuit

import "knockon/book"

// setting is a new value that waits until all have been worked out.
type setting struct {
	n Node
	v float64
}

// follow gives the following memories (held, pulse, frozen) their new values
// from the present evaluation. Each is a function of what was settled and of
// what is evaluated now, so a passing state inside an instant leaves no trace;
// none sees the new value of another before the next evaluation.
func (m *Machine) follow() (changed bool) {
	var news []setting
	for i, n := range m.c.timers {
		m.timerX[i] = m.timerStart(i, n)
		if v := m.timer(i, n); v != m.val[n] {
			news = append(news, setting{n, v})
		}
	}
	for i, n := range m.c.frozens {
		if m.followFrozen(i, n) {
			changed = true
		}
	}
	if m.starting {
		news = m.followStart(news)
	}
	for _, s := range news {
		m.move(s.n, s.v)
	}
	return changed || len(news) > 0
}

// followStart keeps before(x) equal to x while the start is worked out: the
// start has no "before", so nothing is an edge there.
func (m *Machine) followStart(news []setting) []setting {
	for i, n := range m.c.befores {
		if x := m.val[m.c.operands(n)[0]]; m.c.ops[n].code == cBefore && x != m.val[n] {
			m.left[i] = x
			news = append(news, setting{n, x})
		}
	}
	return news
}

// timerStart is the moment from which the timer's x has been yes.
func (m *Machine) timerStart(i int, n Node) book.Time {
	switch {
	case m.val[m.c.operands(n)[0]] == 0:
		return noTime
	case m.starting:
		return longAgo
	case m.since[i] != noTime:
		return m.since[i]
	}
	return m.now
}

func (m *Machine) timer(i int, n Node) float64 {
	u := m.timerX[i]
	if u == noTime {
		return 0
	}
	out := m.now >= u+m.length(n)
	if (m.c.ops[n].code == cHeld) == out {
		return 1
	}
	return 0
}

// length of a timer; one that does not end within any flight is cut.
func (m *Machine) length(n Node) book.Time {
	s := m.c.ops[n].num
	if s > 1e9 {
		s = 1e9
	}
	return book.AtSeconds(s)
}

func (m *Machine) followFrozen(i int, n Node) (changed bool) {
	open := m.val[m.c.operands(n)[1]] == 0
	kept := m.kept[i]
	if m.starting {
		kept = m.val[m.c.operands(n)[0]]
	} else if m.open[i] && !open {
		kept = m.left[len(m.c.befores)+i]
	}
	if open == m.openNow[i] && kept == m.keptNow[i] {
		return false
	}
	m.openNow[i], m.keptNow[i] = open, kept
	m.moves = append(m.moves, Move{Pass: int32(m.pass), Node: n, To: yes(open)})
	m.mark(n)
	return true
}

// latch gives the latching memories their new values, all from the same
// evaluation: latches, then controls moved by acts, the phase, failures that
// come on a condition, and resets.
func (m *Machine) latch() (changed bool) {
	var news []setting
	put := func(n Node, v float64) {
		if v != m.val[n] {
			news = append(news, setting{n, v})
		}
	}
	for _, n := range m.c.latches {
		put(n, m.latched(n))
	}
	for i, a := range m.acts {
		if !m.fired[i] && m.rising(a.when) {
			m.fired[i] = true
			if !m.held[a.control] {
				news = append(news, setting{m.c.controls[a.control].node, a.to})
			}
		}
	}
	if k := int(m.val[m.c.phaseNode]) + 1; k < len(m.c.phases) && m.c.phases[k].begins != None && m.val[m.c.phases[k].begins] != 0 {
		put(m.c.phaseNode, float64(k))
	}
	come, cleared := m.conditional(), m.resetting()
	for _, s := range news {
		changed = changed || m.val[s.n] != s.v
		m.move(s.n, s.v)
	}
	changed = m.clear(cleared) || changed
	for _, f := range come {
		changed = m.strike(f, true) || changed
	}
	return changed
}

func (m *Machine) latched(n Node) float64 {
	in := m.c.operands(n)
	switch {
	case m.val[in[1]] != 0:
		return 0
	case m.val[in[0]] != 0:
		return 1
	}
	return m.val[n]
}

// rising says that a node is yes now and was no when the last instant was over.
func (m *Machine) rising(n Node) bool { return m.val[n] != 0 && m.settled[n] == 0 }

func (m *Machine) conditional() (come []int) {
	for i, f := range m.failures {
		if f.When != None && !m.firedF[i] && m.rising(f.When) {
			m.firedF[i] = true
			m.Struck = append(m.Struck, i)
			come = append(come, i)
		}
	}
	return come
}

func (m *Machine) resetting() (units []string) {
	for i, r := range m.c.resets {
		if !m.firedR[i] && !m.starting && m.rising(r.when) {
			m.firedR[i] = true
			units = append(units, r.unit)
		}
	}
	return units
}

func (m *Machine) clear(units []string) (changed bool) {
	for _, u := range units {
		for f := range m.failures {
			changed = m.clearUnit(f, u) || changed
		}
	}
	return changed
}

func (m *Machine) clearUnit(f int, unit string) (changed bool) {
	if !m.failures[f].Resettable {
		return false
	}
	for i, w := range m.failures[f].Ways {
		if m.active[f][i] && m.c.ways[w].Unit == unit {
			m.active[f][i] = false
			m.refreshWay(w)
			changed = true
		}
	}
	return changed
}

// over makes the memories of the settled instant final. again says that
// another instant follows at the same moment (docs/meaning.md 3.6).
func (m *Machine) over() (again bool) {
	c := m.c
	copy(m.since, m.timerX)
	for i, n := range c.frozens {
		if m.open[i] != m.openNow[i] || m.kept[i] != m.keptNow[i] {
			m.forget(n)
		}
	}
	m.originTotals()
	copy(m.open, m.openNow)
	copy(m.kept, m.keptNow)
	for i, n := range c.counts {
		x := c.operands(n)[0]
		m.rose[i] = m.val[x] != 0 && m.settled[x] == 0 && !m.starting
		again = again || m.rose[i]
	}
	for i, n := range c.befores {
		again = again || (c.ops[n].code == cBefore && m.val[c.operands(n)[0]] != m.left[i])
	}
	m.starting = false
	return again
}

// NextTimer returns the moment at which the next timer runs out, or Never.
func (m *Machine) NextTimer() book.Time {
	next := book.Never
	for i, n := range m.c.timers {
		if m.since[i] == noTime || m.since[i] == longAgo {
			continue
		}
		if end := m.since[i] + m.length(n); end > m.now && end < next {
			next = end
		}
	}
	return next
}
