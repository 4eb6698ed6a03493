package figure

import "knockon/figure/sheet"

// The look of all pictures.
const (
	paper   = sheet.Paper
	ink     = sheet.Ink
	softInk = sheet.SoftInk
	faint   = sheet.Faint
	tint    = sheet.Tint
	accent  = sheet.Accent
	warning = sheet.Warning
	caution = sheet.Caution
	serif   = sheet.Serif
)

// Ink is how a piece of a bar is drawn.
type Ink uint8

// Inks. The first ones say how people can know of a loss, the last ones what an alert did.
const (
	InkTold Ink = iota
	InkNoticed
	InkFollows
	InkLate
	InkInUse
	InkDenied
	InkHidden
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
	case InkNoticed:
		return paper, softInk
	case InkFollows, InkLate, InkInUse, InkDenied:
		return paper, ink
	case InkHidden:
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

// hatch draws the hatching of an ink on a stretch around the height y.
func hatch(d *sheet.Drawing, i Ink, x1, x2, y, high float64) {
	switch i {
	case InkFollows:
		d.Strokes(x1, x2, y, high, 0)
	case InkLate:
		d.Strokes(x1, x2, y, high, -slant)
	case InkDenied:
		d.Strokes(x1, x2, y, high, -slant)
		d.Strokes(x1, x2, y, high, slant)
	case InkInUse:
		d.Dots(x1, x2, y, high)
	}
}

// slant of the strokes of a hatching, in degrees from upright.
const slant = 40
