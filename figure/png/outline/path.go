package outline

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// operands is how many numbers each command of a path takes.
var operands = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'Q': 4, 'A': 7, 'Z': 0}

// Parse reads the outline of a path: all commands of SVG 1.1 (8.3) but the
// smooth curves S and T.
func Parse(text string) (Outline, error) {
	r := pathReader{rest: text}
	for {
		r.rest = strings.TrimLeft(r.rest, " ,\n\t")
		if r.rest == "" {
			return r.o, nil
		}
		if err := r.command(); err != nil {
			return nil, fmt.Errorf("the path %.40q: %w", text, err)
		}
	}
}

type pathReader struct {
	rest     string
	o        Outline
	at, from Point // where it is, and where this part began
	last     byte
}

func (r *pathReader) command() error {
	name := r.rest[0]
	if strings.IndexByte("0123456789+-.", name) >= 0 { // the command before goes on
		switch r.last {
		case 0, 'Z', 'z':
			return fmt.Errorf("a number stands where a command must")
		case 'M':
			name = 'L'
		case 'm':
			name = 'l'
		default:
			name = r.last
		}
	} else {
		r.rest = r.rest[1:]
	}
	upper := name &^ 0x20
	count, ok := operands[upper]
	if !ok {
		return fmt.Errorf("the command %q cannot be drawn", name)
	}
	if len(r.o) == 0 && upper != 'M' {
		return fmt.Errorf("it does not begin with a move")
	}
	var v [7]float64
	for i := range count {
		var err error
		if v[i], err = r.operand(); err != nil {
			return err
		}
	}
	r.last = name
	if name != upper {
		r.relative(upper, &v)
	}
	r.do(upper, v)
	return nil
}

// operand takes the next number off the text.
func (r *pathReader) operand() (float64, error) {
	r.rest = strings.TrimLeft(r.rest, " ,\n\t")
	n, dot := 0, false
	for ; n < len(r.rest); n++ {
		c := r.rest[n]
		sign := (c == '-' || c == '+') && (n == 0 || r.rest[n-1] == 'e' || r.rest[n-1] == 'E')
		if c == '.' && !dot {
			dot = true
			continue
		}
		if n > 0 && (c == 'e' || c == 'E') {
			dot = true // none after the exponent
			continue
		}
		if !sign && !(c >= '0' && c <= '9') {
			break
		}
	}
	v, err := Number(r.rest[:n])
	r.rest = r.rest[n:]
	return v, err
}

func (r *pathReader) relative(upper byte, v *[7]float64) {
	switch upper {
	case 'H':
		v[0] += r.at.X
	case 'V':
		v[0] += r.at.Y
	case 'A':
		v[5] += r.at.X
		v[6] += r.at.Y
	case 'Z':
	default:
		for i := 0; i < operands[upper]; i += 2 {
			v[i] += r.at.X
			v[i+1] += r.at.Y
		}
	}
}

func (r *pathReader) do(name byte, v [7]float64) {
	p := r.at
	switch name {
	case 'M':
		r.at = Point{v[0], v[1]}
		r.from = r.at
		r.o.Move(v[0], v[1])
	case 'L', 'H', 'V':
		r.at = map[byte]Point{'L': {v[0], v[1]}, 'H': {v[0], p.Y}, 'V': {p.X, v[0]}}[name]
		r.o.Line(r.at.X, r.at.Y)
	case 'C':
		r.at = Point{v[4], v[5]}
		r.o.Curve(v[0], v[1], v[2], v[3], v[4], v[5])
	case 'Q':
		r.at = Point{v[2], v[3]}
		r.o.Curve(p.X+2*(v[0]-p.X)/3, p.Y+2*(v[1]-p.Y)/3, v[2]+2*(v[0]-v[2])/3, v[3]+2*(v[1]-v[3])/3, v[2], v[3])
	case 'A':
		r.at = Point{v[5], v[6]}
		r.o.arc(p, v)
	case 'Z':
		r.at = r.from
		r.o.Close()
	}
}

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

// mostFar is the farthest that a number may be: beyond it the rasteriser, which
// counts in 64ths of a pixel, would run over.
const mostFar = 1e5

// Number reads a number. One too far out is brought in.
func Number(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	return min(max(v, -mostFar), mostFar), nil
}

// Numbers reads a list of numbers with spaces or commas between.
func Numbers(text string) ([]float64, error) {
	var list []float64
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '\n' || r == '\t' }) {
		v, err := Number(f)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, nil
}
