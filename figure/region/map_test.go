package region

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"knockon/figure/sheet"
	"knockon/internal/figuretest"
)

var update = flag.Bool("update", false, "rewrite the pictures in testdata")

func samples() map[string]Map {
	middle := Place{47, 9}
	return map[string]Map{
		"fourteen": sampleMap(middle, 14), "one": sampleMap(middle, 1), "many": sampleMap(middle, 300),
		"pole": sampleMap(Place{89.5, 20}, 14), "date_line": sampleMap(Place{-17, 179.2}, 14),
		"none": {ID: "m", Here: middle, Track: 200}, "nowhere": {ID: "m", Here: Place{math.NaN(), 0}, Track: math.NaN()},
	}
}

func drawings(m Map) map[string]string {
	return map[string]string{"wide": m.Wide(), "narrow": m.Narrow(), "alone": m.SVG()}
}

func TestMap_IsAsDrawnBefore(t *testing.T) {
	for name, m := range samples() {
		for form, got := range drawings(m) {
			path := filepath.Join("testdata", name+"_"+form+".svg")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatalf("%v (make it with -update)", err)
			}
			if got != string(want) {
				t.Errorf("%s differs from testdata; look at the difference and run with -update if it is meant", path)
			}
		}
	}
}

func check(t *testing.T, name string, m Map) {
	t.Helper()
	for form, svg := range drawings(m) {
		for _, wrong := range figuretest.Check(svg) {
			t.Errorf("%s, %s: %s", name, form, wrong)
		}
	}
	if !strings.Contains(m.SVG(), "not for use in flight") {
		t.Errorf("%s: the document has no caution", name)
	}
}

func TestMap_KeepsItsPromises(t *testing.T) {
	for name, m := range samples() {
		check(t, name, m)
	}
}

func TestMap_KeepsItsPromisesOnAnyInput(t *testing.T) {
	senseless := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -91, 90, -90, 180, -180, 540, 0}
	for seed := range uint64(60) {
		chance := rand.New(rand.NewPCG(seed, 3))
		value := func(half float64) float64 {
			if chance.IntN(20) == 0 {
				return senseless[chance.IntN(len(senseless))]
			}
			return (chance.Float64()*2 - 1) * half
		}
		place := func() Place { return Place{value(90), value(360)} }
		m := Map{ID: "m", Here: place(), Track: value(360)}
		for range []int{0, 1, 14, 60}[chance.IntN(4)] {
			near := place()
			if chance.IntN(2) == 0 && m.Here.sound() {
				near = away(m.Here, value(360), value(300))
			}
			m.Airfields = append(m.Airfields, Airfield{
				Ident: []string{"AAAA", "", "<&>", strings.Repeat("long ", 40)}[chance.IntN(4)], At: near, NM: value(500),
				Healthy: Verdict(chance.IntN(4)), Failed: Verdict(chance.IntN(4)), Reason: []string{"", "fuel"}[chance.IntN(2)],
			})
			m.Healthy, m.Failed = append(m.Healthy, place()), append(m.Failed, near)
		}
		if check(t, "random", m); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func TestMap_PrintsItsNumbers(t *testing.T) {
	for form, svg := range drawings(sampleMap(Place{47, 9}, 14)) {
		var all []string
		for _, text := range figuretest.Texts(svg) {
			all = append(all, text.Words)
		}
		for _, want := range []string{"Of 14 airfields 12 can be landed on healthy and 3 with the failure.", "Lost with the failure:", "runway 240 m short", "lost with the failure", "400 NM"} {
			if !strings.Contains(strings.Join(all, " "), want) {
				t.Errorf("%s: %q is not printed", form, want)
			}
		}
	}
}

// haversine is the great circle on a sphere of the Earth's mean radius,
// 6,371.0088 km (IUGG), in NM: within 0.6 % of any geodesic on the ellipsoid.
func haversine(a, b Place) float64 {
	const rad = math.Pi / 180
	square := func(x float64) float64 { return math.Sin(x/2) * math.Sin(x/2) }
	h := square((b.Lat-a.Lat)*rad) + math.Cos(a.Lat*rad)*math.Cos(b.Lat*rad)*square((b.Lon-a.Lon)*rad)
	return 2 * 6371.0088 / 1.852 * math.Asin(math.Sqrt(h))
}

func TestPlane_KeepsDistances(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		a := Place{chance.Float64()*180 - 90, chance.Float64()*720 - 360}
		b := Place{chance.Float64()*180 - 90, chance.Float64()*720 - 360}
		if miles := haversine(a, b); miles < 10000 && math.Abs(onPlane(a, b).miles()-miles) > 0.006*miles {
			t.Fatalf("%v to %v: %v NM, the sphere has %v", a, b, onPlane(a, b).miles(), miles)
		}
	}
}

func TestPlane_NeverTearsAtPolesAndDateLine(t *testing.T) {
	for _, here := range []Place{{90, 0}, {-90, 50}, {89.99, 179.99}, {0, 180}, {0, -180}, {60, 179.9}} {
		for b := 0.0; b < 360; b += 15 {
			s, want := onPlane(here, away(here, b, 40)), onRing(40, b)
			if math.Abs(here.Lat) < 90 && math.Hypot(s.east-want.east, s.south-want.south) > 0.01 {
				t.Errorf("from %v, 40 NM at %v degrees: %v, want %v", here, b, s, want)
			}
			if math.Abs(s.miles()-40) > 0.01 {
				t.Errorf("from %v: %v NM, want 40", here, s.miles())
			}
		}
	}
}

func TestMarks_TellByShape(t *testing.T) {
	shapes := map[string]fate{}
	for f := lost; f <= unknown; f++ {
		p := mapper{Page: sheet.NewPage(sheet.Wide, "map", "m", "", ""), half: halfMark}
		p.mark(f, 100, 100)
		if other, twice := shapes[p.String()]; twice {
			t.Errorf("%q and %q look alike", fates[f], fates[other])
		}
		shapes[p.String()] = f
	}
}

func BenchmarkMap(b *testing.B) {
	for _, n := range []int{14, 300} {
		m := sampleMap(Place{47, 9}, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				m.Wide()
			}
		})
	}
}

// The same airfields at the same distances and courses look the same wherever
// on the globe they lie.
func TestMap_LooksTheSameEverywhere(t *testing.T) {
	want := samples()["fourteen"].Wide()
	for _, here := range []Place{{89.5, 20}, {-89.9, -100}, {-17, 179.2}, {0, -180}, {60, 540}} {
		if sampleMap(here, 14).Wide() != want {
			t.Errorf("around %v the map is another", here)
		}
	}
}
