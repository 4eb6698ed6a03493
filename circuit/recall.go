package circuit

import (
	"slices"
	"sort"
	"sync"

	"knockon/book"
)

// Runs of one flight mostly find the same: while the steady values that a test
// reads are some, and the totals that it reads run on from the same points, its
// changes hang on the flight alone. So a course that is laid for many runs
// remembers them for each such state.

// lore is what is known of one test.
type lore struct {
	sync.Mutex
	states []*state
}

// spell is a part of a flight, from a moment to the next spell: a flight that
// turns is, from then on, another, and what was known of it holds no longer.
type spell struct {
	from   book.Time
	lore   []lore      // per test
	levels []levelLore // per group of tests against levels
}

func (c *Circuit) newSpell(from book.Time) spell {
	return spell{from, make([]lore, len(c.tests)), make([]levelLore, len(c.levels))}
}

// spellAt is the spell of a moment, and up to where it lasts.
func (k *Course) spellAt(now book.Time) (s *spell, to book.Time) {
	to = book.Never
	for j := len(k.spells) - 1; ; j-- {
		if s := &k.spells[j]; s.from <= now || j == 0 {
			return s, to
		}
		to = k.spells[j].from
	}
}

// mostStates bounds what is remembered of a test; what is beyond it is searched
// anew.
const mostStates = 32

// state is what is known of a test while it reads the values of its key: all
// its changes after from, up to upto, and what it is at from.
type state struct {
	key        []float64
	from, upto book.Time
	at         float64
	flips      []book.Time
}

// reading is what a test reads beside the flight. The rate of a total is among
// the steady values.
func (m *Machine) reading(t *test, into []float64) []float64 {
	for _, n := range t.steady {
		into = append(into, m.val[n])
	}
	for _, n := range t.frozen {
		i := m.slot[n]
		if m.openNow[i] {
			into = append(into, 1, 0)
		} else {
			into = append(into, 0, m.keptNow[i])
		}
	}
	for _, n := range t.totals {
		i := m.slot[n]
		into = append(into, m.base[i], float64(m.baseAt[i]))
	}
	return into
}

// recalled is the first change of test i after the present moment, found with
// what is known of the state that it is in, and Never if there is none up to
// upto, which is until at least unless what is known ends before. ok says that something is known: there was room
// for it, and it says that the test is what it is.
func (m *Machine) recalled(i int, until book.Time) (at, upto book.Time, ok bool) {
	t := &m.c.tests[i]
	p, to := m.course.spellAt(m.now)
	l := &p.lore[i]
	until = min(until, to)
	m.key = m.reading(t, m.key[:0])
	l.Lock()
	defer l.Unlock()
	s := l.of(m.key)
	if s == nil {
		if len(l.states) == mostStates {
			return 0, 0, false
		}
		s = &state{key: slices.Clone(m.key), from: m.now, upto: m.now, at: m.truth(t, m.now)}
		l.states = append(l.states, s)
	}
	s.backTo(m, t)
	if s.truth(m.now) != m.val[t.node] {
		return 0, 0, false
	}
	if at = s.next(m, t, until); at > to {
		at = book.Never
	}
	return at, min(s.upto, to), true
}

func (l *lore) of(key []float64) *state {
	for _, s := range l.states {
		if slices.Equal(s.key, key) {
			return s
		}
	}
	return nil
}

// backTo extends what is known back to the present moment.
func (s *state) backTo(m *Machine, t *test) {
	if m.now >= s.from {
		return
	}
	earlier := &state{from: m.now, upto: m.now, at: m.truth(t, m.now)}
	for earlier.upto < s.from {
		earlier.extend(m, t, s.from)
	}
	s.from, s.at, s.flips = earlier.from, earlier.at, append(earlier.flips, s.flips...)
}

// extend looks for one more change, up to until.
func (s *state) extend(m *Machine, t *test, until book.Time) {
	look := m.searching(search{test: t, now: s.truth(s.upto)})
	if at := look.first(s.upto, until); at != book.Never {
		s.flips, s.upto = append(s.flips, at), at
		return
	}
	s.upto = until
}

// truth of the test at a moment that is known.
func (s *state) truth(t book.Time) float64 {
	if s.after(t)%2 == 1 {
		return 1 - s.at
	}
	return s.at
}

// after is the place of the first change after a moment.
func (s *state) after(t book.Time) int {
	return sort.Search(len(s.flips), func(i int) bool { return s.flips[i] > t })
}

// next is the first change after the present moment, Never if there is none up
// to until.
func (s *state) next(m *Machine, t *test, until book.Time) book.Time {
	for {
		if i := s.after(m.now); i < len(s.flips) {
			return s.flips[i]
		}
		if s.upto >= until {
			return book.Never
		}
		s.extend(m, t, until)
	}
}
