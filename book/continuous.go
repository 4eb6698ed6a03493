package book

import "slices"

// A total with bounds takes only values that change at instants, since a bound
// can then be met at a moment that can be worked out. findContinuous reports
// those that take others: numbers that follow real.* numbers or a total.
func (b *builder) findContinuous() {
	var bounded []*Expr
	var numbers []*Effect
	for _, e := range b.build.Effects {
		if e.Value != nil && e.Value.Type == Number {
			numbers = append(numbers, e)
		}
	}
	for _, d := range b.decls {
		if item := b.build.items[d.id]; item != nil {
			expressions(item, func(_ string, e *Expr) {
				e.Walk(func(e *Expr) {
					if e.Op == OpTotal && e.Bound != nil {
						bounded = append(bounded, e)
					}
				})
			})
		}
	}
	if len(bounded)+len(numbers) == 0 {
		return
	}
	smooth := b.smoothSignals()
	for _, e := range bounded {
		if source := follows(e.Args[0], smooth); source != nil {
			b.add(boundedContinuous(e.Args[0].Range, source))
		}
	}
	for _, e := range numbers {
		if source := follows(e.Value, smooth); source != nil {
			b.add(effectContinuous(e.Value.Range, e.Name, source))
		}
	}
}

// smoothSignals finds the number signals that change continuously.
func (b *builder) smoothSignals() map[string]bool {
	smooth := map[string]bool{}
	index := map[string]int{}
	for i, s := range b.build.Signals {
		index[s.ID] = i
	}
	rings := components(len(b.build.Signals), func(i int) []int {
		var targets []int
		carried(b.build.Signals[i].Value, func(e *Expr) {
			if to, ok := index[e.ID]; ok && e.Op == OpRef {
				targets = append(targets, to)
			}
		})
		return targets
	})
	for _, ring := range rings {
		// What a ring reads outside comes before it; if one member changes
		// continuously, all do.
		if slices.ContainsFunc(ring, func(i int) bool { return follows(b.build.Signals[i].Value, smooth) != nil }) {
			for _, i := range ring {
				smooth[b.build.Signals[i].ID] = true
			}
		}
	}
	return smooth
}

// follows gives the part of e that makes it change continuously, or nil.
func follows(e *Expr, smooth map[string]bool) (source *Expr) {
	carried(e, func(e *Expr) {
		if source == nil && (e.Op != OpRef || smooth[e.ID]) {
			source = e
		}
	})
	return source
}

// carried visits the real.* numbers, totals and references whose continuous
// change e would follow.
func carried(e *Expr, visit func(*Expr)) {
	if e == nil || e.Type != Number {
		return
	}
	switch e.Op {
	case OpReal, OpTotal, OpRef:
		visit(e)
	case OpAdd, OpSub, OpMul, OpDiv, OpNeg, OpMin, OpMax, OpAbs, OpIf, OpBefore, OpFrozen:
		for _, a := range e.Args {
			carried(a, visit) // conditions are no numbers
		}
	}
}
