package crew

import (
	"slices"

	"knockon/book"
	"knockon/run"
)

// next begins one thing that can be begun now; false when there is none.
func (d *duty) next() bool {
	d.drop()
	if d.stay() {
		return true
	}
	if begun, waits := d.memory(); begun || waits {
		return begun
	}
	t := d.choose()
	d.breakOff(t)
	if d.tell != nil && (t == nil || t.level > 0) && !d.inWarning() && !d.late(d.now+book.AtSeconds(d.team.pace.RadioS)) {
		d.block(RadioLine, d.tell, "PM", d.team.pace.RadioS)
		d.tell = nil
		return true
	}
	if t == nil {
		return false
	}
	if d.lapsed(t) {
		d.tasks = slices.DeleteFunc(d.tasks, func(o *task) bool { return o == t })
		d.found = append(d.found, Finding{Kind: NoLonger, At: d.now, Procedure: t.list, Step: t.of})
		return true
	}
	s := d.head(t)
	switch {
	case d.unbriefed(t) > 0:
		return d.brief(t)
	case !d.can(t, s):
		return false
	}
	d.chosen(t)
	t.read = true
	if d.finds(t, s) {
		t.found = true
		d.block(ListLine, t, "PM", d.team.pace.ListS)
		return true
	}
	d.line(t)
	return true
}

// line begins the next line of a task.
func (d *duty) line(t *task) {
	s := d.pass(t)
	if d.changes[s].Kind == Late && !t.part {
		d.tasks = append(d.tasks, &task{list: t.list, calls: t.calls, caller: t.caller, level: t.level, notBefore: d.now + d.changes[s].By, last: d.now,
			begun: true, read: true, found: true, phase: -1, part: true, frames: []frame{{steps: []*book.Step{s}}}})
	}
	d.do(t, s)
}

// inWarning says that a line of a warning's procedure is under way.
func (d *duty) inWarning() bool {
	return slices.ContainsFunc(d.under, func(u underway) bool { return u.task != nil && u.task.level == 0 && u.task != d.tell })
}

// drop forgets procedures that were not begun when the alerts that called for
// them have gone.
func (d *duty) drop() {
	d.tasks = slices.DeleteFunc(d.tasks, func(t *task) bool {
		if t.begun || t.sent || t.notBefore > d.now || slices.ContainsFunc(t.calls, d.stands) {
			return false
		}
		for _, i := range t.calls {
			d.calls[i].Dropped = true
		}
		return true
	})
}

// stands says that the alert of a call is given.
func (d *duty) stands(call int) bool {
	for i, c := range d.team.alerts {
		if c.alert == d.calls[call].Alert {
			return d.known[i]
		}
	}
	return false
}

// can says whether the pilots who are needed for a step are free.
func (d *duty) can(t *task, s *book.Step) bool {
	for _, u := range d.under {
		if u.task != t {
			continue
		}
		if l := d.lines[u.line]; !s.FromMemory || s.Kind != "do" || l.Kind != StepLine || !l.Step.FromMemory || l.Step.Kind != "do" {
			return false
		}
	}
	return d.areFree(pilots(s))
}

func (d *duty) areFree(who [2]bool) bool {
	for i, needed := range who {
		if needed && d.free[i] > d.now {
			return false
		}
	}
	return true
}

// pilots says who is needed for a step: the pilot flying, the pilot monitoring.
// What is read is read by the pilot monitoring.
func pilots(s *book.Step) (who [2]bool) {
	who[0] = s.By == "PF" || s.By == "both"
	who[1] = s.By != "PF" || !s.FromMemory
	return who
}

// do begins a step. One that is left out, or done later, takes its time without
// being done, so that all others come as they would.
func (d *duty) do(t *task, s *book.Step) {
	c := d.changes[s]
	to := d.now + d.team.pace.length(s, d.team.words(s))
	l := Line{Kind: StepLine, Call: t.calls[0], Procedure: t.list, Step: s, Number: d.team.number[s], By: by(s), From: d.now, To: to,
		Deferred: t.left, Omitted: c.Kind == Omit || c.Kind == Late && !t.part}
	if d.dead(s) {
		l.Omitted, l.Dead = true, true
	}
	if s.Kind == "do" && s.Set != "" && !l.Omitted {
		l.Control, l.Position = s.Set, s.To
		if c.Kind == Wrong {
			l.Control, l.Position = c.Control, c.Position
		}
		d.moves = append(d.moves, run.Action{Control: l.Control, Position: l.Position, At: book.Moment{Offset: to}})
	}
	if s.Leg != "" && !l.Omitted {
		d.turn(s, to)
	}
	t.told = t.told || s.Whom == "control" && !l.Omitted
	for i, needed := range pilots(s) {
		if needed {
			d.free[i] = to
		}
	}
	d.under = append(d.under, underway{t, len(d.lines), to})
	d.lines = append(d.lines, l)
}

// turn has the flight go where a line sends it, when the line is over. A flight
// that goes to another field already is not sent to a third.
func (d *duty) turn(s *book.Step, at book.Time) {
	l := run.Leg{Do: run.Manoeuvre(s.Leg), LevelFt: s.LegFt, At: book.Moment{Offset: at}}
	switch {
	case d.stays:
		return
	case l.Do == run.LongEnough:
		d.ask(l)
		return
	case !l.OverGround() && !d.team.course.Feels(), l.OverGround() && d.bound, l.Do == run.Descend && l.LevelFt == d.levelFt:
		return
	case l.OverGround():
		d.bound = true
	}
	d.levelFt = l.LevelFt
	d.legs = append(d.legs, l)
}

// ask has the crew look whether the runway does. What sends them to a field that is
// named binds them to it; and with a warning in hand they land.
func (d *duty) ask(l run.Leg) {
	pressed := slices.ContainsFunc(d.tasks, func(t *task) bool { return t.level == 0 && !t.left && !t.part && d.come(t) })
	if !d.bound && !pressed {
		d.legs = append(d.legs, l)
	}
}

func by(s *book.Step) string {
	if s.By == "" {
		return "PM"
	}
	return s.By
}

// words are what is read of a step.
func (t *Team) words(s *book.Step) string {
	if s.Says != "" || s.Set == "" {
		return s.Says
	}
	return t.Build().Title(s.Set) + " " + s.To
}

// block takes pilots' time as soon as they are free.
func (d *duty) block(k LineKind, t *task, who string, seconds float64) {
	from := max(d.now, d.free[1])
	if who == "both" {
		from = max(from, d.free[0])
	}
	to := from + max(book.AtSeconds(seconds), 1)
	d.free[1] = to
	if who == "both" {
		d.free[0] = to
	}
	l := Line{Kind: k, Call: t.calls[0], Procedure: t.list, By: who, From: from, To: to, Deferred: t.left}
	d.under = append(d.under, underway{t, len(d.lines), to})
	d.lines = append(d.lines, l)
}

// look is the next moment at which something can be ended or begun that no
// change of a value will show.
func (d *duty) look() book.Time {
	next := book.Never
	consider := func(t book.Time) {
		if t > d.now {
			next = min(next, t)
		}
	}
	for _, u := range d.under {
		consider(u.to)
	}
	for _, t := range d.tasks {
		consider(t.notBefore)
		if s := d.head(t); s != nil {
			consider(t.last + book.AtSeconds(s.WaitS))
		}
	}
	return next
}
