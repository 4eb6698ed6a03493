package diagram

import "context"

// Family is a set of sets of variables held by a Families.
type Family uint32

// The two smallest families.
const (
	Nothing Family = 0 // no set at all
	Unit    Family = 1 // one set, the empty one
)

// AllOrders as the highest order of an operation leaves nothing out.
const AllOrders = 0xffff

// Families holds families of sets as zero-suppressed decision diagrams. In
// every family that it makes no set contains another: adding a member to a set
// that suffices tells nothing new.
//
// The order of a set is the number of its members. Operations with a highest
// order leave out sets above it, and only those.
type Families struct {
	table
	least, most []uint16 // by node: the smallest and the largest order in it
}

// NewFamilies returns an empty store that fails with ErrNodes rather than make
// more than limit nodes, and with the context's error when that is over.
func NewFamilies(ctx context.Context, limit int) *Families {
	return &Families{
		table: newTable(ctx, limit, 2),
		least: []uint16{AllOrders, 0},
		most:  []uint16{0, 0},
	}
}

const (
	opUnion uint32 = iota + 1
	opWithout
	opProduct // in the high half: the highest order
	opCut     // in b: the highest order
)

// Single returns the family of the one set {v}.
func (s *Families) Single(v int) (Family, error) {
	return s.guard(func() Family { return s.mk(uint32(v), Nothing, Unit) })
}

// Or returns the smallest sets of the families taken together: what makes any
// of them true. Sets above the highest order must have been left out before.
func (s *Families) Or(fs ...Family) (Family, error) {
	return s.guard(func() Family {
		r := Nothing
		for _, f := range fs {
			r = s.union(r, f)
		}
		return r
	})
}

// And returns the smallest unions of one set from each family, up to the
// highest order: what makes all of them true.
func (s *Families) And(highest int, fs ...Family) (Family, error) {
	return s.guard(func() Family {
		r := Unit
		for _, f := range fs {
			r = s.product(r, f, highest)
		}
		return r
	})
}

// AtLeast returns what makes k or more of the families true, up to the highest
// order.
func (s *Families) AtLeast(highest, k int, fs ...Family) (Family, error) {
	return s.guard(func() Family { return s.atLeast(highest, k, fs) })
}

func (s *Families) atLeast(highest, k int, fs []Family) Family {
	if k <= 0 {
		return Unit
	}
	rows := make([]Family, k+1)
	rows[0] = Unit
	for _, f := range fs {
		for j := k; j > 0; j-- {
			rows[j] = s.union(rows[j], s.product(rows[j-1], f, highest))
		}
	}
	return rows[k]
}

func (s *Families) guard(f func() Family) (Family, error) {
	r, err := guard(func() uint32 { return uint32(f()) })
	return Family(r), err
}

func (s *Families) mk(level uint32, lo, hi Family) Family {
	if hi == Nothing {
		return lo
	}
	f := s.find(level, uint32(lo), uint32(hi))
	if int(f) == len(s.least) {
		s.least = append(s.least, min(s.least[lo], s.least[hi]+1))
		s.most = append(s.most, max(s.most[lo], s.most[hi]+1))
	}
	return Family(f)
}

func (s *Families) union(f, g Family) Family {
	if f > g {
		f, g = g, f
	}
	switch {
	case f == Nothing || f == g:
		return g
	case f == Unit:
		return Unit
	}
	if r, ok := s.recall(opUnion, uint32(f), uint32(g)); ok {
		return Family(r)
	}
	level, f0, f1, g0, g1 := s.split(f, g)
	lo := s.union(f0, g0)
	r := s.mk(level, lo, s.without(s.union(f1, g1), lo))
	s.remember(opUnion, uint32(f), uint32(g), uint32(r))
	return r
}

// without returns the sets of f that contain no set of g.
func (s *Families) without(f, g Family) Family {
	switch {
	case f == Nothing || g == Unit || f == g:
		return Nothing
	case g == Nothing || f == Unit || s.least[g] > s.most[f]:
		return f
	}
	a, b := s.nodes[f], s.nodes[g]
	if b.level < a.level {
		return s.without(f, Family(b.lo))
	}
	if r, ok := s.recall(opWithout, uint32(f), uint32(g)); ok {
		return Family(r)
	}
	r := s.withoutNode(a, b, f, g)
	s.remember(opWithout, uint32(f), uint32(g), uint32(r))
	return r
}

func (s *Families) withoutNode(a, b node, f, g Family) Family {
	if a.level < b.level {
		lo := s.without(Family(a.lo), g)
		return s.mk(a.level, lo, s.without(Family(a.hi), g))
	}
	lo := s.without(Family(a.lo), Family(b.lo))
	hi := s.without(s.without(Family(a.hi), Family(b.hi)), Family(b.lo))
	return s.mk(a.level, lo, hi)
}

func (s *Families) product(f, g Family, highest int) Family {
	if f > g {
		f, g = g, f
	}
	switch {
	case f == Nothing || int(max(s.least[f], s.least[g])) > highest:
		return Nothing
	case f == Unit || f == g:
		return s.cut(g, highest)
	}
	if int(s.most[f])+int(s.most[g]) <= highest {
		highest = AllOrders
	}
	op := opProduct | uint32(highest)<<16
	if r, ok := s.recall(op, uint32(f), uint32(g)); ok {
		return Family(r)
	}
	r := s.productNode(f, g, highest)
	s.remember(op, uint32(f), uint32(g), uint32(r))
	return r
}

