package rescue

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// future says of a run that stands at a moment which values may still come if
// somebody moves the controls of a set in any way from then on, wherever the
// flight goes: all that is taken for sure is what remembers, what failed for
// good, and where the other controls stand. A function that may work no more is
// not brought back by any moves of the set. A lane is a set, a bit of each word.
type future struct {
	w       *web
	b       *run.Branch
	words   int
	yes, no []uint64 // that a node may be yes, may be no; of numbers and words: yes says that it may change
	changed bool
}

// fate is what the scenario may still do to a way to fail.
type fate struct{ comes, goes bool }

// newFuture works out what may come, for sets of controls by their numbers.
func newFuture(w *web, b *run.Branch, lanes [][]int) *future {
	f := &future{w: w, b: b, words: len(lanes)/64 + 1}
	f.yes, f.no = make([]uint64, w.size*f.words), make([]uint64, w.size*f.words)
	for i, lane := range lanes {
		for _, c := range lane {
			f.yes[int(w.c.ControlNode(c))*f.words+i>>6] |= 1 << (i & 63)
		}
	}
	for _, n := range w.cone {
		if w.c.Type(n) == book.YesNo {
			f.may(n, b.Value(n) != 0, b.Value(n) == 0)
		}
	}
	for f.changed = true; f.changed; {
		f.changed = false
		for _, n := range w.cone {
			f.work(n)
		}
	}
	return f
}

// works says that the function in question may work again, with lane i.
func (f *future) works(i int) bool {
	n := f.w.own[0]
	return n == circuit.None || f.yes[int(n)*f.words+i>>6]>>(i&63)&1 != 0
}

// may notes, for all lanes, that a node may be yes, or no.
func (f *future) may(n circuit.Node, yes, no bool) {
	for i := range f.words {
		f.put(n, i, mask(yes), mask(no))
	}
}

func (f *future) put(n circuit.Node, i int, yes, no uint64) {
	k := int(n)*f.words + i
	if yes&^f.yes[k] != 0 || no&^f.no[k] != 0 {
		f.changed = true
	}
	f.yes[k] |= yes
	f.no[k] |= no
}

// moves is in which lanes a node may change at all.
func (f *future) moves(n circuit.Node, i int) uint64 {
	k := int(n)*f.words + i
	if f.w.c.Type(n) == book.YesNo {
		return f.yes[k] & f.no[k]
	}
	return f.yes[k]
}

func (f *future) y(n circuit.Node, i int) uint64 { return f.yes[int(n)*f.words+i] }
func (f *future) n(n circuit.Node, i int) uint64 { return f.no[int(n)*f.words+i] }

// work takes in what a node's operands may come to.
func (f *future) work(n circuit.Node) {
	g := f.w.gates[n]
	for i := range f.words {
		yes, no := f.gate(n, g, i)
		f.put(n, i, yes, no)
	}
}

func (f *future) gate(n circuit.Node, g circuit.Gate, i int) (yes, no uint64) {
	a := g.Args
	switch g.Kind {
	case circuit.GateGiven:
		x := f.given(n, i)
		return x, x
	case circuit.GateWay:
		x := f.w.fates[n]
		return mask(x.comes), mask(x.goes)
	case circuit.GateSwitch:
		return f.moved(n, i), 0
	case circuit.GateLatch:
		return f.y(a[0], i), f.y(a[1], i)
	case circuit.GateHeld, circuit.GateBefore:
		return f.like(n, a[0], i)
	case circuit.GatePulse:
		return f.moves(a[0], i), ^uint64(0)
	case circuit.GateNot:
		return f.n(a[0], i), f.y(a[0], i)
	case circuit.GateAnd, circuit.GateOr:
		return f.all(a, g.Kind == circuit.GateOr, i)
	case circuit.GateIf:
		return f.choice(n, a, i)
	case circuit.GateTest:
		return f.test(n, a, i)
	case circuit.GateTotal, circuit.GateCount:
		return f.sum(a[0], i), 0
	}
	x := uint64(0)
	for _, in := range a {
		x |= f.moves(in, i)
	}
	if g.Kind == circuit.GateFrozen {
		x |= ^uint64(0) // it may open, and be anything that was kept out
	}
	return x, x
}

