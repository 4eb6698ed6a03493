package png

import (
	"fmt"
	"image"

	"knockon/figure/png/outline"
)

// painter draws elements into an image.
type painter struct {
	img     *image.RGBA
	markers map[string]*node
	marking bool // a marker is being drawn: no other may be inside
}

func newPainter(wide, high int, root *node) *painter {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	p := &painter{img: img, markers: map[string]*node{}}
	p.findMarkers(root)
	return p
}

func (p *painter) findMarkers(n *node) {
	for _, c := range n.inner {
		if c.name == "marker" {
			p.markers["url(#"+c.attrs["id"]+")"] = c
		}
		p.findMarkers(c)
	}
}

// children draws what stands in an element.
func (p *painter) children(n *node, s style, m outline.Map) error {
	s, err := s.with(n)
	if err != nil {
		return err
	}
	own, err := outline.Transform(n.attrs["transform"])
	if err != nil {
		return fmt.Errorf("<%s>: %w", n.name, err)
	}
	for _, c := range n.inner {
		if err := p.element(c, s, m.After(own)); err != nil {
			return err
		}
	}
	return nil
}

func (p *painter) element(n *node, s style, m outline.Map) error {
	switch n.name {
	case "title", "desc", "defs", "marker", "metadata":
		return nil
	case "g", "a":
		return p.children(n, s, m)
	}
	s, err := s.with(n)
	if err != nil {
		return err
	}
	own, err := outline.Transform(n.attrs["transform"])
	if err != nil {
		return fmt.Errorf("<%s>: %w", n.name, err)
	}
	m = m.After(own)
	if n.name == "text" {
		return p.text(n, s, m)
	}
	o, err := shape(n)
	if err != nil {
		return err
	}
	if err := p.draw(o, s, m); err != nil {
		return fmt.Errorf("<%s>: %w", n.name, err)
	}
	return p.marker(n, o, s, m)
}

// shape gives the outline of an element.
func shape(n *node) (o outline.Outline, err error) {
	var v []float64
	switch n.name {
	case "rect":
		if v, err = n.all("x", "y", "width", "height", "rx"); err == nil && v[2] > 0 && v[3] > 0 {
			o = outline.Rectangle(v[0], v[1], v[2], v[3], v[4])
		}
	case "line":
		if v, err = n.all("x1", "y1", "x2", "y2"); err == nil {
			o.Move(v[0], v[1])
			o.Line(v[2], v[3])
		}
	case "circle":
		if v, err = n.all("cx", "cy", "r"); err == nil && v[2] > 0 {
			o = outline.Ellipse(v[0], v[1], v[2], v[2])
		}
	case "ellipse":
		if v, err = n.all("cx", "cy", "rx", "ry"); err == nil && v[2] > 0 && v[3] > 0 {
			o = outline.Ellipse(v[0], v[1], v[2], v[3])
		}
	case "polygon", "polyline":
		if o, err = outline.Points(n.attrs["points"]); n.name == "polygon" && len(o) > 0 {
			o.Close()
		}
	case "path":
		o, err = outline.Parse(n.attrs["d"])
	default:
		err = fmt.Errorf("the element <%s> cannot be drawn", n.name)
	}
	return o, err
}

func (p *painter) draw(o outline.Outline, s style, m outline.Map) error {
	if !s.strokeFirst {
		p.fill(o, s, m)
		return p.stroke(o, s, m)
	}
	err := p.stroke(o, s, m)
	p.fill(o, s, m)
	return err
}

// marker draws the head of an arrow at the end of a line: SVG 1.1, 11.6.
func (p *painter) marker(n *node, o outline.Outline, s style, m outline.Map) error {
	name := n.attrs["marker-end"]
	if name == "" || name == "none" || len(o) == 0 {
		return nil
	}
	mark, ok := p.markers[name]
	if !ok || p.marking {
		return fmt.Errorf("<%s>: there is no marker %s that can be drawn here", n.name, name)
	}
	v, err := mark.all("refX", "refY", "markerWidth", "markerHeight")
	if err != nil {
		return err
	}
	view, err := viewBox(mark)
	if err != nil {
		return err
	}
	end, angle := o.End()
	k := s.width * min(v[2]/view.wide, v[3]/view.high)
	m = m.After(outline.Move(end.X, end.Y)).After(outline.Turn(angle)).After(outline.Map{A: k, D: k}).After(outline.Move(-v[0], -v[1]))
	p.marking = true
	defer func() { p.marking = false }()
	return p.children(mark, plain(), m)
}
