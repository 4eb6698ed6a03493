package sets

import (
	"context"
	"fmt"
	"math"

	"knockon/ways"
	"knockon/ways/still"
)

// Stander is an aircraft held still at a moment.
type Stander struct {
	Still  *still.Still
	Moment string // in words: "at 50:12 (Cruise)"
	Out    string // what is inoperative, in words; "" nothing
}

// Of makes the report of a book's condition with the aircraft held still. Where
// that does not answer the question it says so, and nothing in its place.
func (c Condition) Of(ctx context.Context, s Stander, a Ask) (*Report, error) {
	top, err := c.Term(s.Still)
	if err != nil {
		return nil, err
	}
	r, w, err := find(ctx, c.Words()+", with the aircraft held still "+s.Moment, s.Still.Logic, top, a)
	if err != nil {
		return nil, err
	}
	idle, totals := c.idle(s), c.totals(s.Still)
	r.NotAnswered = append(idle, totals...)
	if len(r.NotAnswered) > 0 {
		r.Never, r.Always = false, false
	}
	if len(idle) == 0 {
		r.Verdict, r.Complete = r.verdict(), r.held(w)
	}
	r.onlyHeld()
	for size := 1; size <= FlownOrder; size++ {
		sets, _ := w.List(size, math.MaxInt)
		for _, s := range sets {
			r.small = append(r.small, w.Names(s))
		}
	}
	return r, nil
}

func (r *Report) verdict() string {
	switch {
	case r.Always:
		return "It is so there whatever fails, and if nothing does."
	case r.Never:
		return "Held still there, no set of failures brings it about."
	}
	return ""
}

// held says up to where all sets were found with the aircraft held still.
func (r *Report) held(w *ways.Ways) string {
	switch {
	case w.Why != nil && w.Complete < 1:
		return fmt.Sprintf("PARTIAL: it is not sure that all sets were found (%v).", w.Why)
	case w.Why != nil:
		return fmt.Sprintf("PARTIAL: held still there, all sets of up to %s were found (%v).", together(w.Complete), w.Why)
	case r.Always || r.Never:
		return ""
	case w.Complete == ways.AllOrders && w.Highest() < 0:
		return "Held still there, no set of failures was found to bring it about."
	case w.Complete == ways.AllOrders:
		return "Held still there, all smallest sets were found."
	case w.Highest() < 0:
		return fmt.Sprintf("Held still there, no set of up to %s was found to bring it about; larger sets were not looked for.", together(w.Complete))
	}
	return fmt.Sprintf("Held still there, all sets of up to %s were found; larger sets were not looked for.", together(w.Complete))
}

// onlyHeld words the risk: what was not answered is not counted in it.
func (r *Report) onlyHeld() {
	switch {
	case r.Risk == nil || len(r.NotAnswered) == 0:
	case r.Risk.P == 0:
		r.Risk, r.NoRisk = nil, "held still there nothing was found to bring it about, and what is flown on from there is not counted; for the loss of a function that has a severity assess gives a figure, per hour of flight"
	default:
		r.Risk.Says = "On one flight, if failures are independent and all works as it begins (assess counts what waits unseen for its check), counting only what brings it about with the aircraft held still"
	}
}