// given is a flight's number or yes/no, which may be anything, or the phase.
func (f *future) given(n circuit.Node, i int) uint64 {
	if _, ok := f.w.c.Quantity(n); ok {
		return ^uint64(0)
	}
	if n != f.w.c.PhaseNode() {
		return 0
	}
	if k := int(f.b.Value(n)) + 1; !f.w.turns && k < len(f.w.begins) && f.w.begins[k] != circuit.None {
		return f.y(f.w.begins[k], i)
	}
	return mask(f.w.turns)
}

// moved is in which lanes the book or the question may move a control.
func (f *future) moved(n circuit.Node, i int) uint64 {
	if f.w.handled[n] {
		return ^uint64(0)
	}
	x := uint64(0)
	for _, when := range f.w.movers[n] {
		x |= f.moves(when, i)
	}
	return x
}

// like is a memory that follows.
func (f *future) like(n, x circuit.Node, i int) (yes, no uint64) {
	if f.w.c.Type(n) != book.YesNo {
		return f.moves(x, i), 0
	}
	return f.y(x, i), f.n(x, i)
}

// all is an and, or an or.
func (f *future) all(args []circuit.Node, or bool, i int) (yes, no uint64) {
	every, any := ^uint64(0), uint64(0)
	for _, a := range args {
		x, o := f.y(a, i), f.n(a, i)
		if or {
			x, o = o, x
		}
		every, any = every&x, any|o
	}
	if or {
		return any, every
	}
	return every, any
}

func (f *future) choice(n circuit.Node, a []circuit.Node, i int) (yes, no uint64) {
	cy, cn := f.y(a[0], i), f.n(a[0], i)
	if f.w.c.Type(n) != book.YesNo {
		return cy&cn | cy&f.moves(a[1], i) | cn&f.moves(a[2], i), 0
	}
	return cy&f.y(a[1], i) | cn&f.y(a[2], i), cy&f.n(a[1], i) | cn&f.n(a[2], i)
}

// test is a comparison of numbers.
func (f *future) test(n circuit.Node, a []circuit.Node, i int) (yes, no uint64) {
	x := f.moves(a[0], i) | f.moves(a[1], i)
	if f.w.c.Lasting(n) {
		return x, 0
	}
	return x, x
}

// sum is a total, or a count: it may change if what it sums is not nothing.
func (f *future) sum(x circuit.Node, i int) uint64 {
	if f.w.c.Type(x) == book.YesNo {
		return f.y(x, i)
	}
	if f.w.c.Smooth(x) || f.b.Value(x) != 0 {
		return ^uint64(0)
	}
	return f.moves(x, i)
}

// foresee notes what a scenario may still do to ways to fail and to controls, of
// which nothing is worked out from the book.
func (w *web) foresee(s run.Scenario) {
	w.fates, w.handled, w.turns = map[circuit.Node]fate{}, map[circuit.Node]bool{}, len(s.Plan) > 0
	resets := map[string]bool{}
	for _, r := range w.c.Resets() {
		resets[r.Unit] = true
	}
	for _, k := range s.Strikes {
		ways, _ := w.c.Expand(k.Fail)
		for _, i := range ways {
			n := w.c.WayNode(i)
			was := w.fates[n]
			w.fates[n] = fate{true, was.goes || k.Lasts > 0 || k.Resettable && resets[w.c.Ways()[i].Unit]}
		}
	}
	for _, a := range slices.Concat(s.SetUp, s.Actions) {
		if i, _, ok := w.c.Control(a.Control, a.Position); ok {
			w.handled[w.c.ControlNode(i)] = true
		}
	}
}
