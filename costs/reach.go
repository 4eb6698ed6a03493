package costs

import (
	"context"
	"math"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/region"
)

// Boundary is how far the aircraft can go in every direction and touch down with
// the final reserve: places at even bearings from north, clockwise. The systems
// count as they are half way to the farthest place that was looked at. It counts
// fuel alone; what runs out meanwhile, and the runway, are for the places to judge.
type Boundary struct {
	From   geo.Place
	Metres []float64 // by bearing; 0 where the reserve is gone already
	Places []geo.Place
}

// bearings is how many directions a boundary has.
const bearings = 36

// Boundaries gives the boundary of the failed and of the healthy aircraft.
func (c *Costs) Boundaries(ctx context.Context) (failed, healthy Boundary, err error) {
	if len(c.Places) == 0 || c.desk.rows != nil { // no row says how far the fuel goes
		return failed, healthy, nil
	}
	last := &c.Places[len(c.Places)-1]
	if failed, err = c.desk.boundary(ctx, c.desk.underWay(&last.Failed), bearings); err != nil {
		return failed, healthy, err
	}
	healthy, err = c.desk.boundary(ctx, c.desk.underWay(&last.Healthy), bearings)
	return failed, healthy, err
}

// underWay is what the systems do half way along a diversion.
func (d *desk) underWay(s *Side) energy.Config {
	half := book.AtSeconds(s.Minutes * 30)
	return s.record.Effects(d.aircraft, d.at+half)
}

func (d *desk) boundary(ctx context.Context, h energy.Config, n int) (b Boundary, err error) {
	b.From = d.from
	guess := 500e3
	for i := range n {
		bearing := 360 * float64(i) / float64(n)
		m, err := d.range1(ctx, h, bearing, guess)
		if err != nil {
			return b, err
		}
		if m > 0 {
			guess = m
		}
		at, _ := geo.Along(d.from, bearing, m)
		b.Metres, b.Places = append(b.Metres, m), append(b.Places, at)
	}
	return b, nil
}

// farthestM is beyond what a geodesic can say: half round the earth.
const farthestM = 19.9e6

// range1 is how far it goes along one bearing: the secant method on the fuel that
// is left, which falls all but straight with the distance.
func (d *desk) range1(ctx context.Context, h energy.Config, bearing, guess float64) (float64, error) {
	spare := func(m float64) (float64, error) { return d.spareKg(ctx, h, bearing, m) }
	a, b := 0.9*guess, guess
	fa, err := spare(a)
	if err != nil {
		return 0, err
	}
	for range 12 {
		fb, err := spare(b)
		if err != nil {
			return 0, err
		}
		if math.Abs(fb) < 0.5 { // kg
			return b, nil
		}
		if fa == fb {
			break
		}
		next := min(max(b-fb*(b-a)/(fb-fa), 0), farthestM)
		if a, fa, b = b, fb, next; a == b {
			break
		}
	}
	return b, nil
}

// spareKg is the fuel above the final reserve at a touchdown so far away; it may
// be negative.
func (d *desk) spareKg(ctx context.Context, h energy.Config, bearing, m float64) (float64, error) {
	s := energy.StateAt(d.here.Path(), d.at)
	fuelKg := s.FuelKg
	s.FuelKg = s.MassKg // so that no flight ends dry
	plan := energy.PlanOf(d.course.Flight)
	plan.Air, plan.Wind, plan.ElevationFt = d.std, flight.Over(0, 0, region.Along(d.levels, bearing)), 0
	p, err := energy.Divert(ctx, d.aircraft, h, s, plan, m)
	if err != nil {
		return 0, err
	}
	burnt := p.FuelKg()
	return fuelKg - burnt - d.rule.FinalReserveKg(fuel.Burn{CruiseKgPerH: d.cruise, HoldKgPerH: d.holdKgPerH}), nil
}

// Within says that a place so far away on a bearing is inside a boundary. Between
// two bearings the boundary runs in proportion.
func (b *Boundary) Within(bearing, metres float64) bool {
	n := len(b.Metres)
	if n == 0 {
		return false
	}
	x := geo.Course(bearing) / 360 * float64(n)
	i := int(x) % n
	part := x - math.Floor(x)
	return metres <= b.Metres[i]*(1-part)+b.Metres[(i+1)%n]*part
}

// Reached lists the airfields of a list inside a boundary, the nearest first.
func (b *Boundary) Reached(list *airfield.List) (hits []airfield.Hit) {
	most := 0.0
	for _, m := range b.Metres {
		most = max(most, m)
	}
	for _, h := range list.Near(b.From, most) {
		if b.Within(h.Line.Start, h.Line.Metres) {
			hits = append(hits, h)
		}
	}
	return hits
}
