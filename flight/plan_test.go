package flight

import (
	"math"
	"math/rand/v2"
	"testing"

	"knockon/book"
)

// flightOf makes a flight block from names and values.
func flightOf(numbers map[string]float64) *book.Flight {
	f := &book.Flight{Head: book.Head{ID: "test_flight"}}
	for _, known := range book.FlightNumbers { // a fixed order
		if v, ok := numbers[known.Name]; ok {
			f.Numbers = append(f.Numbers, book.Named{Name: known.Name, Value: v})
		}
	}
	return f
}

// with gives a copy of base with some numbers changed; NaN takes one away.
func with(base map[string]float64, changes map[string]float64) map[string]float64 {
	out := map[string]float64{}
	for k, v := range base {
		out[k] = v
	}
	for k, v := range changes {
		out[k] = v
		if math.IsNaN(v) {
			delete(out, k)
		}
	}
	return out
}

func longFlight() map[string]float64 {
	return map[string]float64{
		"takeoff_mass_kg": 36000, "fuel_kg": 6000, "cruise_altitude_ft": 35000, "distance_nm": 560,
		"rotate_kt": 130, "climb_kt": 290, "climb_mach": 0.74, "descent_kt": 290, "approach_kt": 132,
		"taxi_out_min": 6, "taxi_in_min": 4, "icing_from_ft": 6000, "icing_to_ft": 14000, "headwind_kt": 20,
		"from_elevation_ft": 120, "to_elevation_ft": 40, "runway_wet": 1, "isa_deviation_c": 10,
	}
}

func shortFlight() map[string]float64 {
	return map[string]float64{
		"takeoff_mass_kg": 33000, "fuel_kg": 3000, "cruise_altitude_ft": 4000, "distance_nm": 25,
		"rotate_kt": 125, "climb_kt": 250, "climb_mach": 0.7, "descent_kt": 250, "approach_kt": 128,
		"taxi_in_min": 1, "icing_from_ft": 2500, "icing_to_ft": 3500,
	}
}

// flights that pass through every part of the profile in different ways.
func sampleFlights() map[string]map[string]float64 {
	return map[string]map[string]float64{
		"long":                       longFlight(),
		"short":                      shortFlight(),
		"above the tropopause":       with(longFlight(), map[string]float64{"cruise_altitude_ft": 41000, "distance_nm": 900}),
		"tailwind":                   with(longFlight(), map[string]float64{"headwind_kt": -15}),
		"high fields":                with(longFlight(), map[string]float64{"from_elevation_ft": 11500, "to_elevation_ft": 13000}),
		"cruise at the limit height": with(longFlight(), map[string]float64{"cruise_altitude_ft": 10000}),
		"cruise just above it":       with(longFlight(), map[string]float64{"cruise_altitude_ft": 10100}),
		"slow and low Mach":          with(longFlight(), map[string]float64{"climb_mach": 0.45, "cruise_altitude_ft": 20000, "climb_kt": 220, "descent_kt": 240}),
		"slower descent":             with(longFlight(), map[string]float64{"cruise_altitude_ft": 20000, "descent_kt": 210}),
		"slow descent from Mach":     with(longFlight(), map[string]float64{"descent_kt": 180}),
		"lowest cruise":              with(shortFlight(), map[string]float64{"cruise_altitude_ft": 1500}),
		"no taxi":                    with(longFlight(), map[string]float64{"taxi_in_min": 0, "taxi_out_min": 0}),
		"winds of their own":         with(longFlight(), map[string]float64{"headwind_kt": 28, "from_headwind_kt": 12, "to_headwind_kt": -6}),
		"winds against each other":   with(shortFlight(), map[string]float64{"headwind_kt": -18, "from_headwind_kt": 18, "to_headwind_kt": 7}),
		"hasty taxi":                 with(longFlight(), map[string]float64{"taxi_in_min": 0.1, "taxi_out_min": 0.1}),
	}
}

