package figure

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

// stroke and fill of an ink; a fill that begins with @ is a pattern.
func (i Ink) paint() (fill, stroke string) {
	switch i {
	case InkTold:
		return tint, softInk
	case InkToldLate:
		return "@late", ink
	case InkOnlyShown:
		return "@shown", ink
	case InkToldWrong:
		return "@wrong", ink
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

// patterns draws the hatchings that the inks use: they tell the ways of being
// told apart on a printer without colour.
func (d *drawing) patterns() {
	d.open("defs")
	d.pattern("late", 6, func() {
		d.path("M-1,7 L7,-1 M-1,1 L1,-1 M5,7 L7,5", "stroke", ink, "stroke-width", 1.1)
	})
	d.pattern("shown", 5, func() {
		d.leaf("circle", "cx", 2.5, "cy", 2.5, "r", 1.05, "fill", ink)
	})
	d.pattern("wrong", 5, func() {
		d.path("M0,0 L5,5 M5,0 L0,5", "stroke", ink, "stroke-width", 1.1)
	})
	d.close("defs")
}

func (d *drawing) pattern(name string, size float64, draw func()) {
	d.open("pattern", "id", d.id(name), "width", size, "height", size, "patternUnits", "userSpaceOnUse")
	d.leaf("rect", "width", size, "height", size, "fill", paper)
	draw()
	d.close("pattern")
}