func (s *Families) productNode(f, g Family, highest int) Family {
	level, f0, f1, g0, g1 := s.split(f, g)
	lo := s.product(f0, g0, highest)
	if highest == 0 {
		return lo
	}
	rest := highest - 1
	if highest == AllOrders {
		rest = AllOrders
	}
	hi := Nothing
	switch {
	case g1 == Nothing:
		hi = s.product(f1, g, rest)
	case f1 == Nothing:
		hi = s.product(f, g1, rest)
	default:
		hi = s.union(s.product(f1, s.union(g0, g1), rest), s.product(f0, g1, rest))
	}
	return s.mk(level, lo, s.without(hi, lo))
}

// cut leaves out the sets of f above the highest order.
func (s *Families) cut(f Family, highest int) Family {
	switch {
	case int(s.most[f]) <= highest:
		return f
	case int(s.least[f]) > highest:
		return Nothing
	}
	if r, ok := s.recall(opCut, uint32(f), uint32(highest)); ok {
		return Family(r)
	}
	n := s.nodes[f]
	lo := s.cut(Family(n.lo), highest)
	r := s.mk(n.level, lo, s.cut(Family(n.hi), highest-1))
	s.remember(opCut, uint32(f), uint32(highest), uint32(r))
	return r
}

// split returns the first variable of f and g and, for each, its sets without
// it and those with it, which are given without it.
func (s *Families) split(f, g Family) (level uint32, f0, f1, g0, g1 Family) {
	a, b := &s.nodes[f], &s.nodes[g]
	level = min(a.level, b.level)
	f0, g0 = f, g
	if a.level == level {
		f0, f1 = Family(a.lo), Family(a.hi)
	}
	if b.level == level {
		g0, g1 = Family(b.lo), Family(b.hi)
	}
	return level, f0, f1, g0, g1
}

// Branch returns the sets of f without its first variable and those with it,
// given without it. f must have a variable.
func (s *Families) Branch(f Family) (without, with Family) {
	n := &s.nodes[f]
	return Family(n.lo), Family(n.hi)
}

// Level returns the first variable of f, or -1 for Nothing and Unit.
func (s *Families) Level(f Family) int {
	if f <= Unit {
		return -1
	}
	return int(s.nodes[f].level)
}

// Orders returns the smallest and the largest order in f; for Nothing the
// smallest is AllOrders.
func (s *Families) Orders(f Family) (least, most int) {
	return int(s.least[f]), int(s.most[f])
}

// Keep drops every node that the family does not need and returns the family as
// it is called from then on. Every other Family becomes meaningless.
func (s *Families) Keep(f Family) Family {
	old := *s
	to := s.keep(2, func(mark func(uint32)) { mark(uint32(f)) }, 0)
	s.least = append(make([]uint16, 0, len(s.nodes)), old.least[:2]...)
	s.most = append(make([]uint16, 0, len(s.nodes)), old.most[:2]...)
	for i := 2; i < len(to); i++ {
		if to[i] != 0 {
			s.least = append(s.least, old.least[i])
			s.most = append(s.most, old.most[i])
		}
	}
	return Family(to[f])
}

// Of returns the smallest of the given sets as a family. The members of each
// set must be sorted.
func (s *Families) Of(sets [][]int) (Family, error) {
	return s.guard(func() Family { return s.of(sets) })
}

// of splits the list in halves, so that unions are of families of like size.
func (s *Families) of(sets [][]int) Family {
	switch len(sets) {
	case 0:
		return Nothing
	case 1:
		z := Unit
		for i := len(sets[0]) - 1; i >= 0; i-- {
			z = s.mk(uint32(sets[0][i]), Nothing, z)
		}
		return z
	}
	half := len(sets) / 2
	z := s.of(sets[:half])
	return s.union(z, s.of(sets[half:]))
}

// Minimal returns the smallest sets of variables that make the function yes
// when exactly they are yes, up to the highest order. The empty set stands
// alone if the function is yes when no variable is.
//
// A. Rauzy, New algorithms for fault trees analysis, Reliability Engineering
// and System Safety 40 (1993) 203-211: with x the first variable, F1 and F0
// what is left of F when it is yes and no, the smallest sets of F are those of
// F0, and x with those of F1 that contain none of F0. With every variable that
// is not in a set taken to be no this holds for functions with negation too.
func (s *Families) Minimal(d *Decisions, f Ref, highest int) (Family, error) {
	m := minimal{Families: s, d: d}
	if highest >= AllOrders {
		m.known = make([]Family, d.Len())
		return s.guard(func() Family { return m.all(f) })
	}
	return s.guard(func() Family { return m.upTo(f, highest) })
}

type minimal struct {
	*Families
	d     *Decisions
	known []Family // by node of d; Nothing is not known yet
}

// all needs no more than a look at the mark: a marked function is yes when
// nothing has failed.
func (m *minimal) all(f Ref) Family {
	switch {
	case f&1 == 1:
		return Unit
	case f == No:
		return Nothing
	case m.known[f>>1] != Nothing:
		return m.known[f>>1]
	}
	n := m.d.nodes[f>>1]
	lo := m.all(Ref(n.lo))
	r := m.mk(n.level, lo, m.without(m.all(Ref(n.hi)), lo))
	m.known[f>>1] = r
	return r
}

const opMinimal = opCut + 1 // in the high half: the highest order

func (m *minimal) upTo(f Ref, highest int) Family {
	switch {
	case highest < 0 || f == No:
		return Nothing
	case f&1 == 1:
		return Unit
	case highest == 0:
		return Nothing
	}
	op := opMinimal | uint32(highest)<<16
	if r, ok := m.recall(op, uint32(f), 0); ok {
		return Family(r)
	}
	n := m.d.nodes[f>>1]
	lo := m.upTo(Ref(n.lo), highest)
	r := m.mk(n.level, lo, m.without(m.upTo(Ref(n.hi), highest-1), lo))
	m.remember(op, uint32(f), 0, uint32(r))
	return r
}
