package region

import (
	"math"
	"strings"

	"knockon/figure/sheet"
)

// dot is a place on the sheet.
type dot struct{ x, y float64 }

// onSheet gives the places of a boundary on the sheet.
func (p *mapper) onSheet(spots []spot) []dot {
	list := make([]dot, len(spots))
	for i, s := range spots {
		list[i].x, list[i].y = p.at(s)
	}
	return list
}

// within cuts a polygon to a box: side by side, after Sutherland and Hodgman
// (Communications of the ACM 17, 1974).
func within(polygon []dot, b sheet.Box) []dot {
	for _, side := range []func(d dot) float64{
		func(d dot) float64 { return d.x - b.Left }, func(d dot) float64 { return b.Right - d.x },
		func(d dot) float64 { return d.y - b.Top }, func(d dot) float64 { return b.Bottom - d.y },
	} {
		polygon = inside(polygon, side)
	}
	return polygon
}

// inside keeps what of a polygon lies on the side where a measure is not negative.
func inside(polygon []dot, measure func(dot) float64) (kept []dot) {
	for i, d := range polygon {
		last := polygon[(i+len(polygon)-1)%len(polygon)]
		a, z := measure(last), measure(d)
		if (a < 0) != (z < 0) {
			u := a / (a - z)
			kept = append(kept, dot{last.x + u*(d.x-last.x), last.y + u*(d.y-last.y)})
		}
		if z >= 0 {
			kept = append(kept, d)
		}
	}
	return kept
}

// cut gives what of a line lies in a box; ok is false if nothing does (after
// Liang and Barsky, ACM Transactions on Graphics 3, 1984).
func cut(a, z dot, b sheet.Box) (from, to dot, ok bool) {
	dx, dy := z.x-a.x, z.y-a.y
	low, high := 0.0, 1.0
	for _, edge := range [][2]float64{{-dx, a.x - b.Left}, {dx, b.Right - a.x}, {-dy, a.y - b.Top}, {dy, b.Bottom - a.y}} {
		step, room := edge[0], edge[1]
		switch {
		case step == 0 && room < 0:
			return from, to, false
		case step < 0:
			low = max(low, room/step)
		case step > 0:
			high = min(high, room/step)
		}
	}
	if !(low <= high) { // also catches NaN
		return from, to, false
	}
	return dot{a.x + low*dx, a.y + low*dy}, dot{a.x + high*dx, a.y + high*dy}, true
}

// shore is the part of a closed boundary that lies in the frame, without points
// closer than can be seen; "" if none does.
func (p *mapper) shore(spots []spot) string {
	var path strings.Builder
	dots := p.onSheet(spots)
	pen := dot{math.Inf(-1), 0}
	for i, d := range dots {
		from, to, ok := cut(d, dots[(i+1)%len(dots)], p.frame)
		if !ok {
			pen = dot{math.Inf(-1), 0}
			continue
		}
		if math.Hypot(from.x-pen.x, from.y-pen.y) > 0.8 {
			path.WriteString(" M" + sheet.Number(from.x) + "," + sheet.Number(from.y))
			pen = from
		}
		if math.Hypot(to.x-pen.x, to.y-pen.y) >= 0.8 {
			path.WriteString(" L" + sheet.Number(to.x) + "," + sheet.Number(to.y))
			pen = to
		}
	}
	return strings.TrimSpace(path.String())
}

// land is the part of what a boundary holds that lies in the frame; "" if none.
func (p *mapper) land(spots []spot) string {
	var path strings.Builder
	pen := dot{math.Inf(-1), 0}
	for _, d := range within(p.onSheet(spots), p.frame) {
		if math.Hypot(d.x-pen.x, d.y-pen.y) < 0.8 {
			continue
		}
		letter := " L"
		if path.Len() == 0 {
			letter = "M"
		}
		path.WriteString(letter + sheet.Number(d.x) + "," + sheet.Number(d.y))
		pen = d
	}
	if path.Len() == 0 {
		return ""
	}
	return path.String() + " Z"
}
