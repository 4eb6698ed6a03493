package outline

import (
	"fmt"
	"math"
)

// Outline is the edge of a shape: lines and curves from point to point.
type Outline []Step

// Step moves to, draws to, or closes. A curve has its two control points first.
type Step struct {
	What byte // 'M', 'L', 'C' or 'Z'
	At   [3]Point
}

// Point is a place.
type Point struct{ X, Y float64 }

// Move begins a part of the outline.
func (o *Outline) Move(x, y float64) { *o = append(*o, Step{'M', [3]Point{{x, y}}}) }

// Line goes on straight to a place.
func (o *Outline) Line(x, y float64) { *o = append(*o, Step{'L', [3]Point{{x, y}}}) }

// Close goes back to where the part began.
func (o *Outline) Close() { *o = append(*o, Step{What: 'Z'}) }

// Curve goes on to x, y by a cubic curve with two control points.
func (o *Outline) Curve(ax, ay, bx, by, x, y float64) {
	*o = append(*o, Step{'C', [3]Point{{ax, ay}, {bx, by}, {x, y}}})
}

// Through gives the outline as a map shows it.
func (o Outline) Through(m Map) Outline {
	mapped := make(Outline, len(o))
	for i, s := range o {
		for j, p := range s.At {
			s.At[j].X, s.At[j].Y = m.At(p.X, p.Y)
		}
		mapped[i] = s
	}
	return mapped
}

// Closed gives the outline with every part closed, as it is filled.
func (o Outline) Closed() Outline {
	var closed Outline
	for i, s := range o {
		if i > 0 && s.What == 'M' && o[i-1].What != 'Z' {
			closed.Close()
		}
		closed = append(closed, s)
	}
	if len(closed) > 0 && closed[len(closed)-1].What != 'Z' {
		closed.Close()
	}
	return closed
}

// Length is about how long the outline is: exact for lines, rather too long
// for curves.
func (o Outline) Length() float64 {
	sum, at, from := 0.0, Point{}, Point{}
	to := func(p Point) {
		sum += math.Hypot(p.X-at.X, p.Y-at.Y)
		at = p
	}
	for _, s := range o {
		switch s.What {
		case 'M':
			at, from = s.At[0], s.At[0]
		case 'L':
			to(s.At[0])
		case 'C':
			to(s.At[0])
			to(s.At[1])
			to(s.At[2])
		case 'Z':
			to(from)
		}
	}
	return sum
}

// kappa makes a quarter of a circle from a curve, to 0.03 % of the radius.
const kappa = 0.5522847498

// Ellipse is an ellipse around a centre.
func Ellipse(cx, cy, rx, ry float64) (o Outline) {
	kx, ky := kappa*rx, kappa*ry
	o.Move(cx+rx, cy)
	o.Curve(cx+rx, cy+ky, cx+kx, cy+ry, cx, cy+ry)
	o.Curve(cx-kx, cy+ry, cx-rx, cy+ky, cx-rx, cy)
	o.Curve(cx-rx, cy-ky, cx-kx, cy-ry, cx, cy-ry)
	o.Curve(cx+kx, cy-ry, cx+rx, cy-ky, cx+rx, cy)
	o.Close()
	return o
}

// Rectangle is a rectangle, with rounded corners if r is above 0.
func Rectangle(x, y, wide, high, r float64) (o Outline) {
	r = min(r, wide/2, high/2)
	if r <= 0 {
		o.Move(x, y)
		o.Line(x+wide, y)
		o.Line(x+wide, y+high)
		o.Line(x, y+high)
		o.Close()
		return o
	}
	k, right, below := r*(1-kappa), x+wide, y+high
	o.Move(x+r, y)
	o.Line(right-r, y)
	o.Curve(right-k, y, right, y+k, right, y+r)
	o.Line(right, below-r)
	o.Curve(right, below-k, right-k, below, right-r, below)
	o.Line(x+r, below)
	o.Curve(x+k, below, x, below-k, x, below-r)
	o.Line(x, y+r)
	o.Curve(x, y+k, x+k, y, x+r, y)
	o.Close()
	return o
}

// Points reads a list of points, to be joined by straight lines.
func Points(text string) (o Outline, err error) {
	v, err := Numbers(text)
	if err != nil || len(v)%2 != 0 {
		return nil, fmt.Errorf("the points %.40q cannot be read", text)
	}
	for i := 0; i < len(v); i += 2 {
		if i == 0 {
			o.Move(v[0], v[1])
		} else {
			o.Line(v[i], v[i+1])
		}
	}
	return o, nil
}

// Begin is where the part of an outline began that a step belongs to.
func (o Outline) Begin(i int) Point {
	for ; i > 0 && o[i].What != 'M'; i-- {
	}
	return o[i].At[0]
}

// End is where an outline ends and which way it then goes, in degrees.
func (o Outline) End() (Point, float64) {
	var all []Point
	for _, s := range o {
		switch s.What {
		case 'M', 'L':
			all = append(all, s.At[0])
		case 'C':
			all = append(all, s.At[:]...)
		}
	}
	last := all[len(all)-1]
	for i := len(all) - 2; i >= 0; i-- {
		if all[i] != last {
			return last, math.Atan2(last.Y-all[i].Y, last.X-all[i].X) * 180 / math.Pi
		}
	}
	return last, 0
}

// Dashed gives the dashes of an outline: lengths of dashes and gaps in turn, an
// even count of them, each above 0. Every part of the outline begins with a
// dash. Curves become short lines.
func (o Outline) Dashed(lengths []float64) Outline {
	d := dasher{lengths: lengths}
	for i, s := range o {
		switch s.What {
		case 'M':
			d.begin(s.At[0])
		case 'L':
			d.to(s.At[0])
		case 'C':
			from := d.at
			for n := 1; n <= curvePieces; n++ {
				d.to(onCurve(from, s.At, float64(n)/curvePieces))
			}
		case 'Z':
			d.to(o.Begin(i))
		}
	}
	return d.o
}

// curvePieces is in how many lines a curve is dashed.
const curvePieces = 32

func onCurve(a Point, c [3]Point, t float64) Point {
	u := 1 - t
	f := func(a, b, c, d float64) float64 { return u*u*u*a + 3*u*u*t*b + 3*u*t*t*c + t*t*t*d }
	return Point{f(a.X, c[0].X, c[1].X, c[2].X), f(a.Y, c[0].Y, c[1].Y, c[2].Y)}
}

type dasher struct {
	lengths []float64
	o       Outline
	at      Point
	n       int     // which length it is in: a dash if even
	left    float64 // how much of it is left
}

func (d *dasher) begin(p Point) {
	d.at, d.n, d.left = p, 0, d.lengths[0]
	d.o.Move(p.X, p.Y)
}

// to goes on straight, over as many dashes and gaps as there are on the way.
func (d *dasher) to(p Point) {
	far := math.Hypot(p.X-d.at.X, p.Y-d.at.Y)
	for far > d.left {
		part := d.left / far
		d.step(Point{d.at.X + part*(p.X-d.at.X), d.at.Y + part*(p.Y-d.at.Y)})
		far -= d.left
		d.n = (d.n + 1) % len(d.lengths)
		d.left = d.lengths[d.n]
		if d.n%2 == 0 {
			d.o.Move(d.at.X, d.at.Y)
		}
	}
	d.left -= far
	d.step(p)
}

func (d *dasher) step(p Point) {
	if d.n%2 == 0 && p != d.at {
		d.o.Line(p.X, p.Y)
	}
	d.at = p
}
