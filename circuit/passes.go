package circuit

import "sort"

// Move is a memory that took a new value inside an instant. Moves of one
// evaluation take effect in the next.
type Move struct {
	Instant int32
	Pass    int32 // the evaluation from which it was taken; 0: an input, before the first
	Node    Node
	To      float64 // of a frozen: whether it is open
}

// before says that a move was made before an evaluation of an instant (0: the
// settled values).
func (m Move) before(instant, pass int) bool {
	if int(m.Instant) != instant {
		return int(m.Instant) < instant
	}
	return pass == 0 || int(m.Pass) < pass
}

// LastMove returns the last move of a memory before an evaluation of an instant
// (pass 0: up to its end); ok is false if it is as it was at the start.
func (t *Trace) LastMove(n Node, instant, pass int) (m Move, ok bool) {
	list := t.MovesOf(n)
	i := sort.Search(len(list), func(i int) bool { return !list[i].before(instant, pass) })
	if i == 0 {
		return m, false
	}
	return list[i-1], true
}

// MovesOf lists the moves of a node in order.
func (t *Trace) MovesOf(n Node) []Move {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.moved == nil {
		t.moved = map[Node][]Move{}
		for _, m := range t.moves {
			t.moved[m.Node] = append(t.moved[m.Node], m)
		}
	}
	return t.moved[n]
}

// MovesIn lists the moves of an instant.
func (t *Trace) MovesIn(instant int) []Move {
	from := sort.Search(len(t.moves), func(i int) bool { return int(t.moves[i].Instant) >= instant })
	to := sort.Search(len(t.moves), func(i int) bool { return int(t.moves[i].Instant) > instant })
	return t.moves[from:to]
}

// Pass is one evaluation of an instant, worked out again from the memories as
// they stood in it. It is for one goroutine.
type Pass struct {
	t             *Trace
	instant, pass int
	restless      map[Node]bool // what later moves of the instant may change
	known         map[Node]float64
	calculator    *Calculator
}

// Pass returns an evaluation of an instant, from 1 on.
func (t *Trace) Pass(instant, pass int) *Pass {
	p := &Pass{t: t, instant: instant, pass: pass, restless: map[Node]bool{}, known: map[Node]float64{}, calculator: NewCalculator(t.course.c)}
	for _, m := range t.MovesIn(instant) {
		if int(m.Pass) >= pass {
			p.disturb(m.Node)
		}
	}
	return p
}

func (p *Pass) disturb(n Node) {
	if p.restless[n] {
		return
	}
	p.restless[n] = true
	for _, reader := range p.t.course.c.fanout[n] {
		p.disturb(reader)
	}
}

// Settled says that a node has the value that it has when the instant is over.
func (p *Pass) Settled(n Node) bool { return !p.restless[n] }

// Value of a node in the evaluation.
func (p *Pass) Value(n Node) float64 {
	if !p.restless[n] {
		return p.t.In(n, p.t.instants[p.instant], p.instant)
	}
	v, ok := p.known[n]
	if !ok {
		v = p.work(n)
		p.known[n] = v
	}
	return v
}

func (p *Pass) work(n Node) float64 {
	c := p.t.course.c
	switch o := &c.ops[n]; o.code {
	case cFrozen:
		return p.frozen(n)
	case cTotal:
		return p.t.In(n, p.t.instants[p.instant], p.instant)
	case cWay, cControl, cPhase, cLatch, cHeld, cPulse, cBefore, cStood, cCount:
		if m, ok := p.t.LastMove(n, p.instant, p.pass); ok {
			return m.To
		}
		if o.code == cLatch || o.code == cControl {
			return c.initialOf(n)
		}
		return 0
	}
	in := c.operands(n)
	values := make([]float64, len(in))
	for i, a := range in {
		values[i] = p.Value(a)
	}
	return p.calculator.Value(n, values)
}

// frozen is what passes while it is open, and else what it kept.
func (p *Pass) frozen(n Node) float64 {
	x, stood := p.t.course.c.operands(n)[0], true
	if m, ok := p.t.LastMove(n, p.instant, p.pass); ok {
		if m.To != 0 {
			return p.Value(x)
		}
		stood = int(m.Instant) == p.instant
	} else {
		return p.Value(x)
	}
	if !stood {
		return p.t.Kept(n, p.instant-1)
	}
	return p.t.Left(x, p.instant)
}

// Kept is what a frozen keeps after an instant.
func (t *Trace) Kept(n Node, instant int) float64 {
	c := t.course.c
	return t.memories[int(t.rows[instant])+2*len(c.totals)+2*int(c.slots[n])+1]
}

// Left is the left limit of a node at an instant; at the start, its value there.
func (t *Trace) Left(n Node, instant int) float64 {
	return t.In(n, t.instants[instant], max(instant-1, 0))
}

// initialOf is what a latch or a control holds before the start.
func (c *Circuit) initialOf(n Node) float64 {
	if o := &c.ops[n]; o.code == cControl {
		return c.controls[int(o.num)].initial
	}
	return c.ops[n].num
}

// Fired is an act that moved a control.
type Fired struct {
	When Node
	act  act
	own  bool // of the flight, and so compiled in
}

// FiredBy returns the act that moved a control in an evaluation; ok is false if
// none did.
func (t *Trace) FiredBy(control Node, m Move) (f Fired, ok bool) {
	c := t.course.c
	for i := len(t.acts) - 1; i >= 0; i-- {
		a := t.acts[i]
		if c.controls[a.control].node != control || a.to != m.To || m.Pass == 0 {
			continue
		}
		was := m.Instant > 0 && t.after(a.when, int(m.Instant)-1) != 0
		if !was && t.Pass(int(m.Instant), int(m.Pass)).Value(a.when) != 0 {
			return Fired{a.when, a, i < len(c.acts)}, true
		}
	}
	return f, false
}

// Has says that an act that fired in another run could fire in this one too.
func (t *Trace) Has(f Fired, from *Trace) bool {
	for i, a := range t.acts {
		if a.control != f.act.control || a.to != f.act.to || i < len(t.course.c.acts) != f.own {
			continue
		}
		if a.when == f.When || from.course.c.ops[f.When].expr == t.course.c.ops[a.when].expr {
			return true
		}
	}
	return false
}
