package sweep

import (
	"encoding/binary"
	"maps"
	"math"
	"slices"
	"sort"

	"knockon/book"
	"knockon/circuit"
	"knockon/circuit/smooth"
)

// term is a number or a word as a function of time. Terms are kept once each,
// so that two lanes have the same term if they came to the same number in the
// same way.
type term int32

type termKind uint8

const (
	termConst termKind = iota
	termReal           // a quantity of the flight
	termGate           // a gate of other terms
	termTotal          // an integral of another term, from a value at a moment
	termSelf           // in the rate of a total that follows itself: that total
)

type meaning struct {
	kind    termKind
	node    circuit.Node // termGate, termTotal, termSelf
	value   float64      // termConst; termTotal: at the moment
	real    int
	at      book.Time
	args    []term
	bounds  *book.Bounds
	sums    []sum          // termTotal of a rate that changes all the time: where it stood
	arcs    [][]smooth.Arc // the same of one that follows itself: how each stretch ran
	cells   []cell         // see cellOf
	bounded bool           // a total in it may meet its bound between two corners
	open    bool           // it reads a total's own value, so that it is none of the moment alone
}

type sum struct {
	at    book.Time
	value float64
}

// terms is a table of terms. It is not safe for concurrent use.
type terms struct {
	p         *program
	calc      *circuit.Calculator
	list      []meaning
	constants map[float64]term
	other     map[string]term
	flips     map[asked]*flips
	key       []byte
	recent    [][]recent // by quantity
	gates     []answered // gates of terms, where they were asked for last
	turns     []*flips   // comparisons, the same
	notes     []noted    // values of terms, where they were worked out last
	trial     []float64  // by node: what a total of itself is taken to be
	stretches map[stretchKey][]smooth.Arc
}

func newTerms(p *program) *terms {
	return &terms{p: p, calc: circuit.NewCalculator(p.c), constants: map[float64]term{}, other: map[string]term{}, flips: map[asked]*flips{}, trial: make([]float64, len(p.gates)), stretches: map[stretchKey][]smooth.Arc{}, recent: make([][]recent, len(book.Quantities))}
}

// clone gives a table of its own with all that this one holds.
func (t *terms) clone() *terms {
	c := newTerms(t.p)
	c.list = slices.Clone(t.list)
	for i := range c.list {
		m := &c.list[i]
		m.sums, m.arcs, m.cells = slices.Clone(m.sums), slices.Clone(m.arcs), slices.Clone(m.cells)
	}
	c.constants, c.other, c.flips, c.stretches = maps.Clone(t.constants), maps.Clone(t.other), maps.Clone(t.flips), maps.Clone(t.stretches)
	return c
}

func (t *terms) constant(v float64) term {
	if v == 0 {
		v = 0 // one zero
	}
	x, ok := t.constants[v]
	if !ok {
		x = t.add(meaning{kind: termConst, value: v})
		t.constants[v] = x
	}
	return x
}

func (t *terms) add(m meaning) term {
	t.list = append(t.list, m)
	return term(len(t.list) - 1)
}

func (t *terms) isConst(x term) bool { return t.list[x].kind == termConst }

// once returns the one term of a meaning.
func (t *terms) once(m meaning) term {
	k := append(t.key[:0], byte(m.kind))
	k = binary.LittleEndian.AppendUint32(k, uint32(m.node))
	k = binary.LittleEndian.AppendUint64(k, math.Float64bits(m.value))
	k = binary.LittleEndian.AppendUint64(k, uint64(m.at)^uint64(m.real))
	for _, a := range m.args {
		k = binary.LittleEndian.AppendUint32(k, uint32(a))
	}
	t.key = k
	x, ok := t.other[string(k)]
	if !ok {
		m.args = slices.Clone(m.args)
		m.open, m.bounded = t.isOpen(&m), t.isBounded(&m)
		x = t.add(m)
		t.other[string(k)] = x
	}
	return x
}

func (t *terms) isOpen(m *meaning) bool {
	return m.kind == termSelf || m.kind == termGate && slices.ContainsFunc(m.args, func(a term) bool { return t.list[a].open })
}

func (t *terms) isBounded(m *meaning) bool {
	return m.kind == termTotal && m.bounds != nil && t.isConst(m.args[0]) || slices.ContainsFunc(m.args, func(a term) bool { return t.list[a].bounded })
}

func (t *terms) real(q int) term { return t.once(meaning{kind: termReal, real: q}) }

