package deadline

import (
	"strconv"

	"knockon/figure/sheet"
	"knockon/say"
)

// Wide draws the line for a page of a book's width: a part of a page.
func (l Line) Wide() string { return l.draw(sheet.Wide) }

// Narrow draws it for a telephone's width.
func (l Line) Narrow() string { return l.draw(sheet.Narrow) }

// SVG draws it as a document of its own.
func (l Line) SVG() string { return l.draw(sheet.Document) }

// liner draws one line.
type liner struct {
	*sheet.Page
	Line
	x sheet.Scale // seconds
}

// Measures, in points.
const (
	labelWide   = 316.0 // of the moves, beside their bars
	costWide    = 168.0
	profileHigh = 64.0
	barHigh     = 11.0
	leastBar    = 3.0
)

func (l Line) draw(f sheet.Form) string {
	p := &liner{Page: sheet.NewPage(f, "deadline", l.ID, l.Caption(), l.Words()), Line: l.sound()}
	p.x = sheet.Scale{Low: p.From, High: p.To, From: sheet.Edge, To: f.Width - sheet.Edge}
	if !f.Slim {
		p.x.From, p.x.To = labelWide, f.Width-costWide
	}
	var over string
	top := p.Y + sheet.LineHigh
	rows := p.Capture(func() {
		p.marks()
		p.profile()
		p.clock()
		for i, b := range p.Bars {
			p.bar(i, b)
		}
	})
	over = p.Capture(func() { p.upright(top) })
	return p.Finish(over+rows, l.Foot)
}

// upright is the failure and where it is lost, down through all bars.
func (p *liner) upright(top float64) {
	for _, s := range p.Lost {
		p.Rect(p.x.At(s.From), top+4, max(p.x.At(s.To), p.x.At(s.From)+1), p.Y, sheet.Tint, "")
	}
	if len(p.Lost) > 0 {
		x := p.x.At(p.Lost[0].From)
		p.Segment(x, top+4, x, p.Y, 1.2, sheet.Ink, "3 2.5")
	}
	x := p.x.At(0)
	p.Segment(x, top+4, x, p.Y, 1.4, sheet.Ink, "")
}

// marks names the two upright lines.
func (p *liner) marks() {
	p.Y += sheet.LineHigh
	s := sheet.Style{Slants: true}
	room := sheet.NewRoom(sheet.Box{Left: 0, Top: p.Y - 20, Right: p.Width, Bottom: p.Y + 6})
	x := p.x.At(0)
	p.Label(room, "fails", []sheet.Spot{{X: x, Y: p.Y, Anchor: "start"}}, s)
	if len(p.Lost) == 0 || p.LostText == "" {
		return
	}
	x = p.x.At(p.Lost[0].From)
	p.Label(room, sheet.Clip(p.LostText, p.Width-2*sheet.Edge, sheet.TextSize), []sheet.Spot{{X: x, Y: p.Y, Anchor: "middle"}, {X: min(x+40, p.Width-sheet.Edge), Y: p.Y, Anchor: "end"}, {X: x, Y: p.Y, Anchor: "end"}, {X: x, Y: p.Y, Anchor: "start"}, {X: p.Width - sheet.Edge, Y: p.Y, Anchor: "end"}}, s)
}

// profile is the height of the flight, and its phases.
func (p *liner) profile() {
	top := p.Y + 6
	p.Y = top + profileHigh
	high := 1.0
	for _, h := range p.Heights {
		high = max(high, h.Ft)
	}
	y := sheet.Scale{Low: 0, High: high * 1.05, From: p.Y, To: top}
	path := ""
	for _, h := range p.Heights {
		path += sheet.Number(p.x.At(h.S)) + "," + sheet.Number(y.At(h.Ft)) + " "
	}
	if path != "" {
		p.Path("M"+path, "stroke", sheet.Ink, "stroke-width", 1.3)
	}
	p.Segment(p.x.From, p.Y, p.x.To, p.Y, 0.8, sheet.Ink, "")
	p.feet(high, y)
	p.phases(top)
}

// feet says the greatest height of the profile, beside it where there is room.
func (p *liner) feet(high float64, y sheet.Scale) {
	if len(p.Heights) == 0 || p.Slim {
		return
	}
	p.Write(say.Whole(high)+" ft", p.x.From-4, y.At(high)+4, sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Anchor: "end"})
}

