package demo_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/internal/performance"
	"knockon/run"
)

const gravity, seaDensity, knot = 9.80665, 1.225, 1852.0 / 3600 // standard atmosphere, ISO 2533

// figures are the numbers of the aircraft block and the polars of its settings.
type figures struct {
	t *testing.T
	*book.Aircraft
}

func (f figures) of(name string) float64 {
	f.t.Helper()
	x, ok := f.Number(name)
	if !ok {
		f.t.Fatalf("the aircraft gives no %s", name)
	}
	return x
}

// stallKt is the reference stall speed of a setting, one g at sea level.
func (f figures) stallKt(s *book.Setting, kg float64) float64 {
	return math.Sqrt(2*kg*gravity/(seaDensity*f.of("wing_area_m2")*s.MostLift)) / knot
}

func (f figures) within(name string, x, least, most float64) {
	f.t.Helper()
	if x < least || x > most {
		f.t.Errorf("%s is %.4g, want %g to %g", name, x, least, most)
	}
}

func (f figures) flight(b *book.Flight, name string) float64 {
	f.t.Helper()
	x, ok := b.Number(name)
	if !ok {
		f.t.Fatalf("%s gives no %s", b.ID, name)
	}
	return x
}

// TestFigures_FitAJetOfItsSize: the ratios that a jet transport with two engines has
// (common practice), clean and gliding with both engines windmilling.
func TestFigures_FitAJetOfItsSize(t *testing.T) {
	f := figures{t, corvane.Build(t, "").Aircraft}
	most, wing := f.of("max_takeoff_mass_kg"), f.of("wing_area_m2")
	f.within("thrust over weight", f.of("engines_count")*f.of("takeoff_thrust_kn")*1000/(most*gravity), 0.28, 0.38)
	f.within("wing loading, kg/m2", most/wing, 420, 620)
	f.within("aspect ratio", f.of("wing_span_m")*f.of("wing_span_m")/wing, 8, 12)
	clean := performance.Polar{WingAreaM2: wing, ZeroLift: f.Settings[0].ZeroLiftDrag, Induced: f.Settings[0].InducedDrag}
	f.within("lift over drag, clean", clean.LiftToDrag(), 15, 17)
	clean.ZeroLift += f.of("engines_count") * f.of("engine_out_drag_ratio")
	f.within("lift over drag, windmilling", clean.LiftToDrag(), 14, 17)
	if payload := f.of("max_zero_fuel_mass_kg") - f.of("empty_mass_kg"); payload < 100*f.of("seats_count") {
		t.Errorf("%g kg for %g seats", payload, f.of("seats_count"))
	}
}

// TestFigures_ClimbOnOneEngine: the take-off climb with the gear up at the greatest
// mass, at V2 = 1.13 VSR (14 CFR 25.107(b)), is 2.4 % or more, 25.121(b)(1)(i): at sea
// level, fifteen degrees above standard.
func TestFigures_ClimbOnOneEngine(t *testing.T) {
	f := figures{t, corvane.Build(t, "").Aircraft}
	takeOff, kg := f.Settings[1], f.of("max_takeoff_mass_kg")
	sigma, sound := 288.15/303.15, 340.294*math.Sqrt(303.15/288.15)
	v := 1.13 * f.stallKt(takeOff, kg) * knot / math.Sqrt(sigma)
	thrust := f.of("takeoff_thrust_kn") * 1000 * math.Pow(sigma, f.of("thrust_density_ratio")) * (1 - f.of("thrust_mach_ratio")*v/sound)
	lift := takeOff.MostLift / (1.13 * 1.13)
	drag := (takeOff.ZeroLiftDrag + f.of("engine_out_drag_ratio")) / lift
	drag += takeOff.InducedDrag * lift
	least, _ := performance.MinimumPct(performance.GearUp, 2)
	if pct := 100 * (thrust/(kg*gravity) - drag); pct < least {
		t.Errorf("%.1f %%, want %g", pct, least)
	}
}

// TestFigures_SpeedsOfTheFlights: 14 CFR 25.107(a), (e) order decision and rotation, and
// the rotation is above the stall; the approach is flown at VREF = 1.23 VSR0 (25.125(b))
// and up to ten knots above (common practice), at the mass of the landing.
func TestFigures_SpeedsOfTheFlights(t *testing.T) {
	b := corvane.Build(t, "")
	f := figures{t, b.Aircraft}
	for _, x := range b.Flights {
		kg := f.flight(x, "takeoff_mass_kg")
		rotate := f.flight(x, "rotate_kt")
		f.within(x.ID+": decision below rotation", rotate-f.flight(x, "decision_kt"), 1, 12)
		f.within(x.ID+": rotation over VSR", rotate/f.stallKt(f.Settings[1], kg), 1.05, 1.18)
		c, err := run.NewCourse(b, x, run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		r, err := c.Fly(context.Background(), run.Scenario{})
		if err != nil {
			t.Fatal(err)
		}
		down, _ := r.PhaseBegins("landing_roll")
		reference := performance.ReferenceKt(f.stallKt(f.Settings[len(f.Settings)-1], read(r, "mass_kg", down)))
		f.within(x.ID+": approach above VREF", f.flight(x, "approach_kt")-reference, 0, 10)
		f.within(x.ID+": landing mass", read(r, "mass_kg", down), f.of("empty_mass_kg"), f.of("max_landing_mass_kg"))
	}
}

// TestFigures_BrakesTakeARejectedTakeOff: a take-off rejected without reverse at the
// decision speed and the greatest mass stays below what the brakes can take, and takes
// nearly all of it with the greatest tailwind (14 CFR 25.735(f)(1): the most severe stop).
func TestFigures_BrakesTakeARejectedTakeOff(t *testing.T) {
	b := corvane.Build(t, "")
	f := figures{t, b.Aircraft}
	link, err := b.FlightNamed("northern_link,mass=41000,fuel=6900,surface=-10")
	if err != nil {
		t.Fatal(err)
	}
	c, err := run.NewCourse(b, link, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	whole, err := c.Fly(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	fast, _ := whole.PhaseBegins("take_off_fast")
	decision := f.flight(link, "decision_kt") * math.Sqrt(f.flight(link, "takeoff_mass_kg")/39300)
	at := fast
	for ; read(whole, "airspeed_kt", at) < decision; at += book.Second / 4 {
	}
	r, err := c.Fly(context.Background(), run.Scenario{
		Inoperative: []book.FailureRef{{Unit: "reverser_left"}, {Unit: "reverser_right"}},
		Plan:        []run.Leg{{Do: run.Reject, At: book.Moment{Phase: "take_off_fast", Offset: at - fast}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	mj, most, over := r.BrakeEnergy()
	if f.within("brake energy over the most", mj/most, 0.8, 1); over {
		t.Errorf("%.1f MJ of %g", mj, most)
	}
}

// read is a quantity of the flight that was flown.
func read(r *run.Record, name string, at book.Time) float64 {
	i := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name })
	return r.Path().Value(i, at)
}
