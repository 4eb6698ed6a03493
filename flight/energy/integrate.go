package energy

import "math"

// Stretches are integrated by the classical method of Runge and Kutta, of the
// fourth order, in even steps that end at the located event; between the steps
// stands the cubic that has value and derivative of both ends.

// piece is one step.
type piece struct {
	start, length float64 // s
	y, z          vector  // at its ends
	dy, dz        vector  // derivatives there
	flyer         *flyer
	tag           tag
}

// step gives the state after h seconds.
func (f *flyer) step(y, d1 *vector, h float64) vector {
	y2 := along(y, d1, h/2)
	d2 := f.rates(&y2)
	y3 := along(y, &d2, h/2)
	d3 := f.rates(&y3)
	y4 := along(y, &d3, h)
	d4 := f.rates(&y4)
	var z vector
	for i := range z {
		z[i] = y[i] + h/6*(d1[i]+2*d2[i]+2*d3[i]+d4[i])
	}
	return z
}

func along(y, d *vector, h float64) (z vector) {
	for i := range z {
		z[i] = y[i] + h*d[i]
	}
	return z
}

// at gives the state s seconds into the piece.
func (p *piece) at(s float64) (y vector) {
	h := p.length
	u := s / h
	a, b := 1+2*u, 1-u
	for i := range y {
		y[i] = (p.y[i]*a+h*u*p.dy[i])*b*b + (p.z[i]*(3-2*u)-h*b*p.dz[i])*u*u
	}
	return y
}

// end is something that ends a stretch: when its margin is no longer positive.
type end struct {
	event  Event
	margin func(y *vector, t float64) float64
}

// mostSteps bounds one stretch.
const mostSteps = 100000

// fly integrates one stretch in steps of h seconds until one of its ends comes,
// and gives that; the earliest of several.
func (p *Profile) fly(f *flyer, h float64, ends []end) Event {
	for i := range ends {
		if ends[i].margin(&p.now, p.t) <= 0 {
			return ends[i].event
		}
	}
	for range mostSteps {
		d := f.rates(&p.now)
		first, which := h, -1
		z := f.step(&p.now, &d, h)
		if z[iAltitude] != z[iAltitude] || z[iSpeed] <= 0 { // outside what the equations hold for
			return Lost
		}
		for i := range ends {
			if ends[i].margin(&z, p.t+first) <= 0 {
				first, which = p.whole(p.locate(f, &d, ends[i], first)), i
				z = f.step(&p.now, &d, first)
			}
		}
		q := piece{start: p.t, length: first, y: p.now, z: z, dy: d, dz: f.rates(&z), flyer: f, tag: p.tag}
		p.pieces = append(p.pieces, q)
		p.now, p.t = z, p.t+first
		if p.exact {
			p.t = math.Round(p.t*1e6) / 1e6
		}
		if which >= 0 {
			return ends[which].event
		}
	}
	return Lost
}

// whole makes a stretch end at a whole microsecond, the first at or after the
// event, where the profile is that of a flight. It is one at least: a stretch
// without length would never get past its event.
func (p *Profile) whole(length float64) float64 {
	if !p.exact {
		return length
	}
	return max(1, math.Ceil((p.t+length)*1e6-1e-3)-math.Round(p.t*1e6)) / 1e6
}

// locate finds the length of the step at whose end the margin is used up, by
// the secant method that keeps its bracket (Illinois); each try is a whole step
// of the method, so that the event is as exact as the steps.
func (p *Profile) locate(f *flyer, d *vector, e end, h float64) float64 {
	margin := func(s float64) float64 { z := f.step(&p.now, d, s); return e.margin(&z, p.t+s) }
	lo, hi := 0.0, h
	a, b := e.margin(&p.now, p.t), margin(h)
	for range 60 {
		if hi-lo < 1e-7 || b == 0 {
			break
		}
		s := hi - b*(hi-lo)/(b-a)
		if !(s > lo && s < hi) {
			s = (lo + hi) / 2
		}
		m := margin(s)
		switch {
		case m <= 0:
			if math.Abs(m) < 1e-12 {
				return s
			}
			hi, b, a = s, m, a/2
		default:
			lo, a, b = s, m, b/2
		}
	}
	return hi
}
