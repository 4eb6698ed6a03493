package known

import (
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// chains finds the shortest way from what is claimed to what follows from it.
type chains struct {
	build       *book.Build
	told, there *run.Record
	ends        map[string][]holding // what is held, by item: the first of each stretch without a break
	order       []string             // its ids, in the order of the book
	moved       map[string]book.Time
}

func newChains(l *ledger.Ledger, told *run.Record, list []holding) *chains {
	x := &chains{build: l.Here.Course.Build, told: told, there: l.There, ends: map[string][]holding{}, moved: map[string]book.Time{}}
	for _, h := range list {
		ends := x.ends[h.ref.Unit]
		if n := len(ends); n > 0 && h.From <= ends[n-1].To {
			ends[n-1].To = max(ends[n-1].To, h.To)
		} else {
			x.ends[h.ref.Unit] = append(ends, h)
		}
	}
	x.hands(l.Here.Scenario.Actions)
	for _, id := range itemsInOrder(x.build) {
		if _, ok := x.ends[id]; ok {
			x.order = append(x.order, id)
		}
	}
	return x
}

// hands adds the controls that were moved by hand: whoever moves one knows it. Each
// is an end while it is not where it is there.
func (x *chains) hands(moves []run.Action) {
	for _, m := range moves {
		if x.ends[m.Control] != nil {
			continue
		}
		for _, s := range x.elsewhere(m.Control) {
			x.ends[m.Control] = append(x.ends[m.Control], holding{claim: claim{ref: book.FailureRef{Unit: m.Control}}, Span: s})
		}
	}
}

// elsewhere gives when a control of the told run is not where it is there.
func (x *chains) elsewhere(control string) (s span.Set) {
	v := circuit.Value{Item: control}
	a, _ := x.told.Circuit().Node(v)
	b, _ := x.there.Circuit().Node(v)
	moments := []book.Time{x.told.Instants()[0]}
	for _, h := range x.told.History(a) {
		moments = append(moments, h.At)
	}
	for _, h := range x.there.History(b) {
		moments = append(moments, h.At)
	}
	slices.Sort(moments)
	moments = append(slices.Compact(moments), min(x.told.End, x.there.End))
	for i, t := range moments[:len(moments)-1] {
		if next := moments[i+1]; t < next && x.told.Circuit().Text(a, x.told.At(a, t)) != x.there.Circuit().Text(b, x.there.At(b, t)) {
			s = s.Or(span.Set{{From: t, To: next}})
		}
	}
	return s
}

// itemsInOrder lists where a way can begin, in the order of the book.
func itemsInOrder(b *book.Build) (ids []string) {
	ids = append(ids, book.IDs(b.Units)...)
	ids = append(ids, book.IDs(b.Signals)...)
	ids = append(ids, book.IDs(b.Functions)...)
	return append(ids, book.IDs(b.Controls)...)
}

// back gives from what a function follows that does not work in the told run at a
// moment; ok is false where no way is found.
func (x *chains) back(f string, at book.Time) (h holding, steps int, ok bool) {
	far := x.distances(f, at)
	for _, id := range x.order {
		end, held := x.end(id, at)
		if d, reached := far[id]; reached && held && (!ok || d < steps) {
			h, steps, ok = end, d, true
		}
	}
	return h, steps, ok
}

// end is what is held of an item at a moment, or was the last time before it.
func (x *chains) end(id string, at book.Time) (h holding, ok bool) {
	for _, e := range x.ends[id] {
		if e.From <= at {
			h, ok = e, true
		}
	}
	return h, ok
}

// distances gives how many items with a title lie on the way from each item to a
// function, both included: a search in which an item without a title costs nothing.
func (x *chains) distances(f string, at book.Time) map[string]int {
	far := map[string]int{f: x.cost(f)}
	rings := [][]string{{f}}
	for d := 0; d < len(rings); d++ {
		for i := 0; i < len(rings[d]); i++ {
			id := rings[d][i]
			for _, next := range x.reads(id) {
				if _, seen := far[next]; seen || !x.passes(next, at) {
					continue
				}
				far[next] = far[id] + x.cost(next)
				for len(rings) <= d+x.cost(next) {
					rings = append(rings, nil)
				}
				rings[d+x.cost(next)] = append(rings[d+x.cost(next)], next)
			}
		}
	}
	return far
}

func (x *chains) cost(id string) int {
	item, ok := x.build.Item(id)
	if ok && item.Named().Title != strings.ReplaceAll(id, "_", " ") { // as the book names what has none
		return 1
	}
	return 0
}

// passes says that an item may lie on a way: it is held, or it is not as it is there
// by a moment.
func (x *chains) passes(id string, at book.Time) bool {
	if _, ok := x.end(id, at); ok {
		return true
	}
	return x.differs(id) <= at
}

// differs gives when an item is first not what it is there.
func (x *chains) differs(id string) book.Time {
	if t, ok := x.moved[id]; ok {
		return t
	}
	x.moved[id] = x.firstApart(id)
	return x.moved[id]
}

func (x *chains) firstApart(id string) book.Time {
	v := circuit.Value{Item: id}
	a, ok := x.told.Circuit().Node(v)
	b, _ := x.there.Circuit().Node(v)
	switch {
	case !ok:
		return book.Never
	case x.told.Circuit().Type(a) == book.YesNo:
		is, was := span.Lasting(x.told.Spans(a)), span.Lasting(x.there.Spans(b))
		if apart := is.Minus(was).Or(was.Minus(is)); len(apart) > 0 {
			return apart[0].From
		}
		return book.Never
	}
	for _, t := range x.told.Instants() {
		if x.apart(a, b, t) {
			return t
		}
	}
	return book.Never
}

// apart says that a word or a number of the told run is not at a moment what the same
// is there: of words the text, since each circuit numbers its own.
func (x *chains) apart(told, there circuit.Node, t book.Time) bool {
	p, q := x.told.At(told, t), x.there.At(there, t)
	if x.told.Circuit().Type(told) == book.Word {
		return x.told.Circuit().WordText(p) != x.there.Circuit().WordText(q)
	}
	return math.Abs(p-q) > 1e-9*max(math.Abs(p), math.Abs(q))
}

// reads lists the units, signals and functions that an item reads, and the controls
// that were moved by hand, each once.
func (x *chains) reads(id string) (ids []string) {
	item, _ := x.build.Item(id)
	for _, e := range texts(item) {
		e.Walk(func(e *book.Expr) {
			if (e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault) && !slices.Contains(ids, e.ID) {
				ids = append(ids, e.ID)
			}
		})
	}
	return slices.DeleteFunc(ids, func(id string) bool {
		item, _ := x.build.Item(id)
		return texts(item) == nil && x.ends[id] == nil
	})
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
