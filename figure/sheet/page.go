package sheet

import "strings"

// Form is a kind of sheet.
type Form struct {
	Name  string
	Width float64 // points
	Slim  bool    // of a telephone's width
	Alone bool    // a document of its own: with its title, caution and foot in it
}

// The forms of a picture.
var (
	Wide     = Form{Name: "wide", Width: 960}
	Narrow   = Form{Name: "narrow", Width: 360, Slim: true}
	Document = Form{Name: "alone", Width: 960, Alone: true}
)

// NotForFlight is the caution in every picture that stands alone and has a
// number in it.
const NotForFlight = "For training and study only, not for use in flight. The operator's approved manuals and licensed judgement prevail."

// Edge is the free room at the left and right of a sheet.
const Edge = 8.0

// Page is a sheet that is being drawn on, from the top down.
type Page struct {
	Drawing
	Form
	Y     float64 // how far down it has come
	class string
	title string
	words string
}

// NewPage begins a page. The words say the picture to whoever does not see it.
func NewPage(f Form, class, id, title, words string) *Page {
	p := &Page{Drawing: New(id + "-" + f.Name), Form: f, class: class, title: title, words: words}
	p.Y = 2
	if f.Alone {
		p.Y = 10 + headLine*float64(len(p.heading()))
	}
	return p
}

const (
	headSize = 15.0
	headLine = 19.0
)

func (p *Page) heading() []string { return Wrap(p.title, p.Width-2*Edge, headSize, 3) }

// Finish closes the page over what was drawn and gives the whole.
func (p *Page) Finish(content string, foot []string) string {
	below := p.Capture(func() { p.foot(foot) })
	attrs := []any{
		"xmlns", "http://www.w3.org/2000/svg", "class", p.class + " " + p.Name, "role", "img",
		"viewBox", "0 0 " + Number(p.Width) + " " + Number(p.Y), "font-family", Serif, "text-rendering", Exactly, "font-size", TextSize, "fill", Ink,
		"aria-labelledby", p.Anchor("title"), "aria-describedby", p.Anchor("desc"),
	}
	if p.Alone {
		attrs = append(attrs, "width", p.Width, "height", p.Y)
	}
	p.Open("svg", attrs...)
	p.Drawing.Text("title", p.title, "id", p.Anchor("title"))
	p.Drawing.Text("desc", p.words, "id", p.Anchor("desc"))
	p.head()
	p.Raw(content)
	p.Raw(below)
	p.Close("svg")
	return p.String()
}

func (p *Page) head() {
	if !p.Alone {
		return
	}
	p.Leaf("rect", "width", p.Width, "height", p.Y, "fill", Paper)
	for i, line := range p.heading() {
		p.Write(line, Edge, 20+headLine*float64(i), Style{Size: headSize})
	}
}

func (p *Page) foot(foot []string) {
	if p.Alone {
		p.Y += 4
		for _, text := range append([]string{NotForFlight}, foot...) {
			p.Say(text, Style{Size: SmallSize, Fill: SoftInk})
		}
	}
	p.Y += 8
}

// Style is how a text looks; the zero value is the picture's own.
type Style struct {
	Size   float64 // 0 for TextSize
	Fill   string  // "" for ink
	Anchor string  // "" for its start
	Slants bool
	Rim    bool // a rim of paper, for a text over lines
}

// Write puts a text at a place.
func (p *Page) Write(text string, x, y float64, s Style) {
	attrs := []any{"x", x, "y", y, "text-anchor", s.Anchor, "fill", s.Fill}
	if s.Size != 0 && s.Size != TextSize {
		attrs = append(attrs, "font-size", s.Size)
	}
	if s.Slants {
		attrs = append(attrs, "font-style", "italic")
	}
	if s.Rim {
		attrs = append(attrs, "stroke", Paper, "stroke-width", 3, "stroke-linejoin", "round", "paint-order", "stroke")
	}
	if strings.TrimSpace(text) != "" {
		p.Text("text", text, attrs...)
	}
}

// Say writes a text over the whole width, in as many lines as it takes (twelve
// at most), and moves down past it.
func (p *Page) Say(text string, s Style) {
	size := s.Size
	if size == 0 {
		size = TextSize
	}
	for _, line := range Wrap(text, p.Width-2*Edge, size, 12) {
		p.Y += LineHigh
		p.Write(line, Edge, p.Y, s)
	}
}

// Axes says what a plot shows, at the right of the line of its legend, which
// reaches to x, or under it where there is no room.
func (p *Page) Axes(text string, x float64) {
	s := Style{Size: SmallSize, Fill: SoftInk, Slants: true, Anchor: "end"}
	if x+Width(text, SmallSize) > p.Width-Edge {
		s.Anchor = ""
		p.Say(text, s)
		return
	}
	p.Write(text, p.Width-Edge, p.Y, s)
}

// Segment draws a straight line.
func (p *Page) Segment(x1, y1, x2, y2, wide float64, stroke, dashes string) {
	p.Leaf("line", "x1", x1, "y1", y1, "x2", x2, "y2", y2, "stroke", stroke, "stroke-width", wide, "stroke-dasharray", dashes)
}

// Rect draws a rectangle.
func (p *Page) Rect(x1, y1, x2, y2 float64, fill, stroke string) {
	if stroke == "" {
		p.Leaf("rect", "x", x1, "y", y1, "width", max(x2-x1, 0), "height", max(y2-y1, 0), "fill", fill)
		return
	}
	p.Leaf("rect", "x", x1, "y", y1, "width", max(x2-x1, 0), "height", max(y2-y1, 0), "fill", fill, "stroke", stroke, "stroke-width", 1)
}

// Disc draws a disc.
func (p *Page) Disc(x, y, r float64, fill string) {
	p.Leaf("circle", "cx", x, "cy", y, "r", r, "fill", fill, "stroke", Ink, "stroke-width", 1.2)
}
