package circuit

import (
	"slices"

	"knockon/book"
	"knockon/circuit/smooth"
)

// Course is a circuit on a flight: when each comparison of real.* numbers
// alone changes, worked out once and shared by all runs.
type Course struct {
	c     *Circuit
	reals Reals
	knots smooth.Knots
	step  book.Time
	flips [][]book.Time // per test: when it changes, for the pure ones
	moves []book.Time   // when some real.* yes/no or pure test changes
	live  bool          // pure comparisons are searched like the others

	known  book.Time // a flight that is known up to there only; 0: to its last knot
	spells []spell   // of the flight, one after the other
}

// DefaultStep is how far apart a search looks at first. Results do not depend
// on it: between two looks it divides wherever the comparison might turn.
const DefaultStep = 20 * book.Second

// NewCourse lays a circuit on a flight with the given knots (see flight.Path),
// searching in steps of step (0: DefaultStep).
func NewCourse(c *Circuit, reals Reals, knots []book.Time, step book.Time) *Course {
	if step <= 0 {
		step = DefaultStep
	}
	k := &Course{c: c, reals: reals, knots: knots, step: step, flips: make([][]book.Time, len(c.tests)), spells: []spell{c.newSpell(knots[0])}}
	k.yesNoMoves(k.knots[0])
	k.pureMoves()
	slices.Sort(k.moves)
	k.moves = slices.Compact(k.moves)
	return k
}

// Circuit returns the circuit of the course.
func (k *Course) Circuit() *Circuit { return k.c }

func (k *Course) end() book.Time {
	if k.known > 0 {
		return k.known
	}
	return k.knots[len(k.knots)-1]
}

// yesNoMoves lists when a real yes/no changes after a moment.
func (k *Course) yesNoMoves(after book.Time) {
	first, found := slices.BinarySearch(k.knots, after)
	if !found && first > 0 {
		first--
	}
	knots := k.knots[first:]
	if len(knots) == 0 {
		return
	}
	for _, n := range k.c.program.reals {
		o := &k.c.ops[n]
		if o.kind != book.YesNo {
			continue
		}
		last := k.reals.Value(int(o.num), knots[0])
		for _, t := range knots[1:] {
			if v := k.reals.Value(int(o.num), t); v != last {
				k.moves, last = append(k.moves, t), v
			}
		}
	}
}

func (k *Course) pureMoves() {
	m := NewMachine(k, nil, nil)
	for i := range k.c.ops {
		m.val[i] = k.c.ops[i].num
	}
	for i := range k.c.tests {
		t := &k.c.tests[i]
		if !t.pure {
			continue
		}
		now := k.knots[0]
		for {
			s := search{m: m, test: t, now: m.truth(t, now)}
			now = s.first(now, k.end())
			if now == book.Never {
				break
			}
			k.flips[i] = append(k.flips[i], now)
		}
		k.moves = append(k.moves, k.flips[i]...)
	}
}

// nextMove returns the first move after t, or Never.
func (k *Course) nextMove(t book.Time) book.Time {
	return smooth.Knots(k.moves).After(t)
}

// searched is what is known of a test's next change: none before upto, and one
// at at, if that is not Never.
type searched struct {
	valid    bool
	at, upto book.Time
	now      float64 // what the test was

	flow  flow // of its numbers
	flows bool // that is known
}

// NextCrossing returns the first moment after the present one, not after
// until, at which something continuous makes a comparison change, or a real
// yes/no value changes; Never if there is none.
func (m *Machine) NextCrossing(until book.Time) book.Time {
	if m.course.live {
		return m.nextLive(until)
	}
	return m.crossingUpTo(until)
}

func (m *Machine) crossingUpTo(until book.Time) book.Time {
	next := book.Never
	if t := m.course.nextMove(m.now); t <= until {
		next, until = t, t
	}
	if m.course.live {
		for i := range m.levels {
			if t := m.levelCrossing(i, until); t <= until {
				next, until = t, t
			}
		}
	}
	for i := range m.c.tests {
		if t := &m.c.tests[i]; t.levelled || t.pure && !m.course.live {
			continue
		}
		if t := m.crossing(i, until); t <= until {
			next, until = t, t
		}
	}
	return next
}

func (m *Machine) crossing(i int, until book.Time) book.Time {
	k, now := &m.memo[i], m.val[m.c.tests[i].node]
	from := m.now
	switch {
	// A turn and back again may be too short to be found, and be met by an
	// instant of something else: then the test is not what it was.
	case !k.valid || k.now != now || (k.at != book.Never && k.at <= m.now):
		k.valid, k.at, k.upto, k.now = true, book.Never, m.now, now
	case k.at != book.Never:
		return k.at
	case k.upto >= until:
		return book.Never
	default:
		from = max(from, k.upto)
	}
	m.seek(i, k, from, until)
	return k.at
}

// seek looks for the change of a test after from. What stands still or runs
// evenly is followed to the end of the flight at once.
func (m *Machine) seek(i int, k *searched, from, until book.Time) {
	t := &m.c.tests[i]
	if !k.flows {
		k.flow, k.flows = m.flowOf(t), true
	}
	switch {
	case k.flow == still:
		k.upto = book.Never
		return
	case k.flow == even:
		until = max(until, m.course.end())
	case t.recalls && !(m.alone && m.course.live):
		if at, upto, ok := m.recalled(i, until); ok {
			if k.at, k.upto = at, upto; at != book.Never || upto >= until {
				return
			}
			from = upto // what others found ends before
		}
	}
	k.at, k.upto = m.searching(search{test: t, now: k.now, even: k.flow == even}).first(from, until), until
}

// forget makes the tests that a node feeds be searched again.
func (m *Machine) forget(n Node) {
	for _, t := range m.c.testFeeds[n] {
		m.memo[t].valid, m.memo[t].flows = false, false
	}
}

// truth of a test at t, all steady values being as they are.
func (m *Machine) truth(t *test, at book.Time) float64 {
	in, s := m.c.operands(t.node), m.sightAt(at)
	return yes(compare(m.c.ops[t.node].code, m.seen(s, in[0]), m.seen(s, in[1])))
}

// search looks for the first moment at which a test is not what it is now.
type search struct {
	m    *Machine
	test *test
	now  float64
	even bool // its numbers run straight but for bounds of totals
}

// Look is the comparison at one moment.
func (s *search) Look(t book.Time) smooth.Look {
	m, in, seen := s.m, s.m.c.operands(s.test.node), s.m.sightAt(t)
	a, b := m.seen(seen, in[0]), m.seen(seen, in[1])
	return smooth.Look{At: t, Differ: yes(compare(m.c.ops[s.test.node].code, a, b)) != s.now, By: a - b}
}

// Corner is the next of the flight's knots, of the steps at which a search
// looks, and of the moments at which a total meets its bound.
func (s *search) Corner(from book.Time) book.Time {
	bound := s.m.boundAfter(s.test.cone, from)
	if s.even {
		return bound
	}
	return min(bound, (from/s.m.course.step+1)*s.m.course.step, s.m.course.knots.After(from))
}

// searching is the one search that a machine is at, so that none asks for room.
func (m *Machine) searching(s search) *search {
	s.m = m
	m.finding = s
	return &m.finding
}

func (s *search) first(from, until book.Time) book.Time { return smooth.First(s, from, until) }
