package circuit

import (
	"math"
	"sort"
	"sync"

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
	if at, upto, ok := m.levelKnown(i, now, until); ok {
		if k.at, k.upto = at, upto; at != book.Never || upto >= until {
			return at
		}
		from = upto
	}
	k.at, k.upto = m.firstLevel(g, now, from, until), until
	return k.at
}

// levelLore is what is known of a group in a spell: which of its tests hold at
// from, and all changes up to upto. It hangs on the flight alone.
type levelLore struct {
	sync.Mutex
	known      bool
	from, upto book.Time
	first      uint64
	flips      []levelFlip
}

type levelFlip struct {
	at book.Time
	to uint64
}

// levelKnown is the first change of group i after the present moment, as found
// for all runs of the flight, and Never if there is none up to upto. ok says that
// something is known, and that it says of the tests what they are.
func (m *Machine) levelKnown(i int, now uint64, until book.Time) (at, upto book.Time, ok bool) {
	if m.alone {
		return 0, 0, false
	}
	s, to := m.course.spellAt(m.now)
	l, g := &s.levels[i], &m.c.levels[i]
	until = min(until, to)
	l.Lock()
	defer l.Unlock()
	if !l.known {
		l.known, l.from, l.upto, l.first = true, m.now, m.now, now
	}
	next, is := l.after(m.now)
	if m.now < l.from || is != now {
		return 0, 0, false
	}
	for next == len(l.flips) && l.upto < until {
		l.extend(m, g, until)
	}
	if next < len(l.flips) && l.flips[next].at <= to {
		return l.flips[next].at, l.upto, true
	}
	return book.Never, min(l.upto, to), true
}

// after is the place of the first change after a moment, and which tests hold then.
func (l *levelLore) after(t book.Time) (next int, is uint64) {
	next = sort.Search(len(l.flips), func(i int) bool { return l.flips[i].at > t })
	if next == 0 {
		return 0, l.first
	}
	return next, l.flips[next-1].to
}

// extend looks for one more change, up to until.
func (l *levelLore) extend(m *Machine, g *gauged, until book.Time) {
	_, is := l.after(l.upto)
	at := m.firstLevel(g, is, l.upto, until)
	if at == book.Never {
		l.upto = until
		return
	}
	var to uint64
	for i, t := range g.tests {
		if m.truth(&m.c.tests[t], at) != 0 {
			to |= 1 << i
		}
	}
	l.upto, l.flips = at, append(l.flips, levelFlip{at, to})
}

// firstLevel is search.first for a group of which these tests hold.
func (m *Machine) firstLevel(g *gauged, now uint64, from, until book.Time) book.Time {
	q := int(m.c.ops[g.real].num)
	a := m.real(q, from)
	for from < until {
		to := min((from/m.course.step+1)*m.course.step, m.course.knots.After(from), until)
		mid, b := m.real(q, from+(to-from)/2), m.real(q, to)
		if at := m.levelBetween(g, now, from, to, [3]float64{a, mid, b}); at != book.Never {
			return at
		}
		from, a = to, b
	}
	return book.Never
}

// levelBetween is the first change of a test of the group over a stretch, at
// whose beginning, middle and end the number is v.
func (m *Machine) levelBetween(g *gauged, now uint64, from, to book.Time, v [3]float64) book.Time {
	first := book.Never
	bend := math.Abs(v[1] - (v[0]+v[2])/2)
	for k, i := range g.tests {
		t, is := &m.c.tests[i], float64(now>>k&1)
		if m.keepsClear(t, is, v, bend) {
			continue
		}
		s := m.searching(search{test: t, now: is})
		first = min(first, smooth.Between(s, s.Look(from), s.Look(to)))
	}
	return first
}

// keepsClear says that smooth.Between would find nothing, without dividing.
func (m *Machine) keepsClear(t *test, is float64, v [3]float64, bend float64) bool {
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
		if i > 0 && yes(holds) != is {
			return false
		}
	}
	return bend <= 1e-9*(math.Abs(v[0]-x)+math.Abs(v[2]-x)) || 4*bend <= near
}
