package geo

import "math"

// guess is where the search for the azimuth begins, or the answer itself for
// a short line.
type guess struct {
	answer
	short bool
}

// guess follows section 5 of the paper.
func (p *problem) guess() guess {
	b1, b2 := p.beta1, p.beta2
	b12 := b2.minus(b1)
	near := b12.c >= 0 && b12.s < 0.5 && b2.c*p.lambda < 0.5
	omega, dnm := p.lambda12, 1.0
	if near {
		m := square(b1.s + b2.s)
		m /= m + square(b1.c+b2.c)
		dnm = math.Sqrt(1 + p.ep2*m)
		omega = radians(p.lambda / (p.ratio * dnm))
	}
	alpha := p.onSphere(omega)
	arc := turn{math.Hypot(alpha.s, alpha.c), b1.s*b2.s + b1.c*b2.c*omega.c}
	if near && arc.s < p.shortLine {
		return p.shortGuess(alpha, omega, arc, dnm)
	}
	if arc.c < 0 && arc.s < 6*p.n*math.Pi*square(b1.c) {
		alpha = p.opposite(alpha)
	}
	return guess{answer: answer{alpha1: direction(alpha)}}
}

// onSphere is the azimuth at the first place (not scaled) on a sphere with the
// given longitude difference.
func (p *problem) onSphere(omega turn) turn {
	b1, b2 := p.beta1, p.beta2
	alpha := turn{s: b2.c * omega.s}
	if omega.c >= 0 {
		alpha.c = b2.minus(b1).s + b2.c*b1.s*square(omega.s)/(1+omega.c)
	} else {
		alpha.c = b2.plus(b1).s - b2.c*b1.s*square(omega.s)/(1-omega.c)
	}
	return alpha
}

// direction scales an azimuth; one that points west becomes due east.
func direction(alpha turn) turn {
	if alpha.s <= 0 {
		return turn{1, 0}
	}
	return alpha.unit()
}

func (p *problem) shortGuess(alpha, omega, arc turn, dnm float64) guess {
	b1, b2 := p.beta1, p.beta2
	versine := 1 - omega.c
	if omega.c >= 0 {
		versine = square(omega.s) / (1 + omega.c)
	}
	there := turn{b1.c * omega.s, b2.minus(b1).s - b1.c*b2.s*versine}
	length := math.Atan2(arc.s, arc.c) * p.b * dnm
	return guess{answer{length, direction(alpha), there.unit()}, true}
}

// opposite is the azimuth for places nearly at opposite ends of the earth,
// from the astroid near the antipode.
func (p *problem) opposite(alpha turn) turn {
	b1, b2 := p.beta1, p.beta2
	scale := p.f * b1.c * p.lon.a(p.expansion(b1.s)) * math.Pi
	x := math.Atan2(-p.lambda12.s, -p.lambda12.c) / scale
	y := b2.plus(b1).s / (scale * b1.c)
	if y > -200*eps && x > -1-1000*rootEps {
		s := min(1, -x)
		return turn{s, -math.Sqrt(1 - s*s)}
	}
	k := astroid(x, y)
	omega := radians(scale * (-x * k / (1 + k)))
	s, c := omega.s, -omega.c
	return turn{b2.c * s, b2.plus(b1).s - b2.c*b1.s*square(s)/(1-c)}
}

// astroid solves k^4 + 2k^3 - (x^2+y^2-1)k^2 - 2y^2 k - y^2 = 0 for its
// positive root (equation 55).
func astroid(x, y float64) float64 {
	p, q := square(x), square(y)
	r := (p + q - 1) / 6
	if q == 0 && r <= 0 {
		return 0
	}
	u := cubicRoot(p*q/4, r)
	v := math.Sqrt(square(u) + q)
	uv := u + v
	if u < 0 {
		uv = q / (v - u) // u + v without loss
	}
	w := (uv - q) / (2 * v)
	return uv / (math.Sqrt(uv+square(w)) + w)
}

// cubicRoot is u of equation (57).
func cubicRoot(s, r float64) float64 {
	r2, r3 := square(r), r*square(r)
	disc := s * (s + 2*r3)
	if disc < 0 {
		angle := math.Atan2(math.Sqrt(-disc), -(s + r3))
		return r + 2*r*math.Cos(angle/3)
	}
	t3 := s + r3
	if t3 < 0 {
		t3 -= math.Sqrt(disc)
	} else {
		t3 += math.Sqrt(disc)
	}
	t := math.Cbrt(t3)
	u := r + t
	if t != 0 {
		u += r2 / t
	}
	return u
}
