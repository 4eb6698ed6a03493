package sheet

import (
	"math"
	"strings"
	"unicode/utf8"

	"knockon/figure/face"
)

// Width is how wide a text is at a size in points, upright or slanting,
// whichever is wider.
func Width(text string, size float64) float64 {
	return max(face.Of(face.Upright).Width(text, size), face.Of(face.Italic).Width(text, size))
}

// Wrap breaks a text into lines that fit a room, at spaces and after hyphens.
// It gives at most so many lines; what does not fit ends in an ellipsis.
// An empty text has no lines.
func Wrap(text string, room, size float64, most int) []string {
	var lines []string
	rest := strings.Join(strings.Fields(text), " ")
	for rest != "" {
		n := breakAt(rest, room, size)
		if len(lines) == most-1 {
			n = len(rest)
		}
		lines = append(lines, Clip(strings.TrimRight(rest[:n], " "), room, size))
		rest = rest[n:]
	}
	return lines
}

// breakAt is how much of a text goes on a line: as much as fits, but at least
// up to the first place where it may break.
func breakAt(text string, room, size float64) int {
	n := 0
	for i, r := range text {
		if r != ' ' && r != '-' {
			continue
		}
		end := i + 1
		if n > 0 && Width(strings.TrimRight(text[:end], " "), size) > room {
			return n
		}
		n = end
	}
	if n > 0 && Width(text, size) > room {
		return n
	}
	return len(text)
}

// Clip cuts a text that is too wide and marks the cut.
func Clip(text string, room, size float64) string {
	if Width(text, size) <= room {
		return text
	}
	for text != "" && Width(text+"…", size) > room {
		_, n := utf8.DecodeLastRuneInString(text)
		text = text[:len(text)-n]
	}
	return strings.TrimRight(text, " ,") + "…"
}

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
