package figure

import (
	"fmt"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// flight draws height over time, and names the phases below it.
func (p *liner) flight() {
	top, bottom := p.y, p.y+p.profile
	p.heightTicks(top, bottom)
	var path strings.Builder
	fmt.Fprintf(&path, "M%s,%s", sheet.Number(p.left), sheet.Number(bottom))
	end := p.right
	if p.Ends > 0 {
		end = p.axis.at(p.Ends)
	}
	for x := p.left; ; x = min(x+2, end) {
		y := bottom
		if p.Ceiling > 0 {
			y -= (p.profile - 6) * p.Feet(p.axis.moment(x)) / p.Ceiling
		}
		fmt.Fprintf(&path, " L%s,%s", sheet.Number(x), sheet.Number(y))
		if x == end {
			break
		}
	}
	p.Leaf("path", "d", path.String()+fmt.Sprintf(" L%s,%s Z", sheet.Number(end), sheet.Number(bottom)), "fill", tint, "stroke", ink, "stroke-width", 1)
	p.Leaf("line", "x1", p.left, "x2", p.right, "y1", bottom, "y2", bottom, "stroke", ink, "stroke-width", 1)
	p.y = bottom
	p.phaseNames()
}

// heightTicks puts the ground and one or two round heights at the left.
func (p *liner) heightTicks(top, bottom float64) {
	step := 10000.0
	for p.Ceiling < step && step > 100 {
		step /= 10
	}
	for p.Ceiling > 4*step {
		step *= 2
	}
	for feet := step; feet <= p.Ceiling; feet += step {
		y := bottom - (p.profile-6)*feet/p.Ceiling
		p.Leaf("line", "x1", p.left, "x2", p.right, "y1", y, "y2", y, "stroke", faint, "stroke-width", 0.7)
		text := say.Whole(feet) + " ft"
		if p.beside {
			p.Text("text", text, "x", p.left-6, "y", y+3.5, "text-anchor", "end", "font-size", smallSize, "fill", softInk)
		} else {
			p.Text("text", text, "x", p.left+2, "y", y-2, "font-size", smallSize, "fill", softInk)
		}
	}
}

func (p *liner) phaseNames() {
	for i, ph := range p.Phases {
		middle, room := (p.axis.x[i]+p.axis.x[i+1])/2, p.axis.x[i+1]-p.axis.x[i]-2
		if p.phaseDown {
			x, y := middle+3.5, p.y+5
			p.Text("text", sheet.Clip(ph.Title, p.phaseSpace, phaseSize), "transform", fmt.Sprintf("translate(%s %s) rotate(-90)", sheet.Number(x), sheet.Number(y)),
				"text-anchor", "end", "font-size", phaseSize)
			continue
		}
		for j, line := range sheet.Wrap(ph.Title, room, phaseSize, p.phaseLines) {
			p.Text("text", line, "x", middle, "y", p.y+12+float64(j)*11, "text-anchor", "middle", "font-size", phaseSize)
		}
	}
	if !p.phaseDown {
		p.Text("text", "phases; minutes from the start", "x", p.left-6, "y", p.y+12, "text-anchor", "end", "font-size", smallSize, "fill", softInk, "font-style", "italic")
		p.times(p.y + 12 + float64(p.phaseLines)*11 + 2)
	}
	p.y += p.phaseSpace
}

// times writes minutes and seconds where each phase begins.
func (p *liner) times(y float64) {
	for i, t := range p.axis.t {
		anchor := "start"
		if i == len(p.axis.t)-1 {
			anchor = "end"
		}
		dx := 2.0
		if anchor == "end" {
			dx = 0
		} else if i == len(p.axis.t)-2 && p.axis.x[i+1]-p.axis.x[i] < 70 {
			continue // would meet the end's
		}
		p.Text("text", say.Clock(t), "x", p.axis.x[i]+dx, "y", y, "text-anchor", anchor, "font-size", 9.5, "fill", softInk)
	}
}

func (p *liner) groups() {
	for _, g := range p.Groups {
		p.group(g)
	}
	p.y += groupSpace
}

// group is a heading with its rows; one without a title is rows alone.
func (p *liner) group(g Group) {
	if g.Title == "" {
		p.y += groupSpace
	} else {
		p.heading(g)
	}
	for _, r := range g.Rows {
		p.row(r)
	}
}

func (p *liner) heading(g Group) {
	p.y += groupSpace + lineHigh
	x := 0.0
	if p.alone {
		x = 12
	}
	if !p.beside {
		x = p.left
	}
	if !g.Plain {
		p.bar(x+1, x+21, p.y-4, barHigh, g.Ink)
		x += 28
	}
	p.Open("g", "font-style", "italic")
	p.label(g.Title, x, p.y)
	p.Close("g")
	p.Leaf("line", "x1", p.left, "x2", p.right, "y1", p.y+3, "y2", p.y+3, "stroke", faint, "stroke-width", 0.7)
	p.y += 4
}

// row is a label and its bar: beside it, or below it where there is no room.
func (p *liner) row(r Row) {
	x, room := 0.0, p.left-10
	if p.alone {
		x, room = 12, room-12
	}
	if !p.beside {
		x, room = p.left, p.right-p.left
	}
	lines := sheet.Wrap(r.Label, room, textSize, 2)
	high := float64(len(lines))*lineHigh + 2
	barY := p.y + high/2
	if !p.beside {
		barY = p.y + high + barHigh/2 + 1
		high += barHigh + 4
	}
	tag := "a"
	if p.alone || p.still || r.Link == "" {
		tag, r.Link = "g", ""
	}
	p.Open(tag, "href", r.Link, "class", "bar")
	p.Text("title", r.Label+": "+r.Says)
	p.Leaf("rect", "class", "hit", "x", 0, "y", p.y, "width", p.width, "height", high, "fill", paper, "fill-opacity", "0")
	for i, line := range lines {
		p.label(line, x, p.y+11+float64(i)*lineHigh)
	}
	p.pieces(r.Pieces, barY)
	p.Close(tag)
	p.y += high
}

// label writes a line of a label. One that stands over the bars' room has a rim
// of paper, so that the lines of the grid do not run through it.
func (p *liner) label(text string, x, y float64) {
	if p.beside {
		p.Text("text", text, "x", x, "y", y)
		return
	}
	p.Text("text", text, "x", x, "y", y, "stroke", paper, "stroke-width", 3, "stroke-linejoin", "round", "paint-order", "stroke")
}

func (p *liner) pieces(pieces []Piece, y float64) {
	for _, s := range pieces {
		high := barHigh
		if s.Thin {
			high = thinHigh
		}
		x1, x2 := p.axis.at(s.From), p.axis.at(s.To)
		if x2-x1 < leastPiece {
			x1 = min(x1, p.right-leastPiece)
			x2 = x1 + leastPiece
		}
		p.bar(x1, x2, y, high, s.Ink)
	}
}

// bar draws a stretch around the height y.
func (p *liner) bar(x1, x2, y, high float64, i Ink) {
	fill, stroke := i.paint()
	line := 0.9
	if i.held() {
		line = 1.4
	}
	in := line / 2 // the stroke stays inside
	p.Leaf("rect", "x", x1+in, "y", y-high/2+in, "width", max(x2-x1-line, 0.6), "height", max(high-line, 0.6),
		"fill", fill, "stroke", stroke, "stroke-width", line)
	hatch(&p.Drawing, i, x1, x2, y, high)
}
