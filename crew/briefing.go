package crew

import (
	"slices"

	"knockon/book"
)

// A briefing goes before what was left for a phase. It takes both pilots for long,
// and so a warning breaks it off; the rest of it follows when its turn comes again.
// About to land nobody is briefed any more: what was left is done without.

// recess is a briefing that was broken off.
type recess struct {
	phase string
	rest  book.Time
}

// unbriefed is how long the briefing before a task takes; 0 where it needs none.
func (d *duty) unbriefed(t *task) book.Time {
	if t.phase < 0 || d.yes(d.team.late) {
		return 0
	}
	switch phase := d.team.Build().Phases[t.phase].ID; {
	case d.briefed == phase:
		return 0
	case d.recess.phase == phase:
		return d.recess.rest
	}
	return book.AtSeconds(d.team.pace.BriefS)
}

// brief begins the briefing of a phase, or what is left of it.
func (d *duty) brief(t *task) bool {
	length := d.unbriefed(t)
	d.briefed = d.team.Build().Phases[t.phase].ID
	d.block(BriefLine, t, "both", length.Seconds())
	return true
}

// breakOff ends a briefing that is under way, for a task of a warning.
func (d *duty) breakOff(t *task) {
	if t == nil || t.level > 0 || t.left {
		return
	}
	i := slices.IndexFunc(d.under, func(u underway) bool { return d.lines[u.line].Kind == BriefLine && u.to > d.now })
	if i < 0 {
		return
	}
	u := d.under[i]
	d.recess, d.briefed = recess{d.briefed, u.to - d.now}, ""
	d.lines[u.line].To, d.free = d.now, [2]book.Time{d.now, d.now}
	d.under = slices.Delete(d.under, i, i+1)
}
