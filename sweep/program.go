package sweep

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/circuit/smooth"
	"knockon/flight"
	"knockon/known"
	"knockon/run"
)

// program is a circuit on a flight as the lanes work it out, with the run
// without failures. It is frozen and shared by all workers.
type program struct {
	c       *circuit.Circuit
	course  *run.Course
	there   *run.Record
	path    flight.Path
	knots   smooth.Knots
	corners smooth.Knots // knots, and the steps at which a search looks
	end     book.Time
	within  book.Time // told_within_s
	wrong   book.Time // wrong_after_s

	gates    []gate
	ways     []circuit.Node // way number -> node
	phases   []circuit.Node // phase number -> node
	begins   []circuit.Node // phase number -> what begins it
	acts     []circuit.ActOf
	controls []circuit.Node // control number -> node
	given    []move         // when the yes/no of the flight change, in order
	looks    []book.Time    // when numbers that change all the time are compared

	// Nodes that something watched depends on: numbers and words, those whose
	// settled value is needed, and memories.
	numbers, keeps, timers, frozens, counts []circuit.Node

	felt    []circuit.Node // effects, if it is asked what the flight would feel
	readers [][]int32      // see readersOf
	bundles []bundle
	watched []circuit.Node // nodes that some bundle reads
	place   []int32        // node -> index into watched, or -1

	claims []*claimed
	web    *known.Web     // of the items of the book
	itemOf []int32        // function -> its number there
	told   *program       // the circuit of told runs; nil where no alert claims anything
	items  []circuit.Node // of a circuit of told runs: by number in the web
}

// kind sorts the nodes for the lanes.
type kind uint8

const (
	isSource kind = iota // a constant, a quantity of the flight, a way, a phase: set from outside
	isMemory             // latch, timer, before, count, total, control
	isFrozen             // follows its operand, or keeps
	isNot
	isAnd
	isOr
	isAtLeast
	isIf
	isPlain
	isTest // compares numbers
)

// gate is one node with what is needed to work it out quickly.
type gate struct {
	kind    kind
	op      circuit.GateKind
	yes     bool // its value is yes or no
	stood   bool // a before that asks for no further instant
	num     float64
	length  book.Time // of a timer
	args    []circuit.Node
	readers []circuit.Node // nodes to work out again when it changes
	wakes   []circuit.Node // memories that may take a new value when it changes
	acts    []int32        // acts that it sets off
	begins  bool           // it begins a phase
	reached bool           // some failure may change it
	needed  bool           // something that is watched depends on it
	kept    bool           // its settled value is needed by a before, count, frozen or act
	bounds  *book.Bounds
	follows bool // a total of itself
	simple  bool // it is work of one or two numbers
	work    circuit.Operation
	real    int // quantity of the flight, or -1
}

// move is a change of a yes/no of the flight.
type move struct {
	at   book.Time
	node circuit.Node
	to   bool
}

func newProgram(c *run.Course, there *run.Record, felt bool) (*program, error) {
	p, err := layOut(c, there)
	if err != nil {
		return nil, err
	}
	p.bundle()
	if felt {
		p.feel()
	}
	p.finish()
	return p, nil
}

// finish works out what hangs on what, when it is known what is watched.
func (p *program) finish() {
	p.prune()
	p.flood()
	p.readers = p.readersOf()
}

// layOut turns the gates of a circuit.
func layOut(c *run.Course, there *run.Record) (*program, error) {
	p := &program{c: c.Circuit(), course: c, there: there, path: c.Path, knots: c.Path.Knots(), end: c.Path.End()}
	p.corners = cornersOf(p.knots, p.end)
	p.gates = make([]gate, p.c.Size())
	p.place = make([]int32, p.c.Size())
	p.ways = make([]circuit.Node, len(p.c.Ways()))
	p.controls = make([]circuit.Node, len(p.course.Build.Controls))
	for i := range p.gates {
		p.gates[i] = p.gateOf(circuit.Node(i))
		p.place[i] = -1
	}
	p.wire()
	if err := p.check(); err != nil {
		return nil, err
	}
	p.flightMoves()
	p.looks = slices.Concat(there.Instants(), p.knots)
	slices.Sort(p.looks)
	p.looks = slices.Compact(p.looks)
	return p, nil
}

// cornersOf gives the moments at which a search looks at what no bound meets.
func cornersOf(knots smooth.Knots, end book.Time) (list smooth.Knots) {
	for t := book.Time(0); t < end; t += step {
		list = append(list, t)
	}
	list = append(append(list, knots...), end)
	slices.Sort(list)
	list = slices.Compact(list)
	return list[:slices.Index(list, end)+1]
}

// gateOf turns one gate of the circuit.
func (p *program) gateOf(n circuit.Node) gate {
	from := p.c.Gate(n)
	_, _, expr := p.c.Source(n)
	g := gate{op: from.Kind, yes: p.c.Type(n) == book.YesNo, num: from.Num, args: from.Args, real: -1}
	g.work, g.simple = p.c.Operation(n)
	switch from.Kind {
	case circuit.GateGiven:
		if expr != nil && expr.Op == book.OpReal {
			g.real = slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == expr.ID })
		}
	case circuit.GateWay:
		p.ways[int(from.Num)] = n
	case circuit.GateSwitch:
		g.kind = isMemory
		p.controls[int(from.Num)] = n
	case circuit.GateLatch, circuit.GateCount, circuit.GateTotal, circuit.GateBefore, circuit.GateHeld, circuit.GatePulse:
		g.kind = isMemory
		g.stood = from.Kind == circuit.GateBefore && p.c.Lags(n)
		g.follows = p.c.Follows(n)
		g.length = book.AtSeconds(min(from.Num, 1e9))
		if expr != nil {
			g.bounds = expr.Bound
		}
	case circuit.GateFrozen:
		g.kind = isFrozen
	case circuit.GateNot:
		g.kind = isNot
	case circuit.GateAnd:
		g.kind = isAnd
	case circuit.GateOr:
		g.kind = isOr
	case circuit.GateAtLeast:
		g.kind = isAtLeast
	case circuit.GateIf:
		g.kind = isIf
	case circuit.GateTest:
		g.kind = isTest
	default:
		g.kind = isPlain
	}
	return g
}

