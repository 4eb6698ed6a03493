package swept

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"runtime"

	"knockon/ask"
	"knockon/assess"
	"knockon/sweep"
	"knockon/web/frame"
)

const (
	judgedSets = 12 // shown of each function
	judgedCrew = 3  // of each hazardous or catastrophic loss flown again with the crew

	judgedPairs = 12 // flown with the crew of each single failure that they clear
)

// judge holds every function against its objective, once for all who look at it.
// With the crew the sets are flown where all was swept that an assessment asks for.
func (j *job) judge(ctx context.Context, desk *ask.Desk) error {
	s := j.state()
	if len(s.Sheets) == 0 {
		return nil
	}
	j.mu.Lock()
	spans := j.spans
	j.mu.Unlock()
	a := assess.Of(assess.Swept{
		Build: j.build, Flight: j.flight, Hours: assess.HoursOf(spans), Failures: s.Failures,
		Phases: s.Phases, Sheets: s.Sheets, Order: j.key.order,
	})
	if j.key.order == heavy && len(s.Sheets) == len(s.Phases) && ctx.Err() == nil {
		if err := j.withCrew(ctx, desk, a); err != nil {
			return err
		}
	}
	judged := a.View(judgedSets)
	j.mu.Lock()
	defer j.mu.Unlock()
	j.judged = judged
	return nil
}

func (j *job) withCrew(ctx context.Context, desk *ask.Desk, a *assess.Assessment) error {
	course, err := desk.Course(j.key.build, j.key.flight)
	if err == nil {
		err = a.Fly(ctx, desk, course, judgedCrew, min(runtime.NumCPU(), mostWorkers), nil)
	}
	if err == nil {
		err = a.FlyPairs(ctx, desk, course, judgedPairs, min(runtime.NumCPU(), mostWorkers), nil)
	}
	if errors.Is(err, context.Canceled) { // stopped: without them
		return nil
	}
	return err
}

// assessPage is the page of an assessment: that of its sweep, and what came of it.
type assessPage struct {
	*sweepPage
	Judged  *assess.View
	Classes []judgedClass
}

// judgedClass is the functions of a class: those that are met by name alone.
type judgedClass struct {
	assess.ClassView
	Open []assess.LossView
	Met  []assess.LossView
}

// assess answers GET /assess: every function beside its objective, or how far
// that is, or a button that begins it. Like the sweep's it begins nothing itself.
func (p *Pages) assess(r *http.Request) (reply, error) {
	v := r.URL.Query()
	if v.Get("order") == "" {
		v.Set("order", fmt.Sprint(heavy))
	}
	a, err := p.asked(v)
	if err != nil {
		return reply{}, err
	}
	most := judgedCrew
	if v.Get("most") != "" {
		most = a.most
	}
	j := p.jobs.look(a.key())
	s := state{}
	if j != nil {
		j.work().Wait(r.Context(), patience)
		s = j.state()
	}
	page := &assessPage{sweepPage: p.sweepPage(a, s)}
	page.Title = "Every function beside its objective"
	switch {
	case j == nil:
		p.offer(page.sweepPage, a)
	case errors.Is(s.Err, sweep.ErrNoPhases):
		return reply{}, frame.Wrong("%s", "The flight "+a.flight.ID+": "+s.Err.Error()+".")
	case s.Err != nil:
		return reply{}, s.Err
	case !s.Done && !s.Stopped:
		page.Refresh, page.Working = 1, working(s)
	case s.Judged == nil:
		page.Partial = "No phase was done before it was stopped."
	default:
		page.judged(s.Judged, a, most)
	}
	return p.frame.Page("swept-assess", page)
}

// judged puts an assessment on the page, with so many sets of each function.
func (page *assessPage) judged(v *assess.View, a asked, most int) {
	page.Judged = v.Cut(most)
	if most < judgedSets {
		page.More = a.on("/assess", "most", fmt.Sprint(judgedSets))
	}
	for _, c := range page.Judged.Classes {
		of := judgedClass{ClassView: c}
		for _, l := range page.Judged.Losses {
			switch {
			case l.Class != c.Class:
			case l.Verdict == string(assess.Met):
				of.Met = append(of.Met, l)
			default:
				of.Open = append(of.Open, l)
			}
		}
		page.Classes = append(page.Classes, of)
	}
}
