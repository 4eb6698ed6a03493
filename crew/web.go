package crew

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// web is which item needs which, as far as alerts are concerned: an alert follows
// from another while what it says is down through something that the other says
// is down, by way of units and functions that do not work.
type web struct {
	claims map[*book.Alert][]int // what an alert speaks of
	thread []thread
	number map[string]int
}

// thread is a unit, a function or a signal.
type thread struct {
	node   circuit.Node // of a unit or function; None for a signal
	faults []circuit.Node
	names  []int
}

func newWeb(b *book.Build, c *circuit.Circuit) web {
	w := web{claims: map[*book.Alert][]int{}, number: map[string]int{}}
	for _, u := range b.Units {
		t := thread{node: nodeOf(c, u.ID, circuit.Main)}
		for _, f := range u.Faults {
			t.faults = append(t.faults, nodeOf(c, u.ID, circuit.Aspect(f.ID)))
		}
		w.add(u.ID, t)
	}
	for _, f := range b.Functions {
		w.add(f.ID, thread{node: nodeOf(c, f.ID, circuit.Main)})
	}
	for _, s := range b.Signals {
		w.add(s.ID, thread{node: circuit.None})
	}
	for _, u := range b.Units {
		w.tie(u.ID, u.Needs)
	}
	for _, f := range b.Functions {
		w.tie(f.ID, f.Works)
	}
	for _, s := range b.Signals {
		w.tie(s.ID, s.Value, s.Set, s.Reset)
	}
	for _, a := range b.Alerts {
		says := a.TrueWhen
		if says == nil {
			says = a.When
		}
		w.claims[a] = w.named(says)
	}
	return w
}

func nodeOf(c *circuit.Circuit, id string, a circuit.Aspect) circuit.Node {
	n, ok := c.Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		return circuit.None
	}
	return n
}

func (w *web) add(id string, t thread) {
	w.number[id] = len(w.thread)
	w.thread = append(w.thread, t)
}

func (w *web) tie(id string, expressions ...*book.Expr) {
	n := w.number[id]
	for _, e := range expressions {
		w.thread[n].names = append(w.thread[n].names, w.named(e)...)
	}
}

func (w *web) named(e *book.Expr) (list []int) {
	e.Walk(func(e *book.Expr) {
		switch e.Op {
		case book.OpRef, book.OpFailed, book.OpFault:
			if n, ok := w.number[e.ID]; ok {
				list = append(list, n)
			}
		}
	})
	return list
}

// follows says that what an alert says is down now because of what another says,
// and not the other way round.
func (d *duty) follows(a, cause *book.Alert) bool {
	return a != cause && d.reaches(a, cause) && !d.reaches(cause, a)
}

func (d *duty) reaches(from, to *book.Alert) bool {
	w := &d.team.web
	target := map[int]bool{}
	for _, n := range w.claims[to] {
		target[n] = w.thread[n].node == circuit.None || d.down(n)
	}
	seen := map[int]bool{}
	var visit func(n int) bool
	visit = func(n int) bool {
		if seen[n] || w.thread[n].node != circuit.None && !d.down(n) {
			return false
		}
		seen[n] = true
		if target[n] {
			return true
		}
		for _, next := range w.thread[n].names {
			if visit(next) {
				return true
			}
		}
		return false
	}
	for _, n := range w.claims[from] {
		if visit(n) {
			return true
		}
	}
	return false
}

// down says that a unit or function does not work, or has a fault.
func (d *duty) down(n int) bool {
	t := &d.team.web.thread[n]
	return !d.yes(t.node) || slices.ContainsFunc(t.faults, d.yes)
}