func mustPlan(t testing.TB, numbers map[string]float64) Path {
	t.Helper()
	p, err := Plan(flightOf(numbers), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPlan_KeepsTheOrderOfTheQuantities(t *testing.T) {
	for q, name := range map[int]string{
		qTime: "time_s", qOnGround: "on_ground", qHeight: "height_ft", qAltitude: "altitude_ft", qAirspeed: "airspeed_kt",
		qTrueAirspeed: "true_airspeed_kt", qMach: "mach", qGroundSpeed: "ground_speed_kt", qWheelSpeed: "wheel_speed_kt",
		qVerticalSpeed: "vertical_speed_ft_per_min", qAirTemperature: "air_temperature_c", qTotalTemperature: "total_temperature_c",
		qIcing: "icing", qThrust: "thrust_pct", qMass: "mass_kg", qFuel: "fuel_kg", qDistance: "distance_nm", qToGo: "to_go_nm",
		qOnGlidePath: "on_glide_path", qBraking: "braking", qHeadwind: "headwind_kt", qRunwayWet: "runway_wet",
	} {
		if book.Quantities[q].Name != name {
			t.Errorf("quantity %d is %s, not %s", q, book.Quantities[q].Name, name)
		}
	}
	if len(book.Quantities) != qRunwayWet+1 {
		t.Errorf("the book has %d quantities, the flight gives %d", len(book.Quantities), qRunwayWet+1)
	}
}

// ranges that every quantity must keep to on all sample flights.
var sensible = map[string][2]float64{
	"time_s": {0, 20000}, "on_ground": {0, 1}, "height_ft": {0, 42000}, "altitude_ft": {0, 42000}, "airspeed_kt": {0, 330},
	"true_airspeed_kt": {0, 520}, "mach": {0, 0.9}, "ground_speed_kt": {0, 520}, "wheel_speed_kt": {0, 220},
	"vertical_speed_ft_per_min": {-2500, 3000}, "air_temperature_c": {-80, 50}, "total_temperature_c": {-80, 60},
	"icing": {0, 1}, "thrust_pct": {4, 100}, "mass_kg": {20000, 40000}, "fuel_kg": {0, 7000}, "distance_nm": {0, 950},
	"to_go_nm": {0, 950}, "on_glide_path": {0, 1}, "braking": {0, 1}, "headwind_kt": {-20, 30}, "runway_wet": {0, 1},
}

func TestPlan_EveryQuantityIsSensibleThroughout(t *testing.T) {
	for name, numbers := range sampleFlights() {
		t.Run(name, func(t *testing.T) {
			p := mustPlan(t, numbers)
			for q, quantity := range book.Quantities {
				bounds, ok := sensible[quantity.Name]
				if !ok {
					t.Fatalf("no range for %s", quantity.Name)
				}
				for at := book.Time(0); at < p.End(); at += book.Second {
					v := p.Value(q, at)
					if !(v >= bounds[0] && v <= bounds[1]) {
						t.Fatalf("%s is %g at %.0f s", quantity.Name, v, at.Seconds())
					}
					if quantity.Type == book.YesNo && v != 0 && v != 1 {
						t.Fatalf("%s is %g at %.0f s, neither yes nor no", quantity.Name, v, at.Seconds())
					}
				}
			}
		})
	}
}

func TestPlan_KnotsAreAscendingAndFew(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		knots := p.Knots()
		if knots[0] != 0 || knots[len(knots)-1] != p.End() || len(knots) > 300 {
			t.Errorf("%s: %d knots from %d to %d, end %d", name, len(knots), knots[0], knots[len(knots)-1], p.End())
		}
		for i := 1; i < len(knots); i++ {
			if knots[i] <= knots[i-1] {
				t.Errorf("%s: knots %d and %d are not ascending", name, i-1, i)
			}
		}
	}
}

// What may not jump, and by how much a microsecond may move it.
func TestPlan_IsContinuousAtTheKnots(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		for _, knot := range p.Knots()[1:] {
			for q, tol := range map[int]float64{
				qAltitude: 1e-3, qHeight: 1e-3, qAirspeed: 1e-3, qTrueAirspeed: 1e-3, qMach: 1e-5, qGroundSpeed: 1e-3, qDistance: 1e-6,
				qToGo: 1e-6, qMass: 1e-3, qFuel: 1e-3, qThrust: 1e-3, qAirTemperature: 1e-3, qTotalTemperature: 1e-3,
			} {
				before, after := p.Value(q, knot-1), p.Value(q, knot)
				if !(math.Abs(after-before) <= tol) {
					t.Errorf("%s: %s jumps from %g to %g at %.3f s", name, book.Quantities[q].Name, before, after, knot.Seconds())
				}
			}
		}
	}
}

