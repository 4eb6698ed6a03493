package diagram

import "context"

// Ref is a yes/no function held by a Decisions: twice the index of its node,
// plus one for the opposite of that node.
type Ref uint32

// The constant functions.
const (
	No  Ref = 0
	Yes Ref = 1
)

// Not returns the opposite function.
func (f Ref) Not() Ref { return f ^ 1 }

// Decisions holds yes/no functions of numbered variables as reduced ordered
// binary decision diagrams with complement marks. Variable 0 is decided first.
//
// A mark never stands on a branch for "no". So an unmarked function is no when
// all variables are no, and a marked one yes.
type Decisions struct{ table }

// NewDecisions returns an empty store that fails with ErrNodes rather than make
// more than limit nodes, and with the context's error when that is over.
func NewDecisions(ctx context.Context, limit int) *Decisions {
	return &Decisions{newTable(ctx, limit, 1)}
}

const (
	opAnd uint32 = iota + 1
	opXor
)

// Var returns the function that is variable v itself.
func (d *Decisions) Var(v int) (Ref, error) {
	return d.guard(func() Ref { return d.mk(uint32(v), No, Yes) })
}

// And returns the function that is yes where all of fs are.
func (d *Decisions) And(fs ...Ref) (Ref, error) {
	return d.guard(func() Ref {
		r := Yes
		for _, f := range fs {
			r = d.and(r, f)
		}
		return r
	})
}

// Xor returns the function that is yes where an odd number of fs are.
func (d *Decisions) Xor(fs ...Ref) (Ref, error) {
	return d.guard(func() Ref {
		r := No
		for _, f := range fs {
			r = d.xor(r, f)
		}
		return r
	})
}

// AtLeast returns the function that is yes where k or more of fs are.
func (d *Decisions) AtLeast(k int, fs ...Ref) (Ref, error) {
	return d.guard(func() Ref { return d.atLeast(k, fs) })
}

// atLeast adds one function after another to rows, where rows[j] is "at least j
// of the functions so far".
func (d *Decisions) atLeast(k int, fs []Ref) Ref {
	if k <= 0 {
		return Yes
	}
	rows := make([]Ref, k+1)
	rows[0] = Yes
	for _, f := range fs {
		for j := k; j > 0; j-- {
			rows[j] = d.or(rows[j], d.and(rows[j-1], f))
		}
	}
	return rows[k]
}

func (d *Decisions) guard(f func() Ref) (Ref, error) {
	r, err := guard(func() uint32 { return uint32(f()) })
	return Ref(r), err
}

func (d *Decisions) mk(level uint32, lo, hi Ref) Ref {
	if lo == hi {
		return lo
	}
	mark := lo & 1
	return Ref(d.find(level, uint32(lo^mark), uint32(hi^mark)))<<1 | mark
}

func (d *Decisions) or(f, g Ref) Ref { return d.and(f^1, g^1) ^ 1 }

func (d *Decisions) and(f, g Ref) Ref {
	if f > g {
		f, g = g, f
	}
	switch {
	case f == No || f == g^1:
		return No
	case f == Yes || f == g:
		return g
	}
	if r, ok := d.recall(opAnd, uint32(f), uint32(g)); ok {
		return Ref(r)
	}
	level, f0, f1, g0, g1 := d.split(f, g)
	lo := d.and(f0, g0)
	r := d.mk(level, lo, d.and(f1, g1))
	d.remember(opAnd, uint32(f), uint32(g), uint32(r))
	return r
}

func (d *Decisions) xor(f, g Ref) Ref {
	mark := (f ^ g) & 1
	f, g = f&^1, g&^1
	if f > g {
		f, g = g, f
	}
	switch {
	case f == g:
		return mark
	case f == No:
		return g ^ mark
	}
	if r, ok := d.recall(opXor, uint32(f), uint32(g)); ok {
		return Ref(r) ^ mark
	}
	level, f0, f1, g0, g1 := d.split(f, g)
	lo := d.xor(f0, g0)
	r := d.mk(level, lo, d.xor(f1, g1))
	d.remember(opXor, uint32(f), uint32(g), uint32(r))
	return r ^ mark
}

// split returns the first variable of f and g and what is left of each when it
// is no and when it is yes.
func (d *Decisions) split(f, g Ref) (level uint32, f0, f1, g0, g1 Ref) {
	a, b := &d.nodes[f>>1], &d.nodes[g>>1]
	level = min(a.level, b.level)
	f0, f1, g0, g1 = f, f, g, g
	if a.level == level {
		f0, f1 = Ref(a.lo)^f&1, Ref(a.hi)^f&1
	}
	if b.level == level {
		g0, g1 = Ref(b.lo)^g&1, Ref(b.hi)^g&1
	}
	return level, f0, f1, g0, g1
}

// Level returns the variable that f decides first, or -1 if f is constant.
func (d *Decisions) Level(f Ref) int {
	if f <= Yes {
		return -1
	}
	return int(d.nodes[f>>1].level)
}

// Branch returns what is left of f when its first variable is no and when it
// is yes. f must not be constant.
func (d *Decisions) Branch(f Ref) (no, yes Ref) {
	n := &d.nodes[f>>1]
	return Ref(n.lo) ^ f&1, Ref(n.hi) ^ f&1
}

// Keep drops every node that the given functions do not need and returns them
// as they are called from then on. Every other Ref becomes meaningless.
func (d *Decisions) Keep(fs []Ref) []Ref {
	to := d.keep(1, func(mark func(uint32)) {
		for _, f := range fs {
			mark(uint32(f >> 1))
		}
	}, 1)
	kept := make([]Ref, len(fs))
	for i, f := range fs {
		kept[i] = Ref(to[f>>1])<<1 | f&1
	}
	return kept
}
