package region

import (
	"math"

	"knockon/figure/sheet"
	"knockon/flight/geo"
)

// farthestNM is half-way round the Earth: no place is farther.
const farthestNM = 10802

// spot is a place on the plane: nautical miles east and south of the present
// position, with the true distance and the true initial bearing kept.
type spot struct{ east, south float64 }

func (s spot) miles() float64 { return math.Hypot(s.east, s.south) }

// sound says whether a place is on the globe.
func (p Place) sound() bool { return sheet.Sound(p.Lat, 90) && sheet.Sound(p.Lon, 1e4) }

// onPlane projects a place: the azimuthal equidistant projection around here,
// with the distance and the course of the geodesic on WGS84.
func onPlane(here, p Place) spot {
	line := geo.Between(geo.Place{Lat: here.Lat, Lon: here.Lon}, geo.Place{Lat: p.Lat, Lon: p.Lon})
	return onRing(line.NM(), line.Start)
}

// onRing is the spot at a distance and a bearing.
func onRing(miles, bearing float64) spot {
	sin, cos := math.Sincos(bearing * math.Pi / 180)
	return spot{miles * sin, -miles * cos}
}

// view is which part of the plane is on the sheet, and where.
type view struct {
	frame  sheet.Box
	middle spot
	scale  float64 // points for a mile
}

// leastHalf is the least half of a map's height, in NM.
const leastHalf = 15

// room around the outermost marks, in points: for their labels.
const aroundMarks = 34

// fit chooses the view that holds all spots and the present position.
func fit(spots []spot, frame sheet.Box) view {
	var low, high spot
	for _, s := range spots {
		low = spot{min(low.east, s.east), min(low.south, s.south)}
		high = spot{max(high.east, s.east), max(high.south, s.south)}
	}
	wide, tall := max(high.east-low.east, 2*leastHalf), max(high.south-low.south, 2*leastHalf)
	v := view{frame: frame, middle: spot{(low.east + high.east) / 2, (low.south + high.south) / 2}}
	v.scale = min((frame.Right-frame.Left-2*aroundMarks)/wide, (frame.Bottom-frame.Top-2*aroundMarks)/tall)
	return v
}

// at gives the place of a spot on the sheet.
func (v view) at(s spot) (x, y float64) {
	return (v.frame.Left+v.frame.Right)/2 + (s.east-v.middle.east)*v.scale,
		(v.frame.Top+v.frame.Bottom)/2 + (s.south-v.middle.south)*v.scale
}

// spotAt is the spot at a place on the sheet.
func (v view) spotAt(d dot) spot {
	return spot{v.middle.east + (d.x-(v.frame.Left+v.frame.Right)/2)/v.scale, v.middle.south + (d.y-(v.frame.Top+v.frame.Bottom)/2)/v.scale}
}

func (v view) holds(x, y float64) bool {
	return x >= v.frame.Left && x <= v.frame.Right && y >= v.frame.Top && y <= v.frame.Bottom
}
