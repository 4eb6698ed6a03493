package png

import (
	"fmt"
	"image"
	"math"

	"github.com/srwiley/rasterx"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"knockon/figure/png/outline"
)

func (p *painter) fill(o outline.Outline, s style, m outline.Map) {
	if s.fill != nil && s.fillOpaque > 0 {
		p.cover(o.Closed().Through(m), image.NewUniform(tone(*s.fill, s.fillOpaque)))
	}
}

// cover paints what lies inside an outline in pixels, by the nonzero rule. The
// outline may be in pieces that are not closed, but together they must be. Only
// the part of the image that it touches is worked on.
func (p *painter) cover(o outline.Outline, with image.Image) {
	part := extent(o).Intersect(p.img.Rect)
	if part.Empty() {
		return
	}
	v := vector.NewRasterizer(part.Dx(), part.Dy())
	local := func(a outline.Point) (x, y float32) {
		return float32(within(a.X) - float64(part.Min.X)), float32(within(a.Y) - float64(part.Min.Y))
	}
	for _, s := range o {
		ax, ay := local(s.At[0])
		bx, by := local(s.At[1])
		cx, cy := local(s.At[2])
		switch s.What {
		case 'M':
			v.MoveTo(ax, ay)
		case 'L':
			v.LineTo(ax, ay)
		case 'C':
			v.CubeTo(ax, ay, bx, by, cx, cy)
		case 'Z':
			v.ClosePath()
		}
	}
	v.Draw(p.img, part, with, image.Point{})
}

// farthest is how far outside the image a place may lie, in pixels: beyond it
// the rasteriser, which counts in parts of a pixel, would run over. What lies
// farther is brought in.
const farthest = 1 << 18

func within(v float64) float64 { return min(max(v, -farthest), farthest) }

// extent is the pixels that an outline can touch.
func extent(o outline.Outline) image.Rectangle {
	low, high := outline.Point{X: farthest, Y: farthest}, outline.Point{X: -farthest, Y: -farthest}
	add := func(a outline.Point) {
		low.X, low.Y = min(low.X, a.X), min(low.Y, a.Y)
		high.X, high.Y = max(high.X, a.X), max(high.Y, a.Y)
	}
	for _, s := range o {
		switch s.What {
		case 'M', 'L':
			add(s.At[0])
		case 'C':
			add(s.At[0])
			add(s.At[1])
			add(s.At[2])
		}
	}
	if low.X > high.X {
		return image.Rectangle{}
	}
	down := func(v float64) int { return int(math.Floor(within(v))) }
	return image.Rect(down(low.X), down(low.Y), down(high.X)+1, down(high.Y)+1)
}

// edge takes down the outline of a line's stroke, as a map shows it: a line gets
// its width before it is slanted, as SVG wants it. It is the scanner that the
// stroker draws to.
type edge struct {
	o outline.Outline
	m outline.Map
}

func (e *edge) Start(a fixed.Point26_6) { e.o.Move(e.m.At(float64(a.X)/64, float64(a.Y)/64)) }
func (e *edge) Line(b fixed.Point26_6)  { e.o.Line(e.m.At(float64(b.X)/64, float64(b.Y)/64)) }

// The rest of a scanner has nothing to do here.
func (e *edge) Draw()                                  {}
func (e *edge) Clear()                                 {}
func (e *edge) SetBounds(int, int)                     {}
func (e *edge) SetColor(any)                           {}
func (e *edge) SetWinding(bool)                        {}
func (e *edge) SetClip(image.Rectangle)                {}
func (e *edge) GetPathExtent() (r fixed.Rectangle26_6) { return r }

// miterLimit is SVG's own.
const miterLimit = 4

// mostDashes is how many dashes a line may have: more are a mistake.
const mostDashes = 4_000

func (p *painter) stroke(o outline.Outline, s style, m outline.Map) error {
	k := m.Size()
	if s.stroke == nil || s.strokeOpaque <= 0 || s.width <= 0 || k == 0 || len(o) == 0 {
		return nil
	}
	if o.Length() > mostDashes*s.dashLength() && len(s.dashes) > 0 {
		return fmt.Errorf("a line would have more than %d dashes", mostDashes)
	}
	e := &edge{m: m.After(outline.Map{A: 1 / k, D: 1 / k})}
	d := rasterx.NewStroker(p.img.Rect.Dx(), p.img.Rect.Dy(), e)
	if len(s.dashes) > 0 {
		o = o.Dashed(s.dashes)
	}
	ends := lineEnd(s.cap)
	d.SetStroke(fixed.Int26_6(math.Round(s.width*k*64)), miterLimit*64, ends, ends, rasterx.RoundGap, lineJoin(s.join))
	trace(o.Through(outline.Map{A: k, D: k}), d)
	p.cover(e.o, image.NewUniform(tone(*s.stroke, s.strokeOpaque)))
	return nil
}

func lineEnd(name string) rasterx.CapFunc {
	switch name {
	case "round":
		return rasterx.RoundCap
	case "square":
		return rasterx.SquareCap
	}
	return rasterx.ButtCap
}

func lineJoin(name string) rasterx.JoinMode {
	switch name {
	case "round":
		return rasterx.Round
	case "bevel":
		return rasterx.Bevel
	}
	return rasterx.Miter
}

// trace goes along an outline.
func trace(o outline.Outline, to rasterx.Adder) {
	open := false
	start := func(a outline.Point) {
		if open {
			to.Stop(false)
		}
		to.Start(toFixed(a))
		open = true
	}
	for i, s := range o {
		if s.What != 'M' && !open { // it goes on from where it was closed
			start(o.Begin(i))
		}
		switch s.What {
		case 'M':
			start(s.At[0])
		case 'L':
			to.Line(toFixed(s.At[0]))
		case 'C':
			to.CubeBezier(toFixed(s.At[0]), toFixed(s.At[1]), toFixed(s.At[2]))
		case 'Z':
			to.Stop(true)
			open = false
		}
	}
	if open {
		to.Stop(false)
	}
}

func toFixed(a outline.Point) fixed.Point26_6 {
	one := func(v float64) fixed.Int26_6 { return fixed.Int26_6(math.Round(within(v) * 64)) }
	return fixed.Point26_6{X: one(a.X), Y: one(a.Y)}
}
