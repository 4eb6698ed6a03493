package geo

import (
	"math"
	"testing"
)

var (
	west = Place{33 + 57.0/60, -(118 + 24.0/60)}
	east = Place{40 + 38.0/60, -(73 + 47.0/60)}
)

// Worked example of the Aviation Formulary v1.42 (E. Williams), great circle.
func TestSphere_PublishedExample(t *testing.T) {
	line := SphereBetween(west, east)
	within(t, "distance, radians", line.NM()/60/radian, 0.623585, 1e-6)
	within(t, "distance, nm", line.NM(), 2144, 0.5)
	within(t, "course, published to a degree", line.Start, 66, 0.5)
	within(t, "course, radians", line.Start/radian, 1.150035, 1e-5)
	hundred := SphereAlong(west, line.Start, 100*MetresPerNM)
	within(t, "latitude after 100 nm", hundred.Lat, 34+37.0/60, 0.01)
	within(t, "longitude after 100 nm", hundred.Lon, -(116 + 33.0/60), 0.01)
	part := SphereAlong(west, line.Start, 0.4*line.Metres)
	within(t, "latitude at 40 %", part.Lat, 38+40.167/60, 1e-4)
	within(t, "longitude at 40 %", part.Lon, -(101 + 37.570/60), 1e-4)
}

// As above: a fix beside the track.
func TestSphere_PublishedFix(t *testing.T) {
	fix := Place{34.5, -116.5}
	line := SphereBetween(west, fix)
	within(t, "distance to the fix", line.NM(), 99.8665, 0.01)
	within(t, "course to the fix", line.Start, 70.17, 0.01)
	along, right := OffTrack(west, east, fix)
	within(t, "along the track", along/MetresPerNM, 99.588, 0.005)
	within(t, "right of the track", right/MetresPerNM, 7.4512, 0.005)
	_, right = OffTrack(east, west, fix)
	within(t, "left on the way back", right/MetresPerNM, -7.4512, 0.005)
}

// As above: the rhumb line. Tolerances 0.1 nm, 0.01 degrees.
func TestRhumb_PublishedExample(t *testing.T) {
	line := Rhumb(west, east)
	within(t, "course", line.Start, 79.32, 0.01)
	within(t, "distance", line.NM(), 2164.6, 0.1)
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
	within(t, "the published pair on WGS84, nm", Between(west, east).NM(), 2149.89, 0.01) // computed independently (Vincenty)
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

// Wind components: first row published in the Aviation Formulary v1.42, the
// others computed from its formulas. Tolerance 0.001.
func TestWind_Components(t *testing.T) {
	for _, row := range []struct{ from, kt, runway, head, right float64 }{
		{60, 20, 30, 17.3205, 10},
		{240, 30, 270, 25.9808, -15.0},
		{330, 25, 180, -21.6506, 12.5},
		{100, 15, 100, 15, 0},
		{10, 20, 100, 0, -20},
	} {
		head, right := Wind{row.from, row.kt}.Components(row.runway)
		within(t, "headwind", head, row.head, 1e-3)
		within(t, "crosswind", right, row.right, 1e-3)
	}
}

// Wind triangle: computed from the formulas of the Aviation Formulary v1.42.
// Tolerance 0.001.
func TestWind_Triangle(t *testing.T) {
	for _, row := range []struct{ course, tas, from, kt, heading, ground float64 }{
		{90, 450, 330, 60, 83.3693, 476.9899},
		{270, 460, 270, 80, 270.0, 380.0},
		{180, 140, 220, 25, 186.5911, 119.9236},
		{360, 250, 90, 50, 11.5370, 244.9490},
	} {
		heading, ground, ok := Wind{row.from, row.kt}.Triangle(row.course, row.tas)
		within(t, "heading", heading, row.heading, 1e-3)
		within(t, "ground speed", ground, row.ground, 1e-3)
		if !ok {
			t.Errorf("%v cannot be flown", row)
		}
	}
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
