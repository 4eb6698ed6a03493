package geo

import "math"

// Place is a point on the globe.
type Place struct{ Lat, Lon float64 }

// Line is the shortest line between two places.
type Line struct {
	Metres float64
	Start  float64 // true course at the first place, 0 to below 360
	End    float64 // true course at the second, onward
}

// NM is the length of the line in nautical miles.
func (l Line) NM() float64 { return l.Metres / MetresPerNM }

// MetresPerNM is one nautical mile.
const MetresPerNM = 1852.0

// Between gives the shortest line from one place to another on WGS84.
// Latitudes beyond the poles are cut to them. Where several lines are equally
// short (opposite places) it gives one of them; from a place to itself it
// gives length 0. Exact to a few nanometres.
func Between(from, to Place) Line { return wgs84.between(from, to) }

// Along gives the place reached from another after so many metres along the
// geodesic that starts on a true course, and the course there. A negative
// distance goes backwards.
func Along(from Place, course, metres float64) (Place, float64) {
	return wgs84.along(from, course, metres)
}

// ellipsoid is the figure of the earth with what follows from it.
type ellipsoid struct {
	a, b      float64 // semi-axes, metres
	f         float64 // flattening
	ratio     float64 // b/a
	ep2       float64 // second eccentricity squared
	n         float64 // third flattening
	shortLine float64 // arc below which the sphere will do
	lon       longitude
}

var wgs84 = newEllipsoid(6378137, 1/298.257223563)

func newEllipsoid(a, f float64) *ellipsoid {
	g := &ellipsoid{a: a, f: f, ratio: 1 - f, b: a * (1 - f), n: f / (2 - f)}
	e2 := f * (2 - f)
	g.ep2 = e2 / square(g.ratio)
	g.shortLine = 0.1 * rootEps / math.Sqrt(f*(1-f/2)/2)
	g.lon = newLongitude(g.n)
	return g
}

var (
	eps     = math.Nextafter(1, 2) - 1
	rootEps = math.Sqrt(eps)
	tiny    = math.Sqrt(math.SmallestNonzeroFloat64 * (1 << 52)) // of the smallest normal number
)

// reduced is the reduced latitude of a latitude.
func (g *ellipsoid) reduced(lat float64) turn {
	t := degrees(lat)
	t = turn{t.s * g.ratio, t.c}.unit()
	t.c = max(tiny, t.c) // a pole has a direction too
	return t
}

// expansion is epsilon for a geodesic that crosses the equator with the given
// cosine of azimuth.
func (g *ellipsoid) expansion(calpha0 float64) float64 {
	k2 := square(calpha0) * g.ep2
	return k2 / (2*(1+math.Sqrt(1+k2)) + k2)
}

func cutLatitude(lat float64) float64 { return round(min(90, max(-90, lat))) }

// along solves the direct problem.
func (g *ellipsoid) along(from Place, course, metres float64) (Place, float64) {
	alpha1 := degrees(round(normal(course)))
	beta1 := g.reduced(cutLatitude(from.Lat))
	alpha0 := turn{alpha1.s * beta1.c, math.Hypot(alpha1.c, alpha1.s*beta1.s)}
	start := turn{beta1.s, beta1.c * alpha1.c}
	if beta1.s == 0 && alpha1.c == 0 {
		start.c = 1
	}
	omega1 := turn{alpha0.s * beta1.s, start.c}
	sigma1 := start.unit()

	e := g.expansion(alpha0.c)
	sigma12, sigma2 := g.march(e, sigma1, metres)
	omega2 := turn{alpha0.s * sigma2.s, sigma2.c}
	d := omega2.minus(omega1)
	c3 := g.lon.c(e)
	wave := sines(sigma2, c3[:]) - sines(sigma1, c3[:])
	lambda := math.Atan2(d.s, d.c) - g.f*alpha0.s*g.lon.a(e)*(sigma12+wave)

	beta2 := turn{alpha0.c * sigma2.s, math.Hypot(alpha0.s, alpha0.c*sigma2.c)}
	if beta2.c == 0 {
		beta2.c, sigma2.c = tiny, tiny
	}
	there := Place{Lat: turn{beta2.s, g.ratio * beta2.c}.in(), Lon: normal(normal(from.Lon) + normal(lambda*radian))}
	return there, Course(turn{alpha0.s, alpha0.c * sigma2.c}.in())
}

// march goes a distance along a geodesic: the arc covered and where it ends.
func (g *ellipsoid) march(e float64, sigma1 turn, metres float64) (arc float64, sigma2 turn) {
	c, cp := c1(e), c1p(e)
	wave1 := sines(sigma1, c[:])
	tau1 := sigma1.plus(radians(wave1))
	tau12 := metres / (g.b * (1 + a1(e)))
	wave2 := -sines(tau1.plus(radians(tau12)), cp[:])
	arc = tau12 - (wave2 - wave1)
	return arc, sigma1.plus(radians(arc))
}

func radians(x float64) turn {
	s, c := math.Sincos(x)
	return turn{s, c}
}
