package geo

import "math"

// problem is the inverse problem brought into one form: the first place
// southern and at least as far from the equator as the second, the second to
// the east.
type problem struct {
	*ellipsoid
	beta1, beta2 turn
	dn1, dn2     float64 // sqrt(1 + ep2 sin(beta)^2)
	lambda       float64 // longitude difference, radians
	lambda12     turn
	fromOpposite float64 // degrees of longitude short of 180
	pole         bool    // the first place is the pole
}

// answer is a solution of the problem in that form.
type answer struct {
	metres         float64
	alpha1, alpha2 turn
}

// between solves the inverse problem.
func (g *ellipsoid) between(from, to Place) Line {
	d, rest := apart(from.Lon, to.Lon)
	east := math.Copysign(1, d)
	d = east * round(d)
	rest = round((180 - d) - east*rest)
	lat1, lat2 := cutLatitude(from.Lat), cutLatitude(to.Lat)
	swap := 1.0
	if math.Abs(lat1) < math.Abs(lat2) {
		swap, east, lat1, lat2 = -1, -east, lat2, lat1
	}
	south := -1.0
	if lat1 < 0 {
		south = 1
	}
	a := g.pose(lat1*south, lat2*south, d, rest).solve()
	if swap < 0 {
		a.alpha1, a.alpha2 = a.alpha2, a.alpha1
	}
	mirror := func(t turn) turn { return turn{t.s * swap * east, t.c * swap * south} }
	return Line{Metres: a.metres, Start: Course(mirror(a.alpha1).in()), End: Course(mirror(a.alpha2).in())}
}

func (g *ellipsoid) pose(lat1, lat2, lon, fromOpposite float64) *problem {
	p := &problem{ellipsoid: g, beta1: g.reduced(lat1), beta2: g.reduced(lat2), lambda: lon / radian, fromOpposite: fromOpposite, pole: lat1 == -90}
	p.lambda12 = degrees(lon)
	if lon > 90 {
		p.lambda12 = degrees(fromOpposite)
		p.lambda12.c = -p.lambda12.c
	}
	p.mend()
	p.dn1 = math.Sqrt(1 + g.ep2*square(p.beta1.s))
	p.dn2 = math.Sqrt(1 + g.ep2*square(p.beta2.s))
	return p
}

// mend makes latitudes of equal size exactly so after rounding.
func (p *problem) mend() {
	if p.beta1.c < -p.beta1.s {
		if p.beta2.c == p.beta1.c {
			p.beta2.s = math.Copysign(p.beta1.s, p.beta2.s)
		}
	} else if math.Abs(p.beta2.s) == -p.beta1.s {
		p.beta2.c = p.beta1.c
	}
}

// solve finds the shortest line: along a meridian, along the equator, short
// enough for the sphere, or by Newton's method.
func (p *problem) solve() answer {
	if p.pole || p.lambda12.s == 0 {
		if a, ok := p.meridian(); ok {
			return a
		}
	}
	if p.beta1.s == 0 && p.fromOpposite >= p.f*180 {
		return answer{p.a * p.lambda, turn{1, 0}, turn{1, 0}}
	}
	return p.general()
}

// meridian is the line along the meridian; ok is false if another is shorter.
func (p *problem) meridian() (a answer, ok bool) {
	a = answer{alpha1: p.lambda12, alpha2: turn{0, 1}}
	sigma1 := turn{p.beta1.s, a.alpha1.c * p.beta1.c}
	sigma2 := turn{p.beta2.s, a.alpha2.c * p.beta2.c}
	arc := arcBetween(sigma1, sigma2)
	length, reduced := p.lengths(p.n, arc, sigma1, sigma2)
	if arc >= 1 && reduced < 0 {
		return a, false
	}
	if arc < 3*tiny {
		length = 0
	}
	a.metres = p.b * length
	return a, true
}

func arcBetween(sigma1, sigma2 turn) float64 {
	d := sigma2.minus(sigma1)
	return math.Atan2(max(0, d.s), d.c)
}

// lengths gives the distance and the reduced length (equations 7 and 38), of
// the polar semi-axis.
func (p *problem) lengths(e, arc float64, sigma1, sigma2 turn) (length, reduced float64) {
	A1, C1 := a1(e), c1(e)
	A2, C2 := a2(e), c2(e)
	wave1 := sines(sigma2, C1[:]) - sines(sigma1, C1[:])
	wave2 := sines(sigma2, C2[:]) - sines(sigma1, C2[:])
	length = (1 + A1) * (arc + wave1)
	j := (A1-A2)*arc + ((1+A1)*wave1 - (1+A2)*wave2)
	reduced = p.dn2*(sigma1.c*sigma2.s) - p.dn1*(sigma1.s*sigma2.c) - sigma1.c*sigma2.c*j
	return length, reduced
}

// general solves by Newton's method unless the line is short.
func (p *problem) general() answer {
	guess := p.guess()
	if guess.short {
		return guess.answer
	}
	t := p.search(guess.alpha1)
	length, _ := p.lengths(t.e, t.arc, t.sigma1, t.sigma2)
	return answer{length * p.b, t.alpha1, t.alpha2}
}

const (
	newtonRounds = 20                     // Newton's method needs 4 as a rule
	allRounds    = newtonRounds + 53 + 10 // halving ends with the digits
	closeEnough  = 8                      // roundings: as good as it gets after a small step
	smallStep    = 16                     // roundings: the next step is the last
)

// search finds the azimuth at the first place from which the line meets the
// second: Newton's method, kept inside a bracket that is halved where a step
// leaves it.
func (p *problem) search(alpha turn) trial {
	low, high := turn{tiny, 1}, turn{tiny, -1}
	last, halved := false, false
	for round := 0; ; round++ {
		t := p.try(alpha)
		limit := eps
		if last {
			limit = closeEnough * eps
		}
		if halved || !(math.Abs(t.off) >= limit) || round == allRounds {
			return t
		}
		low, high = narrow(low, high, t, round)
		if next, ok := t.newton(); ok && round < newtonRounds {
			alpha, last = next, math.Abs(t.off) <= smallStep*eps
			continue
		}
		alpha, last = turn{(low.s + high.s) / 2, (low.c + high.c) / 2}.unit(), false
		halved = math.Abs(low.s-alpha.s)+(low.c-alpha.c) < eps || math.Abs(alpha.s-high.s)+(alpha.c-high.c) < eps
	}
}

// narrow moves one end of the bracket to what was tried.
func narrow(low, high turn, t trial, round int) (turn, turn) {
	steep := t.alpha1.c / t.alpha1.s
	if t.off > 0 && (round > newtonRounds || steep > high.c/high.s) {
		return low, t.alpha1
	}
	if t.off < 0 && (round > newtonRounds || steep < low.c/low.s) {
		return t.alpha1, high
	}
	return low, high
}
