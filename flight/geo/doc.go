// Package geo turns places on the globe into distances and courses, and a
// course and a wind into a heading. Lines are geodesics of the WGS84 ellipsoid
// and are right for every pair of places, those at opposite ends of the earth
// included; no function here fails or depends on anything but its arguments.
//
// Start reading at Between and Along (geodesic.go). The sphere, rhumb lines
// and the wind triangle are in sphere.go, rhumb.go and wind.go.
//
// Angles are degrees, latitude north and longitude east positive, courses
// clockwise from true north. Distances are metres, speeds knots.
package geo

// The geodesics follow C. F. F. Karney, Algorithms for geodesics, Journal of
// Geodesy 87 (2013) 43-55, doi 10.1007/s00190-012-0578-z, with series to the
// sixth order: 15 nanometres or better on the earth. Names are the paper's:
//
//	beta   reduced latitude       sigma  arc length on the auxiliary sphere
//	omega  longitude on it        alpha  azimuth (alpha0 at the equator)
//	lambda longitude              epsilon, k the expansion parameters
//
// A pair s, c is a sine and a cosine of one angle; angles are kept in this form
// so that nothing is lost near 0 and 90 degrees.
