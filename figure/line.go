package figure

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/figure/sheet"
)

// Line is a flight as a height profile over time, with its failure, what is
// lost and what is said, a bar for each.
type Line struct {
	ID          string // unique in the page that it stands in; ids inside begin with it
	Title       string
	Description string // what it shows, in words
	Phases      []Phase
	Clock       []Phase                 // first beginnings with nothing failed, from which moments are counted
	Feet        func(book.Time) float64 // height above the ground
	Ceiling     float64                 // the greatest of Feet
	Ends        book.Time               // where the flight breaks off; 0: nowhere
	Mark        book.Time               // when the failure comes
	MarkText    string                  // that moment in words
	Groups      []Group
	Together    Group    // what goes together, a row for each wave
	Told        Group    // the alerts
	Foot        []string // lines under a picture that stands alone: caution, address
}

// Phase is a phase of the flight.
type Phase struct {
	ID, Title string
	From, To  book.Time
}

// Group is a set of bars under one heading.
type Group struct {
	Title string
	Ink   Ink // of the sample beside the heading
	Plain bool
	Rows  []Row
}

// Row is one thing and when it was so.
type Row struct {
	Label  string
	Count  int    // how many things it stands for; of a group with too many rows those with most are drawn
	Says   string // all about it, for whoever points at it
	Link   string // "#" and the id of its row in the ledger; "" for none
	Pieces []Piece
}

// Piece is one stretch of a bar.
type Piece struct {
	From, To book.Time
	Ink      Ink
	Thin     bool // it did not matter then
}

// form is the measures of a line on one kind of sheet, in points.
type form struct {
	name       string
	width      float64
	left       float64 // where time begins
	right      float64 // where it ends
	beside     bool    // labels stand beside their bars, not above
	phaseDown  bool    // names of phases run upwards
	phaseSpace float64
	phaseLines int
	profile    float64 // how high the flight is drawn
	still      bool    // nothing in it leads anywhere or moves
}

var (
	wide    = form{name: "wide", width: 960, left: 264, right: 950, beside: true, phaseSpace: 61, phaseLines: 4, profile: 96}
	narrow  = form{name: "narrow", width: 360, left: 8, right: 352, phaseDown: true, phaseSpace: 126, profile: 96}
	printed = form{name: "printed", width: 800, left: 236, right: 796, beside: true, phaseSpace: 48, phaseLines: 3, profile: 44, still: true}
)

// Measures that both forms share.
const (
	topSpace   = 34.0 // for the handle of the mark and its words
	textSize   = sheet.TextSize
	smallSize  = sheet.SmallSize
	phaseSize  = 10.0
	lineHigh   = sheet.LineHigh
	barHigh    = 9.0
	thinHigh   = 4.0
	groupSpace = 9.0
	leastPiece = 2.0 // width of a stretch, however short
)

// Wide draws the line for a page of a book's width: a part of a page, with
// links to the rows and a mark that a script can move.
func (l Line) Wide() string { return l.draw(wide, false) }

// Printed draws it for a sheet of paper, folded and in few rows: at PrintedAspect of its
// width or lower.
func (l Line) Printed() string {
	l.Groups = []Group{l.inFewRows()}
	return l.draw(printed, false)
}

// Narrow draws it for a telephone's width.
func (l Line) Narrow() string { return l.draw(narrow, false) }

// SVG draws it as a document of its own.
func (l Line) SVG() string { return l.draw(wide, true) }

// liner draws one line.
type liner struct {
	sheet.Drawing
	Line
	form
	alone bool
	axis  axis
	y     float64 // how far down it has come
}

func (l Line) draw(f form, alone bool) string {
	p := &liner{Drawing: sheet.New(l.ID + "-" + f.name), Line: l, form: f, alone: alone}
	p.axis = newAxis(l.Phases, f.left, f.right)
	p.y = topSpace
	if alone {
		p.y += 2 * lineHigh
	}
	var ground, mark, rows string
	profileTop := p.y
	ground = p.Capture(p.flight)
	rows = p.Capture(p.groups)
	mark = p.Capture(func() { p.mark(profileTop) })
	ground = p.Capture(func() { p.grid(profileTop) }) + ground
	foot := p.Capture(p.foot)
	p.frame()
	p.section("ground", ground)
	p.Raw(mark)
	p.section("rows", rows)
	p.Raw(foot)
	p.Close("svg")
	return p.String()
}

