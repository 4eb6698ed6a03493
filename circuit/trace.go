package circuit

import (
	"slices"
	"sort"
	"sync"

	"knockon/book"
)

// Change is one new value of a steady node. Several at one moment follow each
// other in the order in which they happened.
type Change struct {
	At      book.Time
	Instant int32 // index into Instants: which of those at this moment
	Node    Node
	To      float64
}

// Trace is every change of every value in one run. It is frozen after Done and
// may be read from many goroutines.
type Trace struct {
	course   *Course
	End      book.Time
	initial  []float64
	changes  []Change // in order of time
	byNode   []int32  // indices into changes, grouped by node
	first    []int32  // node -> where its group begins in byNode
	instants []book.Time
	memories []float64 // what the smooth memories held, row by row
	rows     []int32   // per instant: where its row begins
	moves    []Move    // of the memories, in order
	acts     []act     // that could move a control

	mu      sync.Mutex
	moved   map[Node][]Move // of each node; made when first asked for
	scratch *Machine
	cones   map[Node][]Node
}

// NewTrace starts a trace from a machine whose start has just been worked out.
func NewTrace(m *Machine) *Trace {
	t := &Trace{course: m.course, initial: slices.Clone(m.val), cones: map[Node][]Node{}, acts: m.acts}
	t.remember(m)
	return t
}

// Add notes an instant of the machine and the nodes that it changed.
func (t *Trace) Add(m *Machine, changed []Node) {
	for _, n := range changed {
		t.changes = append(t.changes, Change{m.now, int32(len(t.instants)), n, m.val[n]})
	}
	t.course = m.course
	t.remember(m)
}

// remember notes what the smooth memories hold: most instants leave them alone.
func (t *Trace) remember(m *Machine) {
	for _, v := range m.moves {
		v.Instant = int32(len(t.instants))
		t.moves = append(t.moves, v)
	}
	t.instants = append(t.instants, m.now)
	start := len(t.memories)
	t.memories = append(t.memories, m.base...)
	for i := range m.base {
		t.memories = append(t.memories, float64(m.baseAt[i]))
	}
	for i := range m.open {
		t.memories = append(t.memories, yes(m.open[i]), m.kept[i])
	}
	if n := len(t.rows); n > 0 {
		if last := int(t.rows[n-1]); slices.Equal(t.memories[last:start], t.memories[start:]) {
			t.memories, start = t.memories[:start], last
		}
	}
	t.rows = append(t.rows, int32(start))
}

// Done freezes the trace; end is the last moment of the run.
func (t *Trace) Done(end book.Time) {
	t.End = end
	count := make([]int32, len(t.initial)+1)
	for _, ch := range t.changes {
		count[ch.Node+1]++
	}
	for i := 1; i < len(count); i++ {
		count[i] += count[i-1]
	}
	t.first = slices.Clone(count)
	t.byNode = make([]int32, len(t.changes))
	for i, ch := range t.changes {
		t.byNode[count[ch.Node]] = int32(i)
		count[ch.Node]++
	}
}

// Course returns the course on which the run ended.
func (t *Trace) Course() *Course { return t.course }

// Circuit returns the circuit that was run.
func (t *Trace) Circuit() *Circuit { return t.course.c }

// Instants lists the moments at which something could change, in order; one
// moment can be there more than once.
func (t *Trace) Instants() []book.Time { return t.instants }

// Changes lists all changes in order of time.
func (t *Trace) Changes() []Change { return t.changes }

// Initial is a steady node's value at the start.
func (t *Trace) Initial(n Node) float64 { return t.initial[n] }

// Steady says that a node changes at instants only.
func (t *Trace) Steady(n Node) bool { return !t.course.c.smooth[n] }

// History lists the changes of a steady node.
func (t *Trace) History(n Node) []Change {
	group := t.byNode[t.first[n]:t.first[n+1]]
	list := make([]Change, len(group))
	for i, j := range group {
		list[i] = t.changes[j]
	}
	return list
}

// At returns a node's value at a moment, after all that happened at it.
func (t *Trace) At(n Node, at book.Time) float64 {
	if t.course.c.smooth[n] {
		return t.smoothAt(n, at, t.InstantAt(at))
	}
	return t.steadyAt(n, at)
}

