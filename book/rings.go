package book

import "slices"

// Totals may not follow each other with no comparison between; one may follow itself.
// findTotalRings reports the first of each knot of those that do.
func (b *builder) findTotalRings() {
	var totals []*Expr
	place := map[*Expr]int{}
	for _, d := range b.decls {
		if item := b.build.items[d.id]; item != nil {
			expressions(item, func(_ string, e *Expr) {
				e.Walk(func(e *Expr) {
					if e.Op == OpTotal {
						place[e] = len(totals)
						totals = append(totals, e)
					}
				})
			})
		}
	}
	for _, ring := range components(len(totals), func(i int) (next []int) {
		b.followed(totals[i].Args[0], map[string]bool{}, func(t *Expr) {
			if j, ok := place[t]; ok {
				next = append(next, j)
			}
		})
		return next
	}) {
		if len(ring) > 1 {
			first := slices.Min(ring)
			slices.Sort(ring)
			b.add(totalRing(totals[first].Range, totals[ring[1]].Range))
		}
	}
}

// followed visits the totals whose continuous change a number follows.
func (b *builder) followed(e *Expr, seen map[string]bool, visit func(total *Expr)) {
	carried(e, func(e *Expr) {
		if e.Op == OpTotal {
			visit(e)
		}
		if s, ok := b.build.items[e.ID].(*Signal); ok && e.Op == OpRef && !seen[e.ID] {
			seen[e.ID] = true
			b.followed(s.Value, seen, visit)
		}
	})
}
