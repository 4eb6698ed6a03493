package oracle

import (
	"fmt"
	"math"

	"knockon/book"
)

// Other is what another evaluator says about the same flight.
type Other interface {
	// Changes gives the history of an aspect that is no number, as in History;
	// ok is false if the other does not know the aspect.
	Changes(a Aspect) (changes []Change, ok bool)
	// Number gives the value of a number at a moment.
	Number(a Aspect, at book.Time) (value float64, ok bool)
}

// Tolerance is how far two evaluators may be apart and still agree.
type Tolerance struct {
	Time     book.Time
	Relative float64 // of numbers
	Absolute float64 // of numbers
}

// Difference is a disagreement about one aspect.
type Difference struct {
	Aspect
	At   book.Time
	Want string // what the trace says
	Got  string // what the other says
}

func (d Difference) String() string {
	return fmt.Sprintf("%s at %g s: want %s, got %s", d.Aspect, d.At.Seconds(), d.Want, d.Got)
}

// Compare holds another evaluator to the trace and gives the first difference
// of every aspect on which they differ, in the order of the trace.
//
// Two histories agree if each value that one of them takes is taken by the
// other within the tolerance of every moment of it. Left out are values that
// last for some time but shorter than the tolerance, which fixed steps may
// miss, and those that come so late that the end of the flight cuts them off.
// A value of no duration is not left out: both must see it. Numbers are
// compared at the trace's samples; where the other changes quickly around one,
// any value it has within the tolerance of time will do.
func Compare(t *Trace, other Other, tol Tolerance) []Difference {
	var all []Difference
	for _, h := range t.Histories {
		d := t.compareNumber(h, other, tol)
		if !h.IsNumber() {
			d = t.compareHistory(h, other, tol)
		}
		if d != nil {
			all = append(all, *d)
		}
	}
	return all
}

func (t *Trace) compareHistory(h *History, other Other, tol Tolerance) *Difference {
	got, ok := other.Changes(h.Aspect)
	if !ok || len(got) == 0 {
		return &Difference{h.Aspect, 0, "a history", "none"}
	}
	if at, v, bad := uncovered(h.Changes, got, t.End, tol.Time); bad {
		return &Difference{h.Aspect, at, v.String(), near(got, at).String()}
	}
	if at, v, bad := uncovered(got, h.Changes, t.End, tol.Time); bad {
		return &Difference{h.Aspect, at, near(h.Changes, at).String(), v.String()}
	}
	return nil
}

// uncovered finds the first moment at which a has a value that b does not have
// within tol of it.
func uncovered(a, b []Change, end, tol book.Time) (book.Time, Val, bool) {
	for i, c := range a {
		until := end
		if i+1 < len(a) {
			until = min(end, a[i+1].At)
		}
		brief := until > c.At && until-c.At < tol
		if brief || c.At > end-tol {
			continue
		}
		if at, bad := gap(c, until, b, end, tol); bad {
			return at, c.Value, true
		}
	}
	return 0, Val{}, false
}

// gap finds the first moment from c.At to until that is farther than tol from
// every moment at which b has the value of c.
func gap(c Change, until book.Time, b []Change, end, tol book.Time) (book.Time, bool) {
	covered := c.At // everything before it has been found in b
	for i, other := range b {
		otherUntil := end
		if i+1 < len(b) {
			otherUntil = b[i+1].At
		}
		if other.Value != c.Value || otherUntil+tol < covered {
			continue
		}
		if other.At-tol > covered {
			break
		}
		if covered = max(covered, otherUntil+tol); covered >= until {
			return 0, false
		}
	}
	return covered, true
}

// near gives the value at a moment.
func near(changes []Change, at book.Time) Val {
	v := changes[0].Value
	for _, c := range changes {
		if c.At <= at {
			v = c.Value
		}
	}
	return v
}

func (t *Trace) compareNumber(h *History, other Other, tol Tolerance) *Difference {
	if !h.IsNumber() {
		return nil
	}
	for _, c := range h.Changes {
		got, ok := other.Number(h.Aspect, c.At)
		if !ok {
			return &Difference{h.Aspect, c.At, c.Value.String(), "none"}
		}
		if !closeTo(c.Value.Number, got, got, tol) && !closeNearby(h.Aspect, c, other, tol, t.End) {
			return &Difference{h.Aspect, c.At, c.Value.String(), fmt.Sprint(got)}
		}
	}
	return nil
}

// closeNearby tells whether the other has about the value of c somewhere
// within the tolerance of its time.
func closeNearby(a Aspect, c Change, other Other, tol Tolerance, end book.Time) bool {
	early, _ := other.Number(a, max(0, c.At-tol.Time))
	late, _ := other.Number(a, min(end, c.At+tol.Time))
	return closeTo(c.Value.Number, early, late, tol)
}

// closeTo tells whether want lies between x and y, or nearly so.
func closeTo(want, x, y float64, tol Tolerance) bool {
	if same(want, x) || same(want, y) {
		return true
	}
	slack := tol.Absolute + tol.Relative*math.Max(math.Abs(want), math.Max(math.Abs(x), math.Abs(y)))
	return want >= math.Min(x, y)-slack && want <= math.Max(x, y)+slack
}
