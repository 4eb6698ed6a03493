package known

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// chains finds the shortest way from what is claimed to what follows from it.
type chains struct {
	web         *Web
	told, there *run.Record
	ends        map[string][]holding // what is held, by item: the first of each stretch without a break
	moved       map[string]book.Time
}

func newChains(l *ledger.Ledger, told *run.Record, list []holding) *chains {
	x := &chains{web: WebOf(l.Here.Course), told: told, there: l.There, ends: map[string][]holding{}, moved: map[string]book.Time{}}
	for _, h := range list {
		ends := x.ends[h.Item()]
		if n := len(ends); n > 0 && h.From <= ends[n-1].To {
			ends[n-1].To = max(ends[n-1].To, h.To)
		} else {
			x.ends[h.Item()] = append(ends, h)
		}
	}
	x.hands(l.Here.Scenario.Actions)
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
			x.ends[m.Control] = append(x.ends[m.Control], holding{Claim: Claim{ref: book.FailureRef{Unit: m.Control}}, Span: s})
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

// back gives from what a function follows that does not work in the told run at a
// moment; ok is false where no way is found.
func (x *chains) back(f string, at book.Time) (h holding, steps int, ok bool) {
	n, _ := x.web.Number(f)
	held := func(n int32) bool {
		_, ok := x.end(x.web.ids[n], at)
		return ok
	}
	end, steps, ok := x.web.Back(n, func(n int32) bool { return x.differs(x.web.ids[n]) <= at }, held)
	if ok {
		h, _ = x.end(x.web.ids[end], at)
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
