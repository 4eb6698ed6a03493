package crew

import (
	"slices"

	"knockon/book"
)

// A crew know what is inoperative since before the flight: it stands in the aircraft's
// papers, and they have been told of it. So a line that moves a control behind which only
// such units lie is read and not done: a unit that is locked is not reset, and one that is
// out of order is not started.

// dead says that nothing answers to the control of a step.
func (d *duty) dead(s *book.Step) bool {
	if s.Kind != "do" || s.Set == "" || len(d.asked.Inoperative) == 0 {
		return false
	}
	units := d.team.Build().UnitsBehind(s.Set)
	return len(units) > 0 && !slices.ContainsFunc(units, func(u string) bool {
		return !slices.Contains(d.asked.Inoperative, book.FailureRef{Unit: u})
	})
}