func (p *liner) section(class, content string) {
	p.Open("g", "class", class)
	p.Raw(content)
	p.Close("g")
}

// frame opens the picture. One that stands alone is an image; one in a page
// has parts that can be reached, so it is a group.
func (p *liner) frame() {
	attrs := []any{
		"xmlns", "http://www.w3.org/2000/svg", "class", "line " + p.name, "viewBox", "0 0 " + sheet.Number(p.width) + " " + sheet.Number(p.y),
		"font-family", serif, "text-rendering", sheet.Exactly, "font-size", textSize, "fill", ink,
		"aria-labelledby", p.Anchor("title"), "aria-describedby", p.Anchor("desc"),
	}
	switch {
	case p.alone:
		attrs = append(attrs, "role", "img", "width", p.width, "height", p.y)
	case p.still:
		attrs = append(attrs, "role", "img")
	default:
		attrs = append(attrs, "role", "group", "data-x", p.axis.xText(), "data-t", p.axis.tText(), "data-phases", idsOf(p.Phases), "data-clock-t", beginnings(p.Clock), "data-clock", idsOf(p.Clock))
	}
	p.Open("svg", attrs...)
	p.Text("title", p.Title, "id", p.Anchor("title"))
	p.Text("desc", p.Description, "id", p.Anchor("desc"))
	if p.alone {
		p.Leaf("rect", "width", p.width, "height", p.y, "fill", paper)
		p.Text("text", p.Title, "x", 12, "y", 22, "font-size", 15)
	}
}

func idsOf(phases []Phase) string {
	ids := make([]string, len(phases))
	for i, ph := range phases {
		ids[i] = ph.ID
	}
	return strings.Join(ids, ",")
}

// beginnings are when phases begin, and the end of the last, in seconds.
func beginnings(phases []Phase) string {
	var parts []string
	for _, ph := range phases {
		parts = append(parts, seconds(ph.From))
	}
	if n := len(phases); n > 0 {
		parts = append(parts, seconds(phases[n-1].To))
	}
	return strings.Join(parts, ",")
}

// grid is an upright line where each phase begins, down through all bars.
func (p *liner) grid(top float64) {
	for _, x := range p.axis.x {
		p.Leaf("line", "x1", x, "x2", x, "y1", top, "y2", p.y-4, "stroke", faint, "stroke-width", 0.7)
	}
}

// mark is the failure: a line through everything, and a handle.
func (p *liner) mark(top float64) {
	x := p.axis.at(p.Mark)
	attrs := []any{"class", "mark", "transform", "translate(" + sheet.Number(x) + " 0)"}
	if !p.alone && !p.still {
		attrs = append(attrs, "role", "slider", "tabindex", "0", "aria-label", "Moment of the failure", "aria-orientation", "horizontal",
			"aria-valuemin", "0", "aria-valuemax", seconds(p.axis.end()), "aria-valuenow", seconds(p.Mark), "aria-valuetext", p.MarkText)
	}
	p.Open("g", attrs...)
	p.Leaf("rect", "class", "grip", "x", -14, "y", top-30, "width", 28, "height", p.profile+34, "fill", paper, "fill-opacity", "0")
	p.Leaf("line", "x1", 0, "x2", 0, "y1", top-12, "y2", p.y-4, "stroke", ink, "stroke-width", 1.4)
	p.Path(fmt.Sprintf("M-6,%s h12 v7 l-6,7 l-6,-7 z", sheet.Number(top-18)), "class", "handle", "stroke", ink, "fill", ink)
	p.markText(x, top)
	p.Close("g")
}

func (p *liner) markText(x, top float64) {
	anchor, dx := "start", 10.0
	if x > p.left+0.6*(p.right-p.left) {
		anchor, dx = "end", -10.0
	}
	p.Text("text", "fails at "+p.MarkText, "class", "moment", "x", dx, "y", top-10, "text-anchor", anchor, "font-style", "italic")
}

// foot closes a picture that stands alone with its caution.
func (p *liner) foot() {
	if !p.alone {
		return
	}
	p.y += 6
	for _, text := range p.Foot {
		for _, line := range sheet.Wrap(text, p.width-24, smallSize, 4) {
			p.y += lineHigh
			p.Text("text", line, "x", 12, "y", p.y, "font-size", smallSize, "fill", softInk)
		}
	}
	p.y += 10
}
