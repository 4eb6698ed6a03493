package geo

import "math"

// The sphere on which a minute of arc is a nautical mile: good to half a
// percent, and the figure behind the usual navigation formulas.
const sphereRadius = 60 * MetresPerNM * radian

// SphereBetween gives the great circle between two places on the sphere.
func SphereBetween(from, to Place) Line {
	a, b, lon := degrees(from.Lat), degrees(to.Lat), degrees(to.Lon-from.Lon)
	arc := math.Atan2(math.Hypot(b.c*lon.s, a.c*b.s-a.s*b.c*lon.c), a.s*b.s+a.c*b.c*lon.c)
	start := turn{b.c * lon.s, a.c*b.s - a.s*b.c*lon.c}
	end := turn{a.c * lon.s, a.c*b.s*lon.c - a.s*b.c}
	return Line{Metres: arc * sphereRadius, Start: Course(start.in()), End: Course(end.in())}
}

// SphereAlong gives the place reached on the sphere after so many metres along
// the great circle that starts on a true course.
func SphereAlong(from Place, course, metres float64) Place {
	lat, alpha, arc := degrees(from.Lat), degrees(course), radians(metres/sphereRadius)
	s := lat.s*arc.c + lat.c*arc.s*alpha.c
	lon := turn{alpha.s * arc.s, lat.c*arc.c - lat.s*arc.s*alpha.c}
	c := math.Hypot(lon.s, lon.c)
	return Place{Lat: turn{s, c}.in(), Lon: normal(from.Lon + lon.in())}
}

// OffTrack tells where a place lies beside the great circle from one place to
// another on the sphere: how far along it from the start and how far to the
// right of it, in metres.
func OffTrack(from, to, at Place) (along, right float64) {
	track, line := SphereBetween(from, to), SphereBetween(from, at)
	arc, off := radians(line.Metres/sphereRadius), degrees(line.Start-track.Start)
	along = math.Atan2(arc.s*off.c, arc.c) * sphereRadius
	right = math.Asin(arc.s*off.s) * sphereRadius
	return along, right
}