func TestPlan_WheelsJumpOnlyAtTouchdown(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		touch := changes(p, qOnGround)[1]
		for _, knot := range p.Knots()[1:] {
			before, after := p.Value(qWheelSpeed, knot-1), p.Value(qWheelSpeed, knot)
			if knot != touch && !(math.Abs(after-before) < 1e-3) {
				t.Errorf("%s: wheels jump from %g to %g at %.3f s", name, before, after, knot.Seconds())
			}
		}
	}
}

func TestPlan_YesNoIsConstantBetweenKnots(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		knots := p.Knots()
		for i := 1; i < len(knots); i++ {
			for _, q := range []int{qOnGround, qIcing, qOnGlidePath, qBraking, qRunwayWet} {
				at := knots[i-1] + (knots[i]-knots[i-1])/3
				if p.Value(q, knots[i-1]) != p.Value(q, at) || p.Value(q, at) != p.Value(q, knots[i]-1) {
					t.Errorf("%s: %s changes between knots %d and %d", name, book.Quantities[q].Name, i-1, i)
				}
			}
		}
	}
}

// times of all changes of a yes/no.
func changes(p Path, q int) (at []book.Time) {
	for _, knot := range p.Knots() {
		if knot > 0 && p.Value(q, knot-1) != p.Value(q, knot) {
			at = append(at, knot)
		}
	}
	return at
}

func TestPlan_IsOnTheGroundOnlyAtBothEnds(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		turns := changes(p, qOnGround)
		if len(turns) != 2 || p.Value(qOnGround, 0) != 1 || p.Value(qOnGround, p.End()) != 1 {
			t.Fatalf("%s: on_ground changes at %v", name, turns)
		}
		lift, touch := turns[0], turns[1]
		within(t, name+": distance in the air", p.Value(qDistance, touch)-p.Value(qDistance, lift), numbers["distance_nm"], 1e-4)
		within(t, name+": wheels at lift-off", p.Value(qWheelSpeed, lift), p.Value(qGroundSpeed, lift), 1e-6)
		within(t, name+": wheels after 10 s", p.Value(qWheelSpeed, lift+10*book.Second), 0, 1e-6)
		within(t, name+": wheels after 5 s", p.Value(qWheelSpeed, lift+5*book.Second), p.Value(qGroundSpeed, lift)/2, 1e-3)
		within(t, name+": wheels at touchdown", p.Value(qWheelSpeed, touch), 0, 1e-6)
		within(t, name+": wheels spun up", p.Value(qWheelSpeed, touch+book.Second), p.Value(qGroundSpeed, touch+book.Second), 1e-6)
		for at := book.Time(0); at <= p.End(); at += book.Second / 2 {
			if p.Value(qOnGround, at) == 0 {
				continue
			}
			if h := p.Value(qHeight, at); h != 0 {
				t.Fatalf("%s: height %g on the ground at %.1f s", name, h, at.Seconds())
			}
			spinning := at >= touch && at < touch+book.Second
			if !spinning && p.Value(qWheelSpeed, at) != p.Value(qGroundSpeed, at) && at != 0 {
				t.Fatalf("%s: wheels %g, ground %g at %.1f s", name, p.Value(qWheelSpeed, at), p.Value(qGroundSpeed, at), at.Seconds())
			}
		}
	}
}

