package dispatch_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/dispatch"
	"knockon/run"
	"knockon/scenario"
)

// drag lets the flight of the frame be flown by its forces: a round figure for each.
const drag = `
  takeoff_thrust_kn         = 69
  thrust_density_ratio      = 0.8
  thrust_mach_ratio         = 0.3
  climb_thrust_ratio        = 0.9
  cruise_thrust_ratio       = 0.82
  idle_thrust_ratio         = 0.05
  specific_fuel_kg_per_kn_h = 50
  specific_fuel_mach_ratio  = 0.9
  idle_fuel_kg_per_h        = 250
  setting "up" {
    zero_lift_drag_ratio = 0.022
    induced_drag_ratio   = 0.043
    most_lift_ratio      = 1.45
  }
`

// levers close by one receiver that lies, unless the other one is there to be
// compared with it; or by their own motor.
const levers = `
unit "height_1" {}
unit "height_2" {
  fault "reads_low" {}
}
unit "pump" {}
unit "levers" {
  fault "close" {}
}
effect "thrust_closed" {
  value = levers.close || (height_2.reads_low && !height_1)
}
deferral "height_out" {
  items    = [height_1]
  category = "C"
}
`

// TestOf_SaysWhereTheFlightDoesNotArrive: of failures flown one by one, those with
// which only the aircraft as it goes does not arrive are findings, and those with
// which neither does are named.
func TestOf_SaysWhereTheFlightDoesNotArrive(t *testing.T) {
	text := strings.Replace(frame, "  max_altitude_ft = 39000\n", "  max_altitude_ft = 39000\n"+drag, 1) + levers
	b, diags := book.Load(t.Context(), fstest.MapFS{"toy.hcl": {Data: []byte(text)}})
	if b == nil {
		t.Fatal(diags)
	}
	courses := scenario.NewCourses(b)
	a, err := dispatch.Of(t.Context(), courses, dispatch.Question{Items: []string{"height_1"}, In: "cruise + 10 s"})
	if err != nil {
		t.Fatal(err)
	}
	course, err := courses.Of("", "")
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
	for _, f := range []book.FailureRef{{Unit: "height_2", Fault: "reads_low"}, {Unit: "levers", Fault: "close"}, {Unit: "pump"}} {
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
	if len(ends) != 3 {
		t.Errorf("the failures do not end in three ways, but %v", ends)
	}
}
