package flight

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/book"
)

func TestPlan_ComplainsClearly(t *testing.T) {
	none := math.NaN()
	for name, c := range map[string]struct {
		changes map[string]float64
		number  string
		says    string
	}{
		"missing":             {map[string]float64{"rotate_kt": none}, "rotate_kt", "is missing: give it"},
		"negative mass":       {map[string]float64{"takeoff_mass_kg": -1}, "takeoff_mass_kg", "makes no sense"},
		"infinite distance":   {map[string]float64{"distance_nm": math.Inf(1)}, "distance_nm", "makes no sense"},
		"fuel above mass":     {map[string]float64{"fuel_kg": 40000}, "fuel_kg", "not below the take-off mass"},
		"too short":           {map[string]float64{"distance_nm": 60}, "distance_nm", "give at least"},
		"too low":             {map[string]float64{"cruise_altitude_ft": 900}, "cruise_altitude_ft", "give at least 1620"},
		"under the ground":    {map[string]float64{"to_elevation_ft": 14000, "cruise_altitude_ft": 12000}, "cruise_altitude_ft", "give at least 15500"},
		"half an icing layer": {map[string]float64{"icing_to_ft": none}, "icing_to_ft", "give both"},
		"half a wet runway":   {map[string]float64{"runway_wet": 0.5}, "runway_wet", "give 1"},
		"gale":                {map[string]float64{"headwind_kt": 400}, "headwind_kt", "makes no sense"},
		"strong wind":         {map[string]float64{"headwind_kt": 120}, "headwind_kt", "lower it"},
		"storm at take-off":   {map[string]float64{"from_headwind_kt": 110}, "from_headwind_kt", "over the ground at take-off: lower it"},
		"storm at landing":    {map[string]float64{"to_headwind_kt": 110}, "to_headwind_kt", "over the ground at landing: lower it"},
		"slow climb":          {map[string]float64{"climb_kt": 130}, "climb_kt", "below the speed just after"},
		"slow descent":        {map[string]float64{"descent_kt": 100}, "descent_kt", "below approach_kt"},
		"slow Mach":           {map[string]float64{"climb_mach": 0.3}, "climb_mach", "raise it or lower"},
		"late decision":       {map[string]float64{"decision_kt": 250}, "decision_kt", "at most rotate_kt"},
		"runs dry":            {map[string]float64{"fuel_kg": 1000}, "fuel_kg", "too little"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Plan(flightOf(with(longFlight(), c.changes)), nil)
			var bad *BadNumber
			if !errors.As(err, &bad) {
				t.Fatalf("got %v", err)
			}
			if bad.Flight != "test_flight" || bad.Number != c.number || !strings.Contains(bad.Error(), c.says) {
				t.Errorf("got %v, want %s: ...%s", err, c.number, c.says)
			}
		})
	}
	if _, err := Plan(nil, nil); err == nil {
		t.Error("no complaint about no flight")
	}
}

func TestPlan_CollectsAllComplaints(t *testing.T) {
	_, err := Plan(&book.Flight{Head: book.Head{ID: "empty"}}, nil)
	for _, known := range book.FlightNumbers {
		missing := err != nil && strings.Contains(err.Error(), known.Name+" is missing")
		if missing != known.Required {
			t.Errorf("%s: complaint %v, required %v", known.Name, missing, known.Required)
		}
	}
}

// Whatever the numbers, there is a flight that ends at rest or an error.
func TestPlan_SurvivesAnything(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	flown := 0
	for range 6000 {
		numbers := map[string]float64{}
		for name, v := range longFlight() {
			numbers[name] = v * math.Exp(random.NormFloat64()*0.5)
		}
		numbers["runway_wet"] = 0
		numbers["headwind_kt"] = random.NormFloat64() * 40
		p, err := Plan(flightOf(numbers), nil)
		if err != nil {
			continue
		}
		flown++
		if v := p.Value(qGroundSpeed, p.End()); v != 0 {
			t.Fatalf("ends at %g kt: %v", v, numbers)
		}
		for q := range book.Quantities {
			for _, knot := range p.Knots() {
				if v := p.Value(q, knot); math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s is %g at %d: %v", book.Quantities[q].Name, v, knot, numbers)
				}
			}
		}
	}
	if flown < 300 {
		t.Errorf("only %d flights could be flown", flown)
	}
}
