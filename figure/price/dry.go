package price

import (
	"math"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// line draws one burn, and dashed how it would go on until it is dry.
func (p *fueler) line(b burning) {
	var path strings.Builder
	lastX, lastY := math.Inf(-1), 0.0
	for i, q := range b.Points {
		x, y := p.x.At(q.Minutes), p.y.At(q.Kg)
		if i > 0 && i < len(b.Points)-1 && math.Hypot(x-lastX, y-lastY) < 0.8 {
			continue
		}
		letter := " L"
		if i == 0 {
			letter = "M"
		} else {
			p.keepOff(lastX, lastY, x, y)
		}
		path.WriteString(letter + sheet.Number(x) + "," + sheet.Number(y))
		lastX, lastY = x, y
	}
	p.Path(path.String(), "stroke", sheet.Ink, "stroke-width", wideOf(b.who), "stroke-linejoin", "round")
	if p.showsDry(b) {
		x, y := p.x.At(b.last().Minutes), p.y.At(b.last().Kg)
		p.Segment(x, y, p.x.At(b.DryAt), p.y.From, wideOf(b.who)*0.8, sheet.Ink, "2 4")
		p.keepOff(x, y, p.x.At(b.DryAt), p.y.From)
	}
}

func (p *fueler) showsDry(b burning) bool { return b.DryAt > 0 && b.DryAt <= p.x.High }

// keepOff takes the room along a line, so that no label lies over it.
func (p *fueler) keepOff(x1, y1, x2, y2 float64) {
	n := math.Ceil(math.Hypot(x2-x1, y2-y1) / 5)
	for i := 0.0; i <= n; i++ {
		part := i / max(n, 1)
		x, y := x1+(x2-x1)*part, y1+(y2-y1)*part
		p.room.Take(sheet.Box{Left: x - 3, Top: y - 3, Right: x + 3, Bottom: y + 3})
	}
}

// reserves draws the lines of the final reserves, one for both when it is the
// same, and then their names, which keep off all lines.
func (p *fueler) reserves(burns []burning) {
	var own []burning
	for i, b := range burns {
		if b.Reserve > 0 && (i == 0 || b.Reserve != burns[0].Reserve) {
			own = append(own, b)
		}
	}
	for _, b := range own {
		y := p.y.At(b.Reserve)
		p.Segment(p.x.From, y, p.x.To, y, 1, sheet.Ink, "7 3")
		p.keepOff(p.x.From, y, p.x.To, y)
	}
	for _, b := range own {
		text := "reserve " + say.Whole(b.Reserve) + " kg"
		if len(burns) == 2 && burns[0].Reserve != burns[1].Reserve {
			text += ", " + strings.ToLower(b.who)
		}
		p.reserveName(text, p.y.At(b.Reserve))
	}
}

func (p *fueler) reserveName(text string, y float64) {
	var spots []sheet.Spot
	for x := p.x.From + 5; x < p.x.To; x += 14 {
		spots = append(spots, sheet.Spot{X: x, Y: y - 6, Anchor: "start"}, sheet.Spot{X: x, Y: y + 13, Anchor: "start"})
	}
	p.LabelOne(p.room, []string{"final " + text, text}, spots, sheet.Style{Size: sheet.SmallSize, Slants: true, Rim: true})
}

// ends marks where a burn lands, or runs dry, with words where there is room;
// the sentences below have the same numbers.
func (p *fueler) ends(b burning) {
	end, who := b.last(), strings.ToLower(b.who)
	x, y := p.x.At(end.Minutes), p.y.At(end.Kg)
	kg := say.Whole(end.Kg) + " kg"
	texts := []string{who + " lands: " + kg, "lands: " + kg, kg}
	switch {
	case b.dry():
		p.cross(x, y)
		texts = dryTexts(who, end.Minutes)
	case !b.Lands:
		p.cross(x, y)
		texts = []string{who + " ends: " + kg, kg}
	case b.who == "Failed":
		p.Disc(x, y, 4, sheet.Ink)
	default:
		p.Disc(x, y, 4, sheet.Paper)
	}
	p.room.Take(sheet.Box{Left: x - 6, Top: y - 6, Right: x + 6, Bottom: y + 6})
	p.LabelOne(p.room, texts, sheet.Around(x, y, 9), p.label())
	if p.showsDry(b) {
		p.dry(b)
	}
}

// label is the style of the words in the plot.
func (p *fueler) label() sheet.Style {
	if p.Slim {
		return sheet.Style{Size: sheet.SmallSize, Rim: true}
	}
	return sheet.Style{Rim: true}
}

func dryTexts(who string, minutes float64) []string {
	text := "dry: " + say.Whole(minutes) + " min"
	return []string{who + " " + text, text, say.Whole(minutes) + " min"}
}

// dry marks where a burn would run dry if it went on.
func (p *fueler) dry(b burning) {
	x := p.x.At(b.DryAt)
	p.cross(x, p.y.From)
	spots := sheet.Around(x, p.y.From-8, 9)
	for y := p.y.From - 6; y > p.y.From-70; y -= 6 {
		spots = append(spots, sheet.Spot{X: p.x.To, Y: y, Anchor: "end"})
	}
	p.LabelOne(p.room, dryTexts(strings.ToLower(b.who), b.DryAt), spots, p.label())
}

// cross marks where the fuel is gone.
func (p *fueler) cross(x, y float64) {
	p.Path("M"+sheet.Number(x-4)+","+sheet.Number(y-4)+" l8,8 m0,-8 l-8,8", "stroke", sheet.Ink, "stroke-width", 1.8)
}
