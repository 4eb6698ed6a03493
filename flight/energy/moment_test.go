package energy_test

import (
	"context"
	"math"
	"testing"

	"knockon/flight"
	"knockon/flight/energy"
	"knockon/internal/corvane"
)

// TestStateAt_TakesUpAFlight: from the cruise of the demonstration's long
// flight, a diversion to where that flight lands costs about what the flight
// itself has left to burn.
func TestStateAt_TakesUpAFlight(t *testing.T) {
	build := corvane.Build(t, "")
	f := build.Flights[0]
	p, err := flight.Plan(f, build.Aircraft)
	if err != nil {
		t.Fatal(err)
	}
	s := energy.StateAt(p, p.End()/2)
	plan := energy.PlanOf(f)
	if math.Abs(s.AltitudeFt-plan.CruiseFt) > 1 || math.Abs(s.TASKt/plan.Air.SoundKt(s.AltitudeFt)-plan.ClimbMach) > 1e-6 || s.MassKg < 30000 || s.TimeS != (p.End()/2).Seconds() {
		t.Errorf("half way the flight is at %+v", s)
	}
	left := 540*1852 - s.DistanceM
	d, err := energy.Divert(context.Background(), aircraft(t), energy.Clean(), s, plan, left)
	if err != nil || d.End != energy.Arrived {
		t.Fatal(err, d.End)
	}
	if burnt := s.FuelKg - energy.StateAt(p, p.End()).FuelKg; math.Abs(d.FuelKg()/burnt-1) > 0.25 {
		t.Errorf("%.0f kg, the prescribed flight %.0f", d.FuelKg(), burnt)
	} else {
		t.Logf("%.0f kg, the prescribed flight %.0f", d.FuelKg(), burnt)
	}
}
