package geo

import "math"

// Rhumb gives the line of constant course between two places on the sphere,
// the shorter way round. To a pole it is the meridian. Latitudes beyond the
// poles are cut to them.
func Rhumb(from, to Place) Line {
	from.Lat, to.Lat = max(-90, min(90, from.Lat)), max(-90, min(90, to.Lat))
	d, _ := apart(from.Lon, to.Lon)
	lon, lat := d/radian, (to.Lat-from.Lat)/radian
	stretch, perLon := 0.0, degrees(from.Lat).c
	if math.Abs(lat) > 1e-9 {
		stretch = isometric(to.Lat) - isometric(from.Lat)
		perLon = lat / stretch
	}
	course := Course(math.Atan2(lon, stretch) * radian)
	return Line{Metres: math.Hypot(lat, perLon*lon) * sphereRadius, Start: course, End: course}
}

// isometric is the latitude as a Mercator chart draws it: infinite at a pole.
func isometric(lat float64) float64 {
	t := degrees(lat)
	return math.Asinh(t.s / t.c)
}
