package energy

import (
	"math"

	"knockon/book"
)

// A crew watch height against way. Where they begin to slow down for the approach, and
// again where they would meet the final path, they make the way longer, in turns, if
// they are too high for it; and they slow down for the next setting of the flaps before
// they put it out.

// tooHighM is by how much the way to the path may be too short (common practice: within
// a hundred feet of it).
const tooHighM = 0.3 * 1852

// flapsM is how much of the way gear and flaps make up for on the way down (common
// practice).
const flapsM = 2 * 1852

// slowerM is how much earlier the flight is slowed down to the limit of the first setting
// (common practice).
const slowerM = 3 * 1852

// slowsM is how far before its runway a descent slows down for the flaps.
func (g *missionGuide) slowsM() float64 {
	return g.m.gateFt()*feet/math.Tan(glide) + slowingM + slowerM
}

// slowing says that the flight slows down for the next setting.
func (g *missionGuide) slowing() bool {
	switch l := g.p.tag.leg; l {
	case legDescent:
		return g.c.Setting == 0 && g.left() <= g.slowsM()+nearM
	default:
		return l == legGate || l == legFinal
	}
}

// nextKt is just below the limit of the next setting of the flaps; no limit where there
// is none.
func (g *guide) nextKt() float64 {
	if g.c.Setting+1 == len(g.a.Settings) {
		return book.NoLimit
	}
	return g.a.Settings[g.c.Setting+1].MaxKt - 1
}

// mostKt is the greatest airspeed that is flown now: that which is allowed, and that at
// which the next setting can be put out where that is wanted.
func (g *guide) mostKt() float64 {
	most := g.a.fastestKt(g.shape())
	if g.slows {
		most = min(most, max(g.nextKt(), min(g.a.slowestKt(g.shape(), g.p.now[iMass]), most)))
	}
	return most
}

// watch makes the way longer where the descent does not fit into it any more, and has
// the descent up to there end where it is next asked.
func (g *missionGuide) watch() {
	near := g.slowsM()
	switch {
	case g.stage != descending || g.p.tag.watched:
		return
	case g.left() > near+nearM:
		e := g.whenLeft(near, again)
		g.until = &e
		return
	}
	g.reachTable(g.p.startOf())
	need := g.reachFrom(g.p.now[iAltitude])
	if g.p.tag.watched = g.left() >= need-flapsM; !g.p.tag.watched {
		g.addWay(need + spareM)
	}
}

// meets makes the way longer where the final path would be met from above.
func (g *missionGuide) meets() {
	if path := g.height() / math.Tan(glide); g.left() < path-tooHighM {
		g.addWay(path + spareM)
	}
}