// gate is a gate of terms, the one that it was when last asked for if that is kept.
func (t *terms) gate(n circuit.Node, args []term) term {
	if len(args) == 0 || len(args) > 2 {
		return t.newGate(n, args)
	}
	k := asked{n, args[0], args[len(args)-1]}
	if t.gates == nil {
		t.gates = make([]answered, 1<<answers)
	}
	g := &t.gates[k.slot()]
	if g.asked != k || !g.known {
		*g = answered{k, true, t.newGate(n, args)}
	}
	return g.x
}

// asked is a gate of one or two terms, or a comparison of two.
type asked struct {
	n    circuit.Node
	a, b term
}

// slot is where the answer is kept.
func (k asked) slot() uint64 {
	return (uint64(k.n)*0x9E3779B97F4A7C15 ^ (uint64(k.a)<<32|uint64(uint32(k.b)))*0xC2B2AE3D27D4EB4F) >> (64 - answers)
}

// answers is how many are kept, as a power of two: the same are asked for in each
// block, and again whenever something in it changes.
const answers = 13

type answered struct {
	asked
	known bool
	x     term
}

// newGate is worked out at once if the terms are constant.
func (t *terms) newGate(n circuit.Node, args []term) term {
	var values [8]float64
	list := values[:0]
	if len(args) == 2 && args[0] == args[1] && t.p.gates[n].op == circuit.GateMinus {
		return t.constant(0)
	}
	for _, a := range args {
		if !t.isConst(a) {
			return t.once(meaning{kind: termGate, node: n, args: args})
		}
		list = append(list, t.list[a].value)
	}
	return t.constant(t.calc.Value(n, list))
}

// total is an integral that has a value at a moment and a rate from then on.
func (t *terms) total(n circuit.Node, value float64, at book.Time, rate term) term {
	rate = t.rateOf(n, rate)
	if t.isConst(rate) && t.list[rate].value == 0 {
		at = 0 // it stands, whenever that began
	}
	return t.once(meaning{kind: termTotal, node: n, value: value, at: at, args: []term{rate}, bounds: t.p.gates[n].bounds})
}

// at gives a term's value at a moment.
func (t *terms) at(x term, when book.Time) float64 {
	m := &t.list[x]
	switch m.kind {
	case termConst:
		return m.value
	case termReal:
		return t.realAt(m.real, when)
	case termSelf:
		return t.trial[m.node]
	}
	if m.open {
		return t.gateAt(m, when)
	}
	if t.notes == nil {
		t.notes = make([]noted, 1<<keeps)
	}
	k := &t.notes[(uint64(when)*0x9E3779B97F4A7C15^uint64(x)*0xC2B2AE3D27D4EB4F)>>(64-keeps)]
	if k.x == x && k.at == when+1 {
		return k.value
	}
	value := 0.0
	if m.kind == termTotal {
		value = t.totalAt(x, when)
	} else {
		value = t.gateAt(m, when)
	}
	*k = noted{x, when + 1, value}
	return value
}

func (t *terms) gateAt(m *meaning, when book.Time) float64 {
	if g := &t.p.gates[m.node]; g.simple {
		a := t.at(m.args[0], when)
		if len(m.args) == 1 {
			return g.work.Of(a, a)
		}
		return g.work.Of(a, t.at(m.args[1], when))
	}
	var values [8]float64
	list := values[:0]
	for _, a := range m.args {
		list = append(list, t.at(a, when))
	}
	return t.calc.Value(m.node, list)
}

// noted is a value of a term at a moment. Comparisons of one number with several
// limits look at the same moments, and an equation in time looks at each twice.
type noted struct {
	x     term
	at    book.Time // one more than the moment, so that 0 is none
	value float64
}

// keeps is how many values are kept, as a power of two.
const keeps = 15

// recent is a value of a quantity of the flight, kept for when it is asked for
// again: searches look at the same moments.
type recent struct {
	at    book.Time // one more than the moment, so that 0 is none
	value float64
}

// recents is how many values of a quantity are kept, as a power of two.
const recents = 12

func (t *terms) realAt(q int, when book.Time) float64 {
	list := t.recent[q]
	if list == nil {
		list = make([]recent, 1<<recents)
		t.recent[q] = list
	}
	r := &list[uint64(when)*0x9E3779B97F4A7C15>>(64-recents)]
	if r.at != when+1 {
		*r = recent{when + 1, t.p.path.Value(q, when)}
	}
	return r.value
}

func (t *terms) totalAt(x term, when book.Time) float64 {
	m := &t.list[x]
	if rate := &t.list[m.args[0]]; rate.kind == termConst {
		return m.tank(rate.value).Value(when)
	}
	return t.sumAt(x, when)
}

