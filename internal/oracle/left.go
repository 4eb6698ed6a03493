package oracle

import "knockon/book"

// leftLimits takes note of what everything that asks for it was just before
// this instant: step 1.
func (m *machine) leftLimits(first bool) {
	m.leftPass++
	m.follows = !first
	for _, b := range m.befores {
		b.value = m.leftOf(b.x)
	}
	for _, f := range m.frozens {
		f.left = m.leftOf(f.x)
		f.wasClosed, f.wasKept = f.closed, f.kept
	}
}

// leftOf is the left limit of a node: what stood when the last instant was
// over, but of a number at a new moment what it would be now. A number that
// comes back to itself through before is as it stood, too.
func (m *machine) leftOf(n *node) float64 {
	n = n.read()
	if m.leftSeen[n.slot] == m.leftPass {
		return m.limits[n.slot]
	}
	m.leftSeen[n.slot] = m.leftPass
	m.limits[n.slot] = m.stood[n.slot]
	if n.typ == book.Number && !m.follows {
		m.limits[n.slot] = m.leftNumber(n)
	}
	return m.limits[n.slot]
}

func (m *machine) leftNumber(n *node) float64 {
	for _, a := range n.args {
		m.leftOf(a)
	}
	switch n.op {
	case book.OpCount:
		return n.count.value
	case book.OpNumber:
		return n.num
	case book.OpReal:
		return m.real[n.real]
	case book.OpBefore:
		return m.leftOf(n.before.x)
	case book.OpFrozen:
		return n.frozen.value(m.limits[n.in[0]])
	case book.OpTotal:
		return n.total.value
	}
	return operate(n, m.limits)
}

// integrate brings the totals from the last moment to this one, dt
// microseconds later. A total with bounds has an x that stands still between
// instants; any other x is taken along the straight line between its value
// after the last instant and its left limit now.
func (m *machine) integrate(dt float64) {
	dt /= 1 << 20
	for _, t := range m.totals {
		t.sum = finite(t.sum + m.stood[t.x.slot]*dt)
		t.cut()
	}
	m.leftPass++
	m.follows = false
	for _, t := range m.totals {
		if t.bound == nil && t.x.typ == book.Number {
			t.slope = finite(m.leftOf(t.x) - m.stood[t.x.slot])
		}
	}
	for _, t := range m.totals {
		t.sum = finite(t.sum + t.slope*dt/2)
		t.cut()
	}
}

// sumsPerSecond is how much the sum of a total grows in a second at x = 1.
const sumsPerSecond = 1e6 / (1 << 20)

// cut holds the sum to the bounds and works out the value.
func (t *total) cut() {
	t.value = finite(t.sum / sumsPerSecond)
	if t.bound == nil {
		return
	}
	if low := t.bound.Least * sumsPerSecond; t.sum <= low {
		t.sum, t.value = low, t.bound.Least
	}
	if high := t.bound.Most * sumsPerSecond; t.sum >= high {
		t.sum, t.value = high, t.bound.Most
	}
}
