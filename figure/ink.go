package figure

import "math"

// The look of all pictures: paper, ink, and one accent, which says "not told".
// Contrasts on paper (WCAG 2.2, 1.4.3 and 1.4.11): soft ink 5.6, accent 8.6,
// warning 5.9, caution 3.1 (a mark, never a text).
const (
	paper   = "#fcfaf5"
	ink     = "#211e1a"
	softInk = "#655f56"
	faint   = "#d8d1c3"
	tint    = "#efeadf"
	accent  = "#24449c"
	warning = "#b3261e"
	caution = "#c47f00"
)

// serif is the text face of the pages and the pictures: what the machine has.
const serif = "Charter, 'Bitstream Charter', 'Iowan Old Style', 'Palatino Linotype', Palatino, 'Liberation Serif', Georgia, 'Times New Roman', serif"

// Ink is how a piece of a bar is drawn.
type Ink uint8

// Inks. The first five say how a loss was told, the last ones what an alert did.
const (
	InkTold Ink = iota
	InkToldLate
	InkOnlyShown
	InkToldWrong
	InkNotTold
	InkWarning
	InkCaution
	InkAdvisory
	InkWarningHeld
	InkCautionHeld
	InkAdvisoryHeld
)

// paint is the fill and the rim of an ink. Some inks have a hatching besides.
func (i Ink) paint() (fill, rim string) {
	switch i {
	case InkTold:
		return tint, softInk
	case InkToldLate, InkOnlyShown, InkToldWrong:
		return paper, ink
	case InkNotTold:
		return accent, accent
	case InkWarning:
		return warning, warning
	case InkCaution:
		return caution, caution
	case InkAdvisory:
		return softInk, softInk
	case InkWarningHeld:
		return paper, warning
	case InkCautionHeld:
		return paper, caution
	}
	return paper, softInk
}

func (i Ink) held() bool { return i >= InkWarningHeld }

// hatch draws the hatching of an ink on a stretch around the height y: it tells
// the ways of being told apart on a printer without colour. Dashed lines do it,
// which stay sharp and small in print, where a pattern becomes a bitmap.
func (d *drawing) hatch(i Ink, x1, x2, y, high float64) {
	switch i {
	case InkToldLate:
		d.strokes(x1, x2, y, high, -slant)
	case InkToldWrong:
		d.strokes(x1, x2, y, high, -slant)
		d.strokes(x1, x2, y, high, slant)
	case InkOnlyShown:
		d.dots(x1, x2, y, high)
	}
}

// slant of the strokes of a hatching, in degrees from upright.
const slant = 40

// strokes are slanting lines that keep inside the stretch.
func (d *drawing) strokes(x1, x2, y, high float64, slant int) {
	lean := high / 2 * math.Tan(math.Abs(float64(slant))*math.Pi/180)
	if x2-x1 <= 2*lean {
		return
	}
	d.leaf("line", "x1", x1+lean, "x2", x2-lean, "stroke", ink, "stroke-width", high, "stroke-dasharray", "1.3 3.9",
		"transform", "translate(0 "+number(y)+") skewX("+attribute(slant)+")")
}

// dots are round ends of dashes without a length.
func (d *drawing) dots(x1, x2, y, high float64) {
	rows := []float64{y}
	if high >= barHigh {
		rows = []float64{y - 1.9, y + 1.9}
	}
	for _, y := range rows {
		d.leaf("line", "x1", x1+2.5, "x2", x2-1, "y1", y, "y2", y, "stroke", ink, "stroke-width", 1.7, "stroke-linecap", "round", "stroke-dasharray", "0 4.2")
	}
}
