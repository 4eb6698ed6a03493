package circuit

import (
	"math"
	"math/bits"
	"slices"

	"knockon/book"

	"knockon/circuit/smooth"
)

// Reals gives the value of real quantity q at a moment, as flight.Path does.
type Reals interface {
	Value(q int, t book.Time) float64
}

// Failure is a set of ways that fail together. When is the node whose rise
// brings them (None: a Strike input does).
type Failure struct {
	Ways       []int
	Resettable bool
	When       Node
}

// ConditionalAct sets a control when a node becomes yes.
type ConditionalAct struct {
	When    Node
	Control int
	To      float64
}

// Input is something that happens to the machine at a moment.
type Input struct {
	Strike  int // failure that comes; -1 for none
	End     int // failure that passes; -1 for none
	Control int // control that moves; -1 for none
	To      float64
	Hold    bool // no act moves the control until another input does
	Phase   int  // phase that becomes current, its number + 1; 0 for none
}

// Machine evaluates one run of a circuit. It is not safe for concurrent use.
type Machine struct {
	c        *Circuit
	reals    Reals
	failures []Failure
	acts     []act

	now      book.Time
	started  bool
	starting bool // in the instant of the start
	val      []float64
	settled  []float64 // values when the last instant was over
	left     []float64 // per before: the left limit; per frozen behind them: that of its x
	dirty    []uint64
	touched  []Node
	isTouch  []bool
	since    []book.Time // per timer: when its x became yes, as of the last settled instant
	timerX   []book.Time // the same in the present evaluation
	open     []bool      // per frozen, settled
	kept     []float64   // per frozen
	openNow  []bool
	keptNow  []float64
	base     []float64 // per total: its value at baseAt
	baseAt   []book.Time
	origin   []float64 // per total: its value at originAt, from when its rate is what it is
	originAt []book.Time
	rose     []bool   // per count: its x became yes in the last instant
	struck   []bool   // per failure: has come
	active   [][]bool // per failure and way of it
	held     []bool   // per control: no act moves it
	fired    []bool   // per act, in this instant
	firedF   []bool   // per failure, in this instant
	firedR   []bool
	passes   int // evaluations at this moment
	pass     int // evaluations in this instant
	moves    []Move
	crowd    int // evaluations from counted on, within patience
	counted  book.Time
	memo     []searched     // per test
	levels   []levelled     // per group of tests against levels
	flows    []flow         // per smooth node, of the test looked at last
	key      []float64      // room for what a test reads
	sums     []sum          // per total: how far it has been integrated
	grown    [][]smooth.Arc // per total that follows itself: how it ran since its base
	summed   []float64      // per total: what it comes to, while all are worked out
	ran      []running      // per total: how it ran up to this instant
	trial    []float64      // per total: what it is taken to be
	trying   []bool         // per total: it is taken to be so
	calm     [][]flow       // per total that follows itself: flows while it rests
	glances  []glance       // what the flight said lately
	finding  search         // the search it is at
	sights   []sight        // what smooth nodes were at moments looked at lately; nil: none was
	stretch  int            // how many instants, and other flights, there were
	turned   book.Time      // when the machine was put on the flight that it is on
	signs    []uint64       // per node; nil: nothing is signed, see sign.go
	stride   book.Time      // of searches from the next turn on; 0: that of the course
	alone    bool           // no other run will be led along this flight
	looking  bool           // between instants: before(x) is x itself
	slot     []int32        // node -> its place in the list of its kind
	course   *Course
	warned   map[Node]bool
	restless map[string]bool // items that still change when a moment has had almost too many evaluations

	// Struck lists the failures that came on their condition in the last instant.
	Struck []int
	// Warnings are what the run noticed so far.
	Warnings []Warning
}

// Warning is something a run noticed that an author should know.
type Warning struct {
	At   book.Time
	Node Node
	Text string
}

const noTime book.Time = math.MinInt64
const longAgo book.Time = math.MinInt64 / 4

// mostPasses is how many evaluations one moment may take, mostCrowd how many
// all the moments of one second may (docs/meaning.md 3). What chatters, such
// as a bus that lives from an empty battery and stops its charger, moves on by
// a microsecond each time.
const (
	mostPasses = 1000
	mostCrowd  = 20000
	patience   = book.Second
)

