package outline

import (
	"fmt"
	"math"
	"strings"
)

// Map takes (x, y) to (A x + C y + E, B x + D y + F), as SVG's matrix does.
type Map struct{ A, B, C, D, E, F float64 }

// At gives where a place comes to lie.
func (m Map) At(x, y float64) (float64, float64) {
	return m.A*x + m.C*y + m.E, m.B*x + m.D*y + m.F
}

// After gives the map that does n first, then m.
func (m Map) After(n Map) Map {
	return Map{
		m.A*n.A + m.C*n.B, m.B*n.A + m.D*n.B,
		m.A*n.C + m.C*n.D, m.B*n.C + m.D*n.D,
		m.A*n.E + m.C*n.F + m.E, m.B*n.E + m.D*n.F + m.F,
	}
}

// Size is by how much it makes lengths longer, taken over all directions.
func (m Map) Size() float64 { return math.Sqrt(math.Abs(m.A*m.D - m.B*m.C)) }

// Move shifts.
func Move(x, y float64) Map { return Map{1, 0, 0, 1, x, y} }

// Turn turns about 0, 0, clockwise where y runs down.
func Turn(degrees float64) Map {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return Map{c, s, -s, c, 0, 0}
}

// Transform reads a list of SVG's transforms.
func Transform(text string) (Map, error) {
	m := Move(0, 0)
	for rest := strings.TrimLeft(text, " ,"); rest != ""; rest = strings.TrimLeft(rest, " ,") {
		name, after, ok := strings.Cut(rest, "(")
		inside, behind, closed := strings.Cut(after, ")")
		v, err := Numbers(inside)
		if !ok || !closed || err != nil {
			return m, fmt.Errorf("the transform %q cannot be read", text)
		}
		step, ok := transformOf(strings.TrimSpace(name), v)
		if !ok {
			return m, fmt.Errorf("the transform %q cannot be drawn", text)
		}
		m, rest = m.After(step), behind
	}
	return m, nil
}

func transformOf(name string, v []float64) (Map, bool) {
	tan := func(i int) float64 { return math.Tan(v[i] * math.Pi / 180) }
	switch {
	case name == "translate" && len(v) == 1:
		return Move(v[0], 0), true
	case name == "translate" && len(v) == 2:
		return Move(v[0], v[1]), true
	case name == "rotate" && len(v) == 1:
		return Turn(v[0]), true
	case name == "rotate" && len(v) == 3:
		return Move(v[1], v[2]).After(Turn(v[0])).After(Move(-v[1], -v[2])), true
	case name == "scale" && len(v) == 1:
		return Map{v[0], 0, 0, v[0], 0, 0}, true
	case name == "scale" && len(v) == 2:
		return Map{v[0], 0, 0, v[1], 0, 0}, true
	case name == "skewX" && len(v) == 1:
		return Map{1, 0, tan(0), 1, 0, 0}, true
	case name == "skewY" && len(v) == 1:
		return Map{1, tan(0), 0, 1, 0, 0}, true
	case name == "matrix" && len(v) == 6:
		return Map{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	}
	return Map{}, false
}
