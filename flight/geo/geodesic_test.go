package geo

import (
	_ "embed"
	"encoding/csv"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"knockon/internal/checks"
)

//go:embed testdata/lines.csv
var golden string

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tol)
	}
}

// turned is the angle between two courses.
func turned(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 360)) }

// line gives something of the geodesic between two places.
func line(of func(Line) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(Between(Place{n[0], n[1]}, Place{n[2], n[3]})) })
}

// along gives something of the place reached from a place, on a course, after
// a distance.
func along(of func(Place) float64) checks.How {
	return checks.Of(func(n []float64) float64 {
		there, _ := Along(Place{n[0], n[1]}, n[2], n[3])
		return of(there)
	})
}

// angle takes a computed angle to the turn that the wanted one is written in.
func angle(how checks.How) checks.How {
	return func(v checks.Value) any {
		want, err := strconv.ParseFloat(v.Want, 64)
		if err != nil {
			return err
		}
		return want + math.Remainder(how(v).(float64)-want, 360)
	}
}

// onGRS80 is line on another figure of the earth.
func onGRS80(of func(Line) float64) checks.How {
	grs80 := newEllipsoid(6378137, 1/298.257222101)
	return checks.Of(func(n []float64) float64 { return of(grs80.between(Place{n[0], n[1]}, Place{n[2], n[3]})) })
}

// onSphere is line on the sphere.
func onSphere(of func(Line) float64) checks.How {
	return checks.Of(func(n []float64) float64 { return of(SphereBetween(Place{n[0], n[1]}, Place{n[2], n[3]})) })
}

// partWay gives something of the place reached on the sphere after some of the
// way from one place to another.
func partWay(metres func(Line) float64, of func(Place) float64) checks.How {
	return checks.Of(func(n []float64) float64 {
		from := Place{n[0], n[1]}
		l := SphereBetween(from, Place{n[2], n[3]})
		return of(SphereAlong(from, l.Start, metres(l)))
	})
}

// offTrack gives where a place lies beside the way from one place to another.
func offTrack(of func(along, right float64) float64) checks.How {
	return checks.Of(func(n []float64) float64 {
		return of(OffTrack(Place{n[0], n[1]}, Place{n[2], n[3]}, Place{n[4], n[5]})) / MetresPerNM
	})
}

// The values and their sources stand in internal/checks/tables/geodesics.tsv.
func TestLines_AgreeWithTheTables(t *testing.T) {
	length, start, end := func(l Line) float64 { return l.Metres }, func(l Line) float64 { return l.Start }, func(l Line) float64 { return l.End }
	lat, lon := func(p Place) float64 { return p.Lat }, func(p Place) float64 { return p.Lon }
	hundred, part := func(Line) float64 { return 100 * MetresPerNM }, func(l Line) float64 { return 0.4 * l.Metres }
	rhumb := func(of func(Line) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return of(Rhumb(Place{n[0], n[1]}, Place{n[2], n[3]})) })
	}
	checks.Run(t, "geodesics", map[string]checks.How{
		"distance, m":                          line(length),
		"distance, nm":                         line(Line.NM),
		"course at the start":                  angle(line(start)),
		"course at the end":                    angle(line(end)),
		"latitude reached":                     along(lat),
		"longitude reached":                    angle(along(lon)),
		"distance on GRS80, m":                 onGRS80(length),
		"course at the start on GRS80":         angle(onGRS80(start)),
		"course back on GRS80":                 angle(onGRS80(func(l Line) float64 { return l.End + 180 })),
		"distance on the sphere, radians":      onSphere(func(l Line) float64 { return l.NM() / 60 / radian }),
		"distance on the sphere, nm":           onSphere(Line.NM),
		"course on the sphere":                 angle(onSphere(start)),
		"course on the sphere, radians":        onSphere(func(l Line) float64 { return l.Start / radian }),
		"latitude on the sphere after 100 nm":  partWay(hundred, lat),
		"longitude on the sphere after 100 nm": partWay(hundred, lon),
		"latitude on the sphere at 40 %":       partWay(part, lat),
		"longitude on the sphere at 40 %":      partWay(part, lon),
		"along the track, nm":                  offTrack(func(along, _ float64) float64 { return along }),
		"right of the track, nm":               offTrack(func(_, right float64) float64 { return right }),
		"rhumb line, course":                   rhumb(start),
		"rhumb line, nm":                       rhumb(Line.NM),
	})
}

