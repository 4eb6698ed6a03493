package ledger

import "knockon/book"

// wiring is which items the text of an item names, as far as it has been
// asked for. Items are numbered as they come.
type wiring struct {
	items  *book.Build
	number map[string]int
	nodes  []wired
	walks  int
}

// wired is one item of the wiring.
type wired struct {
	id    string
	unit  bool
	known bool  // names has been worked out
	names []int // items that its main value names, in the order of the text
	walk  int   // the walk that last came by
}

func newWiring(b *book.Build) *wiring {
	return &wiring{items: b, number: map[string]int{}}
}

// unitsOf lists the units that an item reads, directly or through signals and
// functions that it names, in the order of first mention.
func (w *wiring) unitsOf(id string) []string {
	w.walks++
	return w.visit(w.node(id), nil, stopAtUnits)
}

// unitsUnder lists the same, and what these units need, all the way down.
func (w *wiring) unitsUnder(id string) []string {
	w.walks++
	return w.visit(w.node(id), nil, allTheWay)
}

// reach says how far a walk goes.
type reach int

const (
	stopAtUnits reach = iota
	allTheWay
)

func (w *wiring) visit(n int, units []string, far reach) []string {
	if w.nodes[n].walk == w.walks {
		return units
	}
	w.nodes[n].walk = w.walks
	if w.nodes[n].unit {
		units = append(units, w.nodes[n].id)
		if far == stopAtUnits {
			return units
		}
	}
	for _, next := range w.named(n) {
		units = w.visit(next, units, far)
	}
	return units
}

// node gives an item its number.
func (w *wiring) node(id string) int {
	n, ok := w.number[id]
	if !ok {
		n = len(w.nodes)
		item, _ := w.items.Item(id)
		_, unit := item.(*book.Unit)
		w.number[id] = n
		w.nodes = append(w.nodes, wired{id: id, unit: unit})
	}
	return n
}

// named lists the items that an item's main value names.
func (w *wiring) named(n int) []int {
	if w.nodes[n].known {
		return w.nodes[n].names
	}
	var names []int
	item, _ := w.items.Item(w.nodes[n].id)
	for _, in := range inputs(item) {
		in.Walk(func(e *book.Expr) {
			if e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault {
				names = append(names, w.node(e.ID))
			}
		})
	}
	w.nodes[n].known, w.nodes[n].names = true, names
	return names
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
