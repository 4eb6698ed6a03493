package energy

import (
	"context"

	"knockon/book"
	"knockon/flight"
)

// Flows are those that a final reserve is counted in: of the clean aircraft with
// nothing failed, kg/h.
type Flows struct {
	Hold   float64 // holding at 1,500 ft at its mass
	Cruise float64 // at the cruising level, 250 kt; that of holding where it cannot cruise there
}

// FlowsAt are those of the aircraft at its mass at a moment of its path.
func (p *Path) FlowsAt(ctx context.Context, t book.Time, f *book.Flight) (Flows, error) {
	a, s := p.mission.Aircraft(), StateAt(p, t)
	s.AltitudeFt, s.TASKt = 1500, 220
	held, err := Hold(ctx, a, Clean(), s, PlanOf(f), 600)
	if err != nil {
		return Flows{}, err
	}
	flows := Flows{Hold: held.FuelKg() / held.Seconds() * 3600}
	flows.Cruise = flows.Hold
	ft, _ := f.Number("cruise_altitude_ft")
	dev, _ := f.Number("isa_deviation_c")
	if q, ok := CruiseAt(a, Clean(), s.MassKg, ft, 250, flight.Air{DeviationC: dev}); ok {
		flows.Cruise = q.KgPerH
	}
	return flows, nil
}
