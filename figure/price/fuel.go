package price

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/figure/sheet"
	"knockon/say"
)

// Wide draws the fuel for a page of a book's width: a part of a page.
func (f Fuel) Wide() string { return f.draw(sheet.Wide) }

// Narrow draws it for a telephone's width.
func (f Fuel) Narrow() string { return f.draw(sheet.Narrow) }

// SVG draws it as a document of its own.
func (f Fuel) SVG() string { return f.draw(sheet.Document) }

// Bounds of what a picture of fuel shows.
const (
	mostMinutes = 1e4
	mostKg      = 1e6
)

// sound gives the burn without what is senseless in it.
func (b Burn) sound() Burn {
	b.Points = slices.DeleteFunc(slices.Clone(b.Points), func(q Burned) bool {
		return !sheet.Sound(q.Minutes, mostMinutes) || !sheet.Sound(q.Kg, mostKg) || q.Kg < 0 || q.Minutes < 0
	})
	if !(b.Reserve > 0 && b.Reserve < mostKg) {
		b.Reserve = 0
	}
	if !(b.DryAt > 0 && b.DryAt < mostMinutes) || len(b.Points) > 0 && b.DryAt < b.last().Minutes {
		b.DryAt = 0
	}
	return b
}

// dry says whether the fuel ends before the flight does.
func (b Burn) dry() bool { return !b.Lands && b.last().Kg < 0.5 }

func (b Burn) last() Burned { return b.Points[len(b.Points)-1] }

// burning is one of the two burns, with its name.
type burning struct {
	Burn
	who string
}

func (f Fuel) burns() (list []burning) {
	for _, b := range []burning{{f.Healthy.sound(), "Healthy"}, {f.Failed.sound(), "Failed"}} {
		if len(b.Points) > 0 {
			list = append(list, b)
		}
	}
	return list
}

// tale says a burn in one sentence, with its numbers.
func (b burning) tale() string {
	end := b.last()
	if b.dry() {
		return fmt.Sprintf("%s: does not get there; it runs dry after %s min.", b.who, say.Whole(end.Minutes))
	}
	if !b.Lands {
		return fmt.Sprintf("%s: does not get there; after %s min there are %s kg.", b.who, say.Whole(end.Minutes), say.Whole(end.Kg))
	}
	text := fmt.Sprintf("%s: lands after %s min with %s kg", b.who, say.Whole(end.Minutes), say.Whole(end.Kg))
	if b.Reserve > 0 {
		over := math.Round(end.Kg) - math.Round(b.Reserve)
		side := "above"
		if over < 0 {
			side = "below"
		}
		text += fmt.Sprintf(", %s kg %s the final reserve of %s kg", say.Whole(math.Abs(over)), side, say.Whole(b.Reserve))
	}
	if b.DryAt > 0 {
		text += fmt.Sprintf("; it would run dry after %s min", say.Whole(b.DryAt))
	}
	return text + "."
}

// Caption is the title of the picture: its own, or one made from the rest.
func (f Fuel) Caption() string {
	switch {
	case f.Title != "":
		return f.Title
	case f.To != "":
		return "Fuel on board on the way to " + f.To + ", healthy and failed"
	}
	return "Fuel on board, healthy and failed"
}

// Words says the picture to whoever does not see it.
func (f Fuel) Words() string {
	text := "Fuel on board against time."
	if len(f.burns()) == 0 {
		return noFlight
	}
	for _, b := range f.burns() {
		text += " " + b.tale()
	}
	return text
}

const noFlight = "There is no flight whose fuel could be shown."

// fueler draws one fuel picture.
type fueler struct {
	*sheet.Page
	x, y sheet.Scale // minutes and kg
	room *sheet.Room
}

// Measures of the fuel picture, in points.
const (
	fuelHigh = 250.0
	fuelLeft = 54.0
	leastFar = 1.0 // minutes on the axis
)

