package crew

import (
	"slices"

	"knockon/book"
)

// A line may wait: so long after the line before it (wait_s), and while it is seen
// that its time has not come (wait_for). What a warning waits for is not made late by
// anything less: meanwhile its list is found, and of what is of a lower level, or was
// left for later, only that is begun which ends before the wait is over.

// held says that a step of a task waits for what is seen not to be so.
func (d *duty) held(t *task, s *book.Step) bool {
	return s.WaitFor != nil && d.answers(t, asked{step: s, what: waitingFor}) == No
}

// over is when the time after the line before a step of a task is over.
func (d *duty) over(t *task, s *book.Step) book.Time {
	if s.WaitS == 0 {
		return 0
	}
	return t.last + book.AtSeconds(s.WaitS)
}

// finds says that the list of a task is to be found before a step of it is read.
func (d *duty) finds(t *task, s *book.Step) bool {
	return !s.FromMemory && !t.found && d.team.pace.ListS > 0
}

// intrudes says that what would be done next of a task ends after the wait of a
// warning that comes before it.
func (d *duty) intrudes(t *task) bool {
	return (t.level > 0 || t.left) && d.late(d.now+d.takes(t))
}

// takes is how long the next line of a task takes, with what must come before it.
func (d *duty) takes(t *task) book.Time {
	s := d.head(t)
	length := d.team.pace.length(s, d.team.words(s))
	length += d.unbriefed(t)
	if d.finds(t, s) {
		length += book.AtSeconds(d.team.pace.ListS)
	}
	return length
}

// late says that what ends at a moment would make a line of a warning late that waits.
func (d *duty) late(end book.Time) bool {
	return slices.ContainsFunc(d.tasks, func(w *task) bool {
		if w.level > 0 || w.left || w.part || !d.come(w) {
			return false
		}
		s := d.head(w)
		return s != nil && (d.held(w, s) || d.over(w, s) > d.now && d.over(w, s) < end)
	})
}
