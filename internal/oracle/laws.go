package oracle

import "math"

// law gives what a law of physics says, by the table of docs/meaning.md, section 4.
// A law of one argument reads x alone.
func law(name string, x, y float64) float64 {
	switch name {
	case "static_pressure":
		return pressure(cut(x, -10000, 100000))
	case "impact_pressure":
		return 1013.25 * (math.Pow(1+0.2*math.Pow(cut(x/soundAtSeaLevel(), 0, 1), 2), 3.5) - 1)
	case "altitude_of":
		return altitude(cut(x, pressure(100000), pressure(-10000)))
	case "airspeed_of":
		return soundAtSeaLevel() * mach(x/1013.25)
	case "mach_of":
		return mach(x / math.Max(y, pressure(100000)))
	case "airspeed_held":
		p := math.Max(y, pressure(100000))
		m := math.Sqrt(cut(x/(0.7*p), 0, 1))
		return soundAtSeaLevel() * mach(p*(math.Pow(1+0.2*m*m, 3.5)-1)/1013.25)
	}
	if name == "air_through" {
		return through(cut(x, pressure(100000), pressure(-10000)), cut(y, pressure(100000), pressure(-10000)))
	}
	return math.Sqrt(math.Max(x, 0)) // root_of
}

// through is the air that a hole of a square metre lets out, kg/s, by the formula of
// docs/meaning.md, section 4.
func through(inside, outside float64) float64 {
	h, l, out := inside, outside, 1.0
	if outside > inside {
		h, l, out = outside, inside, -1
	}
	r := math.Max(l/h, math.Pow(5.0/6, 3.5))
	even := 1.0
	if r > 0.99 {
		even = (1 - r) / 0.01
		r = 0.99
	}
	return out * even * 100 * h * math.Sqrt(7*(math.Pow(r, 10.0/7)-math.Pow(r, 12.0/7))/(287.05287*294))
}

// between reads a table from its end: the last row at or before x, and the next.
func between(x float64, table []float64) float64 {
	n := len(table) / 2
	for i := n - 1; i >= 0; i-- {
		x1, y1 := table[2*i], table[2*i+1]
		if x < x1 {
			continue
		}
		if i == n-1 {
			return y1
		}
		x2, y2 := table[2*i+2], table[2*i+3]
		return y1 + (x-x1)/(x2-x1)*(y2-y1)
	}
	return table[1]
}

func cut(x, least, most float64) float64 { return math.Min(math.Max(x, least), most) }

// soundAtSeaLevel is the speed of sound at 15 degrees in knots.
func soundAtSeaLevel() float64 { return math.Sqrt(1.4*287.05287*288.15) * 3600 / 1852 }

// mach is the Mach number, at most 1, at which the impact pressure is such a part
// of the static pressure.
func mach(part float64) float64 {
	part = cut(part, 0, math.Pow(1.2, 3.5)-1)
	return math.Sqrt(5 * (math.Pow(part+1, 2.0/7) - 1))
}

// The lower layer of the standard atmosphere loses 6.5 degrees in a kilometre up to
// 11 km; above, the temperature stands.
const fall = 9.80665 / (287.05287 * 0.0065)

func atEleven() float64 { return 1013.25 * math.Pow(216.65/288.15, fall) }

// thick is the height in metres in which the pressure of the upper layer falls to
// 1/e.
const thick = 287.05287 * 216.65 / 9.80665

func pressure(ft float64) float64 {
	m := ft * 0.3048
	if m > 11000 {
		return atEleven() * math.Exp((11000-m)/thick)
	}
	return 1013.25 * math.Pow(1-0.0065*m/288.15, fall)
}

func altitude(hPa float64) float64 {
	if hPa < atEleven() {
		return (11000 + thick*math.Log(atEleven()/hPa)) / 0.3048
	}
	return 288.15 / 0.0065 * (1 - math.Pow(hPa/1013.25, 1/fall)) / 0.3048
}
