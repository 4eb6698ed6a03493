package known

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
)

// Web is which items of a build read which: the ways on which what is told can be
// followed to what is lost. An item has a number, in the order of the book: units,
// signals, functions, controls.
type Web struct {
	ids    []string
	number map[string]int32
	reads  [][]int32
	readBy [][]int32
	steps  []int // 1 for an item with a title, else 0
	hands  int   // the number of the first control
}

type webKey struct{}

// WebOf is that of a course's build.
func WebOf(c *run.Course) *Web {
	return c.Once(webKey{}, func() any { return webOf(c.Build) }).(*Web)
}

func webOf(b *book.Build) *Web {
	w := &Web{number: map[string]int32{}}
	w.ids = slices.Concat(book.IDs(b.Units), book.IDs(b.Signals), book.IDs(b.Functions))
	w.hands = len(w.ids)
	w.ids = append(w.ids, book.IDs(b.Controls)...)
	for i, id := range w.ids {
		w.number[id] = int32(i)
	}
	for _, id := range w.ids {
		item, _ := b.Item(id)
		w.reads = append(w.reads, w.read(item))
		w.steps = append(w.steps, 0)
		if item.Named().Title != strings.ReplaceAll(id, "_", " ") { // as the book names what has none
			w.steps[len(w.steps)-1] = 1
		}
	}
	w.readBy = make([][]int32, len(w.ids))
	for n, list := range w.reads {
		for _, m := range list {
			w.readBy[m] = append(w.readBy[m], int32(n))
		}
	}
	return w
}

// Items lists the ids of all items, by number.
func (w *Web) Items() []string { return w.ids }

// Number of an item; ok is false for one that passes nothing on.
func (w *Web) Number(id string) (n int32, ok bool) {
	n, ok = w.number[id]
	return n, ok
}

// ReadBy lists what reads an item.
func (w *Web) ReadBy(n int32) []int32 { return w.readBy[n] }

func (w *Web) read(item book.Item) (list []int32) {
	for _, e := range texts(item) {
		e.Walk(func(e *book.Expr) {
			n, ok := w.number[e.ID]
			if ok && (e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault) && !slices.Contains(list, n) {
				list = append(list, n)
			}
		})
	}
	return list
}

// texts lists what an item that can pass a loss on is worked out from.
func texts(item book.Item) []*book.Expr {
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

// Back finds the shortest way from a function back to something that is held, over
// items that pass: with how many steps, the function included. Of several ends with as
// few the first of the book; ok is false where there is none.
func (w *Web) Back(f int32, passes, held func(n int32) bool) (end int32, steps int, ok bool) {
	far := map[int32]int32{f: int32(w.steps[f]) + 1} // one more than the steps
	rings := [][]int32{{f}}
	for d := 0; d < len(rings); d++ {
		for i := 0; i < len(rings[d]); i++ {
			from := rings[d][i]
			for _, next := range w.reads[from] {
				control := int(next) >= w.hands
				if far[next] != 0 || !held(next) && (control || !passes(next)) {
					continue
				}
				far[next] = far[from] + int32(w.steps[next])
				for len(rings) <= d+w.steps[next] {
					rings = append(rings, nil)
				}
				rings[d+w.steps[next]] = append(rings[d+w.steps[next]], next)
			}
		}
	}
	for n, x := range far {
		if nearer := int(x) - 1; held(n) && (!ok || nearer < steps || nearer == steps && n < end) {
			end, steps, ok = n, nearer, true
		}
	}
	return end, steps, ok
}
