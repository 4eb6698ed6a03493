package landing

import (
	"fmt"
	"math"
	"strconv"

	"knockon/figure/sheet"
	"knockon/say"
)

// strip draws the runway under the curves, with its threshold, its end and the
// distances along it.
func (p *roller) strip() {
	top := p.Y
	if p.Available > 0 {
		p.Rect(p.x.From, top, p.x.At(p.Available), top+stripHigh, sheet.Tint, sheet.Ink)
		p.Segment(p.x.From+4, top+stripHigh/2, p.x.From+12, top+stripHigh/2, stripHigh-4, sheet.Ink, "1.2 1.6")
	}
	p.Y += stripHigh + 13
	small := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk}
	room := sheet.NewRoom(sheet.Box{Left: 0, Top: top, Right: p.Width, Bottom: p.Y + 6})
	ticks := p.x.Ticks(8)
	if p.Slim {
		ticks = p.x.Ticks(4)
	}
	for i, m := range ticks {
		x, text := p.x.At(m), say.Whole(m)
		if i == len(ticks)-1 {
			text += " m"
		}
		p.Segment(x, top+stripHigh, x, top+stripHigh+3, 0.8, sheet.Ink, "")
		p.Label(room, text, []sheet.Spot{{X: x, Y: p.Y, Anchor: "middle"}, {X: p.Width - 2, Y: p.Y, Anchor: "end"}}, small)
	}
	p.Y += 14
	p.ends()
	p.Y += 8
}

// ends names the threshold and the end, on one line or on two.
func (p *roller) ends() {
	s := sheet.Style{Slants: true}
	room := sheet.NewRoom(sheet.Box{Left: 0, Top: p.Y - 20, Right: p.Width, Bottom: p.Y + 20})
	p.Label(room, "threshold", []sheet.Spot{{X: p.x.From - 2, Y: p.Y, Anchor: "start"}}, s)
	if p.Available == 0 {
		return
	}
	text, x := fmt.Sprintf("end; available %s m", say.Whole(p.Available)), p.x.At(p.Available)
	var spots []sheet.Spot
	for _, y := range []float64{p.Y, p.Y + sheet.LineHigh} {
		spots = append(spots, sheet.Spot{X: x, Y: y, Anchor: "middle"}, sheet.Spot{X: x + 2, Y: y, Anchor: "end"}, sheet.Spot{X: x - 2, Y: y, Anchor: "start"})
	}
	if p.Label(room, text, spots, s); !room.Free(sheet.Box{Left: 1, Top: p.Y + 5, Right: p.Width - 1, Bottom: p.Y + 16}) {
		p.Y += sheet.LineHigh
	}
}

// need draws what a landing takes: the words, a bar to the stop and, hatched,
// to the distance with the margin, and a bracket to what is available.
func (p *roller) need(l landing) {
	p.Y += 4
	p.Say(p.tale(l.who, l.Stop), sheet.Style{})
	p.Say(p.manual(l.Stop), sheet.Style{})
	p.Y += 9
	y, fill := p.Y+4.5, sheet.Tint
	if l.who == "Failed" {
		fill = sheet.Ink
	}
	switch {
	case l.NeverStops:
		p.Rect(p.x.From, y-4.5, p.x.To-9, y+4.5, fill, sheet.Ink)
		p.Path("M"+sheet.Number(p.x.To-9)+","+sheet.Number(y-8)+" l10,8 l-10,8 z", "fill", fill, "stroke", sheet.Ink)
	case l.Metres > 0:
		stop, with := p.x.At(l.Metres), p.x.At(l.Factored)
		p.Rect(p.x.From, y-4.5, stop, y+4.5, fill, sheet.Ink)
		if with > stop {
			p.Rect(stop, y-4.5, with, y+4.5, sheet.Paper, sheet.Ink)
			p.Strokes(stop, with, y, 9, 40)
		}
	}
	if l.Manual > 0 {
		p.Path("M"+sheet.Number(p.x.At(l.Manual))+","+sheet.Number(y-4.5)+" l-3.5,-6 h7 z", "fill", sheet.Paper, "stroke", sheet.Ink, "stroke-width", 1.1)
	}
	if p.Available > 0 {
		x := p.x.At(p.Available)
		p.Segment(x, y-8, x, y+8, 1.6, sheet.Ink, "")
	}
	p.Y += 13
	if p.Available > 0 && l.Metres > 0 {
		p.bracket(l)
	}
	p.Y += 3
}

// bracket marks the margin that is left, or what is missing, with its number.
func (p *roller) bracket(l landing) {
	a, b := p.x.At(l.Factored), p.x.At(p.Available)
	if a > b {
		a, b = b, a
	}
	y := p.Y
	p.Path("M"+sheet.Number(a)+","+sheet.Number(y)+" v5 H"+sheet.Number(b)+" v-5", "stroke", sheet.Ink, "stroke-width", 1)
	over := math.Round(l.Factored) - math.Round(p.Available)
	text := spare(over)
	half := sheet.Width(text, sheet.TextSize) / 2
	p.Y += 18
	p.Write(text, min(max((a+b)/2, half+2), p.Width-half-2), p.Y, sheet.Style{Anchor: "middle"})
}

// notes are the meaning of the numbers on a narrow sheet, and what is left out.
func (p *roller) notes() {
	small := sheet.Style{Size: sheet.SmallSize}
	if len(p.tags) > 0 {
		p.Y += 4
	}
	for i, tag := range p.tags {
		switch i {
		case len(p.Failed.Events):
			p.Say("Healthy", sheet.Style{Slants: true})
		case 0:
			p.Say("Failed", sheet.Style{Slants: true})
		}
		p.Say(strconv.Itoa(i+1)+" "+tag, small)
	}
	if p.beyond > 0 {
		p.Say(say.Counted(p.beyond, "event lies", "events lie")+" beyond the right edge.", small)
	}
	if p.dropped > 0 {
		p.Say(say.Counted(p.dropped, "point or event is", "points or events are")+" not shown: their numbers make no sense or there are too many.", small)
	}
}

// Roll is a landing on one runway with the aircraft healthy and failed.
// Distances are metres from the threshold that is landed over, speeds are
// knots over the ground.
type Roll struct {
	ID        string  // unique in the page; ids inside begin with it
	Title     string  // "" for one made from the rest (Caption)
	Runway    string  // its name: "27 of Foxtrot"
	Available float64 // landing distance available, metres; 0 when not known
	Margin    float64 // the margin that the factored distances hold: 0.15 for 15 %
	Healthy   Stop
	Failed    Stop
	Foot      []string // lines under a picture that stands alone, after the caution: its address
}

// Stop is one landing. A stop without a track is left out of the picture.
type Stop struct {
	Track      []Point // from the threshold on, in the order of time
	Events     []Event
	Metres     float64 // where it stops: the distance that the landing takes, without a margin
	Factored   float64 // landing distance required, with the margin; 0 for Metres*(1+Margin)
	Manual     float64 // landing distance required by the book's own manual; 0 for none. The larger of it and Factored decides
	NeverStops bool    // it does not stop on any length; Metres and Factored are not read
}

// Point is one moment of a track.
type Point struct{ Metres, Kt float64 }

// Event is something that happens on the way: touchdown, spoilers, brakes,
// reverse, wheels turn, tyres grip, reverse out, stop.
type Event struct {
	What   string
	Metres float64
	Kt     float64
}
