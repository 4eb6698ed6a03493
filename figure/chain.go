package figure

import (
	"fmt"

	"knockon/figure/layout"
	"knockon/figure/sheet"
)

// Chain is why a thing is so: steps, each with the steps that cause it.
type Chain struct {
	ID          string // unique in the page that it stands in; ids inside begin with it
	Title       string
	Description string // the same in words
	Steps       []Step // the first is what is explained; the others come after a step that they cause
	Left        int    // how many more there are that the picture has no room for
	Foot        []string
}

// Step is one step of a chain.
type Step struct {
	Kind   Kind
	Label  string // what it is: "DC bus, right side"
	Says   string // its value: "no"
	Note   string // since when, or what it is beside a step
	Source string // file and line of the book
	Causes []int  // numbers of the steps that cause it
}

// Kind of a step.
type Kind uint8

// Kinds of steps. All but KindStep cause and are not caused.
const (
	KindStep Kind = iota
	KindFailure
	KindAction
	KindFlight
	KindCondition
	KindStart
)

// Measures of a box, in points.
const (
	boxWidth  = 166.0
	boxInset  = 8.0
	boxLine   = 13.0
	chainEdge = 10.0 // around the whole
)

// textLine is a line of text in a box.
type textLine struct {
	text   string
	small  bool
	slants bool
}

// lines are the lines of text in a box: the label, what it says, its note and
// its source.
func (s Step) lines() (lines []textLine) {
	room := boxWidth - 2*boxInset
	for _, t := range sheet.Wrap(s.Label, room, textSize, 4) {
		lines = append(lines, textLine{text: t})
	}
	for _, t := range sheet.Wrap(s.Says, room, textSize, 2) {
		lines = append(lines, textLine{text: t, slants: true})
	}
	for _, note := range []string{s.Note, s.Source} {
		for _, t := range sheet.Wrap(note, room, smallSize, 2) {
			lines = append(lines, textLine{text: t, small: true})
		}
	}
	return lines
}

func (s Step) height() float64 { return float64(len(s.lines()))*boxLine + 2*boxInset - 3 }

// Graph gives the boxes and arrows to be placed; its plan goes into SVG.
func (c Chain) Graph() layout.Graph {
	var g layout.Graph
	for i, s := range c.Steps {
		g.Boxes = append(g.Boxes, layout.Box{Width: boxWidth, Height: s.height()})
		for _, cause := range s.Causes {
			g.Arrows = append(g.Arrows, layout.Arrow{From: cause, To: i})
		}
	}
	return g
}

// Part draws the chain as a part of a page.
func (c Chain) Part(plan layout.Plan) string { return c.draw(plan, false) }

// SVG draws it as a document of its own.
func (c Chain) SVG(plan layout.Plan) string { return c.draw(plan, true) }

// chainer draws one chain.
type chainer struct {
	sheet.Drawing
	Chain
	plan layout.Plan
	top  float64
}

func (c Chain) draw(plan layout.Plan, alone bool) string {
	p := &chainer{Drawing: sheet.New(c.ID), Chain: c, plan: plan, top: chainEdge}
	width := plan.Width + 2*chainEdge
	var foot []string
	if alone {
		p.top += 2 * lineHigh
		width = max(width, 480)
		for _, text := range c.Foot {
			foot = append(foot, sheet.Wrap(text, width-2*chainEdge, smallSize, 6)...)
		}
	}
	if c.Left > 0 {
		foot = append([]string{fmt.Sprintf("%d more steps are not drawn; the words have them all.", c.Left)}, foot...)
	}
	height := p.top + plan.Height + chainEdge
	if len(foot) > 0 {
		height += float64(len(foot))*lineHigh + 6
	}
	p.Open("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "chain", "role", "img", "viewBox", "0 0 "+sheet.Number(width)+" "+sheet.Number(height),
		"width", width, "height", height, "font-family", serif, "text-rendering", sheet.Exactly, "font-size", textSize, "fill", ink,
		"aria-labelledby", p.Anchor("title"), "aria-describedby", p.Anchor("desc"))
	p.Text("title", c.Title, "id", p.Anchor("title"))
	p.Text("desc", c.Description, "id", p.Anchor("desc"))
	p.head()
	if alone {
		p.Leaf("rect", "width", width, "height", height, "fill", paper)
		p.Text("text", c.Title, "x", chainEdge, "y", 24, "font-size", 15)
	}
	p.arrows()
	for i := range c.Steps {
		p.box(i)
	}
	for i, line := range foot {
		p.Text("text", line, "x", chainEdge, "y", p.top+plan.Height+6+float64(i+1)*lineHigh, "font-size", smallSize, "fill", softInk)
	}
	p.Close("svg")
	return p.String()
}

// head defines the arrow's head.
func (p *chainer) head() {
	p.Open("defs")
	p.Open("marker", "id", p.Anchor("head"), "viewBox", "0 0 8 8", "refX", 7.5, "refY", 4, "markerWidth", 7, "markerHeight", 7, "orient", "auto")
	p.Leaf("path", "d", "M0,0.8 L8,4 L0,7.2 z", "fill", ink)
	p.Close("marker")
	p.Close("defs")
}

func (p *chainer) arrows() {
	for _, curve := range p.plan.Curves {
		path := ""
		for i, q := range curve {
			switch {
			case i == 0:
				path = "M"
			case i == 1:
				path += " C"
			default:
				path += " "
			}
			path += sheet.Number(q.X+chainEdge) + "," + sheet.Number(q.Y+p.top)
		}
		p.Path(path, "stroke", ink, "stroke-width", 0.9, "marker-end", "url(#"+p.Anchor("head")+")")
	}
}

// shape of a step's box by its kind: fill, line, dashes, corners, text.
func (s Step) shape() (fill, text, dashes string, line, corner float64) {
	switch s.Kind {
	case KindFailure:
		return ink, paper, "", 1, 0
	case KindAction:
		return paper, ink, "", 1, 12
	case KindFlight:
		return paper, ink, "4 2.5", 1, 0
	case KindCondition, KindStart:
		return paper, ink, "1 2.5", 1, 0
	}
	return tint, ink, "", 0.9, 0
}

func (p *chainer) box(i int) {
	s, centre := p.Steps[i], p.plan.Centres[i]
	high := s.height()
	x, y := centre.X-boxWidth/2+chainEdge, centre.Y-high/2+p.top
	fill, text, dashes, line, corner := s.shape()
	if i == 0 {
		line = 2
	}
	soft := softInk
	if text == paper {
		soft = tint
	}
	p.Leaf("rect", "x", x, "y", y, "width", boxWidth, "height", high, "rx", corner, "fill", fill, "stroke", ink, "stroke-width", line, "stroke-dasharray", dashes)
	y += boxInset + 9
	for _, t := range s.lines() {
		size, style, colour := textSize, "", text
		if t.small {
			size, colour = smallSize, soft
		}
		if t.slants {
			style = "italic"
		}
		p.Text("text", t.text, "x", x+boxInset, "y", y, "font-size", size, "font-style", style, "fill", colour)
		y += boxLine
	}
}
