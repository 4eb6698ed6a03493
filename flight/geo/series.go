package geo

// The series of the paper, to the sixth order. Each slice below starts at the
// coefficient of sin(2 sigma) (for c3: of the first term that the paper gives).

const order = 6

// sines sums c[0] sin 2x + c[1] sin 4x + ... by Clenshaw's rule.
func sines(t turn, c []float64) float64 {
	ar := 2 * (t.c - t.s) * (t.c + t.s) // 2 cos 2x
	y0, y1 := 0.0, 0.0
	for i := len(c) - 1; i >= 0; i-- {
		y0, y1 = ar*y0-y1+c[i], y0
	}
	return 2 * t.s * t.c * y0
}

// a1 is A1 - 1, equation (17).
func a1(e float64) float64 {
	e2 := e * e
	t := e2 / 4 * (1 + e2/16*(1+e2/4))
	return (t + e) / (1 - e)
}

// a2 is A2 - 1, equation (42).
func a2(e float64) float64 {
	e2 := e * e
	t := e2 / 4 * (1 + e2*(9.0/16+e2*25.0/64))
	return t*(1-e) - e
}

// c1 are the coefficients of equation (18): distance from sigma.
func c1(e float64) [order]float64 {
	e2 := e * e
	p := powers(e)
	return [order]float64{
		p[0] * (-1.0/2 + e2*(3.0/16-e2/32)),
		p[1] * (-1.0/16 + e2*(1.0/32-e2*9/2048)),
		p[2] * (-1.0/48 + e2*3/256),
		p[3] * (-5.0/512 + e2*3/512),
		p[4] * (-7.0 / 1280),
		p[5] * (-7.0 / 2048),
	}
}

// c1p are the coefficients of equation (21): sigma from distance.
func c1p(e float64) [order]float64 {
	e2 := e * e
	p := powers(e)
	return [order]float64{
		p[0] * (1.0/2 + e2*(-9.0/32+e2*205/1536)),
		p[1] * (5.0/16 + e2*(-37.0/96+e2*1335/4096)),
		p[2] * (29.0/96 - e2*75/128),
		p[3] * (539.0/1536 - e2*2391/2560),
		p[4] * (3467.0 / 7680),
		p[5] * (38081.0 / 61440),
	}
}

// c2 are the coefficients of equation (43): the reduced length.
func c2(e float64) [order]float64 {
	e2 := e * e
	p := powers(e)
	return [order]float64{
		p[0] * (1.0/2 + e2*(1.0/16+e2/32)),
		p[1] * (3.0/16 + e2*(1.0/32+e2*35/2048)),
		p[2] * (5.0/48 + e2*5/256),
		p[3] * (35.0/512 + e2*7/512),
		p[4] * (63.0 / 1280),
		p[5] * (77.0 / 2048),
	}
}

// powers are e, e squared, and so on.
func powers(e float64) (p [order]float64) {
	p[0] = e
	for i := 1; i < order; i++ {
		p[i] = p[i-1] * e
	}
	return p
}

// longitude holds the series of the longitude, with what depends on the third
// flattening n worked out: polynomials in epsilon, lowest power first.
type longitude struct {
	a3 [order]float64
	c3 [order - 1][order - 1]float64 // row l-1: from epsilon to the power l on
}

// newLongitude works out equations (24) and (25).
func newLongitude(n float64) longitude {
	n2 := n * n
	return longitude{
		a3: [order]float64{1, -(1.0/2 - n/2), -(1.0/4 + n/8 - n2*3/8), -(1.0/16 + n*3/16 + n2/16), -(3.0/64 + n/32), -3.0 / 128},
		c3: [order - 1][order - 1]float64{
			{1.0/4 - n/4, 1.0/8 - n2/8, 3.0/64 + n*3/64 - n2/64, 5.0/128 + n/64, 3.0 / 128},
			{1.0/16 - n*3/32 + n2/32, 3.0/64 - n/32 - n2*3/64, 3.0/128 + n/128, 5.0 / 256},
			{5.0/192 - n*3/64 + n2*5/192, 3.0/128 - n*5/192, 7.0 / 512},
			{7.0/512 - n*7/256, 7.0 / 512},
			{21.0 / 2560},
		},
	}
}

func (l *longitude) a(e float64) float64 { return polynomial(l.a3[:], e) }

// c are the coefficients at one epsilon.
func (l *longitude) c(e float64) (c [order - 1]float64) {
	p := 1.0
	for i := range c {
		p *= e
		c[i] = p * polynomial(l.c3[i][:order-1-i], e)
	}
	return c
}

func polynomial(c []float64, x float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}