// wire notes who reads whom.
func (p *program) wire() {
	p.phases, p.begins = p.c.PhaseGates()
	for _, n := range p.phases {
		p.gates[n] = gate{yes: true, real: -1, op: circuit.GateGiven}
	}
	for _, n := range p.begins {
		if n != circuit.None {
			p.gates[n].begins = true
		}
	}
	p.acts = p.c.Acts()
	held := p.held()
	for i, a := range p.acts {
		if slices.Contains(held, a.Control) {
			continue // it fires and moves nothing
		}
		g := &p.gates[a.When]
		g.acts, g.kept = append(g.acts, int32(i)), true
	}
	for i := range p.gates {
		p.wireNode(circuit.Node(i))
	}
}

// held lists the controls that stand as they were set from the start, whatever acts
// fire.
func (p *program) held() (controls []int) {
	for _, a := range p.there.Scenario.SetUp {
		if n, _, ok := p.c.Control(a.Control, a.Position); ok && a.Held {
			controls = append(controls, n)
		}
	}
	return controls
}

func (p *program) wireNode(n circuit.Node) {
	g := &p.gates[n]
	for i, a := range g.args {
		from := &p.gates[a]
		if g.kind == isMemory || g.kind == isFrozen && i == 1 {
			from.wakes = append(from.wakes, n)
		} else {
			from.readers = append(from.readers, n)
		}
		from.kept = from.kept || g.kind == isFrozen || g.kind == isMemory
	}
}

// check refuses what lanes cannot follow.
func (p *program) check() error {
	for i, g := range p.gates {
		n := circuit.Node(i)
		if g.kind == isMemory && g.op == circuit.GateBefore && !g.yes && p.c.Smooth(g.args[0]) {
			item, where, _ := p.c.Source(n)
			return fmt.Errorf("%s: %s takes before() of a number that changes all the time; a sweep cannot follow that", where, item)
		}
	}
	return nil
}

// flightMoves lists when the yes/no of the flight change.
func (p *program) flightMoves() {
	for i, g := range p.gates {
		if g.real < 0 || !g.yes {
			continue
		}
		last := p.path.Value(g.real, p.knots[0])
		for _, t := range p.knots[1:] {
			if v := p.path.Value(g.real, t); v != last {
				p.given, last = append(p.given, move{t, circuit.Node(i), v != 0}), v
			}
		}
	}
	slices.SortStableFunc(p.given, func(a, b move) int { return int(a.at - b.at) })
}

// feel has the effects worked out too, which no ledger reads.
func (p *program) feel() {
	for _, e := range p.course.Build.Effects {
		if n := p.named(e.ID, circuit.Main); n != circuit.None {
			p.felt = append(p.felt, n)
		}
	}
}

// prune leaves out of who reads whom what nothing watched depends on.
func (p *program) prune() {
	for _, n := range slices.Concat(p.watched, p.felt) {
		p.need(n)
	}
	for changed := true; changed; {
		changed = false
		for _, a := range p.acts {
			if p.gates[p.controls[a.Control]].needed && !p.gates[a.When].needed {
				p.need(a.When)
				changed = true
			}
		}
	}
	useless := func(n circuit.Node) bool { return !p.gates[n].needed }
	for i := range p.gates {
		g := &p.gates[i]
		g.readers, g.wakes = slices.DeleteFunc(g.readers, useless), slices.DeleteFunc(g.wakes, useless)
		g.acts = slices.DeleteFunc(g.acts, func(a int32) bool { return useless(p.controls[p.acts[a].Control]) })
		p.list(circuit.Node(i), g)
	}
}

// list sorts a node by what its state holds.
func (p *program) list(n circuit.Node, g *gate) {
	if !g.yes {
		p.numbers = append(p.numbers, n)
	}
	if g.kept {
		p.keeps = append(p.keeps, n)
	}
	switch {
	case g.kind == isFrozen:
		p.frozens = append(p.frozens, n)
	case g.kind == isMemory && (g.op == circuit.GateHeld || g.op == circuit.GatePulse):
		p.timers = append(p.timers, n)
	case g.kind == isMemory && g.op == circuit.GateCount:
		p.counts = append(p.counts, n)
	}
}

func (p *program) need(n circuit.Node) {
	g := &p.gates[n]
	if g.needed {
		return
	}
	g.needed = true
	for _, a := range g.args {
		p.need(a)
	}
	if k := slices.Index(p.phases, n); k >= 0 {
		for _, b := range p.begins {
			if b != circuit.None {
				p.need(b)
			}
		}
		for _, other := range p.phases {
			p.need(other)
		}
	}
}

// flood marks what failures may change, through any number of nodes.
func (p *program) flood() {
	var reach func(n circuit.Node)
	reach = func(n circuit.Node) {
		g := &p.gates[n]
		if g.reached {
			return
		}
		g.reached = true
		for _, r := range g.readers {
			reach(r)
		}
		for _, m := range g.wakes {
			reach(m)
		}
		for _, a := range g.acts {
			reach(p.controls[p.acts[a].Control])
		}
		if g.begins {
			for _, other := range p.phases {
				reach(other)
			}
		}
	}
	for _, n := range p.ways {
		reach(n)
	}
}