type row struct {
	kind       string
	from, to   Place
	metres     float64
	azi1, azi2 float64
}

func goldenRows(t *testing.T) (rows []row) {
	t.Helper()
	r := csv.NewReader(strings.NewReader(golden))
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil || len(records) < 400 {
		t.Fatalf("%d lines, %v", len(records), err)
	}
	for _, record := range records[1:] {
		var v [7]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(record[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row{record[0], Place{v[0], v[1]}, Place{v[2], v[3]}, v[4], v[5], v[6]})
	}
	return rows
}

// testdata/lines.csv, made with geographiclib-geodesic 2.2.0. The distance must
// agree to 0.1 micrometre for all lines; the courses to 1e-8 degrees, or, for
// places close together or nearly opposite, where a course is worth less, to
// what 0.1 micrometre at either end can turn it.
func TestBetween_GoldenLines(t *testing.T) {
	for _, r := range goldenRows(t) {
		line := Between(r.from, r.to)
		if math.Abs(line.Metres-r.metres) > 1e-7 {
			t.Errorf("%s %v %v: %.9f m, want %.9f", r.kind, r.from, r.to, line.Metres, r.metres)
		}
		if r.kind == "same" {
			continue // every course is right
		}
		tol := 1e-8 + 1e-7/max(1e-3, spread(r))*radian
		if turned(line.Start, r.azi1) > tol || turned(line.End, r.azi2) > tol {
			t.Errorf("%s %v %v: courses %.12f %.12f, want %.12f %.12f (%g)", r.kind, r.from, r.to, line.Start, line.End, r.azi1, r.azi2, tol)
		}
	}
}

// spread is about how far the second place lies from the first and from its
// opposite, whichever is less, in metres.
func spread(r row) float64 {
	opposite := Place{-r.from.Lat, r.from.Lon + 180}
	return min(Between(r.from, r.to).Metres, Between(opposite, r.to).Metres)
}

// Forward along a golden line must arrive, within 0.1 micrometre.
func TestAlong_GoldenLines(t *testing.T) {
	for _, r := range goldenRows(t) {
		line := Between(r.from, r.to)
		there, course := Along(r.from, line.Start, line.Metres)
		if off := Between(there, r.to).Metres; off > 1e-7 {
			t.Errorf("%s %v %v: arrives %g m away", r.kind, r.from, r.to, off)
		}
		polar := math.Abs(r.to.Lat) > 89.999 || r.kind == "same"
		if !polar && turned(course, line.End) > 1e-8 {
			t.Errorf("%s %v %v: arrives on %v, want %v", r.kind, r.from, r.to, course, line.End)
		}
	}
}

func TestAlong_RandomTripsReturn(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 20000 {
		from := Place{math.Asin(2*random.Float64()-1) * radian, 360*random.Float64() - 180}
		course, metres := 360*random.Float64(), 1.99e7*random.Float64()
		there, end := Along(from, course, metres)
		back, _ := Along(there, end, -metres)
		within(t, "back home", Between(from, back).Metres, 0, 1e-7)
		line := Between(from, there)
		if line.Metres > metres+1e-7 {
			t.Errorf("%v to %v: %g m, but %g m along a geodesic", from, there, line.Metres, metres)
		}
		within(t, "same both ways", Between(there, from).Metres, line.Metres, 1e-7)
	}
}

// Nothing is senseless enough to fail.
func TestBetween_AlwaysGivesALine(t *testing.T) {
	odd := []float64{0, math.Copysign(0, -1), 1e-300, 90, -90, 91, -1000, 180, -180, 180 + 1e-13, 360, 540, 1e9, 45}
	for _, a := range odd {
		for _, b := range odd {
			for _, c := range odd {
				line := Between(Place{a, b}, Place{c, a})
				if !(line.Metres >= 0 && line.Metres <= 20003932) || !(line.Start >= 0 && line.Start < 360) || !(line.End >= 0 && line.End < 360) {
					t.Errorf("%g %g to %g %g: %v", a, b, c, a, line)
				}
			}
		}
	}
}

func BenchmarkBetween(b *testing.B) {
	from := Place{51, -1}
	lon := 0.0
	for b.Loop() {
		Between(from, Place{-20, lon})
		lon = normal(lon + 7.3)
	}
}

func BenchmarkAlong(b *testing.B) {
	for b.Loop() {
		Along(Place{51, -1}, 77, 5e6)
	}
}
