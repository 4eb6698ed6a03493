package book

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"knockon/say"
)

// Supposed are what a question can suppose of a flight of the book, behind its id:
// "northern_link,mass=35000,fuel=4200,wind=-8,surface=5,icing=5000-9000,runway=dry,cruise=25000".
var Supposed = []string{"mass", "fuel", "wind", "surface", "icing", "runway", "cruise"}

// suppose gives a flight with other numbers. Its id is what was typed, in one
// order, so that whatever names the flight says all of it.
func (b *Build) suppose(f *Flight, text string) (*Flight, error) {
	s := supposition{build: b, flight: *f, said: map[string]string{}}
	s.flight.Numbers = slices.Clone(f.Numbers)
	for _, part := range strings.Split(text, ",") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		if !slices.Contains(Supposed, name) {
			return nil, errors.New(say.No("number of a flight to suppose", name, Supposed))
		}
		if _, twice := s.said[name]; twice {
			return nil, fmt.Errorf("%s said twice of a flight: say it once", name)
		}
		s.said[name] = strings.TrimSpace(value)
	}
	for _, name := range Supposed {
		if value, ok := s.said[name]; ok {
			if err := s.take(name, value); err != nil {
				return nil, err
			}
		}
	}
	if err := s.weigh(); err != nil {
		return nil, err
	}
	s.flight.ID = f.ID + s.id
	s.flight.Supposed = say.And(s.words)
	s.flight.Title = f.Title + ", supposed " + s.flight.Supposed
	return &s.flight, nil
}

// Supposes says that a number of Supposed was given with the question.
func (f *Flight) Supposes(name string) bool { return strings.Contains(f.ID, ","+name+"=") }

// supposition is a flight whose numbers are being replaced.
type supposition struct {
	build  *Build
	flight Flight
	said   map[string]string
	id     string
	words  []string
}

func (s *supposition) take(name, value string) error {
	s.id += "," + name + "=" + value
	switch name {
	case "mass":
		was, _ := s.flight.Number("takeoff_mass_kg")
		return s.number("takeoff_mass_kg", name, value, 1, 1e6, "at %s kg (with the speeds of the take-off at "+say.Whole(was)+" kg)")
	case "fuel":
		return s.fuel(value)
	case "wind":
		return s.wind(value, []string{"headwind_kt"}, -mostAloftKt, mostAloftKt, "aloft")
	case "surface":
		return s.wind(value, []string{"from_headwind_kt", "to_headwind_kt"}, -s.mostTailwind(), mostSurfaceKt, "on the runways")
	case "icing":
		return s.icing(value)
	case "cruise":
		return s.number("cruise_altitude_ft", name, value, leastCruiseFt, s.mostAltitude(), "with a cruise at %s ft")
	}
	return s.runway(value)
}

// wind replaces winds.
func (s *supposition) wind(value string, names []string, least, most float64, where string) error {
	kt, err := strconv.ParseFloat(value, 64)
	if err != nil || !(kt >= least && kt <= most) {
		return fmt.Errorf("no wind %s of %q that a flight can have: give the knots from ahead, from %s to %s, negative from behind", where, value, say.Whole(least), say.Whole(most))
	}
	for _, name := range names {
		s.set(name, kt)
	}
	switch {
	case kt == 0:
		s.words = append(s.words, "in calm air "+where)
	case kt < 0:
		s.words = append(s.words, "with "+say.Whole(-kt)+" kt from behind "+where)
	default:
		s.words = append(s.words, "with "+say.Whole(kt)+" kt from ahead "+where)
	}
	return nil
}

// The strongest winds aloft, and on a runway against which anybody takes off or lands
// (common practice).
const (
	mostAloftKt   = 150
	mostSurfaceKt = 60
)

// runway replaces the state of both runways: "dry", "wet", or a condition code.
func (s *supposition) runway(value string) error {
	code, words := map[string]float64{"dry": 6, "wet": 5}[value], "with a "+value+" runway"
	if len(value) == 1 && value >= "1" && value <= "6" {
		code, words = float64(value[0]-'0'), "with runways of condition code "+value
	}
	if code == 0 {
		return fmt.Errorf("no state of the runway that is called %q; say runway=dry, runway=wet, or its condition code, such as runway=3, from 6 (dry) to 1 (poor)", value)
	}
	s.set("from_runway_code", code)
	s.set("to_runway_code", code)
	wet := 0.0
	if code < 6 {
		wet = 1
	}
	s.set("runway_wet", wet)
	s.words = append(s.words, words)
	return nil
}

