package crew

import (
	"cmp"
	"slices"

	"knockon/book"
)

// The order (docs/crew.md): what is under way before what is not, unless that is
// of a higher level; a consequence after its cause, unless it is of a higher
// level; then the priority of the book; then the order of the book. What was left
// for later comes when nothing else is to be done, but for what a warning waited to
// see. Memory items wait for nothing
// (memory.go). What a warning waits for is not made late (wait.go).

// choose is the task that is next; nil when none can be.
func (d *duty) choose() *task {
	var best *task
	for _, t := range d.tasks {
		if !d.ready(t) || waiting(t) == 1 && d.waits(t) || d.intrudes(t) {
			continue
		}
		if best == nil || d.compare(t, best) < 0 {
			best = t
		}
	}
	return best
}

func (d *duty) compare(a, b *task) int {
	return cmp.Or(
		cmp.Compare(deferred(a), deferred(b)),
		cmp.Compare(a.level, b.level),
		cmp.Compare(waiting(a), waiting(b)),
		cmp.Compare(a.list.Priority, b.list.Priority),
		cmp.Compare(d.team.rank[a.list.ID], d.team.rank[b.list.ID]),
		cmp.Compare(a.calls[0], b.calls[0]),
	)
}

// deferred is 1 for what was left for later, but for what a warning's list has left
// until something is seen that is seen now: that is as urgent as the list.
func deferred(t *task) int {
	if t.left && (t.level > 0 || t.phase >= 0) {
		return 1
	}
	return 0
}

// waiting is 0 for what is under way, or sent to by what was.
func waiting(t *task) int {
	if t.read || t.sent {
		return 0
	}
	return 1
}

// ready says that a task may go on now as far as the flight is concerned.
func (d *duty) ready(t *task) bool {
	if !d.come(t) {
		return false
	}
	s := d.head(t)
	if s == nil {
		return false
	}
	if (d.held(t, s) || d.over(t, s) > d.now) && !d.finds(t, s) {
		return false
	}
	return s.FromMemory || !d.yes(d.team.low) && !d.canWait(t)
}

// canWait says that a list is left for after the landing: it is not in hand, no
// warning calls for it, and it is none for going around.
func (d *duty) canWait(t *task) bool {
	return t.level > 0 && !t.left && waiting(t) == 1 && d.yes(d.team.late) && !d.team.rounds[t.list]
}

// come says that the time of a task has come: its alert is noticed, and so is what
// it was left for.
func (d *duty) come(t *task) bool {
	switch {
	case t.notBefore > d.now, t.until != nil, t.phase >= 0 && d.phase() < t.phase:
		return false
	}
	return t.after == nil || !slices.Contains(d.tasks, t.after)
}

// lapsed says that what was left for later, and is to be begun now, is seen not to
// belong any more by the condition of the line that left it.
func (d *duty) lapsed(t *task) bool {
	if !t.left || t.of.If == nil || len(t.frames) != 1 || t.frames[0].at > 0 {
		return false
	}
	return d.answers(t, asked{step: t.of, what: belonging}) == No
}

func (d *duty) waits(t *task) bool { _, cause := d.cause(t); return cause != nil }

// cause is the alert that the alerts of a task follow from, and its task, which
// is not finished; nil if there is none of the same or a higher level.
func (d *duty) cause(t *task) (first *task, cause *book.Alert) {
	for _, other := range d.tasks {
		if other.list == t.list || other.level > t.level || other.left || other.part {
			continue
		}
		for _, i := range other.calls {
			all := !slices.ContainsFunc(t.calls, func(j int) bool { return !d.follows(d.calls[j].Alert, d.calls[i].Alert) })
			if all {
				return other, d.calls[i].Alert
			}
		}
	}
	return nil, nil
}

// beginTask notes that something of a task is done.
func (d *duty) beginTask(t *task) {
	if t.begun {
		return
	}
	t.begun = true
	for _, i := range t.calls {
		d.calls[i].Begun = d.now
	}
	d.close(t.list)
}

// chosen notes that the list of a task is taken up, and what it was preferred to.
func (d *duty) chosen(t *task) {
	if t.read {
		return
	}
	if t.sent {
		d.beginTask(t)
		return
	}
	var of []Candidate
	for _, other := range d.tasks {
		if waiting(other) == 0 || !d.ready(other) || d.intrudes(other) {
			continue
		}
		first, cause := d.cause(other)
		for _, i := range other.calls {
			if cause != nil {
				d.calls[i].Under = cause
			}
		}
		// What waits for a procedure that cannot be begun now, since it is under
		// way or a pilot is, is no candidate either.
		if cause == nil || !first.read && d.ready(first) {
			of = append(of, Candidate{other.list, book.Levels[other.level], cause})
		}
	}
	slices.SortFunc(of, func(a, b Candidate) int {
		return cmp.Compare(d.team.rank[a.Procedure.ID], d.team.rank[b.Procedure.ID])
	})
	if len(of) > 1 {
		d.choices = append(d.choices, Choice{At: d.now, Of: of, Chosen: t.list})
	}
	d.beginTask(t)
}
