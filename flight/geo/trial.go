package geo

import "math"

// trial is a geodesic from the first place with an azimuth that is tried, up
// to the latitude of the second.
type trial struct {
	alpha1, alpha2 turn
	sigma1, sigma2 turn
	arc, e         float64
	off            float64 // longitude reached less longitude wanted, radians
	slope          float64 // of off, with the azimuth
}

// try follows an azimuth (section 4 of the paper).
func (p *problem) try(alpha turn) trial {
	if p.beta1.s == 0 && alpha.c == 0 {
		alpha.c = -tiny // break the tie on the equator
	}
	t := trial{alpha1: alpha}
	alpha0 := turn{alpha.s * p.beta1.c, math.Hypot(alpha.c, alpha.s*p.beta1.s)}
	omega1 := turn{alpha0.s * p.beta1.s, alpha.c * p.beta1.c}
	t.sigma1 = turn{p.beta1.s, omega1.c}.unit()
	t.alpha2 = p.azimuthThere(alpha, alpha0)
	omega2 := turn{alpha0.s * p.beta2.s, t.alpha2.c * p.beta2.c}
	t.sigma2 = turn{p.beta2.s, omega2.c}.unit()
	t.arc = arcBetween(t.sigma1, t.sigma2)

	omega12 := omega2.minus(omega1)
	omega12.s = max(0, omega12.s)
	eta := omega12.minus(p.lambda12)
	t.e = p.expansion(alpha0.c)
	c3 := p.lon.c(t.e)
	wave := sines(t.sigma2, c3[:]) - sines(t.sigma1, c3[:])
	t.off = math.Atan2(eta.s, eta.c) - p.f*p.lon.a(t.e)*alpha0.s*(t.arc+wave)
	t.slope = p.slope(t)
	return t
}

// azimuthThere is the azimuth at the second latitude by Clairaut's rule, in a
// form that keeps its digits.
func (p *problem) azimuthThere(alpha, alpha0 turn) turn {
	there := turn{alpha.s, math.Abs(alpha.c)}
	if p.beta2.c != p.beta1.c {
		there.s = alpha0.s / p.beta2.c
	}
	if p.beta2.c != p.beta1.c || math.Abs(p.beta2.s) != -p.beta1.s {
		d := (p.beta1.s - p.beta2.s) * (p.beta1.s + p.beta2.s)
		if p.beta1.c < -p.beta1.s {
			d = (p.beta2.c - p.beta1.c) * (p.beta1.c + p.beta2.c)
		}
		there.c = math.Sqrt(square(alpha.c*p.beta1.c)+d) / p.beta2.c
	}
	return there
}

// slope is the change of longitude with the azimuth, equation (46).
func (p *problem) slope(t trial) float64 {
	if t.alpha2.c == 0 {
		return -2 * p.ratio * p.dn1 / p.beta1.s
	}
	_, reduced := p.lengths(t.e, t.arc, t.sigma1, t.sigma2)
	return reduced * p.ratio / (t.alpha2.c * p.beta2.c)
}

// newton is the azimuth that Newton's method says comes next; ok is false if
// the step leads nowhere.
func (t trial) newton() (next turn, ok bool) {
	if !(t.slope > 0) {
		return next, false
	}
	step := -t.off / t.slope
	if math.Abs(step) >= math.Pi {
		return next, false
	}
	next = t.alpha1.plus(radians(step))
	return next.unit(), next.s > 0
}
