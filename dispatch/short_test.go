package dispatch_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/dispatch"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/scenario"
)

// TestOf_SaysWhereTheFlightDoesNotArrive: of some failures of the demonstration, flown
// one by one, those with which only the aircraft as it goes does not arrive are
// findings, and those with which neither does are named.
func TestOf_SaysWhereTheFlightDoesNotArrive(t *testing.T) {
	courses := scenario.NewCourses(corvane.Book(t))
	a, err := dispatch.Of(t.Context(), courses, dispatch.Question{Items: []string{"radio_alt_1"}, Flight: "short_hop", In: "descent + 10 s"})
	if err != nil {
		t.Fatal(err)
	}
	course, err := courses.Of("", "short_hop")
	if err != nil {
		t.Fatal(err)
	}
	arrives := func(f book.FailureRef, out ...book.FailureRef) bool {
		k := run.Strike{At: book.Moment{Offset: a.Moments[0].At}, Fail: []book.FailureRef{f}}
		r, err := course.Fly(t.Context(), run.Scenario{Strikes: []run.Strike{k}, Inoperative: out, FliesOn: true})
		if err != nil {
			t.Fatal(err)
		}
		return r.Ending().Arrived()
	}
	ends := map[[2]bool]int{}
	for _, f := range []book.FailureRef{{Unit: "radio_alt_2", Fault: "reads_low"}, {Unit: "pack_left"}} {
		was, is := arrives(f), arrives(f, a.Relief.Items...)
		ends[[2]bool{was, is}]++
		found := slices.ContainsFunc(a.Breaks, func(b dispatch.Break) bool {
			return b.Function == nil && b.Step == 2 && b.Severity == "catastrophic" && b.Failures[0] == f && strings.Contains(b.Says, "slows down to the stall")
		})
		if found != (was && !is) {
			t.Errorf("%s: found %v; it arrives with everything working %v, as it goes %v", f, found, was, is)
		}
		if named := slices.Contains(a.Short, f.String()); named != (!was && !is) {
			t.Errorf("%s: named %v; it arrives with everything working %v, as it goes %v", f, named, was, is)
		}
	}
	if len(ends) != 2 {
		t.Errorf("the failures do not end in two ways, but %v", ends)
	}
}
