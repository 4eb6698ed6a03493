package region

import (
	"fmt"
	"math"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// Wide draws the map for a page of a book's width: a part of a page.
func (m Map) Wide() string { return m.draw(sheet.Wide) }

// Narrow draws it for a telephone's width.
func (m Map) Narrow() string { return m.draw(sheet.Narrow) }

// SVG draws it as a document of its own.
func (m Map) SVG() string { return m.draw(sheet.Document) }

// Heights of the frame, in points.
const (
	wideHigh = 560.0
	slimHigh = 400.0
)

// ringsInHalf is about how many rings fit in half of the map's lesser side.
const ringsInHalf = 5

// mapper draws one map.
type mapper struct {
	*sheet.Page
	Map
	view
	fields  []field
	healthy []spot
	failed  []spot
	room    *sheet.Room
	lines   *sheet.Room // what the boundaries take: names keep off them if they can
	step    float64     // between the rings, NM
	reach   float64     // how far out rings are drawn, NM
	half    float64     // of a mark's width, in points
}

func (m Map) draw(f sheet.Form) string {
	p := &mapper{Page: sheet.NewPage(f, "map", m.ID, m.Caption(), m.Words()), Map: m}
	return p.Finish(p.Capture(func() {
		if !m.Here.sound() {
			p.Y += 4
			p.Say(m.Words(), sheet.Style{})
			return
		}
		p.settle()
		p.ground()
		p.north()
		p.fieldMarks()
		p.present()
		p.ringNames()
		unnamed := p.names()
		p.Y = p.frame.Bottom + 6
		p.legend()
		p.notes(unnamed)
	}), m.Foot)
}

// settle puts everything on the plane and fits the view to it.
func (p *mapper) settle() {
	high := wideHigh
	if p.Slim {
		high = slimHigh
	}
	frame := sheet.Box{Left: sheet.Edge, Top: p.Y + 4, Right: p.Width - sheet.Edge, Bottom: p.Y + 4 + high}
	p.fields = p.Map.fields()
	p.half = halfMark
	if len(p.fields) >= crowded {
		p.half = halfCrowded
	}
	p.healthy, p.failed = p.boundary(p.Healthy), p.boundary(p.Failed)
	all := p.shown()
	p.view = fit(all, frame)
	within := sheet.Box{Left: frame.Left + 2, Top: frame.Top + 2, Right: frame.Right - 2, Bottom: frame.Bottom - 2}
	p.room, p.lines = sheet.NewRoom(within), sheet.NewRoom(within)
	p.keepOff(p.healthy)
	p.keepOff(p.failed)
	for _, corner := range []dot{{frame.Left, frame.Top}, {frame.Right, frame.Top}, {frame.Left, frame.Bottom}, {frame.Right, frame.Bottom}} {
		p.reach = max(p.reach, p.spotAt(corner).miles())
	}
	p.step = sheet.RoundStep(min(frame.Bottom-frame.Top, frame.Right-frame.Left) / 2 / p.scale / ringsInHalf)
	p.reach += p.step
}

// muchFarther is how many times as far as the farthest airfield a boundary may lie
// and still decide how much the map holds: airfields are what it is about.
const muchFarther = 1.6

// shown lists what the map must hold.
func (p *mapper) shown() (all []spot) {
	far := 0.0
	for _, f := range p.fields {
		all, far = append(all, f.spot), max(far, f.spot.miles())
	}
	for _, boundary := range [][]spot{p.failed, p.healthy} {
		if len(p.fields) == 0 || farthest(boundary) <= muchFarther*max(far, leastHalf) {
			all = append(all, boundary...)
		}
	}
	return all
}

func farthest(spots []spot) (miles float64) {
	for _, s := range spots {
		miles = max(miles, s.miles())
	}
	return miles
}

func nearest(spots []spot) float64 {
	miles := math.Inf(1)
	for _, s := range spots {
		miles = min(miles, s.miles())
	}
	return miles
}

func (p *mapper) boundary(places []Place) (spots []spot) {
	for _, q := range places {
		if q.sound() {
			spots = append(spots, onPlane(p.Here, q))
		}
	}
	return spots
}

// mostBoxes is how many boxes a side of a boundary takes at most.
const mostBoxes = 100

// keepOff takes the room along a boundary.
func (p *mapper) keepOff(spots []spot) {
	for i := range spots {
		x1, y1 := p.at(spots[i])
		x2, y2 := p.at(spots[(i+1)%len(spots)])
		n := max(1, min(math.Ceil(math.Hypot(x2-x1, y2-y1)/5), mostBoxes))
		for j := 0.0; j < n; j++ {
			x, y := x1+(x2-x1)*j/n, y1+(y2-y1)*j/n
			p.lines.Take(sheet.Box{Left: x - 2, Top: y - 2, Right: x + 2, Bottom: y + 2})
		}
	}
}

// ground is what lies under the marks: what can be reached, the rings, the frame.
func (p *mapper) ground() {
	if land := p.land(p.failed); len(p.failed) > 2 && land != "" {
		p.Path(land, "fill", sheet.Tint)
	}
	for ring := 1; float64(ring)*p.step < p.reach; ring++ {
		p.ring(float64(ring) * p.step)
	}
	if p.seen(p.healthy) {
		p.Path(p.shore(p.healthy), "stroke", sheet.Ink, "stroke-width", 1.1, "stroke-dasharray", healthyDashes)
	}
	if p.seen(p.failed) {
		p.Path(p.shore(p.failed), "stroke", sheet.Ink, "stroke-width", 2.2, "stroke-linejoin", "round")
	}
	f := p.frame
	p.Leaf("rect", "x", f.Left, "y", f.Top, "width", f.Right-f.Left, "height", f.Bottom-f.Top, "fill", "none", "stroke", sheet.SoftInk, "stroke-width", 1)
}

const healthyDashes = "6 3"

// seen says that a part of a boundary lies in the frame.
func (p *mapper) seen(spots []spot) bool { return len(spots) > 2 && p.shore(spots) != "" }

// ring draws the part of a ring that lies in the frame.
func (p *mapper) ring(miles float64) {
	if miles > farthestNM {
		return
	}
	var path strings.Builder
	inside := false
	for degree := 0; degree <= 360; degree += 2 {
		x, y := p.at(onRing(miles, float64(degree)))
		switch {
		case !p.holds(x, y):
			inside = false
		case inside:
			path.WriteString(" L" + sheet.Number(x) + "," + sheet.Number(y))
		default:
			path.WriteString(" M" + sheet.Number(x) + "," + sheet.Number(y))
			inside = true
		}
	}
	if path.Len() > 0 {
		p.Path(strings.TrimSpace(path.String()), "stroke", sheet.Faint, "stroke-width", 0.9)
	}
}

// ringNames writes the distance on each ring, where it is free.
func (p *mapper) ringNames() {
	for ring := 1; float64(ring)*p.step < p.reach; ring++ {
		miles := float64(ring) * p.step
		var spots []sheet.Spot
		for _, degree := range []float64{25, 155, 205, 335, 65, 115, 245, 295, 5, 45, 90, 135, 175, 185, 225, 270, 315, 355} {
			x, y := p.at(onRing(miles, degree))
			spots = append(spots, sheet.Spot{X: x, Y: y + 3.5, Anchor: "middle"})
		}
		p.Label(p.room, p.count(miles)+" NM", spots, sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Rim: true})
	}
}

// count writes miles: a part of a mile on a very small map.
func (p *mapper) count(miles float64) string {
	if p.step < 1 {
		return fmt.Sprintf("%.1f", miles)
	}
	return say.Whole(miles)
}

// north is an arrow in the corner.
func (p *mapper) north() {
	x, y := p.frame.Right-14, p.frame.Top+14
	p.room.Take(sheet.Box{Left: x - 9, Top: p.frame.Top, Right: p.frame.Right, Bottom: y + 32})
	p.Leaf("rect", "x", x-9, "y", p.frame.Top+1, "width", p.frame.Right-x+8, "height", y+31-p.frame.Top, "fill", sheet.Paper)
	p.Path("M"+sheet.Number(x)+","+sheet.Number(y+26)+" v-20 m-4,6 l4,-8 l4,8", "stroke", sheet.Ink, "stroke-width", 1.2)
	p.Write("N", x, y, sheet.Style{Anchor: "middle", Size: sheet.SmallSize})
}
