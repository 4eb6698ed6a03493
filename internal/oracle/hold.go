package oracle

import "knockon/book"

// Hold is a yes/no that is held to be something for a time: the works of a unit
// or function, the value of a signal, or that a unit has failed in a way.
// Whoever reads it reads what it is held to be.
type Hold struct {
	Aspect
	Yes      bool
	From, To book.Time // To is not part of it
}

// holds are all holds of one aspect.
type holds struct {
	list []Hold
	now  *Hold // nil: it is what it is
}

// at opens and closes the holds of a moment.
func (h *holds) at(t book.Time) {
	h.now = nil
	for i := range h.list {
		if h.list[i].From <= t && t < h.list[i].To {
			h.now = &h.list[i]
		}
	}
}

// value of an aspect that is x unless it is held.
func (h *holds) value(x float64) float64 {
	if h.now != nil {
		return bit(h.now.Yes)
	}
	return x
}

func (b *builder) holds(list []Hold) {
	for _, h := range list {
		if b.held[h.Aspect] == nil {
			b.held[h.Aspect] = &holds{}
			b.m.holds = append(b.m.holds, b.held[h.Aspect])
		}
		b.held[h.Aspect].list = append(b.held[h.Aspect].list, h)
	}
}

// hold puts the holds between the values that are held and all that read them.
func (b *builder) hold() {
	found := 0
	for _, p := range b.m.parts {
		if h := b.held[p.Aspect]; h != nil {
			p.root = b.op(opHolds, p.root)
			p.root.holds = h
			found++
		}
	}
	if found != len(b.m.holds) {
		b.fail("something that is held is not on build %s", b.build.Variant)
	}
}
