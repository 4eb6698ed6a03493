package sweep

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/known"
	"knockon/ledger"
	"knockon/span"
)

// known is how people can know of one span of a loss.
func (v view) known(x *bundle, told *toldRun, f known.Facts, p circuit.Span) ledger.Known {
	if v.o.teller == nil {
		return ledger.Known{Word: ledger.Hidden}
	}
	q := v.o.e.p
	if how := q.course.Build.Functions[x.index].Noticed; how != nil {
		f.Noticed = known.Notices(how, func() span.Set { return v.here(x.noticed).Minus(v.there(x.noticed)) }, p, q.within, q.wrong)
	}
	if told != nil {
		f.Follows = v.o.teller.follows(int32(x.index), told, p)
	}
	var wanted span.Set
	f.Denied = slices.ContainsFunc(x.covers, func(r reading) bool {
		lies := v.newly(r.wrong).Within(p)
		if len(lies) == 0 {
			return false
		}
		if wanted == nil {
			wanted = v.here(x.wanted)
		}
		return known.Denies(lies.And(wanted), p, f, q.wrong)
	})
	return f.Known()
}

// passed is when each item of a told run is first not what it is without failures.
type passed struct {
	run   *toldRun
	at    []book.Time // of yes/no; Never: not at all
	held  []book.Time // since when it is first held; Never: not at all
	value [][]piece
}

// follows finds from what a loss follows, if it does.
func (t *teller) follows(f int32, r *toldRun, p circuit.Span) *ledger.Following {
	down := r.lost[f].Within(p).Longer(span.Rounding)
	if len(down) == 0 {
		return nil
	}
	key := following{f, down[0].From}
	x, ok := r.from[key]
	if !ok {
		x = t.back(r, key)
		r.from[key] = x
	}
	return x
}

// back finds the way from a function to what is held.
func (t *teller) back(r *toldRun, key following) *ledger.Following {
	x := &ledger.Following{At: key.at}
	t.pass(r)
	held := func(n int32) bool { return t.passed.held[n] <= x.At }
	passes := func(n int32) bool { return t.passed.at[n] <= x.At || t.apart(t.passed.value[n], x.At) }
	end, steps, ok := t.p.web.Back(t.p.itemOf[key.function], passes, held)
	if !ok {
		return nil
	}
	x.Claimed, _ = r.end(end, x.At)
	x.Steps, x.Distant = steps, known.Distant(steps, x.At-x.Claimed)
	return x
}

// pass lays the moments of a told run out by item.
func (t *teller) pass(r *toldRun) {
	w := &t.passed
	if w.run == r {
		return
	}
	if w.at == nil {
		w.at, w.value = slices.Repeat([]book.Time{book.Never}, len(t.p.told.items)), make([][]piece, len(t.p.told.items))
		w.held = slices.Clone(w.at)
	}
	if w.run != nil {
		for _, m := range w.run.moved {
			w.at[m.item] = book.Never
		}
		for _, m := range w.run.values {
			w.value[m.item] = w.value[m.item][:0]
		}
		for _, h := range w.run.ends {
			w.held[h.item] = book.Never
		}
	}
	w.run = r
	for _, m := range r.moved {
		w.at[m.item] = m.at
	}
	for _, m := range r.values {
		w.value[m.item] = append(w.value[m.item], m.piece)
	}
	for _, h := range r.ends {
		w.held[h.item] = min(w.held[h.item], h.From)
	}
}

// apart says that a number or word has not been what it is without failures, by a moment.
func (t *teller) apart(list []piece, by book.Time) bool {
	return slices.ContainsFunc(list, func(p piece) bool {
		return p.From <= by && (t.apartAt(p, p.From) || t.apartAt(p, min(by, p.To-1)))
	})
}

func (t *teller) apartAt(p piece, at book.Time) bool {
	return apart(t.told.terms.at(p.here, at), t.told.terms.at(p.there, at), 0)
}

// end is since when an item is held at a moment, or was the last time before it.
func (r *toldRun) end(item int32, at book.Time) (from book.Time, ok bool) {
	for _, h := range r.ends {
		if h.item == item && h.From <= at {
			from, ok = h.From, true
		}
	}
	return from, ok
}
