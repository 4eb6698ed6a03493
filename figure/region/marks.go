package region

import (
	"math"

	"knockon/figure/sheet"
)

// half of a mark's width, in points.
const half = 4.0

// mark draws the shape of a fate around a place.
func (p *mapper) mark(f fate, x, y float64) {
	from := "M" + sheet.Number(x-half) + "," + sheet.Number(y-half)
	square := from + " h8 v8 h-8 z"
	switch f {
	case lost:
		p.Path(square+" l8,8 m0,-8 l-8,8", "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", 1.5)
	case gained:
		p.Path("M"+sheet.Number(x)+","+sheet.Number(y-half-1.5)+" l5.5,5.5 l-5.5,5.5 l-5.5,-5.5 z", "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", 1.5)
	case stays:
		p.Path(square, "fill", sheet.Ink, "stroke", sheet.Ink, "stroke-width", 1)
	case never:
		p.Path("M"+sheet.Number(x-3)+","+sheet.Number(y-3)+" l6,6 m0,-6 l-6,6", "stroke", sheet.SoftInk, "stroke-width", 1.3)
	default:
		p.Leaf("circle", "cx", x, "cy", y, "r", 2.4, "fill", sheet.Paper, "stroke", sheet.SoftInk, "stroke-width", 1)
	}
}

// fieldMarks draws the airfields, the most telling on top.
func (p *mapper) fieldMarks() {
	for i := range p.fields {
		f := p.fields[len(p.fields)-1-i]
		x, y := p.at(f.spot)
		p.Open("g")
		p.Drawing.Text("title", f.says()+": "+fates[f.fate])
		p.mark(f.fate, x, y)
		p.Close("g")
		p.room.Take(sheet.Box{Left: x - half - 1, Top: y - half - 1, Right: x + half + 1, Bottom: y + half + 1})
	}
}

// present is the aircraft: a dart along its track, which is drawn on, dashed;
// a ring when the track is not known.
func (p *mapper) present() {
	x, y := p.at(spot{})
	p.room.Take(sheet.Box{Left: x - 9, Top: y - 9, Right: x + 9, Bottom: y + 9})
	if !sheet.Sound(p.Track, 1e4) {
		p.Disc(x, y, 6, sheet.Paper)
		p.Disc(x, y, 2, sheet.Ink)
		return
	}
	sin, cos := math.Sincos(p.Track * math.Pi / 180)
	far := 0.0
	for p.holds(x+(far+6)*sin, y-(far+6)*cos) {
		far += 6
	}
	p.Segment(x, y, x+far*sin, y-far*cos, 1, sheet.Ink, "1.5 4")
	for d := 12.0; d < min(far, 80); d += 6 {
		p.room.Take(sheet.Box{Left: x + d*sin - 2, Top: y - d*cos - 2, Right: x + d*sin + 2, Bottom: y - d*cos + 2})
	}
	p.dart(x, y, sin, cos)
}

func (p *mapper) dart(x, y, sin, cos float64) {
	path := ""
	for i, q := range [][2]float64{{0, 11}, {6.5, -8}, {0, -4.5}, {-6.5, -8}} {
		letter := " L"
		if i == 0 {
			letter = "M"
		}
		path += letter + sheet.Number(x+q[0]*cos+q[1]*sin) + "," + sheet.Number(y+q[0]*sin-q[1]*cos)
	}
	p.Path(path+" Z", "fill", sheet.Ink, "stroke", sheet.Paper, "stroke-width", 1.2)
}

// crowded is the number of airfields from which they have only their name
// beside them.
const crowded = 40

// nameRoom is the widest name, in points.
const nameRoom = 190.0

// names writes a name beside each mark where there is room, and gives the
// number of those without.
func (p *mapper) names() (unnamed int) {
	for _, f := range p.fields {
		style := sheet.Style{Size: sheet.SmallSize, Rim: true}
		if f.fate == never || f.fate == unknown {
			style.Fill = sheet.SoftInk
		}
		x, y := p.at(f.spot)
		if !p.name(p.texts(f), sheet.Around(x, y, 7)[:16], style) {
			unnamed++
		}
	}
	return unnamed
}

// texts are the names of an airfield, the fullest first.
func (p *mapper) texts(f field) (texts []string) {
	if len(p.fields) < crowded {
		texts = []string{f.Ident + " " + f.miles()}
		if f.fate == lost && f.Reason != "" {
			texts = []string{texts[0] + ", " + f.Reason, texts[0]}
		}
	}
	texts = append(texts, f.Ident)
	for i := range texts {
		texts[i] = sheet.Clip(texts[i], nameRoom, sheet.SmallSize)
	}
	return texts
}

// name writes the fullest of the texts that finds room, off the boundaries if
// it can.
func (p *mapper) name(texts []string, spots []sheet.Spot, style sheet.Style) bool {
	for _, text := range texts {
		var off []sheet.Spot
		for _, s := range spots {
			style.Anchor = s.Anchor
			if p.lines.Free(sheet.TextBox(text, s.X, s.Y, style)) {
				off = append(off, s)
			}
		}
		if p.Label(p.room, text, off, style) || p.Label(p.room, text, spots, style) {
			return true
		}
	}
	return false
}