// NewMachine makes a machine at rest; its first Instant is the start.
func NewMachine(course *Course, failures []Failure, extra []ConditionalAct) *Machine {
	c := course.c
	n := len(c.ops)
	m := &Machine{
		c: c, course: course, reals: course.reals, failures: failures,
		val: make([]float64, n), settled: make([]float64, n), isTouch: make([]bool, n),
		left: make([]float64, len(c.befores)+len(c.frozens)), dirty: make([]uint64, n/64+1),
		since: make([]book.Time, len(c.timers)), timerX: make([]book.Time, len(c.timers)),
		open: make([]bool, len(c.frozens)), openNow: make([]bool, len(c.frozens)),
		kept: make([]float64, len(c.frozens)), keptNow: make([]float64, len(c.frozens)),
		base: make([]float64, len(c.totals)), sums: make([]sum, len(c.totals)), grown: make([][]smooth.Arc, len(c.totals)),
		trial: make([]float64, len(c.totals)), trying: make([]bool, len(c.totals)), calm: make([][]flow, len(c.totals)),
		baseAt: make([]book.Time, len(c.totals)), origin: make([]float64, len(c.totals)), originAt: make([]book.Time, len(c.totals)), rose: make([]bool, len(c.counts)),
		active: make([][]bool, len(failures)), held: make([]bool, len(c.controls)),
		firedF: make([]bool, len(failures)), firedR: make([]bool, len(c.resets)),
		glances: make([]glance, glances),
		memo:    make([]searched, len(c.tests)), levels: make([]levelled, len(c.levels)), flows: make([]flow, n), warned: map[Node]bool{}, restless: map[string]bool{}, slot: c.slots,
	}
	m.acts = append(m.acts, c.acts...)
	for _, a := range extra {
		m.acts = append(m.acts, act{when: a.When, control: a.Control, to: a.To})
	}
	m.fired = make([]bool, len(m.acts))
	for i, f := range failures {
		m.active[i] = make([]bool, len(f.Ways))
	}
	return m
}

// Value returns a node's value at the present moment. For a smooth number that
// is the value when the last instant was worked out.
func (m *Machine) Value(n Node) float64 { return m.val[n] }

// Now returns the moment of the last instant.
func (m *Machine) Now() book.Time { return m.now }

// Instant works out the instant at t, which must not be before the last one,
// with its inputs in order. again says that another instant follows at the
// same moment. changed lists the steady nodes that have a new value, in order.
func (m *Machine) Instant(t book.Time, inputs []Input) (changed []Node, again bool, err error) {
	m.countFrom(t)
	if m.signs != nil {
		m.unsigned()
	}
	m.stretch++
	m.touched, m.moves, m.pass = m.touched[:0], m.moves[:0], 0
	m.Struck = m.Struck[:0]
	m.clearFired()
	if !m.started {
		m.start(t)
	} else {
		m.arrive(t)
	}
	for _, in := range inputs {
		m.input(in)
	}
	if err := m.settle(); err != nil {
		return nil, false, err
	}
	again = m.over()
	return m.changes(), again, nil
}

// countFrom starts the counts of evaluations anew for a new moment and for a
// new second.
func (m *Machine) countFrom(t book.Time) {
	if t-m.counted > patience {
		m.crowd, m.counted = 0, t
	}
	if t != m.now {
		m.passes = 0
		if m.crowd < mostCrowd-50 {
			clear(m.restless)
		}
	}
}

func (m *Machine) clearFired() {
	clear(m.fired)
	clear(m.firedF)
	clear(m.firedR)
}

// start evaluates everything once from the initial memories.
func (m *Machine) start(t book.Time) {
	m.started, m.starting, m.now = true, true, t
	c := m.c
	for i := range m.since {
		m.since[i] = noTime
	}
	for i := range m.open {
		m.open[i], m.openNow[i] = true, true
	}
	for i, n := range c.totals {
		if b := c.ops[n].expr.Bound; b != nil {
			m.base[i] = b.Start
		}
		m.baseAt[i] = t
	}
	copy(m.origin, m.base)
	copy(m.originAt, m.baseAt)
	for i := range c.ops {
		m.val[i] = m.initial(Node(i))
	}
	for i, n := range c.frozens {
		x := m.val[c.operands(n)[0]]
		m.left[len(c.befores)+i], m.kept[i], m.keptNow[i] = x, x, x
	}
	for i := range c.ops {
		m.touch(Node(i))
	}
}

func (m *Machine) initial(n Node) float64 {
	o := &m.c.ops[n]
	switch o.code {
	case cLatch, cControl:
		return m.c.initialOf(n)
	case cPhase, cWay, cHeld, cPulse, cBefore, cStood, cCount:
		return 0
	}
	return m.eval(n, m.now)
}