// self is a total in its own rate.
func (t *terms) self(n circuit.Node) term { return t.once(meaning{kind: termSelf, node: n}) }

// rateOf is a rate of total n as that reads it: where the total follows itself, with
// the total, whatever it held so far, in its place. So one equation is one term.
func (t *terms) rateOf(n circuit.Node, rate term) term {
	if !t.p.gates[n].follows {
		return rate
	}
	return t.inSelf(n, rate, map[term]term{})
}

func (t *terms) inSelf(n circuit.Node, x term, known map[term]term) term {
	y, ok := known[x]
	if ok {
		return y
	}
	y = x
	switch m := t.list[x]; {
	case m.kind == termTotal && m.node == n:
		y = t.self(n)
	case m.kind == termGate:
		args := make([]term, len(m.args))
		for i, a := range m.args {
			args[i] = t.inSelf(n, a, known)
		}
		y = t.gate(m.node, args)
	}
	known[x] = y
	return y
}

// tank is a total with the constant rate that it has.
func (m *meaning) tank(rate float64) smooth.Tank {
	return smooth.Tank{Base: m.value, At: m.at, Rate: rate, Bounds: m.bounds}
}

// sumAt integrates piece by piece and keeps where each ended.
func (t *terms) sumAt(x term, when book.Time) float64 {
	m := t.list[x]
	if t.p.gates[m.node].follows {
		return t.grownAt(x, when)
	}
	s := sum{m.at, m.value}
	if i, _ := slices.BinarySearchFunc(m.sums, when+1, func(s sum, t book.Time) int { return int(s.at - t) }); i > 0 {
		s = m.sums[i-1]
	}
	rate := m.args[0]
	for s.at < when {
		end := t.p.knots.PanelEnd(s.at, t.boundAfter(rate, s.at))
		if end > when {
			return smooth.Finite(s.value + t.simpson(rate, s.at, when))
		}
		s = sum{end, smooth.Finite(s.value + t.simpson(rate, s.at, end))}
		if known := t.list[x].sums; len(known) == 0 || known[len(known)-1].at < s.at {
			t.list[x].sums = append(known, s)
		}
	}
	return s.value
}

// grownAt solves stretch by stretch and keeps how each ran.
func (t *terms) grownAt(x term, when book.Time) float64 {
	m := &t.list[x]
	if when <= m.at {
		return m.value
	}
	at, v := m.at, m.value
	if n := len(m.arcs); n > 0 {
		at, v = endOf(m.arcs[n-1])
	}
	for at < when {
		arcs := t.stretch(m, at, v)
		m.arcs = append(m.arcs, arcs)
		at, v = endOf(arcs)
	}
	i := sort.Search(len(m.arcs), func(i int) bool { at, _ := endOf(m.arcs[i]); return at >= when })
	return m.arcs[i][smooth.ArcAt(m.arcs[i], when)].At(when)
}

func endOf(arcs []smooth.Arc) (at book.Time, v float64) {
	last := &arcs[len(arcs)-1]
	return last.To, last.End
}

// stretchKey is what the next stretch of a total that follows itself hangs on.
type stretchKey struct {
	rate term
	at   book.Time
	v    float64
}

// stretch is how a total that follows itself runs on from a value at a moment.
// Such totals mostly come to the same in the end, whatever they began with.
func (t *terms) stretch(m *meaning, at book.Time, v float64) []smooth.Arc {
	k := stretchKey{m.args[0], at, v}
	arcs, ok := t.stretches[k]
	if !ok {
		end := t.p.knots.StretchEnd(at, t.boundAfter(k.rate, at))
		arcs = t.p.knots.Arcs(nil, func(when book.Time, v float64) float64 {
			t.trial[m.node] = v
			return t.at(k.rate, when)
		}, at, end, v)
		t.stretches[k] = arcs
	}
	return arcs
}

func (t *terms) simpson(rate term, a, b book.Time) float64 {
	return t.p.knots.Simpson(func(when book.Time) float64 { return t.at(rate, when) }, a, b)
}

// boundAfter is the first moment after one at which a bounded total in a term
// meets its bound, or Never.
func (t *terms) boundAfter(x term, when book.Time) book.Time {
	m := &t.list[x]
	next := book.Never
	if !m.bounded {
		return next
	}
	for _, a := range m.args {
		next = min(next, t.boundAfter(a, when))
	}
	if m.kind != termTotal || m.bounds == nil || !t.isConst(m.args[0]) {
		return next
	}
	if at := m.tank(t.list[m.args[0]].value).Full(); at > when {
		next = min(next, at)
	}
	return next
}
