package known

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// Voices is what the alerts of a build claim, and the items among that; worked out
// once for a course.
type Voices struct {
	claims map[*book.Alert][]Claim
	Items  []string // that can be held
}

// Of lists what an alert claims while it is right.
func (v *Voices) Of(a *book.Alert) []Claim { return v.claims[a] }

type voicesKey struct{}

// VoicesOf is what the alerts of a course's build claim.
func VoicesOf(c *run.Course) *Voices {
	return c.Once(voicesKey{}, func() any { return hear(c.Build) }).(*Voices)
}

func hear(b *book.Build) *Voices {
	v := &Voices{claims: map[*book.Alert][]Claim{}}
	for _, a := range b.Alerts {
		v.claims[a] = claimsOf(b, a)
		for _, c := range v.claims[a] {
			if !c.way && !slices.Contains(v.Items, c.ref.Unit) {
				v.Items = append(v.Items, c.ref.Unit)
			}
		}
	}
	return v
}

// holding is a claim that is held so for a while.
type holding struct {
	Claim
	circuit.Span
	alert *book.Alert // the first to claim it
}

// holdings lists all that is claimed in a pair of runs, by when it is, then in the
// order of the book.
func holdings(l *ledger.Ledger, v *Voices) (list []holding) {
	made := map[Claim]span.Set{}
	for _, a := range l.Here.Course.Build.Alerts {
		right := ledger.Claiming(l.Here, l.There, a)
		for _, c := range v.claims[a] {
			for _, s := range held(l, c, right) {
				list = append(list, holding{c, s, a})
				made[c] = made[c].Or(span.Set{s})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b holding) int { return cmp.Compare(a.From, b.From) })
	return list
}

// held gives when a claim is held: from each moment at which it is made while it is
// so, for as long as it is so here and not there.
func held(l *ledger.Ledger, c Claim, right span.Set) (s span.Set) {
	if len(right) == 0 {
		return nil
	}
	value, yes := c.Value()
	return Held(right, at(l.Here, value, yes), at(l.There, value, yes))
}

// Held is that of when a claim is made, and when it is so here and there.
func Held(right, here, there span.Set) (s span.Set) {
	for _, p := range here {
		if made := right.Within(p); len(made) > 0 {
			s = append(s, circuit.Span{From: made[0].From, To: p.To})
		}
	}
	return s.Minus(there)
}

// at gives when a value of a run is as asked for.
func at(r *run.Record, v circuit.Value, yes bool) span.Set {
	n, ok := r.Circuit().Node(v)
	if !ok {
		return nil
	}
	is := span.Lasting(r.Spans(n))
	if yes {
		return is
	}
	return span.Set{{From: r.Instants()[0], To: r.End}}.Minus(is)
}

// told flies the told run; nil where nothing is held and nothing moved, or where what is held never
// settles from the start: then nothing follows.
func told(ctx context.Context, l *ledger.Ledger, v *Voices, list []holding) (*run.Record, error) {
	if len(list) == 0 && len(l.Here.Scenario.Actions) == 0 {
		return nil, nil
	}
	var puts []run.Put
	for _, h := range list {
		way := h.Put()
		x := run.Put{Way: &way, From: h.From, To: h.To}
		if h.To >= l.Here.End {
			x.To = book.Never
		}
		puts = append(puts, x)
	}
	r, err := l.Here.Course.Told(ctx, l.Here, v.Items, puts)
	if loop := (*circuit.Unsettled)(nil); errors.As(err, &loop) {
		return nil, nil
	}
	return r, err
}
