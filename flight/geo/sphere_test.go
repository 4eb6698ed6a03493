package geo

import (
	"math"
	"testing"

	"knockon/internal/checks"
)

var (
	west = Place{33 + 57.0/60, -(118 + 24.0/60)}
	east = Place{40 + 38.0/60, -(73 + 47.0/60)}
)

// What lies right of a track lies left of it on the way back.
func TestOffTrack_TheOtherWayRound(t *testing.T) {
	for _, at := range []Place{{34.5, -116.5}, {36, -100}, {41, -80}} {
		_, right := OffTrack(west, east, at)
		_, back := OffTrack(east, west, at)
		within(t, "right of the track on the way back", back, -right, 1e-6)
	}
}

func TestRhumb_SpecialCourses(t *testing.T) {
	within(t, "along the equator", Rhumb(Place{0, 170}, Place{0, -170}).NM(), 1200, 1e-9)
	within(t, "along a parallel", Rhumb(Place{60, 0}, Place{60, 10}).NM(), 300, 1e-6)
	within(t, "course west", Rhumb(Place{60, 10}, Place{60, 0}).Start, 270, 1e-9)
	within(t, "to the pole", Rhumb(Place{60, 0}, Place{90, 50}).NM(), 1800, 1e-6)
	within(t, "nowhere", Rhumb(Place{60, 0}, Place{60, 0}).NM(), 0, 0)
	nearly := Rhumb(Place{45, 0}, Place{45.0000001, 10}).NM()
	within(t, "continuous beside a parallel", nearly, Rhumb(Place{45, 0}, Place{45, 10}).NM(), 1e-3)
}

// The ellipsoid differs from the sphere by no more than half a percent.
func TestSphere_IsHalfAPercentFromTheEllipsoid(t *testing.T) {
	for _, r := range goldenRows(t) {
		sphere, ellipsoid := SphereBetween(r.from, r.to), Between(r.from, r.to)
		if ellipsoid.Metres < 1 {
			continue
		}
		within(t, "ratio", sphere.Metres/ellipsoid.Metres, 1, 0.0075)
	}
}

func TestSphere_ThereAndBack(t *testing.T) {
	for lat := -90.0; lat <= 90; lat += 15 {
		for lon := -180.0; lon < 180; lon += 37 {
			to := Place{-lat/2 + 11, lon / 3}
			line := SphereBetween(Place{lat, lon}, to)
			there := SphereAlong(Place{lat, lon}, line.Start, line.Metres)
			within(t, "arrives", SphereBetween(there, to).Metres, 0, 1e-6)
			if d := turned(SphereBetween(to, Place{lat, lon}).Start, line.End+180); math.Abs(lat) < 90 && d > 1e-9 {
				t.Errorf("courses at the end differ by %g", d)
			}
		}
	}
}

// The values and their sources stand in internal/checks/tables/winds.tsv.
func TestWind_AgreesWithTheTables(t *testing.T) {
	components := func(of func(head, right float64) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return of(Wind{n[0], n[1]}.Components(n[2])) })
	}
	triangle := func(of func(heading, ground float64) float64) checks.How {
		return checks.Of(func(n []float64) float64 {
			heading, ground, ok := Wind{n[2], n[3]}.Triangle(n[0], n[1])
			if !ok {
				return math.NaN()
			}
			return of(heading, ground)
		})
	}
	first, second := func(x, _ float64) float64 { return x }, func(_, y float64) float64 { return y }
	checks.Run(t, "winds", map[string]checks.How{
		"headwind, kt":            components(first),
		"wind from the right, kt": components(second),
		"heading":                 triangle(first),
		"ground speed, kt":        triangle(second),
	})
}

func TestWind_TooStrong(t *testing.T) {
	for _, row := range []struct{ course, tas, from, kt float64 }{
		{0, 100, 90, 101}, {0, 100, 0, 101}, {0, 100, 270, 300}, {0, 0, 0, 0}, {0, math.NaN(), 0, 10}, {0, -5, 0, 1},
	} {
		if heading, ground, ok := (Wind{row.from, row.kt}).Triangle(row.course, row.tas); ok {
			t.Errorf("%v: %g %g", row, heading, ground)
		}
	}
}