// phases are named under the profile where there is room for it.
func (p *liner) phases(top float64) {
	p.Y += sheet.LineHigh
	room := sheet.NewRoom(sheet.Box{Left: 0, Top: p.Y - 20, Right: p.Width, Bottom: p.Y + 6})
	for _, ph := range p.Phases {
		a, b := p.x.At(ph.From), p.x.At(ph.To)
		if ph.From > p.From {
			p.Segment(a, top, a, p.Y, 0.7, sheet.Faint, "")
		}
		if sheet.Width(ph.Title, sheet.SmallSize) <= b-a-6 {
			p.Label(room, ph.Title, []sheet.Spot{{X: (a + b) / 2, Y: p.Y - 2, Anchor: "middle"}}, sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk})
		}
	}
}

// steps are round stretches of a clock, in seconds.
var steps = []float64{1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 14400}

// clock is times from the failure on.
func (p *liner) clock() {
	ticks := 8.0
	if p.Slim {
		ticks = 5
	}
	step := steps[len(steps)-1]
	for i := len(steps) - 1; i >= 0 && steps[i]*ticks >= p.To-p.From; i-- {
		step = steps[i]
	}
	p.Y += sheet.LineHigh - 2
	room := sheet.NewRoom(sheet.Box{Left: 0, Top: p.Y - 20, Right: p.Width, Bottom: p.Y + 6})
	for k := 0; float64(k)*step <= p.To && k < 50; k++ {
		s := float64(k) * step
		x := p.x.At(s)
		p.Label(room, say.After(micros(s)), []sheet.Spot{{X: x, Y: p.Y, Anchor: "middle"}, {X: x - 4, Y: p.Y, Anchor: "start"}}, sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Rim: true})
	}
	p.Y += 6
}

// micros is what the house's clock counts in.
func micros(s float64) int64 { return int64(s * 1e6) }

// bar is one way: its moves, when it works, until when, and what it costs.
func (p *liner) bar(i int, b Bar) {
	room, left := labelWide-2*sheet.Edge, sheet.Edge
	if p.Slim {
		room = p.Width - 2*sheet.Edge
	}
	lines := sheet.Wrap(strconv.Itoa(i+1)+"  "+b.Moves, room, sheet.TextSize, 3)
	cost := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk}
	top := p.Y + 4
	for k, line := range lines {
		p.Write(line, left, top+sheet.LineHigh*float64(k+1), sheet.Style{Rim: true})
	}
	under := top + sheet.LineHigh*float64(len(lines))
	if p.Slim {
		p.pieces(b, under+5+barHigh/2)
		p.Y = under + barHigh + sheet.LineHigh + 8
		p.Write(sheet.Clip("until "+b.Until+"; "+b.Cost, room, sheet.TextSize), left, p.Y-1, sheet.Style{Rim: true})
		p.Y += 5
		return
	}
	p.pieces(b, top+sheet.LineHigh-4)
	x := p.Width - costWide + 10
	p.Write("until "+b.Until, x, top+sheet.LineHigh, sheet.Style{Size: 14})
	more := sheet.Wrap(b.Cost, costWide-10-sheet.Edge, sheet.SmallSize, 2)
	for k, line := range more {
		p.Write(line, x, top+sheet.LineHigh*float64(k+2), cost)
	}
	p.Y = max(under, top+sheet.LineHigh*float64(len(more)+1)) + 7
}

// pieces are the stretches in which a way works, hollow if it costs something.
func (p *liner) pieces(b Bar, y float64) {
	fill := sheet.Paper
	if b.Cheap {
		fill = sheet.Ink
	}
	for i, s := range b.In {
		from, to := p.x.At(s.From), max(p.x.At(s.To), p.x.At(s.From)+leastBar)
		p.Rect(from, y-barHigh/2, to, y+barHigh/2, fill, sheet.Ink)
		if b.Open && i == len(b.In)-1 {
			p.Path("M"+sheet.Number(to+2)+","+sheet.Number(y-5)+" l6,5 l-6,5 z", "fill", fill, "stroke", sheet.Ink)
		}
	}
}
