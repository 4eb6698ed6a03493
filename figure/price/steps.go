package price

import (
	"math"

	"knockon/figure/sheet"
	"knockon/say"
)

// faller draws one waterfall.
type faller struct {
	*sheet.Page
	Waterfall
	x      sheet.Scale
	base   float64    // where the bars of the totals begin
	ends   [3]float64 // of the columns of titles and numbers on a wide sheet
	below  float64    // the foot of the last bar
	lastTo float64    // where it led
}

// Measures of the waterfall, in points.
const (
	titleRoom  = 320.0 // the widest title on a wide sheet
	columnRoom = 16.0  // between columns
	stepHigh   = 9.0
	besideHigh = 7.5 // from the middle of a bar to the line of the part taken alone
)

func (w Waterfall) draw(f sheet.Form) string {
	p := &faller{Page: sheet.NewPage(f, "waterfall", w.ID, w.Caption(), w.Words()), Waterfall: w.sound()}
	return p.Finish(p.Capture(func() {
		if !w.whole() {
			p.Y += 4
			p.Say(w.Words(), sheet.Style{})
			return
		}
		rows := p.rows()
		p.columns(rows)
		p.scale(rows)
		p.head()
		for _, r := range rows {
			p.step(r)
		}
		p.notes(len(w.Parts) - len(p.Parts))
	}), w.Foot)
}

// heads names the columns of numbers.
func (p *faller) heads() (back, alone string) {
	if p.Slim {
		return "given back", "alone"
	}
	return "adds, by giving it back", "adds, taken alone"
}

// columns makes room for the widest title and numbers: on a wide sheet from the
// left, with the bars beside them; on a narrow one from the right.
func (p *faller) columns(rows []row) {
	headBack, headAlone := p.heads()
	title, back, alone := 60.0, sheet.Width(headBack, sheet.SmallSize), sheet.Width(headAlone, sheet.SmallSize)
	for _, r := range rows {
		title = max(title, min(sheet.Width(r.title, sheet.TextSize), titleRoom))
		back, alone = max(back, sheet.Width(r.text, sheet.TextSize)), max(alone, sheet.Width(r.second, sheet.TextSize))
	}
	if len(p.Parts) == 0 {
		alone = -columnRoom
	}
	p.ends[0] = sheet.Edge + title + 1
	if p.Slim {
		p.ends[0] = p.Width - sheet.Edge - alone - back - 2*columnRoom
	}
	p.ends[1] = p.ends[0] + columnRoom + back
	p.ends[2] = p.ends[1] + columnRoom + alone
}

// scale fits all bars. It begins at nothing when that leaves the parts a fifth
// of the room, otherwise under the least of them, and says so.
func (p *faller) scale(rows []row) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range rows {
		low, high = min(low, r.to), max(high, r.to)
		if r.kind == kindPart {
			low, high = min(low, r.alone), max(high, r.alone)
		}
	}
	wide := max(high-low, math.Abs(high)*1e-6, 1e-3)
	if low >= 0 && wide > high/5 || low < 0 && high > 0 {
		low = min(low, 0)
	} else if low < 0 {
		high = max(high, 0)
	}
	if low > 0 {
		step := sheet.RoundStep(wide / 4)
		low = max(math.Floor((low-wide*0.15)/step)*step, 0)
	}
	p.base = max(low, min(0, high))
	p.x = sheet.Scale{Low: low, High: max(high, low+wide), From: p.ends[2] + columnRoom + 8, To: p.Width - sheet.Edge - 6}
	if p.Slim {
		p.x.From = sheet.Edge + 6
	}
}

// head names the columns.
func (p *faller) head() {
	small := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Slants: true, Anchor: "end"}
	if len(p.Parts) == 0 {
		return
	}
	headBack, headAlone := p.heads()
	p.Y += 14
	p.Write(headBack, p.ends[1], p.Y, small)
	p.Write(headAlone, p.ends[2], p.Y, small)
	p.Y += 4
}