func (f Fuel) draw(form sheet.Form) string {
	p := &fueler{Page: sheet.NewPage(form, "fuel", f.ID, f.Caption(), f.Words())}
	burns := f.burns()
	return p.Finish(p.Capture(func() {
		if len(burns) == 0 {
			p.Y += 4
			p.Say(noFlight, sheet.Style{})
			return
		}
		p.legend(burns)
		p.scales(burns)
		p.grid()
		for _, b := range burns {
			p.line(b)
		}
		p.reserves(burns)
		for i := range burns {
			p.ends(burns[len(burns)-1-i])
		}
		p.Y = p.y.From + 32
		for _, b := range burns {
			p.Say(b.tale(), sheet.Style{})
			p.Y += 2
		}
	}), f.Foot)
}

func wideOf(who string) float64 {
	if who == "Failed" {
		return 2.6
	}
	return 1.3
}

func (p *fueler) legend(burns []burning) {
	p.Y += 16
	x := sheet.Edge
	for _, b := range burns {
		p.Segment(x, p.Y-4, x+26, p.Y-4, wideOf(b.who), sheet.Ink, "")
		text := strings.ToLower(b.who)
		p.Write(text, x+32, p.Y, sheet.Style{})
		x += 32 + sheet.Width(text, sheet.TextSize) + 24
	}
	p.Axes("fuel on board, kg, against minutes from now", x)
}

// scales fits both burns; a moment of running dry that is very far off is left
// to the words.
func (p *fueler) scales(burns []burning) {
	far, most, ends := leastFar, 10.0, leastFar
	for _, b := range burns {
		for _, q := range b.Points {
			far, most, ends = max(far, q.Minutes), max(most, q.Kg), max(ends, q.Minutes)
		}
		most = max(most, b.Reserve*1.1)
	}
	for _, b := range burns {
		if b.DryAt < 4*ends {
			far = max(far, b.DryAt)
		}
	}
	top := p.Y + 12
	p.x = sheet.Scale{High: far * 1.03, From: fuelLeft, To: p.Width - sheet.Edge}
	p.y = sheet.Scale{High: most * 1.08, From: top + fuelHigh, To: top}
	p.room = sheet.NewRoom(sheet.Box{Left: p.x.From + 3, Top: top, Right: p.x.To, Bottom: p.y.From - 2})
}

func (p *fueler) grid() {
	small := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk, Anchor: "end"}
	for i, kg := range p.y.Ticks(5) {
		y, text := p.y.At(kg), say.Whole(kg)
		if i == 0 {
			text += " kg"
		}
		p.Segment(p.x.From, y, p.x.To, y, 0.7, sheet.Faint, "")
		p.Write(text, fuelLeft-5, y+3.5, small)
	}
	p.Segment(p.x.From, p.y.To, p.x.From, p.y.From, 1, sheet.Ink, "")
	p.Segment(p.x.From, p.y.From, p.x.To, p.y.From, 1, sheet.Ink, "")
	ticks := p.x.Ticks(8)
	if p.Slim {
		ticks = p.x.Ticks(4)
	}
	room := sheet.NewRoom(sheet.Box{Top: p.y.From, Right: p.Width, Bottom: p.y.From + 20})
	small.Anchor = ""
	for i, m := range ticks {
		x, text := p.x.At(m), p.minutes(m)
		if i == len(ticks)-1 {
			text += " min"
		}
		p.Segment(x, p.y.From, x, p.y.From+3, 0.8, sheet.Ink, "")
		p.Label(room, text, []sheet.Spot{{X: x, Y: p.y.From + 15, Anchor: "middle"}, {X: p.x.To, Y: p.y.From + 15, Anchor: "end"}}, small)
	}
}

// minutes writes a tick, which is a part of a minute on a very short flight.
func (p *fueler) minutes(m float64) string {
	if p.x.High < 5 {
		return fmt.Sprintf("%.1f", m)
	}
	return say.Whole(m)
}