func (t *Trace) steadyAt(n Node, at book.Time) float64 {
	group := t.byNode[t.first[n]:t.first[n+1]]
	i := sort.Search(len(group), func(i int) bool { return t.changes[group[i]].At > at })
	if i == 0 {
		return t.initial[n]
	}
	return t.changes[group[i-1]].To
}

// In returns a node's value at a moment as an instant left it, which is the
// last one before the moment or one of those at it.
func (t *Trace) In(n Node, at book.Time, instant int) float64 {
	if t.course.c.smooth[n] {
		return t.smoothAt(n, at, instant)
	}
	return t.after(n, instant)
}

// after returns a steady node's value after an instant.
func (t *Trace) after(n Node, instant int) float64 {
	if c, ok := t.LastChange(n, instant); ok {
		return c.To
	}
	return t.initial[n]
}

// LastChange returns a steady node's last change up to an instant; ok is false
// if it has been as it is since the start.
func (t *Trace) LastChange(n Node, instant int) (c Change, ok bool) {
	group := t.byNode[t.first[n]:t.first[n+1]]
	i := sort.Search(len(group), func(i int) bool { return int(t.changes[group[i]].Instant) > instant })
	if i == 0 {
		return c, false
	}
	return t.changes[group[i-1]], true
}

// InstantAt is the last instant not after a moment.
func (t *Trace) InstantAt(at book.Time) int {
	return sort.Search(len(t.instants), func(i int) bool { return t.instants[i] > at }) - 1
}

// Before returns a node's value just before a moment: before the first of the
// instants at it.
func (t *Trace) Before(n Node, at book.Time) float64 {
	if t.course.c.smooth[n] || at <= 0 {
		return t.At(n, max(at-1, 0))
	}
	return t.steadyAt(n, at-1)
}

// smoothAt works a smooth number out again from the steady values it reads, as
// an instant left them.
func (t *Trace) smoothAt(n Node, at book.Time, instant int) float64 {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.scratch == nil {
		t.scratch = NewMachine(t.course, nil, nil)
	}
	cone, ok := t.cones[n]
	if !ok {
		cone = t.course.c.smoothUnder(n)
		t.cones[n] = cone
	}
	m := t.scratch
	t.recall(m, instant)
	for _, s := range cone {
		t.recallSteady(m, s, instant)
	}
	m.look(cone, at)
	return m.val[n]
}

// recallSteady puts the steady values that a smooth node reads, and for a
// total those under its rate, into the scratch machine.
func (t *Trace) recallSteady(m *Machine, s Node, instant int) {
	for _, a := range t.course.c.operands(s) {
		if !t.course.c.smooth[a] {
			m.val[a] = t.after(a, instant)
		}
	}
}

// recall restores the smooth memories of an instant.
func (t *Trace) recall(m *Machine, instant int) {
	n := len(m.base)
	held := t.memories[t.rows[instant]:][:2*(n+len(m.open))]
	copy(m.base, held)
	for j := range m.base {
		m.baseAt[j], m.sums[j], m.grown[j] = book.Time(held[n+j]), sum{}, nil
	}
	for j := range m.open {
		m.openNow[j], m.keptNow[j] = held[2*(n+j)] != 0, held[2*(n+j)+1]
	}
}

// Span is an interval of time, from From up to but not including To; at the
// end of the flight including it. From == To is a value of no duration.
type Span struct{ From, To book.Time }

// Length of a span.
func (s Span) Length() book.Time { return s.To - s.From }

// Spans lists when a yes/no node is yes.
func (t *Trace) Spans(n Node) []Span {
	var list []Span
	on, from := t.initial[n] != 0, book.Time(0)
	for _, j := range t.byNode[t.first[n]:t.first[n+1]] {
		ch := t.changes[j]
		switch {
		case ch.To != 0 && !on:
			on, from = true, ch.At
		case ch.To == 0 && on:
			on = false
			list = append(list, Span{from, ch.At})
		}
	}
	if on {
		list = append(list, Span{from, t.End})
	}
	return list
}