func TestPlan_DistanceGrowsAndFuelBurns(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		for at := book.Second; at <= p.End(); at += book.Second {
			if p.Value(qDistance, at) < p.Value(qDistance, at-book.Second) {
				t.Fatalf("%s: distance falls at %.0f s", name, at.Seconds())
			}
			if p.Value(qToGo, at) > p.Value(qToGo, at-book.Second) {
				t.Fatalf("%s: distance to go grows at %.0f s", name, at.Seconds())
			}
			if p.Value(qFuel, at) >= p.Value(qFuel, at-book.Second) {
				t.Fatalf("%s: fuel does not fall at %.0f s", name, at.Seconds())
			}
			within(t, name+": mass less fuel", p.Value(qMass, at)-p.Value(qFuel, at), numbers["takeoff_mass_kg"]-numbers["fuel_kg"], 1e-6)
		}
	}
}

// The distance is a cubic through Simpson's rule; here it is held against a
// sum of the ground speed over steps of 10 ms.
func TestPlan_DistanceIsTheSumOfGroundSpeed(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		sum, worst := 0.0, 0.0
		const step = book.Second / 100
		for at := step / 2; at < p.End(); at += step {
			sum += p.Value(qGroundSpeed, at) / 3600 * step.Seconds()
			worst = max(worst, math.Abs(sum-p.Value(qDistance, at+step/2)))
		}
		if worst > 2e-4 {
			t.Errorf("%s: distance is off by up to %g nm", name, worst)
		}
	}
}

func TestPlan_EndsStationary(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		for _, at := range []book.Time{p.End() - book.Second/2, p.End(), p.End() + book.Second} {
			within(t, name+": ground speed", p.Value(qGroundSpeed, at), 0, 0)
			within(t, name+": wheels", p.Value(qWheelSpeed, at), 0, 0)
			within(t, name+": to go", p.Value(qToGo, at), 0, 0)
			within(t, name+": braking", p.Value(qBraking, at), 0, 0)
		}
		within(t, name+": still at the start", p.Value(qGroundSpeed, 0), 0, 0)
		within(t, name+": cut to the start", p.Value(qTime, -5), 0, 0)
		within(t, name+": cut to the end", p.Value(qTime, book.Never), p.End().Seconds(), 0)
	}
}

func TestPlan_ValueDependsOnItsMomentAlone(t *testing.T) {
	p, again := mustPlan(t, longFlight()), mustPlan(t, longFlight())
	random := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		q, at := random.IntN(len(book.Quantities)), book.Time(random.Int64N(int64(p.End())))
		if p.Value(q, at) != again.Value(q, at) {
			t.Fatalf("%s differs at %d", book.Quantities[q].Name, at)
		}
	}
}

func TestPlan_IcesOnlyInTheLayerAndInTheAir(t *testing.T) {
	for name, numbers := range sampleFlights() {
		if name == "high fields" || name == "lowest cruise" {
			continue // never in the layer
		}
		p := mustPlan(t, numbers)
		seen := false
		for at := book.Time(0); at <= p.End(); at += book.Second / 2 {
			altitude := p.Value(qAltitude, at)
			inside := p.Value(qOnGround, at) == 0 && altitude >= numbers["icing_from_ft"] && altitude < numbers["icing_to_ft"]
			if inside != (p.Value(qIcing, at) == 1) {
				t.Fatalf("%s: icing %g at %g ft", name, p.Value(qIcing, at), altitude)
			}
			seen = seen || inside
		}
		if !seen {
			t.Errorf("%s: never in the icing layer", name)
		}
	}
	high := mustPlan(t, with(longFlight(), map[string]float64{"from_elevation_ft": 7000}))
	within(t, "icing on the ground in the layer", high.Value(qIcing, 0), 0, 0)
}

func TestPlan_KeepsTheSpeedLimitBelow10000Feet(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		for at := book.Time(0); at <= p.End(); at += book.Second / 2 {
			if p.Value(qAltitude, at) < 10000 && p.Value(qAirspeed, at) > 250+1e-6 {
				t.Fatalf("%s: %g kt at %g ft", name, p.Value(qAirspeed, at), p.Value(qAltitude, at))
			}
			if p.Value(qMach, at) > numbers["climb_mach"]+1e-9 {
				t.Fatalf("%s: Mach %g at %g ft", name, p.Value(qMach, at), p.Value(qAltitude, at))
			}
		}
	}
}

