package book

import "slices"

// Covers lists the functions that an indication covers: those that its means
// names, in the order of its text, and those in its tells.
func (b *Build) Covers(i *Indication) []string {
	var ids []string
	add := func(id string) {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	i.Means.Walk(func(e *Expr) {
		if item, ok := b.Item(e.ID); e.Op == OpRef && ok {
			if _, ok := item.(*Function); ok {
				add(e.ID)
			}
		}
	})
	for _, id := range i.Tells {
		add(id)
	}
	return ids
}