// step is a title with its numbers and its bar: beside it, or under it on a
// narrow sheet.
func (p *faller) step(r row) {
	top := p.Y + 3
	lines := sheet.Wrap(r.title, p.ends[0]-sheet.Edge, sheet.TextSize, 3)
	for i, line := range lines {
		p.Write(line, sheet.Edge, top+11+float64(i)*sheet.LineHigh, sheet.Style{Slants: r.kind == kindRest})
	}
	p.Y = top + max(float64(len(lines)), 1)*sheet.LineHigh + 2
	barAt := (top + p.Y) / 2
	numbersAt := barAt + 3
	if p.Slim {
		numbersAt = top + 11
		barAt = p.Y + stepHigh/2 + 1
		p.Y += stepHigh + 5
	}
	p.Write(r.text, p.ends[1], numbersAt, sheet.Style{Anchor: "end"})
	p.Write(r.second, p.ends[2], numbersAt, sheet.Style{Anchor: "end", Fill: sheet.SoftInk})
	p.bar(r, barAt)
	p.Y += 4
}

// bar draws a step and leads to it from the one before. Totals are tinted and
// black, what adds is grey, what takes away white, the interaction dotted.
func (p *faller) bar(r row, y float64) {
	from, to := p.x.At(r.from), p.x.At(r.to)
	if r.total() {
		from = p.x.At(p.base)
	}
	left, right := min(from, to), max(from, to, min(from, to)+1.2)
	top, bottom := y-stepHigh/2, y+stepHigh/2
	p.Rect(left, top, right, bottom, r.fill(), sheet.Ink)
	switch {
	case r.kind == kindRest && right-left > 6:
		p.Dots(left, right, y, stepHigh)
	case r.total() && p.base > 0 && right-left > 16:
		p.Path("M"+sheet.Number(left+6)+","+sheet.Number(bottom+2)+" l3,-13 m4,0 l-3,13", "stroke", sheet.Paper, "stroke-width", 1.8)
	case r.kind == kindPart:
		p.alone(from, p.x.At(r.alone), y+besideHigh)
	}
	p.lead(r, top)
	p.below, p.lastTo = bottom, r.to
}

func (r row) total() bool { return r.kind == kindHealthy || r.kind == kindFailed }

func (r row) fill() string {
	switch {
	case r.kind == kindHealthy:
		return sheet.Tint
	case r.kind == kindFailed:
		return sheet.Ink
	case r.kind == kindRest || r.to < r.from:
		return sheet.Paper
	}
	return sheet.SoftInk
}

// lead joins a bar with the end of the one before, on a wide sheet, where no
// text lies between them.
func (p *faller) lead(r row, top float64) {
	if !p.Slim && p.below > 0 {
		x := p.x.At(p.lastTo)
		p.Segment(x, p.below, x, top, 0.8, sheet.SoftInk, "")
	}
}

// alone draws the second mark of a part: a thin line with a diamond at its end.
func (p *faller) alone(from, to, y float64) {
	p.Segment(from, y, to, y, 1.2, sheet.Ink, "")
	p.Path("M"+sheet.Number(to)+","+sheet.Number(y-3.2)+" l2.7,3.2 l-2.7,3.2 l-2.7,-3.2 z", "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", 1.1)
}

// notes say where the bars begin, what the marks mean and what is left out.
func (p *faller) notes(dropped int) {
	small := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk}
	p.Y += 4
	if p.base > 0 {
		p.Say("The bars of the totals are broken: they begin at "+p.amount(p.base)+", not at nothing.", small)
	}
	if len(p.Parts) > 0 {
		p.Say("A bar: what the failed total falls by when this alone is given back; grey adds, white takes away. The line under it, to the diamond: what losing this alone would add to the healthy total. Interaction: what no single function explains, because the losses act on each other.", small)
	}
	if dropped > 0 {
		p.Say(say.Counted(dropped, "part is", "parts are")+" not shown: their numbers make no sense or there are too many.", small)
	}
}
