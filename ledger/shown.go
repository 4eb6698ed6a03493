package ledger

import (
	"math"
	"slices"
	"sort"

	"knockon/book"
	"knockon/circuit"
	"knockon/span"
)

// firstShown finds the indication that first shows a loss to a crew that
// looks: it covers the function, has a meaning, is lit and not wrong, and
// shows something else than there. Of several at one moment the first in the book.
func (c *comparison) firstShown(f string, p circuit.Span) (via *book.Indication, at book.Time) {
	for _, i := range c.covering[f] {
		if i.Means == nil {
			continue
		}
		legible := c.isHere(i.ID, circuit.Lit).Minus(c.isHere(i.ID, circuit.Wrong)).Within(p)
		if t, ok := c.firstElse(i, legible); ok && (via == nil || t < at) {
			via, at = i, t
		}
	}
	return via, at
}

// Silent says that no alert and no indication tells of the failures: nothing is
// given, held back, wrong, dark or shown otherwise than on the flight without
// them. It is no if the question has no full answer.
func (l *Ledger) Silent() bool {
	if l.Unanswered() != "" || len(l.Here.Scenario.Strikes) == 0 || len(l.Alerts)+len(l.False)+len(l.Held)+len(l.Wrong)+len(l.Dark) > 0 {
		return false
	}
	c := newComparison(l.Here, l.There, book.Never)
	return !slices.ContainsFunc(c.build.Indications, func(i *book.Indication) bool {
		_, otherwise := c.firstElse(i, c.isHere(i.ID, circuit.Lit))
		return otherwise
	})
}

// firstElse is the first moment of a set at which an indication shows
// something else than there, where one that is dark shows nothing.
func (c *comparison) firstElse(i *book.Indication, among span.Set) (at book.Time, ok bool) {
	at = book.Never
	if dark := among.Beyond(c.isThere(i.ID, circuit.Lit)); len(dark) > 0 {
		at = dark[0].From
	}
	v := circuit.Value{Item: i.ID}
	here, okHere := c.here.Circuit().Node(v)
	there, okThere := c.there.Circuit().Node(v)
	if !okHere || !okThere || len(among) == 0 {
		return at, at != book.Never
	}
	d := difference{c, here, there, within(i)}
	if t, ok := d.first(among); ok {
		at = min(at, t)
	}
	return at, at != book.Never
}

// within is how far two readings of a number may be apart and still be the
// same to who looks.
func within(i *book.Indication) float64 {
	if i.Shows.Type != book.Number {
		return 0
	}
	return i.Within
}

// difference compares a node of one run with the same node of the other.
type difference struct {
	*comparison
	hereNode, thereNode circuit.Node
	within              float64
}

// first is the first moment of a set at which the two differ. Steady values
// are compared change by change. Numbers that change in between are looked at
// in the instants of both runs, the knots of the flight and halfway between;
// what is found there is narrowed to the microsecond.
func (d difference) first(among span.Set) (at book.Time, ok bool) {
	if d.here.Steady(d.hereNode) && d.there.Steady(d.thereNode) {
		if s := among.And(d.steady(d.hereNode, d.thereNode)).Longer(span.Rounding); len(s) > 0 {
			return s[0].From, true
		}
		return 0, false
	}
	for _, p := range among.And(d.suspect()) {
		if t, ok := d.search(p); ok {
			return t, true
		}
	}
	return 0, false
}

// suspect gives when two continuous numbers can differ at all: while what they
// are computed from differs; always from the strike on, if they remember.
func (d difference) suspect() span.Set {
	reads, remembers := d.here.Circuit().Reads(d.hereNode)
	others, _ := d.there.Circuit().Reads(d.thereNode)
	if remembers || len(reads) != len(others) {
		return span.Set{{From: min(d.parted, d.end), To: d.end}}
	}
	var s span.Set
	for i, n := range reads {
		s = s.Or(d.exactly().steady(n, others[i]))
	}
	return s.Longer(span.Rounding)
}

func (d difference) exactly() difference {
	d.within = 0
	return d
}

// steady gives when two steady nodes differ, from their changes.
func (d difference) steady(n, m circuit.Node) span.Set {
	a, b := d.here.History(n), d.there.History(m)
	x, y := d.here.Initial(n), d.there.Initial(m)
	var s []circuit.Span
	from, i, j := book.Time(0), 0, 0
	for from < d.end {
		to := d.end
		if i < len(a) {
			to = min(to, a[i].At)
		}
		if j < len(b) {
			to = min(to, b[j].At)
		}
		if d.apart(x, y) {
			s = append(s, circuit.Span{From: from, To: to})
		}
		for ; i < len(a) && a[i].At <= to; i++ {
			x = a[i].To
		}
		for ; j < len(b) && b[j].At <= to; j++ {
			y = b[j].To
		}
		from = to
	}
	return span.Lasting(s)
}

// apart says that two values differ as an eye would see it: by more than
// within, and by more than span.Rounding.
func (d difference) apart(x, y float64) bool {
	return math.Abs(x-y) > max(d.within, 1e-9*max(math.Abs(x), math.Abs(y)))
}

// at says that the two differ at a moment and for longer than span.Rounding.
func (d difference) at(t book.Time) bool {
	later := min(t+span.Rounding, d.end)
	return d.apart(d.here.At(d.hereNode, t), d.there.At(d.thereNode, t)) &&
		d.apart(d.here.At(d.hereNode, later), d.there.At(d.thereNode, later))
}

// search looks through one stretch for the first moment at which continuous
// numbers differ.
func (d difference) search(p circuit.Span) (at book.Time, ok bool) {
	last := p.From
	if d.at(last) {
		return last, true
	}
	looks := d.looks()
	i := sort.Search(len(looks), func(i int) bool { return looks[i] > p.From })
	for ; i <= len(looks) && last < p.To-1; i++ {
		next := p.To - 1 // the stretch does not include its end
		if i < len(looks) {
			next = min(next, looks[i])
		}
		for _, t := range [2]book.Time{last + (next-last)/2, next} {
			if d.at(t) {
				return d.narrow(last, t), true
			}
			last = t
		}
	}
	return 0, false
}

// narrow halves (same, differs] down to the first microsecond that differs.
func (d difference) narrow(lo, hi book.Time) book.Time {
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; d.at(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// looks lists the instants of both runs and the knots of the flight, once each.
func (c *comparison) looks() []book.Time {
	if c.moments == nil {
		c.moments = slices.Concat(c.here.Instants(), c.there.Instants(), c.here.Path().Knots())
		slices.Sort(c.moments)
		c.moments = slices.Compact(c.moments)
	}
	return c.moments
}
