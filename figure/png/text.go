package png

import (
	"errors"
	"fmt"
	"strings"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"knockon/figure/face"
	"knockon/figure/png/outline"
)

// cut is the face that a style asks for. The family has no bold that slants.
func (s style) cut() (*face.Face, error) {
	switch {
	case s.bold && s.slants:
		return nil, errors.New("bold letters that slant cannot be drawn")
	case s.bold:
		return face.Of(face.Bold), nil
	case s.slants:
		return face.Of(face.Italic), nil
	}
	return face.Of(face.Upright), nil
}

func (p *painter) text(n *node, s style, m outline.Map) error {
	if len(n.inner) > 0 {
		return fmt.Errorf("<text>: the element <%s> in it cannot be drawn", n.inner[0].name)
	}
	v, err := n.all("x", "y")
	if err != nil {
		return err
	}
	text := strings.Join(strings.Fields(n.text), " ")
	cut, err := s.cut()
	if err != nil {
		return fmt.Errorf("the text %q: %w", text, err)
	}
	o, wide, err := set(cut, text, s.size)
	if err != nil {
		return fmt.Errorf("the text %q: %w", text, err)
	}
	back := map[string]float64{"start": 0, "middle": wide / 2, "end": wide}[s.anchor]
	return p.draw(o, s, m.After(outline.Move(v[0]-back, v[1])))
}

// set gives the outlines of a text that begins at 0, 0, and how wide it is. A
// letter that the font does not have becomes a box, so that it is seen to be
// missing.
func set(f *face.Face, text string, size float64) (o outline.Outline, wide float64, err error) {
	var b sfnt.Buffer
	units := f.Font.UnitsPerEm()
	k := size / float64(units)
	before := rune(-1)
	for _, r := range text {
		glyph, err := f.Font.GlyphIndex(&b, r)
		if err != nil {
			return nil, 0, err
		}
		wide += float64(f.Pair(before, r)) * k
		if glyph == 0 {
			addBox(&o, size, wide)
		} else {
			parts, err := f.Font.LoadGlyph(&b, glyph, fixed.I(int(units)), nil)
			if err != nil {
				return nil, 0, err
			}
			addGlyph(&o, parts, k/64, wide)
		}
		wide, before = wide+float64(f.Advance(r))*k, r
	}
	return o, wide, nil
}

// addBox adds the frame that stands for a missing letter at x.
func addBox(o *outline.Outline, size, x float64) {
	left, right, top, line := x+0.2*size, x+0.8*size, -0.62*size, 0.06*size
	*o = append(*o, outline.Rectangle(left, top, right-left, -top, 0)...)
	o.Move(left+line, top+line) // the inner edge runs the other way: a hole
	o.Line(left+line, -line)
	o.Line(right-line, -line)
	o.Line(right-line, top+line)
	o.Close()
}

// addGlyph adds a letter, k times its size and moved to x.
func addGlyph(o *outline.Outline, parts sfnt.Segments, k, x float64) {
	var at outline.Point
	for i, part := range parts {
		var p [3]outline.Point
		for j, a := range part.Args {
			p[j] = outline.Point{X: float64(a.X)*k + x, Y: float64(a.Y) * k}
		}
		switch part.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				o.Close()
			}
			o.Move(p[0].X, p[0].Y)
			at = p[0]
		case sfnt.SegmentOpLineTo:
			o.Line(p[0].X, p[0].Y)
			at = p[0]
		case sfnt.SegmentOpQuadTo:
			c, to := p[0], p[1]
			o.Curve(at.X+2*(c.X-at.X)/3, at.Y+2*(c.Y-at.Y)/3, to.X+2*(c.X-to.X)/3, to.Y+2*(c.Y-to.Y)/3, to.X, to.Y)
			at = to
		case sfnt.SegmentOpCubeTo:
			o.Curve(p[0].X, p[0].Y, p[1].X, p[1].Y, p[2].X, p[2].Y)
			at = p[2]
		}
	}
	if len(parts) > 0 {
		o.Close()
	}
}
