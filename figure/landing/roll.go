package landing

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// Wide draws the roll for a page of a book's width: a part of a page.
func (r Roll) Wide() string { return r.draw(sheet.Wide) }

// Narrow draws it for a telephone's width.
func (r Roll) Narrow() string { return r.draw(sheet.Narrow) }

// SVG draws it as a document of its own.
func (r Roll) SVG() string { return r.draw(sheet.Document) }

// roller draws one roll.
type roller struct {
	*sheet.Page
	Roll
	x, y    sheet.Scale // metres and knots
	tags    []string    // what the numbers on a narrow sheet stand for
	dropped int         // of the input, for making no sense
	beyond  int         // events that lie to the right of the picture
}

// Measures of the roll, in points.
const (
	plotHigh  = 230.0
	plotLeft  = 44.0
	laneHigh  = 13.0
	labelRoom = 190.0 // the widest label of an event
	endRoom   = 12.0  // at the right of the axis
	stripHigh = 9.0
)

func (r Roll) draw(f sheet.Form) string {
	p := &roller{Page: sheet.NewPage(f, "roll", r.ID, r.Caption(), r.Words()), Roll: r.sound(), dropped: r.dropped()}
	p.Roll.Healthy, p.Roll.Failed = p.cut(p.Roll.Healthy), p.cut(p.Roll.Failed)
	return p.Finish(p.Capture(func() {
		if len(p.landings()) == 0 {
			p.Y += 4
			p.Say(noLanding, sheet.Style{})
			p.notes()
			return
		}
		failed, healthy := p.lanesOf(p.Failed), p.lanesOf(p.Healthy)
		p.scales(failed, healthy)
		p.legend()
		p.plot(failed, healthy)
		p.strip()
		for _, l := range p.landings() {
			p.need(l)
		}
		p.notes()
	}), r.Foot)
}

// beyondShare is how much farther than everything else the picture follows a
// landing that does not stop.
const beyondShare = 1.3

// cut ends a landing that does not stop a little behind what matters: it may
// roll for kilometres.
func (p *roller) cut(s Stop) Stop {
	edge := beyondShare * max(p.Available, p.Healthy.Factored, p.Failed.Factored, p.Healthy.Metres, p.Failed.Metres, 1000)
	if !s.NeverStops {
		return s
	}
	for i, q := range s.Track {
		if q.Metres <= edge {
			continue
		}
		if kt, ok := s.ktAt(edge); ok && i > 0 {
			s.Track = append(slices.Clone(s.Track[:i]), Point{edge, kt})
		} else {
			s.Track = s.Track[:i]
		}
		break
	}
	kept := slices.DeleteFunc(slices.Clone(s.Events), func(e Event) bool { return e.Metres > edge })
	p.beyond += len(s.Events) - len(kept)
	s.Events = kept
	return s
}

// lane is the label of an event and the row that it stands in.
type lane struct {
	Event
	text string
	row  int
}

// lanesOf gives the labels of the events: words, or numbers on a narrow sheet.
func (p *roller) lanesOf(s Stop) (lanes []lane) {
	for _, e := range s.Events {
		text := sheet.Clip(e.text(), labelRoom, sheet.SmallSize)
		if p.Slim {
			p.tags = append(p.tags, e.text())
			text = strconv.Itoa(len(p.tags))
		}
		lanes = append(lanes, lane{Event: e, text: text})
	}
	return lanes
}

func laneWidth(l lane) float64 { return sheet.Width(l.text, sheet.SmallSize) + 7 }

// scales fits everything on the sheet: the labels of the last events decide how
// far right the axis goes.
func (p *roller) scales(lanes ...[]lane) {
	far, fast := max(p.Available, 100), 20.0
	for _, s := range []Stop{p.Healthy, p.Failed} {
		far = max(far, s.Metres, s.Factored, s.Manual)
		for _, q := range s.Track {
			far, fast = max(far, q.Metres), max(fast, q.Kt)
		}
		for _, e := range s.Events {
			far, fast = max(far, e.Metres), max(fast, e.Kt)
		}
	}
	far *= 1.01
	right := p.Width - endRoom
	for _, l := range slices.Concat(lanes...) {
		if l.Metres > 0 {
			right = min(right, plotLeft+(p.Width-2-laneWidth(l)-plotLeft)*far/l.Metres)
		}
	}
	p.x = sheet.Scale{Low: 0, High: far, From: plotLeft, To: max(right, plotLeft+p.Width/4)}
	p.y = sheet.Scale{Low: 0, High: fast * 1.04}
}

