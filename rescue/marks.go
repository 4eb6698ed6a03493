package rescue

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// What two sets of moves do, together, is what one of them does alone wherever no
// gate or memory reads something that both change (docs/meaning.md 10): so a set
// is flown only if its parts meet where the function hangs on it.

// bits are marks on nodes; the last one stands for the flight.
type bits []uint64

func newBits(n int) bits          { return make(bits, n/64+1) }
func (b bits) set(n circuit.Node) { b[n>>6] |= 1 << (n & 63) }
func (b bits) has(n circuit.Node) bool {
	return b[n>>6]>>(n&63)&1 != 0
}

func (b bits) meets(o bits) bool {
	for i := range b {
		if b[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

func (b bits) or(o bits) bits {
	c := make(bits, len(b))
	for i := range b {
		c[i] = b[i] | o[i]
	}
	return c
}

// diary is how every node came to its values in the run without moves.
type diary struct {
	instants []page
	notes    []note
}

// page is an instant of it: notes[from:to].
type page struct {
	at       book.Time
	from, to int
}

type note struct {
	node circuit.Node
	sign uint64
}

// write takes down the last instant of a run that signs.
func (d *diary) write(b *run.Branch) {
	p := page{at: b.Now(), from: len(d.notes)}
	for _, n := range b.Touched() {
		if !b.Circuit().Smooth(n) {
			d.notes = append(d.notes, note{n, b.Signature(n)})
		}
	}
	p.to = len(d.notes)
	d.instants = append(d.instants, p)
}

// reader lays a run beside the diary and marks every node that at some point has
// another value.
type reader struct {
	d      *diary
	next   int // page
	marked bits
	size   int
	seen   map[circuit.Node]uint64
}

// newReader begins at a moment up to which nothing differs.
func newReader(d *diary, size int, at book.Time) *reader {
	r := &reader{d: d, marked: newBits(size + 1), size: size, seen: map[circuit.Node]uint64{}}
	for r.next < len(d.instants) && d.instants[r.next].at < at {
		r.next++
	}
	return r
}

// part is another reader that has come as far.
func (r *reader) part() *reader {
	k := *r
	k.marked, k.seen = slices.Clone(r.marked), map[circuit.Node]uint64{}
	return &k
}

// read lays the last instant of a run beside its page.
func (r *reader) read(b *run.Branch) {
	r.skip(b.Now())
	clear(r.seen)
	if r.next < len(r.d.instants) && r.d.instants[r.next].at == b.Now() {
		p := r.d.instants[r.next]
		for _, n := range r.d.notes[p.from:p.to] {
			r.seen[n.node] = n.sign
		}
		r.next++
	}
	for _, n := range b.Touched() {
		if b.Circuit().Smooth(n) {
			continue
		}
		if sign, ok := r.seen[n]; !ok || sign != b.Signature(n) {
			r.marked.set(n)
		}
		delete(r.seen, n)
	}
	for n := range r.seen {
		r.marked.set(n)
	}
}

// skip marks what the pages before a moment touch: here nothing happened then.
func (r *reader) skip(now book.Time) {
	for ; r.next < len(r.d.instants) && r.d.instants[r.next].at < now; r.next++ {
		p := r.d.instants[r.next]
		for _, n := range r.d.notes[p.from:p.to] {
			r.marked.set(n.node)
		}
	}
}

// reach is what reads something marked, as far as the function, or the flight,
// may hang on it. Numbers that change all the time are marked with what they are
// worked out from; so is all that reads the flight, if that was another.
func (w *web) reach(marked bits, turned bool) bits {
	all := bits(append([]uint64(nil), marked...))
	for _, n := range w.reals {
		if turned {
			all.set(n)
		}
	}
	out := newBits(w.size + 1)
	if turned {
		out.set(circuit.Node(w.size))
	}
	var todo []circuit.Node
	for n := range w.size {
		if all.has(circuit.Node(n)) {
			todo = append(todo, circuit.Node(n))
		}
	}
	for len(todo) > 0 {
		n := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, r := range w.readers[n] {
			if w.matters[r] {
				out.set(r)
			}
			if w.c.Smooth(r) && !all.has(r) {
				all.set(r)
				todo = append(todo, r)
			}
		}
	}
	return out
}

// web is the wiring with what the function in question and the flight hang on.
type web struct {
	*wiring
	size    int
	matters []bool
	doubted []bool         // what matters, and what whether it can be flown hangs on
	flies   []circuit.Node // what the flight feels, and whether it can be flown
	reals   []circuit.Node
	own     []circuit.Node // of the function; of the flight whether it can be flown
	flight  bool           // that is what is asked for

	gates           []circuit.Gate
	movers          [][]circuit.Node // what moves a control, or resets a way to fail
	begins          []circuit.Node
	effects, onRoll []circuit.Node // that the flight feels: always, and on the ground only

	cone    []circuit.Node        // what the function hangs on, in order
	fates   map[circuit.Node]fate // of ways to fail
	handled map[circuit.Node]bool // controls that the question moves
	turns   bool                  // it has a plan
}

// notFelt are the effects that say what a crew may choose, not how it flies.
var notFelt = []string{"most_crosswind_kt", "most_tailwind_kt", "least_ceiling_ft", "least_visibility_m", "manual_landing_ratio"}

// rollOnly are the effects that no flight in the air feels (docs/meaning.md 8).
var rollOnly = []string{"ground_spoilers_ratio", "brakes_ratio", "anti_skid", "autobrake", "reverse_left", "reverse_right", "steering"}

func newWeb(w *wiring, of *base) *web {
	b, s := &web{wiring: w, size: w.c.Size(), own: of.own(w)}, of.asked
	b.flight = of.f == flight
	for _, e := range of.course.Build.Effects {
		n := w.node(e.ID, circuit.Main)
		switch {
		case n == circuit.None || slices.Contains(notFelt, e.Name):
		case slices.Contains(rollOnly, e.Name) && !b.flight:
			b.onRoll = append(b.onRoll, n)
		default:
			b.effects = append(b.effects, n)
		}
	}
	for _, l := range s.Plan {
		if n, ok := w.c.WatchOf(l.When); l.When != nil && ok {
			b.effects = append(b.effects, n)
		}
	}
	b.foresee(s)
	for n, is := range w.behind(b.own...) {
		if is {
			b.cone = append(b.cone, circuit.Node(n))
		}
	}
	b.matters = w.behind(slices.Concat(b.own, b.effects, b.onRoll)...)
	b.flies = slices.Concat(b.effects, b.onRoll, of.flyable(w))
	b.doubted = w.behind(slices.Concat(b.own, b.flies)...)
	_, b.begins = w.c.PhaseGates()
	b.movers = make([][]circuit.Node, b.size)
	for from, list := range w.readers {
		for _, n := range list {
			if k := w.c.Gate(n).Kind; k == circuit.GateSwitch || k == circuit.GateWay {
				b.movers[n] = append(b.movers[n], circuit.Node(from))
			}
		}
	}
	for n := range b.size {
		b.gates = append(b.gates, w.c.Gate(circuit.Node(n)))
	}
	for n := range b.size {
		if _, ok := w.c.Quantity(circuit.Node(n)); ok {
			b.reals = append(b.reals, circuit.Node(n))
		}
	}
	return b
}

// controls lists those that reach what is asked for: the function, or what the
// flight feels and whether it can be flown.
func (w *web) controls(b *book.Build) []*book.Control {
	if w.flight {
		return w.wiring.controls(b, append(slices.Clone(w.effects), w.own...)...)
	}
	return w.wiring.controls(b, w.own[0])
}
