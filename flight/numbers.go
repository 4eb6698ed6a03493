package flight

import (
	"errors"
	"fmt"
	"math"

	"knockon/book"
)

// BadNumber is a number of a flight block that is missing or makes no sense,
// or a set of numbers that do not fit each other (then Number is the one to
// change).
type BadNumber struct {
	Flight string // id
	Number string // name, as in book.FlightNumbers
	Says   string // what is wrong and what to do
	Range  book.Range
}

func (e *BadNumber) Error() string {
	return fmt.Sprintf("flight %q: %s %s", e.Flight, e.Number, e.Says)
}

// numbers are what a flight is flown from, every default filled in.
type numbers struct {
	mass, fuel             float64 // kg, at brake release
	cruise, distance       float64 // ft, nm
	from, to               float64 // ft, elevations
	rotate, climb, descent float64 // kt
	approach, mach         float64
	climbRate, descentRate float64 // ft/min
	headwind               float64 // aloft
	fromWind, toWind       float64 // on the runways
	air                    Air
	icingFrom, icingTo     float64 // ft; no icing where from is not below to
	taxiOut, taxiIn        float64 // s
	wet                    float64 // 0 or 1
	cruiseKgPerHour        float64
	highestField           float64 // ft
}

// reader reads a flight's numbers and collects what is wrong with them.
type reader struct {
	flight *book.Flight
	errs   []error
}

func (r *reader) bad(name, format string, args ...any) {
	place := r.flight.Range
	for _, n := range r.flight.Numbers {
		if n.Name == name {
			place = n.Range
		}
	}
	r.errs = append(r.errs, &BadNumber{r.flight.ID, name, fmt.Sprintf(format, args...), place})
}

// number gives a number between least and most. Where the flight does not
// give it, it gives standard, or complains if that is NaN.
func (r *reader) number(name string, standard, least, most float64) float64 {
	v, given := r.flight.Number(name)
	switch {
	case !given && math.IsNaN(standard):
		r.bad(name, "is missing: give it, between %g and %g", least, most)
		return least
	case !given:
		return standard
	case !(v >= least && v <= most): // also catches NaN
		r.bad(name, "is %g, which makes no sense: give a number between %g and %g", v, least, most)
		return least
	}
	return v
}

// needed stands for "no default".
var needed = math.NaN()

// readNumbers reads and checks all numbers of a flight.
func readNumbers(f *book.Flight, a *book.Aircraft) (numbers, error) {
	r := &reader{flight: f}
	n := numbers{
		mass:        r.number("takeoff_mass_kg", needed, 100, 1e6),
		fuel:        r.number("fuel_kg", needed, 1, 5e5),
		cruise:      r.number("cruise_altitude_ft", needed, 500, 60000),
		distance:    r.number("distance_nm", needed, 1, 12000),
		from:        r.number("from_elevation_ft", 0, -1500, 15000),
		to:          r.number("to_elevation_ft", 0, -1500, 15000),
		rotate:      r.number("rotate_kt", needed, 40, 250),
		climb:       r.number("climb_kt", needed, 40, 450),
		mach:        r.number("climb_mach", needed, 0.1, 0.95),
		descent:     r.number("descent_kt", needed, 40, 450),
		approach:    r.number("approach_kt", needed, 40, 250),
		climbRate:   r.number("climb_ft_per_min", 2500, 100, 10000),
		descentRate: r.number("descent_ft_per_min", 2000, 100, 10000),
		headwind:    r.number("headwind_kt", 0, -150, 150),
		fromWind:    r.number("from_headwind_kt", 0, -150, 150),
		toWind:      r.number("to_headwind_kt", 0, -150, 150),
		air:         Air{DeviationC: r.number("isa_deviation_c", 0, -60, 60)},
		icingFrom:   r.number("icing_from_ft", 0, -2000, 60000),
		icingTo:     r.number("icing_to_ft", 0, -2000, 60000),
		taxiOut:     60 * r.number("taxi_out_min", 0, 0, 240),
		taxiIn:      60 * r.number("taxi_in_min", 0, 0, 240),
		wet:         r.number("runway_wet", 0, 0, 1),
	}
	n.highestField = max(n.from, n.to)
	n.cruiseKgPerHour = cruiseFlow(a, n.mass)
	if len(r.errs) == 0 {
		r.relations(n)
	}
	return n, errors.Join(r.errs...)
}