// legend names the two curves.
func (p *roller) legend() {
	p.Y += 16
	x := sheet.Edge
	for _, l := range p.landings() {
		text, wide := "healthy: events below the curves", 1.3
		if l.who == "Failed" {
			text, wide = "failed: events above", 2.6
		}
		if p.Slim {
			text = strings.ToLower(l.who)
		}
		p.Segment(x, p.Y-4, x+26, p.Y-4, wide, sheet.Ink, "")
		p.marker(x+13, p.Y-4, l.who)
		p.Write(text, x+32, p.Y, sheet.Style{})
		x += 32 + sheet.Width(text, sheet.TextSize) + 24
	}
	p.Axes("speed over the ground, kt, against distance from the threshold, m", x)
	p.Y += 6
}

func (p *roller) marker(x, y float64, who string) {
	if who == "Failed" {
		p.Disc(x, y, 2.8, sheet.Ink)
		return
	}
	p.Disc(x, y, 2.8, sheet.Paper)
}

// plot draws the curves, with the events of the failed landing in lanes above
// and those of the healthy one below.
func (p *roller) plot(failed, healthy []lane) {
	top := p.Y + p.settle(failed) + 8
	bottom := top + plotHigh
	p.y.From, p.y.To = bottom, top
	p.Y = bottom + 6 + p.settle(healthy)
	p.runOff(top)
	p.grid(top, bottom)
	p.lanes(failed, func(row int) float64 { return top - 8 - laneHigh*float64(row) })
	p.lanes(healthy, func(row int) float64 { return bottom + 15 + laneHigh*float64(row) })
	p.curve(p.Healthy.Track, 1.3)
	p.curve(p.Failed.Track, 2.6)
	p.markers(healthy, "Healthy")
	p.markers(failed, "Failed")
}

// settle gives each label its row, from the right to the left, so that no label
// lies over another one or over another one's leader; it gives the height of
// all rows. The rows count from the curves outwards.
func (p *roller) settle(lanes []lane) float64 {
	most := -1
	for j := len(lanes) - 1; j >= 0; j-- {
		end := p.x.At(lanes[j].Metres) + laneWidth(lanes[j])
		for _, l := range lanes[j+1:] {
			if p.x.At(l.Metres) < end+3 {
				lanes[j].row = max(lanes[j].row, l.row+1)
			}
		}
		most = max(most, lanes[j].row)
	}
	return float64(most+1) * laneHigh
}

func (p *roller) lanes(lanes []lane, at func(int) float64) {
	for _, l := range lanes {
		x, y := p.x.At(l.Metres), at(l.row)
		p.Segment(x, y-4, x, p.y.At(l.Kt), 0.7, sheet.SoftInk, "")
		p.Segment(x, y-4, x+3, y-4, 0.7, sheet.SoftInk, "")
		p.Write(l.text, x+5, y, sheet.Style{Size: sheet.SmallSize})
	}
}

func (p *roller) markers(lanes []lane, who string) {
	for _, l := range lanes {
		p.marker(p.x.At(l.Metres), p.y.At(l.Kt), who)
	}
}

// grid is the speed at the left and its lines.
func (p *roller) grid(top, bottom float64) {
	for _, kt := range p.y.Ticks(6) {
		y := p.y.At(kt)
		p.Segment(p.x.From, y, p.x.To, y, 0.7, sheet.Faint, "")
		text := say.Whole(kt)
		if kt == 0 {
			text += " kt"
		}
		p.Write(text, plotLeft-5, y+3.5, sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Anchor: "end"})
	}
	p.Segment(p.x.From, top, p.x.From, bottom, 1, sheet.Ink, "")
	p.Segment(p.x.From, bottom, p.x.To, bottom, 1, sheet.Ink, "")
}

// runOff shades what lies behind the end of the distance available.
func (p *roller) runOff(top float64) {
	if p.Available == 0 {
		return
	}
	x := p.x.At(p.Available)
	if p.x.To-x > 2 {
		p.Rect(x, top, p.x.To, p.y.From, sheet.Tint, "")
	}
	p.Segment(x, top, x, p.Y+stripHigh, 1.6, sheet.Ink, "")
}

// curve draws a track, without points closer than can be seen.
func (p *roller) curve(track []Point, wide float64) {
	var path strings.Builder
	lastX, lastY := math.Inf(-1), 0.0
	for i, q := range track {
		x, y := p.x.At(q.Metres), p.y.At(q.Kt)
		if i > 0 && i < len(track)-1 && math.Hypot(x-lastX, y-lastY) < 0.8 {
			continue
		}
		letter := " L"
		if i == 0 {
			letter = "M"
		}
		path.WriteString(letter + sheet.Number(x) + "," + sheet.Number(y))
		lastX, lastY = x, y
	}
	if path.Len() > 0 {
		p.Path(path.String(), "stroke", sheet.Ink, "stroke-width", wide, "stroke-linejoin", "round")
	}
}
