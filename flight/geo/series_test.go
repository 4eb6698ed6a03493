package geo

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"testing"
)

// The series stand for integrals (equations 7 to 9 of the paper). Here each
// integral is taken by brute force, on bodies much flatter than the earth, and
// the error must fall with the power of the first term left out.

// integral is the integral of f from 0 to x by Simpson's rule.
func integral(x float64, f func(float64) float64) float64 {
	const n = 400
	h, sum := x/n, f(0)+f(x)
	for i := 1; i < n; i++ {
		sum += f(float64(i)*h) * float64(2+2*(i&1))
	}
	return sum * h / 3
}

// root is sqrt(1 + k2 sin^2) with k2 = 4e/(1-e)^2.
func root(e float64) func(float64) float64 {
	return func(x float64) float64 { return math.Sqrt(1 + 4*e/square(1-e)*square(math.Sin(x))) }
}

// worst is the largest error over some arcs.
func worst(err func(sigma float64) float64) float64 {
	most := 0.0
	for sigma := 0.1; sigma < 3.1; sigma += 0.2 {
		most = max(most, math.Abs(err(sigma)))
	}
	return most
}

func TestSeries_ErrorFallsWithTheOrder(t *testing.T) {
	for _, c := range []struct {
		name  string
		error func(e float64) float64
		order float64
	}{
		{"distance", func(e float64) float64 {
			c := c1(e)
			return worst(func(s float64) float64 {
				return integral(s, root(e)) - (1+a1(e))*(s+sines(radians(s), c[:]))
			})
		}, 7},
		{"reduced length", func(e float64) float64 {
			c, r := c2(e), root(e)
			return worst(func(s float64) float64 {
				inverse := func(x float64) float64 { return 1 / r(x) }
				return integral(s, inverse) - (1+a2(e))*(s+sines(radians(s), c[:]))
			})
		}, 7},
		{"reversed distance", func(e float64) float64 {
			c, cp := c1(e), c1p(e)
			return worst(func(s float64) float64 {
				tau := s + sines(radians(s), c[:])
				return s - (tau + sines(radians(tau), cp[:]))
			})
		}, 7},
		{"longitude", func(e float64) float64 {
			n, r := e, root(e) // flattening and expansion fall together
			f := 2 * n / (1 + n)
			l := newLongitude(n)
			c := l.c(e)
			return worst(func(s float64) float64 {
				g := func(x float64) float64 { return (2 - f) / (1 + (1-f)*r(x)) }
				return integral(s, g) - l.a(e)*(s+sines(radians(s), c[:]))
			})
		}, 6},
	} {
		coarse, fine := c.error(0.08), c.error(0.04)
		if got := math.Log2(coarse / fine); math.Abs(got-c.order) > 0.5 {
			t.Errorf("%s: errors %g and %g, order %.2f, want %g", c.name, coarse, fine, got, c.order)
		}
	}
}

//go:embed testdata/series.csv
var seriesValues string

// testdata/series.csv, made with geographiclib-geodesic 2.2.0.
func TestSeries_AgreesWithTheLibrary(t *testing.T) {
	const e = 0.2
	l := newLongitude(0.1 / 1.9)
	C1, C1p, C2, C3 := c1(e), c1p(e), c2(e), l.c(e)
	ours := map[string][]float64{"a1": {a1(e)}, "c1": C1[:], "c1p": C1p[:], "c2": C2[:], "a3": {l.a(e)}, "c3": C3[:]}
	lines := strings.Split(strings.TrimSpace(seriesValues), "\n")[1:]
	if len(lines) != len(ours) {
		t.Fatalf("%d lines", len(lines))
	}
	for _, line := range lines {
		cells := strings.Split(line, ",")
		if len(cells)-1 != len(ours[cells[0]]) {
			t.Fatalf("%s has %d values", cells[0], len(cells)-1)
		}
		for i, cell := range cells[1:] {
			want, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			within(t, cells[0], ours[cells[0]][i], want, 1e-14*math.Abs(want))
		}
	}
}
