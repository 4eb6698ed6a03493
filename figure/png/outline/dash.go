package outline

import "math"

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
