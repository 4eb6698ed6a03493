package oracle

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/flight"
)

// machine is a build being flown: its values and its memories.
type machine struct {
	path flight.Path
	at   book.Time
	pass int // evaluations so far

	now      []float64 // by slot: this evaluation
	stood    []float64 // by slot: when the last instant was over
	limits   []float64 // by slot: left limits of numbers
	leftSeen []int
	leftPass int
	follows  bool // another instant was over at this moment
	slots    int
	first    []float64 // by slot: the value of a literal
	real     []float64 // by index of book.Quantities
	reals    [64]bool  // which of them the book reads
	words    []string  // by the number that stands for the word

	parts []*part
	roots []*node // further values, which no item shows
	flow  []step  // what an evaluation works out, each after what it reads

	timers  []*timer
	befores []*before
	frozens []*frozen
	totals  []*total
	counts  []*count

	units   []*unit
	latches []latch
	phase   *cell
	begins  []*node // by phase; nil for the first
	acts    []*act
	timed   []*act
	strikes []*strike
	sounds  []*sound
	holds   []*holds
}

// LoopError says that the values of one moment never came to rest.
type LoopError struct {
	At    book.Time
	Items []string // what keeps changing, in the order of the book
}

func (e *LoopError) Error() string {
	return fmt.Sprintf("a loop that never settles at %g s: %s", e.At.Seconds(), strings.Join(e.Items, ", "))
}

const mostEvaluations = 1000 // in one moment, docs/meaning.md section 3

// moment works out everything that happens at one moment; settled is called
// when each of its instants is over.
func (m *machine) moment(at book.Time, settled func()) error {
	start := at == 0
	m.advance(at)
	first := m.pass
	for again := true; again; {
		if !start {
			m.leftLimits(m.pass == first)
		}
		if m.pass == first {
			m.inputs()
		}
		if err := m.settle(start, first+mostEvaluations); err != nil {
			return err
		}
		again = m.over(start)
		settled()
		start = false
	}
	return nil
}

// advance moves the clock and what changes with it alone.
func (m *machine) advance(at book.Time) {
	dt := float64(at - m.at)
	m.at = at
	for q, read := range m.reals {
		if read {
			m.real[q] = m.path.Value(q, at)
		}
	}
	if dt > 0 {
		m.integrate(dt)
	}
}

// inputs lets timed failures, their ends and timed actions happen: step 2.
func (m *machine) inputs() {
	for _, st := range m.strikes {
		if st.when == nil && !st.struck && st.At <= m.at {
			st.hit(st.At)
		}
		if st.ends <= m.at {
			st.setAll(false)
			st.ends = book.Never
		}
	}
	for _, a := range m.timed {
		if !a.done && a.at <= m.at {
			a.set.value, a.set.held, a.done = a.to, a.held, true
		}
	}
	for _, h := range m.holds {
		h.at(m.at)
	}
	m.failures()
}

// failures works out what has failed from the strikes that are active, and
// reports whether that is a change.
func (m *machine) failures() (changed bool) {
	was := make([]float64, 0, len(m.strikes))
	for _, st := range m.strikes {
		for _, c := range st.cells {
			was = append(was, c.value)
		}
	}
	for _, st := range m.strikes {
		for _, c := range st.cells {
			c.value = 0
		}
	}
	for _, st := range m.strikes {
		for i, c := range st.cells {
			c.value = max(c.value, bit(st.active[i]))
		}
	}
	for _, st := range m.strikes {
		for _, c := range st.cells {
			changed = changed || c.value != was[0]
			was = was[1:]
		}
	}
	return changed
}

// settle evaluates until no memory changes any more: steps 3 to 5.
func (m *machine) settle(start bool, last int) error {
	for {
		if m.pass >= last {
			return m.unsettled(start)
		}
		m.evaluate()
		if !m.following(start) && !m.latching(start) {
			return nil
		}
	}
}

// unsettled goes on for a while to see which items keep changing.
func (m *machine) unsettled(start bool) error {
	changing := make([]bool, len(m.parts))
	for range 100 {
		was := slices.Clone(m.now)
		m.evaluate()
		for i, p := range m.parts {
			changing[i] = changing[i] || !same(was[p.root.slot], m.now[p.root.slot])
		}
		if !m.following(start) && !m.latching(start) {
			m.over(start)
			m.leftLimits(false)
		}
	}
	e := &LoopError{At: m.at}
	for i, p := range m.parts {
		if changing[i] && !slices.Contains(e.Items, p.Item) {
			e.Items = append(e.Items, p.Item)
		}
	}
	return e
}

// over ends an instant and reports whether another follows at the same
// moment: step 6.
func (m *machine) over(start bool) (again bool) {
	for _, b := range m.befores {
		again = again || !same(b.value, m.now[b.x.slot])
	}
	for _, c := range m.counts {
		if m.rose(c.x) && !start {
			c.value++
			again = true
		}
	}
	for _, t := range m.timers {
		switch {
		case m.now[t.x.slot] == 1 && start:
			t.since = math.MinInt64 / 2
		case m.rose(t.x):
			t.since = m.at
		}
	}
	for _, s := range m.sounds {
		s.listen(m, again)
	}
	m.refresh()
	copy(m.stood, m.now)
	return again
}

func (m *machine) rose(n *node) bool { return m.now[n.slot] == 1 && m.stood[n.slot] == 0 }

// same is equality, in which a value that is not a number is like its like.
func same(x, y float64) bool { return x == y || x != x && y != y }

// sound counts how often an alert has sounded.
type sound struct {
	alert   *part
	repeats book.Time // 0: sounds once
	next    book.Time
	times   int
	last    book.Time // at most one at a moment
}

// listen sounds an alert that has become given in this instant, or that is
// still given at the end of a moment at which it is due again.
func (s *sound) listen(m *machine, again bool) {
	switch {
	case m.rose(s.alert.root):
		s.next = m.at + s.repeats
	case s.repeats == 0 || again || s.next > m.at || m.now[s.alert.root.slot] == 0:
		return
	default:
		s.next += s.repeats
	}
	if s.times == 0 || s.last != m.at {
		s.times, s.last = s.times+1, m.at
	}
}
