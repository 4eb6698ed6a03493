package sets

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"knockon/ledger"
	"knockon/say"
	"knockon/sweep"
	"knockon/ways/logic"
)

// FlownOrder is how many failures together are flown to the end of the flight.
const FlownOrder = 2

// Flown is what runs to the end of the flight add to a report: its failures
// strike at the same moment, and the flight goes on.
type Flown struct {
	Says   string   `json:"says"` // how it was looked, and up to where; or why it could not be
	Listed          // sets that do it there and are not listed for the aircraft held still; no part of one does it
	Not    []string `json:"held_still_only"`      // sets that do it held still, and not on that flight
	Broken string   `json:"broken_off,omitempty"` // that runs broke off; "" if none did
}

// NotFlown says why nothing was flown.
func NotFlown(why string) *Flown { return &Flown{Says: why, Listed: listed(nil)} }

// Flights is a sweep of failures that strike at the moment of a report.
type Flights struct {
	Failures []string // the names of what the sheet numbers
	Sheet    *sweep.Sheet
	Order    int // look at up to so many failures, not more than the sheet has
}

// suits says that an outcome is what the condition seeks: each function is lost
// at some moment, and by the rows of the ledger untold or told wrong.
func (c Condition) suits(o sweep.Outcome, functions []int32) bool {
	for _, f := range functions {
		l, ok := o.Loss(f)
		switch {
		case !ok:
			return false
		case c.Told == Untold && (l.Class == ledger.Told || l.Class == ledger.ToldLate):
			return false
		case c.Told == Wrong && l.Class != ledger.ToldWrong:
			return false
		}
	}
	return true
}

// Fly adds to a report what flights bring about. The functions of the condition
// have these numbers in the build.
func (c Condition) Fly(r *Report, l *logic.Logic, f Flights, functions []int32, most int) {
	w := flown{Flights: f, number: map[string]int{}, suits: func(s sweep.Set) bool { return c.suits(f.Sheet.Outcome(s), functions) }}
	for i, name := range f.Failures {
		w.number[name] = i
	}
	w.find()
	r.Flown = &Flown{Broken: broken(len(f.Sheet.Broken))}
	for _, names := range r.small {
		if s, ok := w.numbers(names); ok && len(s) <= f.Order && !w.suits(s) {
			r.Flown.Not = append(r.Flown.Not, strings.Join(names, " + "))
		}
	}
	var orders []Order
	for size := 1; size <= f.Order; size++ {
		if o := w.order(l, r.small, size, most); len(o.Sets) > 0 {
			orders = append(orders, o)
		}
	}
	r.Flown.Listed = listed(orders)
	r.Flown.Says = says(f.Order, len(orders) > 0)
	if len(orders) > 0 {
		r.Never, r.Verdict = false, ""
	}
}

// flown looks through flights for the smallest sets.
type flown struct {
	Flights
	number map[string]int // of a failure
	suits  func(sweep.Set) bool
	sets   []sweep.Set
}

// find looks at every failure, and at every two of which neither does it alone.
func (w *flown) find() {
	var rest []int
	for a := range w.Failures {
		if w.suits(sweep.Set{a}) {
			w.sets = append(w.sets, sweep.Set{a})
		} else {
			rest = append(rest, a)
		}
	}
	if w.Order < 2 {
		return
	}
	for i, a := range rest {
		for _, b := range rest[i+1:] {
			if s := (sweep.Set{a, b}); w.suits(s) {
				w.sets = append(w.sets, s)
			}
		}
	}
}

func (w *flown) numbers(names []string) (s sweep.Set, ok bool) {
	for _, n := range names {
		i, known := w.number[n]
		if !known {
			return nil, false
		}
		s = append(s, i)
	}
	slices.Sort(s)
	return s, true
}

// order lists the sets of a size that are not among those known.
func (w *flown) order(l *logic.Logic, known [][]string, size, most int) Order {
	had := map[uint64]bool{}
	for _, names := range known {
		if s, ok := w.numbers(names); ok {
			had[s.Key()] = true
		}
	}
	o := Order{Size: size}
	for _, s := range w.sets {
		if len(s) == size && !had[s.Key()] {
			var names []string
			for _, f := range s {
				names = append(names, w.Failures[f])
			}
			o.Sets = append(o.Sets, setOf(l, names))
		}
	}
	o.Count = big.NewInt(int64(len(o.Sets)))
	slices.SortStableFunc(o.Sets, func(a, b Set) int { return -cmp.Compare(a.P, b.P) })
	o.All = len(o.Sets) <= most
	o.Sets = o.Sets[:min(len(o.Sets), most)]
	return o
}

// setOf is a set of events by name, and how likely all of them are.
func setOf(l *logic.Logic, names []string) Set {
	p := 1.0
	for _, n := range names {
		t, ok := l.Find(n)
		if !ok {
			return Set{names, math.NaN()}
		}
		p *= l.Events()[l.K(t)].P
	}
	return Set{names, p}
}

// says is how it was flown on. What the crew would do is no part of it.
func says(order int, some bool) string {
	alone, more := "one failure alone and two together", "three together were not flown"
	if order == 1 {
		alone, more = "one failure alone", "two together were not flown"
	}
	found := "no others were found"
	if some {
		found = "these bring it about too, at once or later"
	}
	return fmt.Sprintf("Flown on from there to the end of the flight, %s, with nothing moved by hand beyond the acts of the flight: %s; %s.", alone, found, more)
}

func broken(n int) string {
	if n == 0 {
		return ""
	}
	return say.Counted(n, "of these runs", "of these runs") + " broke off in a loop that never settles; what comes after that is not known."
}

// NotOnFlight words the sets that do it held still only.
func (f *Flown) NotOnFlight() string {
	if len(f.Not) == 0 {
		return ""
	}
	all := slices.Clone(f.Not[:min(len(f.Not), mostNot)])
	if more := len(f.Not) - mostNot; more > 0 {
		all = append(all, fmt.Sprintf("and %d more", more))
	}
	return "Of the sets held still, these do not bring it about on that flight: " + strings.Join(all, "; ") + "."
}

// mostNot is how many sets are named that do it held still only.
const mostNot = 12
