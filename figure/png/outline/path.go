package outline

import (
	"fmt"
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
