package sheet

import (
	"math"

	"knockon/figure/face"
)

// The look of all pictures: paper, ink, and one accent, which says "not told".
// Contrasts on paper (WCAG 2.2, 1.4.3 and 1.4.11): soft ink 5.6, accent 8.6,
// warning 5.9, caution 3.1 (a mark, never a text).
const (
	Paper   = "#fcfaf5"
	Ink     = "#211e1a"
	SoftInk = "#655f56"
	Faint   = "#d8d1c3"
	Tint    = "#efeadf"
	Accent  = "#24449c"
	Warning = "#b3261e"
	Caution = "#c47f00"
)

// Serif is the text face of the pages and the pictures.
const Serif = face.Family

// Exactly is how letters are set: where the font puts them, not on the pixels
// that the machine's own settings like better.
const Exactly = "geometricPrecision"

// Sizes of the texts of all pictures, in points.
const (
	TextSize  = 12.0
	SmallSize = 10.5
	LineHigh  = 14.0
)

// A hatching tells stretches apart on a printer without colour. Dashed lines do
// it, which stay sharp and small in print, where a pattern becomes a bitmap.

// Strokes are slanting lines that keep inside the stretch around the height y;
// the slant is in degrees from upright.
func (d *Drawing) Strokes(x1, x2, y, high float64, slant int) {
	lean := high / 2 * math.Tan(math.Abs(float64(slant))*math.Pi/180)
	if x2-x1 <= 2*lean {
		return
	}
	d.Leaf("line", "x1", x1+lean, "x2", x2-lean, "stroke", Ink, "stroke-width", high, "stroke-dasharray", "1.3 3.9",
		"transform", "translate(0 "+Number(y)+") skewX("+Attribute(slant)+")")
}

// Dots are round ends of dashes without a length.
func (d *Drawing) Dots(x1, x2, y, high float64) {
	rows := []float64{y}
	if high >= fullBar {
		rows = []float64{y - 1.9, y + 1.9}
	}
	for _, y := range rows {
		d.Leaf("line", "x1", x1+2.5, "x2", x2-1, "y1", y, "y2", y, "stroke", Ink, "stroke-width", 1.7, "stroke-linecap", "round", "stroke-dasharray", "0 4.2")
	}
}

// fullBar is the height from which a stretch has two rows of dots.
const fullBar = 9.0
