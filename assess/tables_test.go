package assess

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"knockon/internal/checks"
	"knockon/sweep"
)

var (
	hoursOf = regexp.MustCompile(`flight (\S+) h`)
	partOf  = regexp.MustCompile(`(evident|latent) (\S+?)(?: every (\S+) h)?(?:,|$)`)
)

// given reads "flight 2 h, evident 1e-4, latent 1e-5 every 5000 h": a flight of
// one phase, and parts.
func readGiven(t *testing.T, text string) (f Flight, parts []Part) {
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	h := number(hoursOf.FindStringSubmatch(text)[1])
	for _, m := range partOf.FindAllStringSubmatch(text, -1) {
		p := Part{Rate: number(m[2]), Latent: m[1] == "latent"}
		if m[3] != "" {
			p.CheckedH = number(m[3])
		}
		parts = append(parts, p)
	}
	return Flight{Hours: h, Phases: []Spell{{0, h}}}, parts
}

func everyPart(parts []Part) (set []int) {
	for i := range parts {
		set = append(set, i)
	}
	return set
}

// of makes an assessment of sets of the parts of a row.
func assessed(t *testing.T, v checks.Value, sets ...sweep.Set) (*Assessment, *exposure, []Cut) {
	f, parts := readGiven(t, v.Given)
	a := &Assessment{Swept: Swept{Hours: f, Sheets: make([]*sweep.Sheet, 1)}, Parts: parts}
	x := newExposure(f, parts)
	var cuts []Cut
	for _, s := range sets {
		c := Cut{Set: s, Phases: []int{0}}
		a.rate(x, &c)
		cuts = append(cuts, c)
	}
	return a, x, cuts
}

func TestExposure_AgreesWithTheTables(t *testing.T) {
	total := func(v checks.Value, sets ...sweep.Set) float64 {
		a, x, cuts := assessed(t, v, sets...)
		perH, _ := a.likely(x, cuts)
		return perH * a.Hours.Hours
	}
	present := func(v checks.Value, of func(from, to float64) float64) any {
		f, parts := readGiven(t, v.Given)
		x := newExposure(f, parts)
		return of(x.present(everyPart(parts), 0), x.present(everyPart(parts), 1))
	}
	arises := func(v checks.Value) float64 {
		_, parts := readGiven(t, v.Given)
		return total(v, everyPart(parts))
	}
	latent := func(v checks.Value) []Latent {
		a, x, cuts := assessed(t, v, sweep.Set{0, 1})
		return a.latents(x, cuts)
	}
	checks.Run(t, "assessment", map[string]checks.How{
		"present":             func(v checks.Value) any { return present(v, func(_, to float64) float64 { return to }) },
		"present in the mean": func(v checks.Value) any { return present(v, func(from, to float64) float64 { return (from + to) / 2 }) },
		"arises per hour": func(v checks.Value) any {
			f, _ := readGiven(t, v.Given)
			return arises(v) / f.Hours
		},
		"arises on a flight":                              func(v checks.Value) any { return arises(v) },
		"arises on a flight, two of three":                func(v checks.Value) any { return total(v, sweep.Set{0, 1}, sweep.Set{0, 2}, sweep.Set{1, 2}) },
		"arises on a flight, with a common cause":         func(v checks.Value) any { return total(v, sweep.Set{0, 1}, sweep.Set{2}) },
		"residual per hour, once the latent one has come": func(v checks.Value) any { return latent(v)[0].Residual },
		"latent at the end of its interval":               func(v checks.Value) any { return latent(v)[1].Waiting },
	})
}

// TestQuadrature_IsExactForPolynomials of a degree below twice its points.
func TestQuadrature_IsExactForPolynomials(t *testing.T) {
	for degree := range 40 {
		sum := 0.0
		for _, g := range quadrature {
			sum += g.share * math.Pow(g.since, float64(degree))
		}
		if want := 1 / float64(degree+1); math.Abs(sum-want) > 1e-13 {
			t.Errorf("x^%d: %g, want %g", degree, sum, want)
		}
	}
}

// TestAges_ManyFlightsAsOneByOne holds the quadrature to the sum over the flights.
func TestAges_ManyFlightsAsOneByOne(t *testing.T) {
	for _, every := range []float64{130, 2000, 60000} {
		for _, rate := range []float64{1e-9, 1e-5, 1e-3} {
			x := newExposure(Flight{2, []Spell{{0, 0.5}, {0.5, 2}}}, []Part{{rate, true, every}, {rate / 2, true, every}})
			for moment := range 4 {
				at, sum := []float64{0, 0.5, 0.5, 2}[moment], 0.0
				for i := range int(every / 2) {
					since := 2*float64(i) + at
					sum += math.Expm1(-rate*since) * math.Expm1(-rate/2*since)
				}
				sum /= every / 2
				if got := x.present([]int{0, 1}, moment); math.Abs(got-sum) > 2e-4*sum {
					t.Errorf("every %g h, rate %g: %g, one by one %g", every, rate, got, sum)
				}
			}
		}
	}
}

func TestInterval_IsWholeFlights(t *testing.T) {
	for _, c := range []struct {
		p    Part
		want float64
	}{
		{Part{Latent: false, CheckedH: 500}, 1.5},
		{Part{Latent: true, CheckedH: 500}, 501},
		{Part{Latent: true, CheckedH: 501}, 501},
		{Part{Latent: true, CheckedH: 0.2}, 1.5},
		{Part{Latent: true}, 60000},
	} {
		if got := c.p.IntervalH(1.5); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %g h, want %g", c.p, got, c.want)
		}
	}
}