// number replaces a number within bounds.
func (s *supposition) number(of, name, value string, least, most float64, words string) error {
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || !(v >= least && v <= most) {
		return fmt.Errorf("no %s of %q that a flight can have: give a number from %s to %s, such as %s=%s", name, value, say.Whole(least), say.Whole(most), name, example[name])
	}
	s.set(of, v)
	s.words = append(s.words, fmt.Sprintf(words, say.Whole(v)))
	return nil
}

var example = map[string]string{"mass": "35000", "fuel": "4200", "icing": "5000-9000", "runway": "wet", "cruise": "25000"}

// leastCruiseFt is as low as anybody plans a cruise.
const leastCruiseFt = 1000

// mostAltitude is as high as the aircraft may go.
func (s *supposition) mostAltitude() float64 {
	if ft, ok := s.build.Aircraft.Number("max_altitude_ft"); ok {
		return ft
	}
	return mostFt
}

// mostTailwind is what the aircraft takes off and lands with: ten knots where the book
// gives none (common practice).
func (s *supposition) mostTailwind() float64 {
	if kt, ok := s.build.Aircraft.Number("max_tailwind_kt"); ok {
		return kt
	}
	return 10
}

// fuel replaces the fuel; where no mass is said the aircraft is as much lighter or
// heavier.
func (s *supposition) fuel(value string) error {
	was, _ := s.flight.Number("fuel_kg")
	most := 1e6
	if v, ok := s.build.Aircraft.Number("fuel_capacity_kg"); ok {
		most = v
	}
	if err := s.number("fuel_kg", "fuel", value, 1, most, "with %s kg of fuel"); err != nil {
		return err
	}
	if _, ok := s.said["mass"]; !ok {
		now, _ := s.flight.Number("fuel_kg")
		mass, _ := s.flight.Number("takeoff_mass_kg")
		s.set("takeoff_mass_kg", mass+now-was)
	}
	return nil
}

// icing replaces the layer of icing: "5000-9000" in feet, or "none".
func (s *supposition) icing(value string) error {
	if value == "none" {
		s.flight.Numbers = slices.DeleteFunc(s.flight.Numbers, func(n Named) bool { return strings.HasPrefix(n.Name, "icing_") })
		s.words = append(s.words, "without icing")
		return nil
	}
	from, to, _ := strings.Cut(value, "-")
	foot, err1 := strconv.ParseFloat(from, 64)
	top, err2 := strconv.ParseFloat(to, 64)
	if err1 != nil || err2 != nil || foot < 0 || !(top > foot) || top > mostFt {
		return fmt.Errorf("no layer of icing that reads %q; say icing=5000-9000, from foot to top in feet, or icing=none", value)
	}
	s.set("icing_from_ft", foot)
	s.set("icing_to_ft", top)
	s.words = append(s.words, "with icing from "+say.Whole(foot)+" to "+say.Whole(top)+" ft")
	return nil
}

// weigh refuses a mass that the aircraft cannot have at brake release. Fuel that does
// not last is no reason: that is asked to see where it ends.
func (s *supposition) weigh() error {
	mass, _ := s.flight.Number("takeoff_mass_kg")
	fuel, _ := s.flight.Number("fuel_kg")
	empty, _ := s.build.Aircraft.Number("empty_mass_kg")
	most, ok := s.build.Aircraft.Number("max_takeoff_mass_kg")
	switch {
	case mass < empty+fuel:
		return fmt.Errorf("no take-off mass of %s kg that this aircraft can have with %s kg of fuel: empty it weighs %s kg; give mass=%.0f or more%s",
			say.Whole(mass), say.Whole(fuel), say.Whole(empty), empty+fuel, lessFuel(mass-empty))
	case ok && mass > most:
		return fmt.Errorf("no take-off mass of %s kg that this aircraft can have: it is at most %s kg; give less mass, or less fuel", say.Whole(mass), say.Whole(most))
	}
	return nil
}

// lessFuel says how much fuel an aircraft can have at a mass.
func lessFuel(kg float64) string {
	if kg < 1 {
		return ""
	}
	return fmt.Sprintf(", or with it fuel=%.0f or less", math.Floor(kg))
}

// set replaces a number, or adds it.
func (s *supposition) set(name string, v float64) {
	for i := range s.flight.Numbers {
		if s.flight.Numbers[i].Name == name {
			s.flight.Numbers[i].Value = v
			return
		}
	}
	s.flight.Numbers = append(s.flight.Numbers, Named{Name: name, Value: v})
}
