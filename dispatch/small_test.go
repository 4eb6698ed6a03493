package dispatch_test

import (
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/dispatch"
	"knockon/scenario"
)

// frame is what every small book here stands in: a short flight through icing.
const frame = `
aircraft "toy" {
  title           = "Toy"
  wing_area_m2    = 80
  max_altitude_ft = 39000
}
phase "ground" { title = "Taxi" }
phase "climb" {
  title  = "Climb"
  begins = !real.on_ground
}
phase "cruise" {
  title  = "Cruise"
  begins = real.altitude_ft > 9000
}
phase "landing" {
  title  = "Landing"
  begins = real.on_ground && real.time_s > 300
}
flight "hop" {
  title              = "The hop"
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 10000
  distance_nm        = 60
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
  icing_from_ft      = 4000
  icing_to_ft        = 8000
}
`

func bookOf(t testing.TB, text string) *book.Book {
	t.Helper()
	b, diags := book.Load(t.Context(), fstest.MapFS{"toy.hcl": {Data: []byte(frame + text)}})
	if b == nil {
		t.Fatalf("%v\n%s", diags[0], text)
	}
	return b
}

// answered asks a question of a small book.
func answered(t testing.TB, text string, q dispatch.Question) *dispatch.Answer {
	t.Helper()
	a, err := dispatch.Of(t.Context(), scenario.NewCourses(bookOf(t, text)), q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