// arrive moves to t: smooth numbers take their left limits, the memories of
// the instant take theirs, then the flight's yes/no values change.
func (m *Machine) arrive(t book.Time) {
	c := m.c
	m.advanceTotals(t)
	if t != m.now {
		m.now = t
		m.look(c.flowing, t)
		for _, n := range c.rim {
			m.mark(n)
		}
	}
	for i, n := range c.befores {
		m.left[i] = m.val[c.operands(n)[0]]
	}
	for i, n := range c.frozens {
		m.left[len(c.befores)+i] = m.val[c.operands(n)[0]]
	}
	for i, n := range c.befores {
		m.set(n, m.left[i])
	}
	for i, n := range c.counts {
		if m.rose[i] {
			m.rose[i] = false
			m.set(n, m.val[n]+1)
		}
	}
	for _, n := range c.program.reals {
		if o := &c.ops[n]; o.kind == book.YesNo {
			m.set(n, m.reals.Value(int(o.num), t))
		}
	}
}

func (m *Machine) input(in Input) {
	switch {
	case in.Strike >= 0:
		m.strike(in.Strike, true)
	case in.End >= 0:
		m.strike(in.End, false)
	case in.Control >= 0:
		m.held[in.Control] = in.Hold
		m.move(m.c.controls[in.Control].node, in.To)
	case in.Phase > 0:
		m.move(m.c.phaseNode, float64(in.Phase-1))
	}
}

func (m *Machine) strike(f int, on bool) (changed bool) {
	for i, w := range m.failures[f].Ways {
		changed = changed || m.active[f][i] != on
		m.active[f][i] = on
		m.refreshWay(w)
	}
	return changed
}

func (m *Machine) refreshWay(w int) {
	v := 0.0
	for f := range m.failures {
		for i, other := range m.failures[f].Ways {
			if other == w && m.active[f][i] {
				v = 1
			}
		}
	}
	if n := m.c.wayNode[w]; n != None {
		m.move(n, v)
	}
}

// move sets a memory and notes in which evaluation it took its value.
func (m *Machine) move(n Node, v float64) {
	if m.val[n] != v {
		m.moves = append(m.moves, Move{Pass: int32(m.pass), Node: n, To: v})
	}
	m.set(n, v)
}

// set gives a source or a memory a value.
func (m *Machine) set(n Node, v float64) {
	if m.val[n] == v {
		return
	}
	m.val[n] = v
	m.touch(n)
	if m.signs != nil {
		m.sign(n, v)
	}
	for _, reader := range m.c.fanout[n] {
		m.mark(reader)
	}
}

func (m *Machine) mark(n Node) { m.dirty[n>>6] |= 1 << (n & 63) }

func (m *Machine) touch(n Node) {
	if !m.isTouch[n] {
		m.isTouch[n] = true
		m.touched = append(m.touched, n)
	}
}

// evaluate brings every dirty node up to date, operands first.
func (m *Machine) evaluate() {
	m.passes++
	m.pass++
	m.crowd++
	for w := 0; w < len(m.dirty); w++ {
		for m.dirty[w] != 0 {
			n := Node(w<<6 + bits.TrailingZeros64(m.dirty[w]))
			m.dirty[w] &^= 1 << (n & 63)
			if v := m.eval(n, m.now); v != m.val[n] {
				m.val[n] = v
				m.touch(n)
				if m.signs != nil {
					m.sign(n, v)
				}
				for _, reader := range m.c.fanout[n] {
					m.mark(reader)
				}
			}
		}
	}
}

// settle repeats evaluation until no memory changes (docs/meaning.md 3).
func (m *Machine) settle() error {
	for {
		m.evaluate()
		if m.passes > mostPasses || m.crowd > mostCrowd {
			return m.unsettled()
		}
		if m.follow() {
			continue
		}
		if !m.latch() {
			return nil
		}
	}
}

// changes lists the steady nodes whose settled value is new.
func (m *Machine) changes() []Node {
	changed := make([]Node, 0, len(m.touched))
	for _, n := range m.touched {
		m.isTouch[n] = false
		if m.c.smooth[n] {
			continue
		}
		if m.val[n] != m.settled[n] {
			changed = append(changed, n)
			m.noteRestless(n)
		}
		m.settled[n] = m.val[n]
	}
	slices.Sort(changed)
	for _, n := range changed {
		m.forget(n)
	}
	return changed
}
