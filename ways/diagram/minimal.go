package diagram

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
