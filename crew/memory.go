package crew

import (
	"slices"

	"knockon/book"
)

// Memory items are the lines of a list that are done from memory before any of it
// is read. They begin as soon as their alert is noticed and their pilot is free,
// before any list, whatever the order of the alerts.

// memoryFirst puts the memory items of a list before the notes that stand among
// them: those are read when the list is in hand.
func memoryFirst(steps []*book.Step) []*book.Step {
	end := slices.IndexFunc(steps, func(s *book.Step) bool { return !s.FromMemory && (s.Kind != "note" || s.Leg != "") })
	if end < 0 {
		end = len(steps)
	}
	list := slices.Clone(steps)
	slices.SortStableFunc(list[:end], func(a, b *book.Step) int { return readLater(a) - readLater(b) })
	return list
}

func readLater(s *book.Step) int {
	if s.FromMemory {
		return 0
	}
	return 1
}

// memory begins a memory item. Where none can be begun, waits says that there are
// some: then nothing else is begun.
func (d *duty) memory() (begun, waits bool) {
	var items []*task
	for _, t := range d.tasks {
		if d.remembered(t) {
			items = append(items, t)
		}
	}
	slices.SortStableFunc(items, d.compare)
	if len(items) > 0 {
		d.breakOff(items[0])
	}
	for _, t := range items {
		if d.can(t, d.head(t)) {
			d.beginTask(t)
			d.line(t)
			return true, true
		}
	}
	return false, len(items) > 0
}

// remembered says that a memory item of a task can be done now as far as the
// flight is concerned.
func (d *duty) remembered(t *task) bool {
	if t.read || t.left || t.part {
		return false
	}
	s := d.head(t)
	if s == nil || !s.FromMemory || !d.ready(t) {
		return false
	}
	return s.WaitS == 0 || !slices.ContainsFunc(d.under, func(u underway) bool { return u.task == t }) // its wait has not begun
}
