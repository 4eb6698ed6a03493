package geo

import "math"

const radian = 180 / math.Pi

// turn is an angle as its sine and its cosine.
type turn struct{ s, c float64 }

// degrees gives the sine and cosine of an angle, exact at multiples of 90.
func degrees(x float64) turn {
	r := math.Mod(x, 360)
	quarter := math.Round(r / 90)
	s, c := math.Sincos((r - 90*quarter) / radian)
	switch int(quarter) & 3 {
	case 1:
		s, c = c, -s
	case 2:
		s, c = -s, -c
	case 3:
		s, c = -c, s
	}
	return turn{s + 0, c + 0} // no minus zero
}

// in gives the angle in degrees, from -180 to 180.
func (t turn) in() float64 { return math.Atan2(t.s, t.c) * radian }

// unit scales the pair to length one.
func (t turn) unit() turn {
	h := math.Hypot(t.s, t.c)
	return turn{t.s / h, t.c / h}
}

// plus and minus add and subtract angles.
func (t turn) plus(u turn) turn  { return turn{t.s*u.c + t.c*u.s, t.c*u.c - t.s*u.s} }
func (t turn) minus(u turn) turn { return turn{t.s*u.c - t.c*u.s, t.c*u.c + t.s*u.s} }

// round drops the last bits of a tiny angle, so that a product of two such
// angles does not vanish.
func round(x float64) float64 {
	const z = 1.0 / 16
	if y := math.Abs(x); y < z {
		return math.Copysign(z-(z-y), x)
	}
	return x
}

// normal brings an angle into -180 to 180.
func normal(x float64) float64 { return math.Remainder(x, 360) }

// Course brings a course into 0 to below 360.
func Course(x float64) float64 {
	x = math.Mod(x, 360)
	if x < 0 {
		x += 360
	}
	if x >= 360 { // a tiny negative angle, rounded up
		return 0
	}
	return x
}

// apart is y-x in -180 to 180, and what rounding took from it.
func apart(x, y float64) (d, rest float64) {
	d, rest = twoSum(normal(-x), normal(y))
	return twoSum(normal(d), rest)
}

// twoSum is the rounded sum of two numbers and its exact error.
func twoSum(u, v float64) (sum, rest float64) {
	sum = u + v
	up, vpp := sum-v, sum-(sum-v)
	return sum, (u - up) + (v - vpp)
}

func square(x float64) float64 { return x * x }