func TestPlan_FollowsTheGlidePath(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		on := changes(p, qOnGlidePath)
		if len(on) != 2 || p.Value(qOnGround, on[1]) != 1 {
			t.Fatalf("%s: on_glide_path changes at %v", name, on)
		}
		for at := on[0]; at < on[1]; at += book.Second / 2 {
			if height := p.Value(qHeight, at); height > 50 {
				path := 50 + p.Value(qToGo, at)*6076.1155*math.Tan(3*math.Pi/180)
				within(t, name+": height on the path", height, path, 1)
			}
			if p.Value(qHeight, at) < 990 && p.Value(qHeight, at) > 60 {
				within(t, name+": approach speed", p.Value(qAirspeed, at), numbers["approach_kt"], 0.01)
			}
		}
		sink := p.Value(qVerticalSpeed, on[1]-1)
		if sink > -60 || sink < -360 {
			t.Errorf("%s: touches down at %g ft/min", name, sink)
		}
	}
}

func TestPlan_ThrustAndBrakesFollowThePhase(t *testing.T) {
	p := mustPlan(t, longFlight())
	turns := changes(p, qOnGround)
	lift, touch := turns[0], turns[1]
	within(t, "thrust at lift-off", p.Value(qThrust, lift), 100, 0)
	within(t, "thrust in cruise", p.Value(qThrust, lift+2400*book.Second), cruiseThrust, 0)
	within(t, "thrust in the descent", p.Value(qThrust, touch-900*book.Second), 5, 0)
	within(t, "thrust on the approach", p.Value(qThrust, touch-30*book.Second), 45, 0)
	within(t, "thrust after touchdown", p.Value(qThrust, touch+5*book.Second), 5, 0)
	within(t, "brakes on the landing roll", p.Value(qBraking, touch+5*book.Second), 1, 0)
	for at := lift - 20*book.Second; at <= touch; at += book.Second {
		if p.Value(qBraking, at) != 0 {
			t.Fatalf("braking at %.0f s", at.Seconds())
		}
	}
}

func TestPlan_TakesAboutAsLongAsSuchAFlightDoes(t *testing.T) {
	within(t, "long flight, minutes", mustPlan(t, longFlight()).End().Seconds()/60, 100, 12)
	within(t, "short flight, minutes", mustPlan(t, shortFlight()).End().Seconds()/60, 9.5, 1.5)
}

func TestPlan_GroundBelowFollowsTheElevations(t *testing.T) {
	numbers := with(longFlight(), map[string]float64{"to_elevation_ft": 3000})
	p := mustPlan(t, numbers)
	within(t, "altitude at the start", p.Value(qAltitude, 0), 120, 0)
	within(t, "altitude at the end", p.Value(qAltitude, p.End()), 3000, 0)
	touch := changes(p, qOnGround)[1]
	at := touch - 200*book.Second
	within(t, "height before landing", p.Value(qHeight, at), p.Value(qAltitude, at)-3000, 1e-6)
}

func TestPlan_ScalesTheFuelToTheAircraft(t *testing.T) {
	burn := func(a *book.Aircraft) float64 {
		p, err := Plan(flightOf(longFlight()), a)
		if err != nil {
			t.Fatal(err)
		}
		return p.Value(qFuel, 0) - p.Value(qFuel, p.End())
	}
	aircraft := func(v float64) *book.Aircraft {
		return &book.Aircraft{Numbers: []book.Named{{Name: "cruise_fuel_kg_per_h", Value: v}}}
	}
	within(t, "ratio of burns", burn(aircraft(2000))/burn(aircraft(1000)), 2, 1e-9)
	p, _ := Plan(flightOf(longFlight()), aircraft(1800))
	at := 3000 * book.Second
	within(t, "cruise flow", (p.Value(qFuel, at)-p.Value(qFuel, at+book.Second))*3600, 1800, 0.01)
	within(t, "fuel at brake release", p.Value(qFuel, 360*book.Second), 6000, 0.01)
}
