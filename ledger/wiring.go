package ledger

import "knockon/book"

// wiring is which items the text of an item names, as far as it has been
// asked for.
type wiring struct {
	items  *book.Build
	names  map[string][]string // item -> items that its main value names, in the order of the text
	stamps map[string]int      // item -> the walk that last came by
	walks  int
}

func newWiring(b *book.Build) *wiring {
	return &wiring{items: b, names: map[string][]string{}, stamps: map[string]int{}}
}

// unitsUnder lists the units that an item reads, directly or through signals,
// functions and units that it names, in the order of first mention; the item
// itself first, if it is a unit.
func (w *wiring) unitsUnder(id string) []string {
	w.walks++
	var units []string
	var visit func(id string)
	visit = func(id string) {
		if w.stamps[id] == w.walks {
			return
		}
		w.stamps[id] = w.walks
		if item, _ := w.items.Item(id); isUnit(item) {
			units = append(units, id)
		}
		for _, next := range w.named(id) {
			visit(next)
		}
	}
	visit(id)
	return units
}

func isUnit(item book.Item) bool {
	_, ok := item.(*book.Unit)
	return ok
}

// named lists the items that an item's main value names.
func (w *wiring) named(id string) []string {
	if ids, ok := w.names[id]; ok {
		return ids
	}
	var ids []string
	item, _ := w.items.Item(id)
	for _, in := range inputs(item) {
		in.Walk(func(e *book.Expr) {
			if e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault {
				ids = append(ids, e.ID)
			}
		})
	}
	w.names[id] = ids
	return ids
}

// inputs lists the expressions that an item's main value is computed from.
func inputs(item book.Item) []*book.Expr {
	switch it := item.(type) {
	case *book.Unit:
		return []*book.Expr{it.Needs}
	case *book.Signal:
		return []*book.Expr{it.Value, it.Set, it.Reset}
	case *book.Function:
		return []*book.Expr{it.Works}
	}
	return nil
}
