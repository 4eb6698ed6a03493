package circuit_test

import (
	"math"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

// TestTotal_OfItself holds totals that follow themselves to closed forms, whatever
// instants lie between.
func TestTotal_OfItself(t *testing.T) {
	for _, test := range []struct {
		name, rate string
		want       func(s float64) float64
	}{
		{"decays", "4 - 0.05 * x", func(s float64) float64 { return 80 * (1 - math.Exp(-0.05*s)) }},
		{"decays fast", "4 - 5 * x", func(s float64) float64 { return 0.8 * (1 - math.Exp(-5*s)) }},
		{"follows the flight", "0.1 * (real.altitude_ft - x)", func(s float64) float64 { return 20*s - 200*(1-math.Exp(-0.1*s)) }},
		{"empties through a hole", "-0.02 * root_of(100 + x)", func(s float64) float64 { return math.Pow(10-0.01*s, 2) - 100 }},
		{"rests", "late ? 1 - 0.1 * x : 0 * x", func(s float64) float64 { return 10 * (1 - math.Exp(-0.1*max(s-50, 0))) }},
		{"of a total", "0.1 * (total(real.altitude_ft) - x)", func(s float64) float64 {
			return 10*s*s - 200*s + 2000*(1-math.Exp(-0.1*s))
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := compile(t, `
signal "x" { value = total(`+test.rate+`) }
signal "often" { value = pulse(real.time_s - 7 * count(often) >= 7, 1) }`)
			x, _ := c.Node(circuit.Value{Item: "x"})
			a := air{"altitude_ft": func(s float64) float64 { return 20 * s }}
			for _, step := range steps {
				trace := flown(t, c, a, step, nil)
				for s := 0.0; s <= 100; s += 2.5 {
					want := test.want(s)
					if got := trace.At(x, book.AtSeconds(s)); math.Abs(got-want) > 1e-6*max(1, math.Abs(want)) {
						t.Errorf("step %v s: at %g s: got %.9g, want %.9g", step.Seconds(), s, got, want)
					}
				}
			}
		})
	}
}

// TestTotal_OfItselfCrosses finds to the microsecond when such a total passes a level.
func TestTotal_OfItselfCrosses(t *testing.T) {
	c := compile(t, `
signal "x" { value = total(4 - 0.05 * x) }
signal "over" { value = x > 40 }`)
	want := -math.Log(0.5) / 0.05
	for _, step := range steps {
		got := spans(t, flown(t, c, air{}, step, nil), "over")
		if len(got) != 1 || math.Abs(got[0].From.Seconds()-want) > 2e-6 {
			t.Errorf("step %v s: got %v, want from %g s", step.Seconds(), got, want)
		}
	}
}

// TestTotal_WhateverLiesBetween: to the last bit, a total is what it is whether or not
// something that it does not read makes instants in between.
func TestTotal_WhateverLiesBetween(t *testing.T) {
	a := air{"altitude_ft": func(s float64) float64 { return 900 * math.Sin(s/9) }}
	for _, rate := range []string{
		"4 - 0.05 * x", "0.1 * (real.altitude_ft - x)", "0.01 * real.altitude_ft", "late ? 0.3 * real.altitude_ft : 0.2 * real.altitude_ft - x",
		"0.1 * (total(0.02 * real.altitude_ft) - x)", "0.02 * (real.altitude_ft + total(-5, 200, 0, 900) - x)", "0.02 * (real.altitude_ft + total(-5, 200, 0, 900))", "0.1 * frozen(real.altitude_ft, late) + 0.01 * real.altitude_ft",
	} {
		quiet := compile(t, `signal "x" { value = total(`+rate+`) }`)
		busy := compile(t, `
signal "x" { value = total(`+rate+`) }
signal "often" { value = pulse(real.time_s - 7 * count(often) >= 7, 1.3) }`)
		for _, step := range steps {
			one, other := flown(t, quiet, a, step, nil), flown(t, busy, a, step, nil)
			if len(other.Instants()) < len(one.Instants())+20 {
				t.Fatalf("%s: %d instants, and %d: nothing lies between", rate, len(one.Instants()), len(other.Instants()))
			}
			n, _ := quiet.Node(circuit.Value{Item: "x"})
			m, _ := busy.Node(circuit.Value{Item: "x"})
			for s := 0.0; s <= 100; s += 0.7 {
				if x, y := one.At(n, book.AtSeconds(s)), other.At(m, book.AtSeconds(s)); x != y {
					t.Errorf("%s, step %v s: at %g s: %v, and %v with instants between", rate, step.Seconds(), s, x, y)
					break
				}
			}
		}
	}
}
