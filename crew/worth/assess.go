package worth

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
)

// NotCalled says that a scenario does not call for a procedure.
type NotCalled struct{ Procedure *book.Procedure }

func (n *NotCalled) Error() string {
	return fmt.Sprintf("the crew never come to %q with this failure", n.Procedure.Title)
}

// Assess flies a scenario with a procedure done right and in every wrong way:
// each step left out, late, on the switch beside it, decided the other way, and
// swapped with the next. The error is a *NotCalled where the crew never come to
// it, or one of crew.Team.Fly.
func Assess(ctx context.Context, t *crew.Team, s run.Scenario, p *book.Procedure) (*Worth, error) {
	right, err := fly(ctx, t, s)
	if err != nil {
		return nil, err
	}
	w := &Worth{Procedure: p, Right: right, listed: stepsOf(t, p)}
	return w, w.assess(ctx, t, s, changes)
}

// wrongs lists the wrong ways to do a step that are flown.
type wrongs func(numbered, *book.Build) []crew.Change

func (w *Worth) assess(ctx context.Context, t *crew.Team, s run.Scenario, ways wrongs) error {
	jobs := w.lay(t.Build(), ways)
	if len(jobs) == 0 {
		return &NotCalled{w.Procedure}
	}
	if err := w.flyAll(ctx, t, s, jobs); err != nil {
		return err
	}
	for _, step := range w.Steps {
		w.compare(step)
	}
	w.because()
	return nil
}

func fly(ctx context.Context, t *crew.Team, s run.Scenario, changes ...crew.Change) (*Flown, error) {
	p, err := t.Fly(ctx, s, changes...)
	if err != nil {
		return nil, err
	}
	l, err := t.Ledger(ctx, p)
	if err != nil {
		return nil, err
	}
	return &Flown{p, l}, nil
}

// lay lists the steps with their trials, and the trials that must be flown.
func (w *Worth) lay(b *book.Build, ways wrongs) (jobs []*Trial) {
	for _, n := range w.listed {
		s := &Step{Step: n.step, Number: n.number}
		w.Steps = append(w.Steps, s)
		line := w.line(n.step)
		if line == nil {
			continue
		}
		s.Reached, s.At, s.Answer = true, line.To, line.Answer
		for _, c := range ways(n, b) {
			t := &Trial{Change: c}
			s.Trials = append(s.Trials, t)
			if idle(c) {
				t.Flown = w.Right
			}
			jobs = append(jobs, t)
		}
	}
	return jobs
}

// line is where a step was done first.
func (w *Worth) line(s *book.Step) *crew.Line {
	for i := range w.Right.Plan.Lines {
		if l := &w.Right.Plan.Lines[i]; l.Step == s {
			return l
		}
	}
	return nil
}

// flyAll flies the trials on all processors. What comes of it does not depend on
// which of them does what.
func (w *Worth) flyAll(ctx context.Context, t *crew.Team, s run.Scenario, jobs []*Trial) error {
	jobs = slices.DeleteFunc(jobs, func(j *Trial) bool { return j.Flown != nil })
	w.Flights += len(jobs)
	return eachOf(ctx, len(jobs), func(ctx context.Context, i int) (err error) {
		jobs[i].Flown, err = fly(ctx, t, s, jobs[i].Change)
		return err
	})
}

// eachOf does so many things on all processors, until one fails.
func eachOf(ctx context.Context, n int, do func(ctx context.Context, i int) error) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	queue, failed := make(chan int), make(chan error, n)
	var hands sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		hands.Go(func() {
			for i := range queue {
				if err := do(ctx, i); err != nil {
					failed <- err
					stop()
				}
			}
		})
	}
	for i := range n {
		if ctx.Err() == nil {
			queue <- i
		}
	}
	close(queue)
	hands.Wait()
	select {
	case err := <-failed:
		return err
	default:
		return ctx.Err()
	}
}

func (w *Worth) compare(s *Step) {
	for _, t := range s.Trials {
		if t.Flown != w.Right {
			t.Harms = compare(w.Right, t.Flown, s.due(t.Change, w))
		}
	}
}

// due is the first moment from which a change can differ: that of the line, or
// for a swap that of the step behind it, which now comes first.
func (s *Step) due(c crew.Change, w *Worth) book.Time {
	l := w.line(s.Step)
	if c.Kind == crew.Swap || s.Step.Kind != "do" {
		return l.From
	}
	return l.To
}
