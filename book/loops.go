package book

import "slices"

// A value may depend on itself only through a memory. findLoops looks at the
// reads of every item that are not cut by one, and reports one ring of each
// knot of items that read each other.
func (b *builder) findLoops() {
	reads := make([][]*Expr, len(b.decls))
	knots := components(len(b.decls), func(i int) []int {
		reads[i] = b.openReads(b.decls[i])
		targets := make([]int, 0, len(reads[i]))
		for _, e := range reads[i] {
			targets = append(targets, b.byID[e.ID].n)
		}
		return targets
	})
	for _, knot := range knots {
		if ring := b.shortestRing(slices.Min(knot), knot, reads); ring != nil {
			b.add(loop(b.decls[slices.Min(knot)], ring))
		}
	}
}

// openReads gives the references through which the value of an item follows
// other values within one evaluation.
func (b *builder) openReads(d *declaration) []*Expr {
	var found []*Expr
	for _, e := range b.sources(b.build.items[d.id]) {
		openRefs(e, func(ref *Expr) {
			if _, ok := b.byID[ref.ID]; ok {
				found = append(found, ref)
			}
		})
	}
	return found
}

// sources gives the expressions that make the value of an item. Latches,
// controls and phases are memories; they have none.
func (b *builder) sources(item Item) []*Expr {
	switch x := item.(type) {
	case *Unit:
		return []*Expr{x.Needs}
	case *Signal:
		return []*Expr{x.Value}
	case *Function:
		return []*Expr{x.Works}
	case *Alert:
		given := x.GivenBy
		if given == nil && b.build.Aircraft != nil {
			given = b.build.Aircraft.AlertsGivenBy
		}
		return append(b.build.Reaches(x).Each(), x.When, given, x.Until, x.QuietWhen)
	}
	return nil
}

// openRefs visits the references in e that no memory cuts off.
func openRefs(e *Expr, visit func(*Expr)) {
	if e == nil {
		return
	}
	switch e.Op {
	case OpHeld, OpPulse, OpBefore, OpTotal, OpCount:
		return
	case OpFrozen: // while it is open, its first argument passes straight through
		if len(e.Args) > 0 {
			openRefs(e.Args[0], visit)
		}
		return
	case OpRef:
		visit(e)
	}
	for _, a := range e.Args {
		openRefs(a, visit)
	}
}

// shortestRing gives the references that lead from an item back to itself
// inside its knot; nil if there is no way back.
func (b *builder) shortestRing(start int, knot []int, reads [][]*Expr) []*Expr {
	inside := map[int]bool{}
	for _, i := range knot {
		inside[i] = true
	}
	came := map[int]*Expr{} // by item: the reference that first reached it
	from := map[*Expr]int{}
	queue := []int{start}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		for _, e := range reads[i] {
			to := b.byID[e.ID].n
			if !inside[to] || came[to] != nil {
				continue
			}
			came[to], from[e] = e, i
			if to == start {
				return wayBack(start, came, from)
			}
			queue = append(queue, to)
		}
	}
	return nil
}

func wayBack(start int, came map[int]*Expr, from map[*Expr]int) []*Expr {
	var ring []*Expr
	for i := start; ; {
		e := came[i]
		ring = append(ring, e)
		if i = from[e]; i == start {
			slices.Reverse(ring)
			return ring
		}
	}
}
