package airfield

import (
	"cmp"
	"iter"
	"math"
	"slices"
	"strings"

	"knockon/flight/geo"
)

// How far two places are apart on WGS84 lies between two multiples of the angle
// between them on a sphere with the same latitudes and longitudes. Along any
// line the ellipsoid's length element is sqrt(M² dlat² + N² cos²lat dlon²) with
// the radii of curvature M from b²/a to a²/b and N from a to a²/b, and the
// sphere's is sqrt(dlat² + cos²lat dlon²). So a line's length on the one is at
// least b²/a and at most a²/b times its length on the other, and so are the
// lengths of the two shortest lines. What the lower bound puts beyond reach needs
// no geodesic; one comparison of three numbers does.
const (
	semiMajor = 6378137.0
	semiMinor = semiMajor * (1 - 1/298.257223563)
	leastArc  = semiMinor * semiMinor / semiMajor // metres per radian
	mostArc   = semiMajor * semiMajor / semiMinor
)

// List is airfields by ident, with a way to those near a place. It never
// changes; many may use it at a time. What it gives out shares its slices: do
// not change them.
type List struct {
	airfields []Airfield
	at        []vector
	byIdent   map[string]int
}

// vector points from the middle of the unit sphere to a place.
type vector struct{ x, y, z float64 }

func newList(airfields []Airfield) *List {
	l := &List{airfields: airfields, at: make([]vector, len(airfields)), byIdent: make(map[string]int, len(airfields))}
	for i, a := range airfields {
		l.at[i] = pointer(a.Place)
		l.byIdent[strings.ToUpper(a.Ident)] = i
	}
	return l
}

// Len is the number of airfields.
func (l *List) Len() int { return len(l.airfields) }

// All goes through the airfields by ident.
func (l *List) All() iter.Seq[Airfield] { return slices.Values(l.airfields) }

// Find gives the airfield with an ident; large and small letters are alike.
func (l *List) Find(ident string) (Airfield, bool) {
	i, ok := l.byIdent[strings.ToUpper(ident)]
	if !ok {
		return Airfield{}, false
	}
	return l.airfields[i], true
}

// Where gives the list of those airfields that a test lets through.
func (l *List) Where(keep func(Airfield) bool) *List {
	var kept []Airfield
	for _, a := range l.airfields {
		if keep(a) {
			kept = append(kept, a)
		}
	}
	return newList(kept)
}

// Hit is an airfield and the geodesic to it.
type Hit struct {
	Airfield Airfield
	Line     geo.Line
}

// Near gives the airfields within a distance in metres of a place, nearest
// first, those equally far by ident. The distance is that of the geodesic on
// WGS84 (geo.Between); no airfield is missed or added anywhere on the globe.
func (l *List) Near(at geo.Place, withinM float64) []Hit {
	if !(withinM >= 0) || math.IsNaN(at.Lat+at.Lon) || math.IsInf(at.Lon, 0) {
		return nil
	}
	from, limit := pointer(at), chordWithin(withinM)
	var hits []Hit
	for i, v := range l.at {
		if from.chord(v) > limit {
			continue
		}
		if line := geo.Between(at, l.airfields[i].Place); line.Metres <= withinM {
			hits = append(hits, Hit{l.airfields[i], line})
		}
	}
	slices.SortFunc(hits, func(a, b Hit) int {
		return cmp.Or(cmp.Compare(a.Line.Metres, b.Line.Metres), strings.Compare(a.Airfield.Ident, b.Airfield.Ident))
	})
	return hits
}

// Nearest gives the count nearest airfields to a place in the order of Near;
// fewer if the list has fewer.
func (l *List) Nearest(at geo.Place, count int) []Hit {
	if count <= 0 || math.IsNaN(at.Lat+at.Lon) || math.IsInf(at.Lon, 0) {
		return nil
	}
	hits := l.Near(at, l.reach(pointer(at), count))
	return hits[:min(count, len(hits))]
}

// reach is a distance within which at least count airfields lie.
func (l *List) reach(from vector, count int) float64 {
	if count >= len(l.at) {
		return math.Inf(1)
	}
	chords := make([]float64, len(l.at))
	for i, v := range l.at {
		chords[i] = from.chord(v)
	}
	slices.Sort(chords)
	arc := 2 * math.Asin(min(1, math.Sqrt(chords[count-1])/2))
	return mostArc*arc*(1+1e-9) + 1 // more than rounding can take away, at opposite places too
}

// pointer treats latitudes beyond the poles as geo.Between does.
func pointer(p geo.Place) vector {
	s, c := math.Sincos(min(90, max(-90, p.Lat)) * math.Pi / 180)
	e, n := math.Sincos(p.Lon * math.Pi / 180)
	return vector{c * n, c * e, s}
}

// chord is the square of the straight distance.
func (v vector) chord(w vector) float64 {
	x, y, z := v.x-w.x, v.y-w.y, v.z-w.z
	return x*x + y*y + z*z
}

// chordWithin is the greatest chord that can belong to a distance, with room
// for rounding.
func chordWithin(metres float64) float64 {
	arc := metres / leastArc
	if arc > 3.14159 {
		return math.Inf(1)
	}
	s := math.Sin(arc / 2)
	return 4*s*s*(1+1e-12) + 1e-13
}