// cruiseFlow is the aircraft's cruise_fuel_kg_per_h, or else the part of the
// mass that a twin turbofan burns in an hour of cruise (common practice).
func cruiseFlow(a *book.Aircraft, mass float64) float64 {
	if a != nil {
		for _, n := range a.Numbers {
			if n.Name == "cruise_fuel_kg_per_h" && n.Value > 0 && n.Value < mass {
				return n.Value
			}
		}
	}
	return 0.048 * mass
}

// least height of the cruise above either field, so that there is room to
// clean up after take-off and to turn onto the approach.
const leastCruiseHeight = 1500

// relations checks the numbers against each other.
func (r *reader) relations(n numbers) {
	if n.fuel >= n.mass {
		r.bad("fuel_kg", "is %g, not below the take-off mass of %g kg: correct one of them", n.fuel, n.mass)
	}
	if n.cruise < n.highestField+leastCruiseHeight {
		r.bad("cruise_altitude_ft", "is %g, less than %d ft above the higher runway: give at least %g",
			n.cruise, leastCruiseHeight, n.highestField+leastCruiseHeight)
	}
	_, from := r.flight.Number("icing_from_ft")
	_, to := r.flight.Number("icing_to_ft")
	if (from || to) && n.icingFrom >= n.icingTo {
		r.bad("icing_to_ft", "is not above icing_from_ft: give both, the top above the foot")
	}
	if n.wet != 0 && n.wet != 1 {
		r.bad("runway_wet", "is %g: give 1 for a wet runway, 0 for a dry one", n.wet)
	}
	r.speeds(n)
}

// slowest is the least ground speed at which a flight may leave or meet the
// ground, so that roll and approach have an end.
const slowest = 30

func (r *reader) speeds(n numbers) {
	if n.climb < n.rotate+liftOffGain {
		r.bad("climb_kt", "is %g, below the speed just after rotate_kt (%g): correct one of them", n.climb, n.rotate+liftOffGain)
	}
	if v, given := r.flight.Number("decision_kt"); given && !(v > 0 && v <= n.rotate) {
		r.bad("decision_kt", "is %g: give more than 0 and at most rotate_kt (%g)", v, n.rotate)
	}
	if n.descent < n.approach {
		r.bad("descent_kt", "is %g, below approach_kt (%g): correct one of them", n.descent, n.approach)
	}
	least := max(n.rotate+liftOffGain, n.approach)
	if high := CASOfMach(n.mach, n.cruise); high < least {
		r.bad("climb_mach", "is %g, only %.0f kt of airspeed at the cruise altitude, below the %.0f kt of take-off or approach: raise it or lower cruise_altitude_ft", n.mach, high, least)
	}
	r.winds(n)
}

// winds asks for a way over the ground at the slowest of each part of the flight.
func (r *reader) winds(n numbers) {
	slow := min(n.rotate, n.approach-flareLoss)
	for _, w := range []struct {
		name, at    string
		slow, ahead float64
	}{
		{"headwind_kt", "in the first climb or on the final approach", slow, n.headwind},
		{"from_headwind_kt", "at take-off", n.rotate, n.fromWind}, {"to_headwind_kt", "at landing", n.approach - flareLoss, n.toWind},
	} {
		if w.slow-w.ahead < slowest {
			r.bad(w.name, "is %g, which leaves less than %d kt over the ground %s: lower it", w.ahead, slowest, w.at)
		}
	}
}
