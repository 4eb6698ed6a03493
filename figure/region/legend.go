package region

import (
	"fmt"

	"knockon/figure/sheet"
	"knockon/say"
)

// entry is a sample and what it means.
type entry struct {
	text   string
	wide   float64
	sample func(x, y float64) // from x on, around y
}

// entries are the samples of what the map shows, and its scale.
func (p *mapper) entries() (list []entry) {
	shown := map[fate]bool{}
	for _, f := range p.fields {
		shown[f.fate] = true
	}
	for f := lost; f <= unknown; f++ {
		if shown[f] {
			list = append(list, entry{fates[f], 10, func(x, y float64) { p.mark(f, x+5, y) }})
		}
	}
	if p.seen(p.failed) {
		list = append(list, entry{"reach with the failure", 28, func(x, y float64) { p.Segment(x, y, x+28, y, 2.2, sheet.Ink, "") }})
	}
	if p.seen(p.healthy) {
		list = append(list, entry{"reach healthy", 28, func(x, y float64) { p.Segment(x, y, x+28, y, 1.1, sheet.Ink, healthyDashes) }})
	}
	return append(list, entry{"present position and track", 20, func(x, y float64) { p.dart(x+9, y, 1, 0) }})
}

// legend explains the marks, in as many lines as it takes, and ends with a
// scale.
func (p *mapper) legend() {
	x, line := sheet.Edge, 17.0
	p.Y += line - 3
	for _, e := range p.entries() {
		wide := e.wide + 6 + sheet.Width(e.text, sheet.TextSize)
		if x > sheet.Edge && x+wide > p.Width-sheet.Edge {
			x = sheet.Edge
			p.Y += line
		}
		e.sample(x, p.Y-4)
		p.Write(e.text, x+e.wide+6, p.Y, sheet.Style{})
		x += wide + 20
	}
	p.Y += line
	p.scaleBar()
}

// scaleBar is a length of as many miles as there are between two rings.
func (p *mapper) scaleBar() {
	wide := p.step * p.scale
	p.Path("M"+sheet.Number(sheet.Edge+0.5)+","+sheet.Number(p.Y-8)+" v5 h"+sheet.Number(wide)+" v-5", "stroke", sheet.Ink, "stroke-width", 1)
	text := p.count(p.step) + " NM, as between two rings around the present position"
	if p.Slim {
		text = p.count(p.step) + " NM, as between two rings"
	}
	p.Write(text, sheet.Edge+wide+8, p.Y, sheet.Style{})
	p.Y += 4
}

// notes say in words what the map shows, and what it leaves out.
func (p *mapper) notes(unnamed int) {
	p.Say(p.sums(), sheet.Style{})
	most := mostLost
	if p.Slim {
		most = mostLostSlim
	}
	if len(p.Airfields) > 0 {
		p.Say(p.lostOnes(most), sheet.Style{})
	}
	for _, b := range []struct {
		spots []spot
		what  string
	}{{p.failed, "with the failure"}, {p.healthy, "healthy"}} {
		if len(b.spots) > 2 && !p.seen(b.spots) {
			p.Say(fmt.Sprintf("The reach %s is %s NM at least, beyond the map.", b.what, p.count(nearest(b.spots))), sheet.Style{})
		}
	}
	small := sheet.Style{Size: sheet.SmallSize, Fill: sheet.SoftInk}
	if unnamed > 0 {
		p.Say(say.Counted(unnamed, "airfield stands without its", "airfields stand without their")+" name, for want of room.", small)
	}
	if n := len(p.Airfields) - len(p.fields); n > 0 {
		p.Say(say.Counted(n, "airfield is left out: it is", "airfields are left out: they are")+" not on the globe.", small)
	}
}
