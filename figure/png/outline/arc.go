package outline

import "math"

// arc adds an elliptical arc: SVG 1.1, appendix F.6.5, in curves of at most a
// quarter.
func (o *Outline) arc(from Point, v [7]float64) {
	rx, ry, to := math.Abs(v[0]), math.Abs(v[1]), Point{v[5], v[6]}
	if rx == 0 || ry == 0 || from == to {
		o.Line(to.X, to.Y)
		return
	}
	tilt := Turn(v[2])
	back := Turn(-v[2])
	hx, hy := back.At((from.X-to.X)/2, (from.Y-to.Y)/2)
	if over := math.Hypot(hx/rx, hy/ry); over > 1 {
		rx, ry = rx*over, ry*over
	}
	ux, uy := hx/rx, hy/ry // on the unit circle
	f := math.Sqrt(max(1/(ux*ux+uy*uy)-1, 0))
	if (v[3] != 0) == (v[4] != 0) {
		f = -f
	}
	cx, cy := f*uy, -f*ux
	begin := math.Atan2(uy-cy, ux-cx)
	sweep := math.Mod(math.Atan2(-uy-cy, -ux-cx)-begin+4*math.Pi, 2*math.Pi)
	if v[4] == 0 {
		sweep -= 2 * math.Pi
	}
	unit := Move((from.X+to.X)/2, (from.Y+to.Y)/2).After(tilt).After(Map{rx, 0, 0, ry, 0, 0}).After(Move(cx, cy))
	o.sweep(unit, begin, sweep)
}

// sweep adds a part of the unit circle as a map shows it.
func (o *Outline) sweep(m Map, begin, sweep float64) {
	count := max(math.Ceil(math.Abs(sweep)/(math.Pi/2)-1e-9), 1)
	part := sweep / count
	k := 4.0 / 3 * math.Tan(part/4)
	for i := range int(count) {
		s1, c1 := math.Sincos(begin + float64(i)*part)
		s2, c2 := math.Sincos(begin + float64(i+1)*part)
		ax, ay := m.At(c1-k*s1, s1+k*c1)
		bx, by := m.At(c2+k*s2, s2-k*c2)
		x, y := m.At(c2, s2)
		o.Curve(ax, ay, bx, by, x, y)
	}
}
