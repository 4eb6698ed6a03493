package rescue

import (
	bits64 "math/bits"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// doubt goes along with a run and says, for many sets of controls at once, which
// values could be others if somebody moved these controls, in any way and at any
// time from a moment on: a set that leaves no doubt about the function cannot
// help it. A gate is in doubt if an operand is and the others do not force it;
// a memory, if what it reads is or was. A lane is a set of controls, a bit of
// each node's words.
type doubt struct {
	w     *web
	b     *run.Branch
	words int
	x     []uint64 // words for each node
	verdict
	dirty bits
	some  bool
	stamp []int32
	now   int32
	mid   bool // within an instant: what was touched forces nothing
	seen  []circuit.Node
	out   []uint64
}

// verdict is what a doubt came to.
type verdict struct {
	lanes map[string]int
	ever  []uint64 // lanes in which the function, or the flight, has been in doubt
	turns []uint64 // in which the flight has been, or whether it can be flown
}

// laneOf names a set of controls, by their numbers.
func laneOf(controls ...int) string {
	slices.Sort(controls)
	var key []byte
	for _, c := range controls {
		key = append(key, byte(c), byte(c>>8))
	}
	return string(key)
}

// newDoubt begins where a run stands. Each lane lists control numbers.
func newDoubt(w *web, b *run.Branch, lanes [][]int) *doubt {
	d := &doubt{w: w, b: b, words: len(lanes)/64 + 1, dirty: newBits(w.size), stamp: make([]int32, w.size), now: 1}
	d.x, d.out = make([]uint64, w.size*d.words), make([]uint64, d.words)
	d.verdict = verdict{map[string]int{}, make([]uint64, d.words), make([]uint64, d.words)}
	for i, lane := range lanes {
		d.lanes[laneOf(slices.Clone(lane)...)] = i
		for _, c := range lane {
			n := w.c.ControlNode(c)
			d.of(n)[i>>6] |= 1 << (i & 63)
			d.wake(n)
		}
	}
	d.spread()
	return d
}

// along is the same doubt for a run that parted from its own where that stands; it
// takes the room of one that is over, if there is one.
func (d *doubt) along(b *run.Branch, over *doubt) *doubt {
	if over == nil {
		over = &doubt{dirty: newBits(d.w.size), out: make([]uint64, d.words)}
	}
	k := &doubt{w: d.w, b: b, words: d.words, x: append(over.x[:0], d.x...), stamp: append(over.stamp[:0], d.stamp...), dirty: over.dirty, seen: over.seen[:0], now: d.now, out: append(over.out[:0], d.out...)}
	k.verdict = verdict{d.lanes, slices.Clone(d.ever), slices.Clone(d.turns)}
	return k
}

func (d *doubt) of(n circuit.Node) []uint64 { return d.x[int(n)*d.words : (int(n)+1)*d.words] }

func (d *doubt) wake(n circuit.Node) {
	for _, r := range d.w.readers[n] {
		if d.w.doubted[r] {
			d.dirty.set(r)
			d.some = true
		}
	}
}

// follow takes in the last instant of the run.
func (d *doubt) follow() {
	d.now++
	for _, n := range d.b.Touched() {
		d.stamp[n] = d.now
		if d.w.doubted[n] {
			d.dirty.set(n)
			d.some = true
		}
		d.wake(n)
	}
	d.spread()
}

// spread brings all up to date: first all that could be in doubt at some point
// of the instant, then what is left of it when the instant is over.
func (d *doubt) spread() {
	d.seen = d.seen[:0]
	d.mid = true
	d.sweep()
	d.note()
	d.mid = false
	for _, n := range d.seen {
		d.dirty.set(n)
		d.some = true
	}
	d.sweep()
}

func (d *doubt) sweep() {
	for d.some {
		d.some = false
		for w := range d.dirty {
			for d.dirty[w] != 0 {
				n := circuit.Node(w<<6 + bits64.TrailingZeros64(d.dirty[w]))
				d.dirty[w] &^= 1 << (n & 63)
				d.work(n)
			}
		}
	}
}

// work works one node out anew.
func (d *doubt) work(n circuit.Node) {
	is := d.of(n)
	clear(d.out)
	d.gate(n, d.out, is)
	if d.mid {
		d.seen = append(d.seen, n)
		for i := range d.out {
			d.out[i] |= is[i]
		}
	}
	if !slices.Equal(d.out, is) {
		copy(is, d.out)
		d.wake(n)
	}
}

// sure says that a node's value forces what reads it, where it is not in doubt.
func (d *doubt) sure(n circuit.Node) bool { return !d.mid || d.stamp[n] != d.now }

func (d *doubt) yes(n circuit.Node) bool { return d.b.Value(n) != 0 }

func (d *doubt) gate(n circuit.Node, out, is []uint64) {
	g := d.w.gates[n]
	switch g.Kind {
	case circuit.GateAnd, circuit.GateOr:
		d.forced(g.Args, g.Kind == circuit.GateOr, out)
	case circuit.GateIf:
		d.choice(g.Args, out)
	case circuit.GateLatch:
		d.latch(n, g.Args, out, is)
	case circuit.GateHeld, circuit.GatePulse:
		x := g.Args[0]
		for i, v := range d.of(x) {
			if out[i] = is[i] | v; d.sure(x) && !d.yes(x) {
				out[i] = v
			}
		}
	case circuit.GateFrozen:
		d.frozen(g.Args, out, is)
	case circuit.GateBefore, circuit.GateTotal, circuit.GateCount, circuit.GateWay, circuit.GateSwitch:
		d.kept(n, g, out, is)
	case circuit.GateGiven:
		if n == d.w.c.PhaseNode() {
			d.phase(n, out, is)
		}
	default:
		for _, a := range g.Args {
			or(out, d.of(a))
		}
	}
}

func or(out, x []uint64) {
	for i := range out {
		out[i] |= x[i]
	}
}

// forced is an and, or an or: one operand that is sure may be enough.
func (d *doubt) forced(args []circuit.Node, enough bool, out []uint64) {
	for _, a := range args {
		or(out, d.of(a))
	}
	for _, a := range args {
		if d.yes(a) == enough && d.sure(a) {
			for i, x := range d.of(a) {
				out[i] &= x
			}
		}
	}
}

func (d *doubt) choice(args []circuit.Node, out []uint64) {
	c, a, b := args[0], args[1], args[2]
	same := d.w.c.Type(a) == book.YesNo && d.yes(a) == d.yes(b) && d.sure(a) && d.sure(b)
	taken := a
	if !d.yes(c) {
		taken = b
	}
	for i := range out {
		xc, xa, xb := d.of(c)[i], d.of(a)[i], d.of(b)[i]
		if !d.sure(c) {
			xc = ^uint64(0)
		}
		unsure := xa | xb
		if !same && d.sure(c) {
			unsure = ^uint64(0)
		}
		out[i] = xc&unsure | ^xc&d.of(taken)[i]
		if !d.sure(c) {
			out[i] = d.of(c)[i] | xa | xb
		}
	}
}

func (d *doubt) latch(n circuit.Node, args []circuit.Node, out, is []uint64) {
	set, reset := args[0], args[1]
	calm := d.sure(n) && d.sure(set) && d.sure(reset)
	for i := range out {
		xs, xr := d.of(set)[i], d.of(reset)[i]
		switch {
		case !calm:
			out[i] = is[i] | xs | xr
		case d.yes(reset): // it is no unless the reset is in doubt
			out[i] = xr & (is[i] | xs | mask(d.yes(set)))
		case d.yes(set): // it is yes unless the set is in doubt, and was not yes before
			out[i] = xr | xs&is[i]
		case d.yes(n): // it stays
			out[i] = xr | is[i]
		default:
			out[i] = xs | is[i]
		}
	}
}

func mask(yes bool) uint64 {
	if yes {
		return ^uint64(0)
	}
	return 0
}

func (d *doubt) frozen(args []circuit.Node, out, is []uint64) {
	x, when := args[0], args[1]
	open := !d.yes(when) && d.sure(when)
	for i := range out {
		xx, xw := d.of(x)[i], d.of(when)[i]
		if open {
			out[i] = xx | xw&(is[i]|xw)
		} else {
			out[i] = is[i] | xw
			if !d.sure(when) {
				out[i] |= xx
			}
		}
	}
}

// kept is a memory of what never comes back.
func (d *doubt) kept(n circuit.Node, g circuit.Gate, out, is []uint64) {
	copy(out, is)
	for _, a := range g.Args {
		or(out, d.of(a))
	}
	for _, a := range d.w.movers[n] {
		or(out, d.of(a))
	}
}

// phase is the current phase: in doubt once the beginning of the next one is.
func (d *doubt) phase(n circuit.Node, out, is []uint64) {
	copy(out, is)
	for k := int(d.b.Value(n)); k <= int(d.b.Value(n))+1; k++ {
		if k < len(d.w.begins) && d.w.begins[k] != circuit.None {
			or(out, d.of(d.w.begins[k]))
		}
	}
}

// note takes down the lanes in which the function or the flight is in doubt.
func (d *doubt) note() {
	for _, n := range d.w.own {
		if n != circuit.None {
			or(d.ever, d.of(n))
		}
	}
	for _, n := range d.w.effects {
		or(d.ever, d.of(n))
	}
	if len(d.w.onRoll) > 0 && d.b.Path().Value(onGround, d.b.Now()) != 0 {
		for _, n := range d.w.onRoll {
			or(d.ever, d.of(n))
		}
	}
	for _, n := range d.w.flies {
		or(d.turns, d.of(n))
	}
}

var onGround = slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "on_ground" })

// helps says that moves of these controls may change something: false only if it
// is proven that they do not.
func (v *verdict) helps(controls ...int) bool { return v.in(v.ever, controls) }

// bends says that they may change the flight, or whether it can be flown.
func (v *verdict) bends(controls ...int) bool { return v.in(v.turns, controls) }

func (v *verdict) in(doubted []uint64, controls []int) bool {
	i, ok := v.lanes[laneOf(controls...)]
	return !ok || doubted[i>>6]>>(i&63)&1 != 0
}
