package png

import (
	"fmt"
	"strings"

	"codeberg.org/go-fonts/liberation/liberationserifbold"
	"codeberg.org/go-fonts/liberation/liberationserifbolditalic"
	"codeberg.org/go-fonts/liberation/liberationserifitalic"
	"codeberg.org/go-fonts/liberation/liberationserifregular"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"knockon/figure/png/outline"
)

// faces are the fonts that texts are set in, whatever family a picture names:
// the picture must come out alike on every machine.
type faces map[[2]bool]*sfnt.Font // by bold and slanting

func newFaces() (faces, error) {
	f := faces{}
	for key, data := range map[[2]bool][]byte{
		{false, false}: liberationserifregular.TTF, {false, true}: liberationserifitalic.TTF,
		{true, false}: liberationserifbold.TTF, {true, true}: liberationserifbolditalic.TTF,
	} {
		parsed, err := sfnt.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("the font in the program: %w", err)
		}
		f[key] = parsed
	}
	return f, nil
}

// Width is how wide a text is in the upright font of the files, at a size in
// points.
func Width(text string, size float64) (float64, error) {
	f, err := newFaces()
	if err != nil {
		return 0, err
	}
	_, wide, err := set(f[[2]bool{}], text, size)
	return wide, err
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
	o, wide, err := set(p.faces[[2]bool{s.bold, s.slants}], text, s.size)
	if err != nil {
		return fmt.Errorf("the text %q: %w", text, err)
	}
	back := map[string]float64{"start": 0, "middle": wide / 2, "end": wide}[s.anchor]
	return p.draw(o, s, m.After(outline.Move(v[0]-back, v[1])))
}

// set gives the outlines of a text that begins at 0, 0, and how wide it is. A
// letter that the font does not have becomes a box, so that it is seen to be
// missing.
func set(f *sfnt.Font, text string, size float64) (o outline.Outline, wide float64, err error) {
	var b sfnt.Buffer
	units := fixed.I(int(f.UnitsPerEm()))
	k := size / float64(f.UnitsPerEm()) / 64
	before := sfnt.GlyphIndex(0)
	for _, r := range text {
		glyph, err := f.GlyphIndex(&b, r)
		if err != nil {
			return nil, 0, err
		}
		if kern, err := f.Kern(&b, before, glyph, units, font.HintingNone); err == nil && wide > 0 {
			wide += float64(kern) * k
		}
		if glyph == 0 {
			addBox(&o, size, wide)
			wide += boxWide * size
			before = 0
			continue
		}
		parts, err := f.LoadGlyph(&b, glyph, units, nil)
		if err != nil {
			return nil, 0, err
		}
		addGlyph(&o, parts, k, wide)
		advance, err := f.GlyphAdvance(&b, glyph, units, font.HintingNone)
		if err != nil {
			return nil, 0, err
		}
		wide, before = wide+float64(advance)*k, glyph
	}
	return o, wide, nil
}

// boxWide is the room of a box, in parts of the size.
const boxWide = 0.6

// addBox adds the frame that stands for a missing letter at x.
func addBox(o *outline.Outline, size, x float64) {
	left, right, top, line := x+0.08*size, x+0.52*size, -0.62*size, 0.06*size
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
