package crew

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/run"
)

// stay has a flight stop that has not taken off yet, when a list is called by a
// caution or a warning in a phase in which the book lets nobody go on (no_go): what
// is wrong is put right on the ground. It is the first thing that is done, and takes
// the pilot flying as long as making up his mind does; once take-off thrust is set no
// time at all, since that is made up before the roll.
func (d *duty) stay() bool {
	if d.stays || d.free[0] > d.now || !d.before() {
		return false
	}
	i := slices.IndexFunc(d.tasks, func(t *task) bool { return t.level < 2 && d.come(t) && d.head(t) != nil && !d.accepted(t) })
	if i < 0 {
		return false
	}
	t, to := d.tasks[i], d.now+max(book.AtSeconds(d.team.pace.MindS), 1)
	if d.yes(d.team.fast) {
		to = d.now + 1
	}
	d.stays, d.bound, d.free[0] = true, true, to
	d.legs = append(d.legs, run.Leg{Do: run.Reject, At: book.Moment{Offset: to}})
	d.under = append(d.under, underway{nil, len(d.lines), to})
	d.lines = append(d.lines, Line{Kind: StayLine, Call: t.calls[0], Procedure: t.list, By: "PF", From: d.now, To: to})
	return true
}

// before says that it is a phase before the take-off, on a flight that can stop.
func (d *duty) before() bool {
	at := d.phase()
	return at >= 0 && d.team.Build().Phases[at].NoGo && d.team.course.Feels()
}

// accepted says that the alerts that call for a task come from what the aircraft sets
// out with: what fails at the very start, and what was inoperative, whose alerts come
// on the flight without failures too.
func (d *duty) accepted(t *task) bool {
	if slices.ContainsFunc(d.asked.Strikes, func(k run.Strike) bool { return k.When == nil && k.At == book.Moment{} }) {
		return true
	}
	if len(d.asked.Inoperative)+len(d.asked.SetUp) == 0 {
		return false
	}
	r, err := d.team.course.Healthy(context.Background(), d.asked)
	return err == nil && !slices.ContainsFunc(t.calls, func(i int) bool { return !d.givenIn(r, d.calls[i]) })
}

// givenIn says that the alert of a call is given on another flight at its moment.
func (d *duty) givenIn(r *run.Record, c Call) bool {
	i := slices.IndexFunc(d.team.alerts, func(x caller) bool { return x.alert == c.Alert })
	return r.At(d.team.alerts[i].given, c.Given) != 0
}
