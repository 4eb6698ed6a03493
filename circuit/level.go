package circuit

import (
	"math"

	"knockon/book"
	"knockon/circuit/smooth"
)

// Most comparisons of the flight alone hold one of its numbers against a level.
// Those of one number are searched together: where it keeps clear of all levels
// over a stretch, that is seen from three looks at it.

// gauged are the tests that hold one real number against constants.
type gauged struct {
	real  Node
	tests []int32
}

// groupLevels finds them among the pure tests.
func (c *Circuit) groupLevels() {
	place := map[Node]int{}
	for i := range c.tests {
		t := &c.tests[i]
		if !t.pure || len(t.cone) != 1 || c.ops[t.cone[0]].code != cReal {
			continue
		}
		n := t.cone[0]
		k, ok := place[n]
		if !ok || len(c.levels[k].tests) == 64 {
			k = len(c.levels)
			place[n] = k
			c.levels = append(c.levels, gauged{real: n})
		}
		t.levelled = true
		c.levels[k].tests = append(c.levels[k].tests, int32(i))
	}
}

// levelled is what is known of the next change of a group.
type levelled struct {
	valid    bool
	at, upto book.Time
	now      uint64 // what each test was, as bits
}

// truths of the tests of a group at the present moment.
func (m *Machine) truths(g *gauged) (bits uint64) {
	for i, t := range g.tests {
		if m.val[m.c.tests[t].node] != 0 {
			bits |= 1 << i
		}
	}
	return bits
}

// levelCrossing is crossing for a group.
func (m *Machine) levelCrossing(i int, until book.Time) book.Time {
	g, k := &m.c.levels[i], &m.levels[i]
	now, from := m.truths(g), m.now
	switch {
	case !k.valid || k.now != now || (k.at != book.Never && k.at <= m.now):
		*k = levelled{true, book.Never, m.now, now}
	case k.at != book.Never:
		return k.at
	case k.upto >= until:
		return book.Never
	default:
		from = max(from, k.upto)
	}
	k.at, k.upto = m.firstLevel(g, from, until), until
	return k.at
}

// firstLevel is search.first for a group.
func (m *Machine) firstLevel(g *gauged, from, until book.Time) book.Time {
	q := int(m.c.ops[g.real].num)
	a := m.real(q, from)
	for from < until {
		to := min((from/m.course.step+1)*m.course.step, m.course.knots.After(from), until)
		mid, b := m.real(q, from+(to-from)/2), m.real(q, to)
		if at := m.levelBetween(g, from, to, [3]float64{a, mid, b}); at != book.Never {
			return at
		}
		from, a = to, b
	}
	return book.Never
}

// levelBetween is the first change of a test of the group over a stretch, at
// whose beginning, middle and end the number is v.
func (m *Machine) levelBetween(g *gauged, from, to book.Time, v [3]float64) book.Time {
	first := book.Never
	bend := math.Abs(v[1] - (v[0]+v[2])/2)
	for _, i := range g.tests {
		t := &m.c.tests[i]
		if m.keepsClear(t, v, bend) {
			continue
		}
		s := &search{m: m, test: *t, now: m.val[t.node]}
		first = min(first, smooth.Between(s, s.Look(from), s.Look(to)))
	}
	return first
}

// keepsClear says that smooth.Between would find nothing, without dividing.
func (m *Machine) keepsClear(t *test, v [3]float64, bend float64) bool {
	in, o := m.c.operands(t.node), &m.c.ops[t.node]
	level, turned := in[1], in[0] != t.cone[0]
	if turned {
		level = in[0]
	}
	x := m.c.ops[level].num
	near := math.Inf(1)
	for i, y := range v {
		near = min(near, math.Abs(y-x))
		holds := compare(o.code, y, x)
		if turned {
			holds = compare(o.code, x, y)
		}
		if i > 0 && yes(holds) != m.val[t.node] {
			return false
		}
	}
	return bend <= 1e-9*(math.Abs(v[0]-x)+math.Abs(v[2]-x)) || 4*bend <= near
}
