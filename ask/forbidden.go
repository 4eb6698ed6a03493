package ask

import (
	"slices"

	"knockon/book"
	"knockon/dispatch"
)

// forbidden says why the deferrals of the book do not let the flight of an answer go
// with what is inoperative; "" where they do, or nothing is.
func (a *Answer) forbidden() string {
	return dispatch.Forbids(a.Course.Build, a.Course.Flight, a.Scenario.Inoperative, a.early())
}

// early is what fails before the take-off, where the book lets nobody go on with what
// is wrong (no_go): from then on no deferral is asked.
func (a *Answer) early() (list []book.FailureRef) {
	for i, k := range a.Scenario.Strikes {
		if s := a.Here.Struck[i]; s.Came && a.beforeTakeOff(s.At) {
			list = append(list, k.Fail...)
		}
	}
	return list
}

func (a *Answer) beforeTakeOff(at book.Time) bool {
	id := a.Here.PhaseAt(at)
	return slices.ContainsFunc(a.Course.Build.Phases, func(p *book.Phase) bool { return p.ID == id && p.NoGo })
}
