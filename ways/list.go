package ways

import (
	"slices"

	"knockon/ways/diagram"
)

// Set is a set of failures: indices of events of the logic, sorted.
type Set []int

// List returns the sets with so many members, in the order of their events, and
// whether that is all of them. It never returns more than limit; which ones it
// leaves out then is the same every time.
func (w *Ways) List(order, limit int) (sets []Set, all bool) {
	if order < 0 || order >= len(w.counts) || w.counts[order].Sign() == 0 {
		return nil, true
	}
	if w.parts.Opposite {
		return []Set{{}}[:min(1, limit)], limit >= 1
	}
	l := lister{w: w, bounds: make([][]span, len(w.found))}
	all = l.part(w.parts.Top, order, nil, func(events []int) bool {
		if len(sets) >= limit {
			return false
		}
		set := slices.Clone(events)
		slices.Sort(set)
		sets = append(sets, set)
		return true
	})
	slices.SortFunc(sets, slices.Compare[Set])
	return sets, all
}

// Names returns the names of a set's events.
func (w *Ways) Names(set Set) []string {
	names := make([]string, len(set))
	for i, e := range set {
		names[i] = w.l.Events()[e].Name
	}
	return names
}

// lister walks the sets of one order, from the top part down into the parts
// that stand for its leaves.
type lister struct {
	w      *Ways
	bounds [][]span // by part, by family; nil until needed
}

// span is the smallest and the largest order of the sets of a family.
type span struct{ least, most int }

func (s span) holds(order int) bool { return s.least <= order && order <= s.most }

// part yields the sets of a part with so many members, added to those in events.
// It stops, and says no, when yield does.
func (l *lister) part(part, order int, events []int, yield func([]int) bool) bool {
	f := l.w.found[part]
	if f.solved == nil {
		return order != 1 || yield(append(events, l.w.parts.List[part].Event))
	}
	if l.bounds[part] == nil {
		l.bounds[part] = l.spans(f)
	}
	return l.family(part, f.sets, order, events, yield)
}

func (l *lister) family(part int, z diagram.Family, order int, events []int, yield func([]int) bool) bool {
	switch {
	case !l.bounds[part][z].holds(order):
		return true
	case z == diagram.Unit:
		return yield(events)
	}
	f := l.w.found[part]
	without, with := f.s.Branch(z)
	leaf := f.setsAt[f.s.Level(z)]
	rest := l.bounds[part][with]
	for own := order - rest.least; own >= max(order-rest.most, 1); own-- {
		if !l.w.found[leaf].counts.has(own) {
			continue
		}
		goOn := l.part(leaf, own, events, func(events []int) bool {
			return l.family(part, with, order-own, events, yield)
		})
		if !goOn {
			return false
		}
	}
	return l.family(part, without, order, events, yield)
}

// spans works out the orders below each family of a part.
func (l *lister) spans(f *found) []span {
	spans := make([]span, f.s.Len())
	spans[diagram.Nothing] = span{AllOrders, -1}
	for _, z := range reach(f.s, f.sets) {
		without, with := f.s.Branch(z)
		leaf := l.w.found[f.setsAt[f.s.Level(z)]].counts
		s := spans[without]
		if leaf.len() > 0 && spans[with].most >= 0 {
			s.least = min(s.least, spans[with].least+leaf.lowest())
			s.most = max(s.most, spans[with].most+leaf.len()-1)
		}
		spans[z] = s
	}
	return spans
}
