package book

import "slices"

// continuity tells which numbers change continuously: those that follow real.*
// numbers or a total. A total with bounds takes none of them, since a bound can
// then be met at a moment that can be worked out; nor does an effect.
type continuity struct {
	signals []*Signal       // of the build
	shown   []*Indication   // of the build; a crew look at them
	smooth  map[string]bool // those that change continuously; nil until it is asked for
}

func (b *builder) findContinuous() {
	c := &continuity{signals: b.build.Signals, shown: b.build.Indications}
	for _, d := range b.decls {
		if item := b.build.items[d.id]; item != nil {
			expressions(item, func(_ string, e *Expr) { c.checkBounds(e, b.add) })
		}
	}
	for _, e := range b.build.Effects {
		if e.Value == nil || e.Value.Type != Number {
			continue
		}
		if source := c.source(e.Value); source != nil {
			b.add(effectContinuous(e.Value.Range, e.Name, source))
		}
	}
}

// checkBounds reports totals with bounds in e that take what they cannot.
func (c *continuity) checkBounds(e *Expr, report func(Diagnostic)) {
	e.Walk(func(e *Expr) {
		if e.Op != OpTotal || e.Bound == nil {
			return
		}
		if source := c.source(e.Args[0]); source != nil {
			report(boundedContinuous(e.Args[0].Range, source))
		}
	})
}

// source gives the part of e that makes it change continuously, or nil.
func (c *continuity) source(e *Expr) *Expr {
	if c.smooth == nil {
		c.findSmooth()
	}
	return c.follows(e)
}

func (c *continuity) findSmooth() {
	c.smooth = map[string]bool{}
	index := map[string]int{}
	for i, s := range c.signals {
		index[s.ID] = i
	}
	rings := components(len(c.signals), func(i int) []int {
		var targets []int
		carried(c.signals[i].Value, func(e *Expr) {
			if to, ok := index[e.ID]; ok && e.Op == OpRef {
				targets = append(targets, to)
			}
		})
		return targets
	})
	for _, ring := range rings {
		// What a ring reads outside comes before it; if one member changes
		// continuously, all do.
		if slices.ContainsFunc(ring, func(i int) bool { return c.follows(c.signals[i].Value) != nil }) {
			for _, i := range ring {
				c.smooth[c.signals[i].ID] = true
			}
		}
	}
	for _, i := range c.shown {
		c.smooth[i.ID] = c.follows(i.Shows) != nil
	}
}

func (c *continuity) follows(e *Expr) (source *Expr) {
	carried(e, func(e *Expr) {
		if source == nil && (e.Op != OpRef || c.smooth[e.ID]) {
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
	case OpAdd, OpSub, OpMul, OpDiv, OpNeg, OpMin, OpMax, OpAbs, OpLaw, OpIf, OpBefore, OpFrozen:
		for _, a := range e.Args {
			carried(a, visit) // conditions are no numbers
		}
	}
}
