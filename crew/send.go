package crew

import (
	"slices"

	"knockon/book"
)

// send has the procedure done that a line sends to: when its own list is finished,
// or at once where that is left. A list that is in hand, or waits for its turn, or to
// which a line has sent before, is not done a second time.
func (d *duty) send(t *task, s *book.Step) {
	list := d.procedure(s.GoTo)
	if list == nil {
		return
	}
	number := len(d.calls)
	d.calls = append(d.calls, Call{Alert: d.calls[t.calls[0]].Alert, Procedure: list, From: t.list, Given: d.now, Noticed: d.now, Begun: book.Never, Done: book.Never})
	if open := d.inHand(list); open != nil {
		d.calls[number].Joined, d.calls[number].Begun = true, d.calls[open.calls[0]].Begun
		open.calls = append(open.calls, number)
	} else if i := d.sentBefore(list, number); i >= 0 {
		d.calls[number].Joined, d.calls[number].Begun, d.calls[number].Done = true, d.calls[i].Begun, d.calls[i].Done
	} else {
		d.tasks = append(d.tasks, d.sentTo(t, s, list, number))
	}
	if s.Leave {
		t.frames = nil
	}
}

// sentTo is the task that a line of another sends to.
func (d *duty) sentTo(from *task, s *book.Step, list *book.Procedure, call int) *task {
	t := &task{list: list, calls: []int{call}, level: from.level, notBefore: d.now, last: d.now, phase: -1, sent: true, after: from,
		frames: []frame{{steps: memoryFirst(d.arranged(d.team.lists[list]))}}}
	if s.Leave {
		t.after = nil
	}
	if a := d.calls[call].Alert; d.team.sided[list] && a.Procedure == list.ID {
		t.caller = a
	}
	return t
}

// sentBefore is the call, before a number, by which a line has sent to a list
// already; -1 for none.
func (d *duty) sentBefore(list *book.Procedure, number int) int {
	return slices.IndexFunc(d.calls[:number], func(c Call) bool { return c.From != nil && c.Procedure == list })
}

func (d *duty) procedure(id string) *book.Procedure {
	for p := range d.team.lists {
		if p.ID == id {
			return p
		}
	}
	return nil
}

// inHand is the task of a procedure that is under way or waits; nil for none.
func (d *duty) inHand(list *book.Procedure) *task {
	i := slices.IndexFunc(d.tasks, func(t *task) bool { return t.list == list && !t.left && !t.part && d.head(t) != nil })
	if i < 0 {
		return nil
	}
	return d.tasks[i]
}
