package circuit_test

import (
	"fmt"
	"math"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/checks"
)

// until is how many seconds it takes in the book language until something is so, with
// numbers filled in by [n].
func until(t testing.TB, form string, n ...float64) float64 {
	t.Helper()
	args := make([]any, len(n))
	for i, x := range n {
		args[i] = x
	}
	c := compile(t, fmt.Sprintf(form, args...))
	reached, _ := c.Node(circuit.Value{Item: "reached"})
	end := 40000 * book.Second
	m := circuit.NewMachine(circuit.NewCourse(c, air{"time_s": func(s float64) float64 { return s }}, []book.Time{0, end}, 0), nil, nil)
	for at := book.Time(0); at <= end; {
		_, again, err := m.Instant(at, nil)
		if err != nil {
			t.Fatal(err)
		}
		if m.Value(reached) != 0 {
			return at.Seconds()
		}
		if !again {
			at = m.NextCrossing(end)
		}
	}
	return math.Inf(1)
}

// runs makes a check of a small book that runs until something is so.
func runs(t testing.TB, per float64, form string) checks.How {
	return checks.Of(func(n []float64) float64 { return until(t, form, n...) / per })
}

// ends is where the number of a small book is that it shows, after so many seconds.
func ends(t testing.TB, text string, seconds float64) float64 {
	t.Helper()
	c := compile(t, text)
	shown, _ := c.Node(circuit.Value{Item: "shown"})
	end := book.AtSeconds(seconds)
	m := circuit.NewMachine(circuit.NewCourse(c, air{"time_s": func(s float64) float64 { return s }}, []book.Time{0, end}, 0), nil, nil)
	for _, at := range []book.Time{0, end} {
		if _, _, err := m.Instant(at, nil); err != nil {
			t.Fatal(err)
		}
	}
	return m.Value(shown)
}

// comes makes a check of where such a number comes to rest.
func comes(t testing.TB, form string) checks.How {
	return checks.Of(func(n []float64) float64 { return ends(t, fmt.Sprintf(form, n[0]), 20000) })
}

// Small books as an author writes them: docs/language.md, "Laws that run in time".
const (
	cabinRises = `
signal "cabin_hpa" { value = static_pressure(%[3]f) + total((0 - 0.0001 * %[2]f * air_through(cabin_hpa, static_pressure(%[4]f))) * 843.94 / %[1]f) }
signal "reached" { value = altitude_of(cabin_hpa) >= %[5]f }`
	cabinComes = `
signal "hole_m2" { value = 0.3326 / air_through(static_pressure(8000), static_pressure(35000)) }
signal "cabin_hpa" { value = static_pressure(8000) + total((%[1]f * 0.3326 - hole_m2 * air_through(cabin_hpa, static_pressure(35000))) * 843.94 / 100) }
signal "shown" { value = altitude_of(cabin_hpa) }`
	batteryLasts = `
signal "charge_ratio" { value = %[4]f - total(battery_a / (3600 * %[1]f)) }
signal "store_v" { value = 22 + 4 * charge_ratio }
signal "battery_a" { value = (store_v - root_of(store_v * store_v - 0.004 * %[2]f * %[3]f)) / (0.002 * %[2]f) }
signal "reached" { value = charge_ratio <= 0 || store_v - 0.001 * %[2]f * battery_a < 20 }`
	batteryLoads = `
signal "charge_ratio" { value = %[5]f + total(%[4]f * least_of(%[3]f, (28 - 22 - 4 * charge_ratio) / %[2]f) / (3600 * %[1]f)) }
signal "reached" { value = charge_ratio >= %[6]f }`
	brakesCool = `
signal "brake_c" { value = %[2]f - total((brake_c - %[4]f) / (60 * %[1]f)) }
signal "reached" { value = brake_c <= %[3]f }`
	tankEmpty = `
signal "head_m" { value = %[2]f - total(0.62 * 0.7853981634e-6 * %[3]f * %[3]f * root_of(2 * 9.80665 * head_m) / %[1]f) }
signal "reached" { value = head_m <= 0.000001 }`
	fuelCools = `
signal "fuel_c" { value = %[1]f + total((%[3]f - fuel_c) / (3600 * %[4]f)) }
signal "reached" { value = fuel_c <= %[2]f }`
	wet   = "(static_pressure(%[1]f) * 0.750062 - 47)"
	added = "(%[1]f <= 18500 ? 15 : 30) * ((%[1]f <= 18500 ? 100 : 83.8) / " + wet + " - 0.2095) / 0.7905 * " + wet + " / 760 * 273.15 / 310.15"
	pure  = "20 * " + wet + " / 760 * 273.15 / 310.15"
	taken = "0.5e-6 * %[1]f * %[2]f * %[2]f * 0.264654"
	stood = "0.514444 * %[1]f * %[2]f * %[3]f * 60 * %[4]f / %[5]f"
)

// TestLimits holds what runs down in time, in small books, to values from outside.
func TestLimits(t *testing.T) {
	checks.Run(t, "limits", map[string]checks.How{
		"choked flow, lb/min":                           in(t, "%[1]f * 0.00064516 * air_through(68.94757 * %[2]f, 12) * 60 / 0.45359237"),
		"cabin rises, s":                                runs(t, 1, cabinRises),
		"hole that holds the cabin, cm":                 in(t, "10000 * %[1]f * %[2]f * 0.45359237 / 60 / air_through(static_pressure(%[3]f), static_pressure(%[4]f))"),
		"cabin comes to, ft":                            comes(t, cabinComes),
		"oxygen added, L/min":                           in(t, added),
		"oxygen pure, L/min":                            in(t, pure),
		"oxygen pure, 10 min down and 110 min there, L": checks.Of(func(n []float64) float64 { return oxygen(t, n[0], n[1]) }),
		"battery lasts, min":                            runs(t, 60, batteryLasts),
		"battery loads, min":                            runs(t, 60, batteryLoads),
		"brakes take, MJ":                               in(t, taken),
		"brakes warm, K":                                in(t, "1000000 * %[3]f * "+taken+" / (%[4]f * %[5]f * %[6]f)"),
		"brakes cool, min":                              runs(t, 60, brakesCool),
		"ice catch, lb/min per ft":                      in(t, "0.514444 * %[1]f * %[2]f * 0.001 * 0.3048 * %[3]f * %[4]f * %[5]f * 0.3048 * 60 / 0.45359237"),
		"ice stands, in":                                in(t, stood+" / 25.4"),
		"ice stands, mm":                                in(t, stood),
		"tank empty, min":                               runs(t, 60, tankEmpty),
		"fuel cools, h":                                 runs(t, 3600, fuelCools),
	})
}

// oxygen is what one of the flight crew breathes: ten minutes down in a straight line,
// and 110 minutes at the bottom.
func oxygen(t testing.TB, from, to float64) float64 {
	now := fmt.Sprintf("between(real.time_s, 0, %g, 600, %g)", from, to)
	const used = "total(20 * (static_pressure(%s) * 0.750062 - 47) / 760 * 273.15 / 310.15 / 60)"
	return ends(t, `signal "shown" { value = `+fmt.Sprintf(used, now)+` }`, 7200)
}
