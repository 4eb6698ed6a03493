package region

import (
	"math"

	"knockon/figure/sheet"
)

// Halves of a mark's width, in points.
const (
	halfMark    = 4.0
	halfCrowded = 2.6
)

// mark draws the shape of a fate around a place.
func (p *mapper) mark(f fate, x, y float64) {
	h, line := p.half, 1.5
	if h < halfMark {
		line = 1
	}
	side := sheet.Number(2 * h)
	cross := " l" + side + "," + side + " m0,-" + side + " l-" + side + "," + side
	corner := "M" + sheet.Number(x-h) + "," + sheet.Number(y-h)
	square := corner + " h" + side + " v" + side + " h-" + side + " z"
	switch f {
	case lost:
		p.Path(square+cross, "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", line)
	case gained:
		h *= 1.35
		slope := sheet.Number(h)
		p.Path("M"+sheet.Number(x)+","+sheet.Number(y-h)+" l"+slope+","+slope+" l-"+slope+","+slope+" l-"+slope+",-"+slope+" z", "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", line)
	case stays:
		p.Path(square, "fill", sheet.Ink, "stroke", sheet.Ink, "stroke-width", 1)
	case never:
		p.Path(corner+cross, "stroke", sheet.SoftInk, "stroke-width", line)
	default:
		p.Leaf("circle", "cx", x, "cy", y, "r", h*0.6, "fill", sheet.Paper, "stroke", sheet.SoftInk, "stroke-width", 1)
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
		p.room.Take(sheet.Box{Left: x - p.half - 1, Top: y - p.half - 1, Right: x + p.half + 1, Bottom: y + p.half + 1})
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
		if !p.name(p.texts(f), sheet.Around(x, y, 7), style) {
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

// closeBy is how many of the spots around a mark lie so close to it that no text
// there is taken for another mark's; the next ones hold the shortest text only.
const closeBy, near = 8, 16

// name writes the fullest of the texts that finds room close by, off the
// boundaries if it can; if none does, the shortest a little farther off.
func (p *mapper) name(texts []string, spots []sheet.Spot, style sheet.Style) bool {
	for _, text := range texts {
		if p.Label(p.room, text, p.offLines(text, spots[:closeBy], style), style) || p.Label(p.room, text, spots[:closeBy], style) {
			return true
		}
	}
	return p.Label(p.room, texts[len(texts)-1], spots[closeBy:near], style)
}

// offLines are the spots at which a text does not lie over a boundary.
func (p *mapper) offLines(text string, spots []sheet.Spot, style sheet.Style) (off []sheet.Spot) {
	for _, s := range spots {
		style.Anchor = s.Anchor
		if p.lines.Free(sheet.TextBox(text, s.X, s.Y, style)) {
			off = append(off, s)
		}
	}
	return off
}
