package book_test

import (
	"strings"
	"testing"

	"knockon/internal/corvane"
)

// TestFlightNamed_Supposed: numbers are replaced, nothing of the book's own flight is
// touched, and the id says again what was said.
func TestFlightNamed_Supposed(t *testing.T) {
	b := corvane.Build(t, "")
	own := b.Flights[0]
	before := len(own.Numbers)
	for _, x := range []struct {
		text, id, title string
		numbers         map[string]float64 // -1: not there
	}{
		{"northern_link,mass=33000", "northern_link,mass=33000", "supposed at 33,000 kg (with the speeds of the take-off at 39,300 kg)", map[string]float64{"takeoff_mass_kg": 33000, "fuel_kg": 5300}},
		{",fuel=4000", "northern_link,fuel=4000", "with 4,000 kg of fuel", map[string]float64{"takeoff_mass_kg": 38000, "fuel_kg": 4000}},
		{"northern_link,fuel=4000,mass=33000", "northern_link,mass=33000,fuel=4000", "at 33,000 kg (with the speeds of the take-off at 39,300 kg) and with 4,000 kg of fuel", map[string]float64{"takeoff_mass_kg": 33000, "fuel_kg": 4000}},
		{"short_hop, wind=-8, runway=dry", "short_hop,wind=-8,runway=dry", "with 8 kt from behind aloft and with a dry runway", map[string]float64{"headwind_kt": -8, "from_headwind_kt": 9, "to_headwind_kt": 5, "runway_wet": 0, "from_runway_code": 6}},
		{"short_hop,runway=3,surface=-8", "short_hop,surface=-8,runway=3", "with 8 kt from behind on the runways and with runways of condition code 3", map[string]float64{"headwind_kt": 10, "from_headwind_kt": -8, "to_headwind_kt": -8, "runway_wet": 1, "from_runway_code": 3, "to_runway_code": 3}},
		{",wind=60,surface=0", "northern_link,wind=60,surface=0", "with 60 kt from ahead aloft and in calm air on the runways", map[string]float64{"headwind_kt": 60, "to_headwind_kt": 0}},
		{"northern_link,icing=5000-9000", "northern_link,icing=5000-9000", "with icing from 5,000 to 9,000 ft", map[string]float64{"icing_from_ft": 5000, "icing_to_ft": 9000}},
		{"northern_link,cruise=25000,runway=dry", "northern_link,runway=dry,cruise=25000", "with a dry runway and with a cruise at 25,000 ft", map[string]float64{"cruise_altitude_ft": 25000, "runway_wet": 0}},
		{"northern_link,icing=none", "northern_link,icing=none", "without icing", map[string]float64{"icing_from_ft": -1, "icing_to_ft": -1}},
	} {
		f, err := b.FlightNamed(x.text)
		if err != nil {
			t.Errorf("%s: %v", x.text, err)
			continue
		}
		if f.ID != x.id || !strings.HasSuffix(f.Title, x.title) || !strings.HasPrefix(f.Title, "The ") {
			t.Errorf("%s: %s, %q", x.text, f.ID, f.Title)
		}
		for name, want := range x.numbers {
			if v, ok := f.Number(name); ok && v != want || ok == (want == -1) {
				t.Errorf("%s: %s is %g (%v), want %g", x.text, name, v, ok, want)
			}
		}
		if again, err := b.FlightNamed(f.ID); err != nil || again.ID != f.ID {
			t.Errorf("%s is not understood again: %v", f.ID, err)
		}
	}
	if mass, _ := own.Number("takeoff_mass_kg"); mass != 39300 || len(own.Numbers) != before || b.Flights[0] != own {
		t.Error("the book's own flight has changed")
	}
}

// TestFlightNamed_SupposedWrong: what cannot be is refused, with what can.
func TestFlightNamed_SupposedWrong(t *testing.T) {
	b := corvane.Build(t, "")
	for text, want := range map[string]string{
		"northern_link,mass=20000":           "empty it weighs 23,500 kg; give mass=28800 or more",
		"northern_link,mass=28000":           "give mass=28800 or more, or with it fuel=4500 or less",
		"northern_link,mass=42000":           "it is at most 41,000 kg; give less mass, or less fuel",
		"northern_link,mass=nan":             "give a number from 1 to 1,000,000, such as mass=35000",
		"northern_link,mass=":                "such as mass=35000",
		"northern_link,fuel=9900":            "from 1 to 9,600",
		"northern_link,fuel=0":               "from 1 to 9,600",
		"northern_link,wind=200":             "no wind aloft of \"200\" that a flight can have: give the knots from ahead, from −150 to 150",
		"northern_link,surface=-20":          "no wind on the runways of \"-20\" that a flight can have: give the knots from ahead, from −10 to 60",
		"northern_link,surface=gusty":        "from −10 to 60",
		"northern_link,runway=0":             "such as runway=3",
		"northern_link,icing=9000-5000":      "from foot to top in feet, or icing=none",
		"northern_link,icing=low":            "icing=none",
		"northern_link,runway=icy":           "say runway=dry, runway=wet",
		"northern_link,cruise=900":           "from 1,000 to",
		"northern_link,cruise=90000":         "such as cruise=25000",
		"northern_link,fule=3":               `did you mean "fuel"?`,
		"northern_link,":                     "mass, fuel, wind, surface, icing",
		"northern_link,mass=30000,mass=3000": "mass said twice",
		"nowhere,mass=30000":                 "nowhere",
	} {
		if f, err := b.FlightNamed(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v %v, want %q", text, f, err, want)
		}
	}
}
