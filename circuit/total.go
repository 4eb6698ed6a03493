package circuit

import (
	"knockon/book"
	"knockon/circuit/smooth"
)

// sum is how far a total with a smooth rate has been integrated since its base.
type sum struct {
	at    book.Time
	value float64
	valid bool

	mark   book.Time // where its last whole stretch ended, or its base
	marked float64
}

// totalAt gives total i at t, not before its base.
func (m *Machine) totalAt(i int, t book.Time) float64 {
	n := m.c.totals[i]
	rate := m.c.operands(n)[0]
	switch {
	case m.trying[i]:
		return m.trial[i]
	case !m.c.smooth[rate]:
		return m.tank(i).Value(t)
	case m.c.follows[i]:
		return m.grownAt(i, t)
	}
	v := m.integrated(i, t)
	m.look(m.c.rates[i], t)
	return v
}

// integrated adds up total i to t, and keeps how far that was done in whole pieces.
func (m *Machine) integrated(i int, t book.Time) float64 {
	s := m.sums[i]
	if !s.valid || s.at > t {
		s = m.atBase(i)
	}
	stretch := m.stretchEnd(i, s.mark)
	for s.at < t {
		end := m.course.knots.PanelEnd(s.at, m.boundAfter(m.c.rates[i], s.at))
		if end > t {
			m.sums[i] = s
			return smooth.Finite(s.value + m.simpson(i, s.at, t))
		}
		s.at, s.value = end, smooth.Finite(s.value+m.simpson(i, s.at, end))
		if end == stretch {
			s.mark, s.marked, stretch = s.at, s.value, m.stretchEnd(i, end)
		}
	}
	m.sums[i] = s
	return s.value
}

// atBase is total i before anything is added to its base.
func (m *Machine) atBase(i int) sum {
	return sum{at: m.baseAt[i], value: m.base[i], valid: true, mark: m.baseAt[i], marked: m.base[i]}
}

// stretchEnd is where a stretch of total i ends that begins at a moment. Where one
// total reads another, its stretches end wherever those of the other do.
func (m *Machine) stretchEnd(i int, from book.Time) book.Time {
	return m.course.knots.StretchEnd(from, m.boundAfter(m.c.rates[i], from))
}

// tank is total i with the rate that it has now.
func (m *Machine) tank(i int) smooth.Tank {
	n := m.c.totals[i]
	return smooth.Tank{Base: m.base[i], At: m.baseAt[i], Rate: m.val[m.c.operands(n)[0]], Bounds: m.c.ops[n].expr.Bound}
}

// boundAfter is the first moment after t at which a bounded total among some
// nodes meets its bound, or Never.
func (m *Machine) boundAfter(nodes []Node, t book.Time) book.Time {
	next := book.Never
	for _, n := range nodes {
		if m.c.ops[n].code != cTotal || m.c.ops[n].expr.Bound == nil {
			continue
		}
		if at := m.tank(int(m.slot[n])).Full(); at > t {
			next = min(next, at)
		}
	}
	return next
}

func (m *Machine) simpson(i int, a, b book.Time) float64 {
	rate := m.c.operands(m.c.totals[i])[0]
	return m.course.knots.Simpson(func(t book.Time) float64 {
		m.look(m.c.rates[i], t)
		return m.val[rate]
	}, a, b)
}

// look evaluates smooth nodes at t, leaving everything else as it is.
func (m *Machine) look(cone []Node, t book.Time) {
	was := m.looking
	m.looking = true
	for _, n := range cone {
		m.val[n] = m.eval(n, t)
	}
	m.looking = was
}

// advanceTotals moves the base of every total to t, with the rates as they
// were until now.
func (m *Machine) advanceTotals(t book.Time) {
	m.summed, m.ran = m.summed[:0], m.ran[:0]
	for i := range m.c.totals {
		m.summed, m.ran = append(m.summed, m.totalAt(i, t)), append(m.ran, m.reached(i, t))
	}
	for i, v := range m.summed {
		if m.baseAt[i] != t {
			m.base[i], m.baseAt[i] = v, t
		}
		m.sums[i], m.grown[i] = sum{}, nil // what it reads may become another at a moment that was over
	}
}

// running is how a total ran up to an instant: from the end of its last whole stretch
// before it, and what is known of it from there.
type running struct {
	at    book.Time
	value float64
	sum   sum
	arcs  []smooth.Arc
}

// reached is how total i runs at t.
func (m *Machine) reached(i int, t book.Time) running {
	r := running{m.baseAt[i], m.base[i], m.sums[i], m.grown[i]}
	if r.sum.valid && r.sum.at <= t {
		r.at, r.value = r.sum.mark, r.sum.marked
	}
	for len(r.arcs) > 0 {
		end := m.stretchEnd(i, r.at)
		k := smooth.ArcAt(r.arcs, end)
		if end > t || k == len(r.arcs) || r.arcs[k].To != end {
			break
		}
		r.at, r.value, r.arcs = end, r.arcs[k].End, r.arcs[k+1:]
	}
	return r
}

// originTotals lets a total run on in the pieces that it ran in if nothing that
// its rate reads has changed: its value then does not hang on which instants lay
// between.
func (m *Machine) originTotals() {
	for i, n := range m.c.totals {
		rate := m.c.operands(n)[0]
		switch {
		case m.c.smooth[rate]:
			m.runOn(i)
		case m.val[rate] == m.settled[rate] && !m.starting:
			m.base[i], m.baseAt[i] = m.origin[i], m.originAt[i]
		default:
			m.origin[i], m.originAt[i] = m.base[i], m.baseAt[i]
		}
	}
}

func (m *Machine) runOn(i int) {
	if m.starting || m.rateReadsNew(i) {
		return
	}
	r := &m.ran[i]
	m.base[i], m.baseAt[i] = r.value, r.at
	m.sums[i], m.grown[i] = r.sum, r.arcs
}

// rateReadsNew says that something steady under the rate of total i, or a value kept
// there, is not what it was before this instant.
func (m *Machine) rateReadsNew(i int) bool {
	reads := &m.c.ratesRead[i]
	for _, n := range reads.steady {
		if m.val[n] != m.settled[n] {
			return true
		}
	}
	for _, n := range reads.frozen {
		if k := m.slot[n]; m.open[k] != m.openNow[k] || m.kept[k] != m.keptNow[k] {
			return true
		}
	}
	return false
}
