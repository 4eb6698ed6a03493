package crew

import (
	"slices"

	"knockon/book"
)

// A last list (last = true, such as an evacuation) is the last thing that a crew do:
// once something of it is done, all that waits, is under way or was left for later is
// dropped, and nothing that an alert calls for is begun any more.

// close drops all but a last list that is begun.
func (d *duty) close(list *book.Procedure) {
	if !list.Last || d.closing != nil {
		return
	}
	d.closing, d.tell = list, nil
	d.tasks = slices.DeleteFunc(d.tasks, func(t *task) bool { return t.list != list })
	for i := range d.calls {
		if c := &d.calls[i]; c.Procedure != nil && c.Procedure != list && c.Done == book.Never && !c.Dropped {
			c.Past = list
		}
	}
}

// closed says that a list is not begun any more, nor gone on with.
func (d *duty) closed(list *book.Procedure) bool {
	return d.closing != nil && list != d.closing
}
