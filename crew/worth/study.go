package worth

import (
	"context"
	"fmt"
	"runtime"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
)

// Study is what the steps of a procedure are worth in all failures that show
// something new about them.
type Study struct {
	Procedure *book.Procedure
	Worths    []*Worth
	Best      []*Finding // for each step of the procedure, in order
	Tried     int        // failures that were flown to look for these
	Broken    int        // of these flights: that broke off, so that nobody knows what they would have called for

	listed []numbered
}

// Finding is a step in the failure in which leaving it out does most.
type Finding struct {
	Worth *Worth // nil: no failure that was tried comes to the step
	Step  *Step
}

// Bounds of a study: how many failures are flown at most to find those that show
// something, how many of these are assessed, and with each of them how many pairs
// of steps are left out together.
type Bounds struct{ Flown, Assessed, Pairs int }

// DefaultBounds keep a study of the demonstration book within a few seconds.
var DefaultBounds = Bounds{Flown: 400, Assessed: 6, Pairs: 60}

// Study assesses a procedure with the failures of a list that add something: a
// step that no other came to, a control that no other found where it must be
// moved from, an answer that no other gave. None may call for it: then there
// are no worths in it.
func (c *Caller) Study(ctx context.Context, p *book.Procedure, list []run.Scenario, most Bounds) (*Study, error) {
	list = list[:min(len(list), most.Flown)]
	s := &Study{Procedure: p, listed: stepsOf(c.team, p)}
	plans, err := c.flyAll(ctx, list)
	if err != nil {
		return nil, err
	}
	s.Tried = len(plans)
	for _, plan := range plans {
		if !plan.Record.Ending().Arrived() {
			s.Broken++
		}
	}
	seen := map[string]bool{}
	for i, plan := range plans {
		if len(s.Worths) == most.Assessed {
			break
		}
		if !news(plan, p, seen) {
			continue
		}
		w, err := Assess(ctx, c.team, list[i], p)
		if err != nil {
			return nil, err
		}
		if err := w.AssessPairs(ctx, c.team, list[i], most.Pairs); err != nil {
			return nil, err
		}
		s.Worths = append(s.Worths, w)
	}
	s.best()
	return s, nil
}

// flyAll flies scenarios on all processors and gives the plans in their order.
func (c *Caller) flyAll(ctx context.Context, list []run.Scenario) ([]*crew.Plan, error) {
	plans, errs := make([]*crew.Plan, len(list)), make([]error, len(list))
	var hands sync.WaitGroup
	queue := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		hands.Go(func() {
			for i := range queue {
				plans[i], errs[i] = c.team.Fly(ctx, list[i])
			}
		})
	}
	for i := range list {
		queue <- i
	}
	close(queue)
	hands.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return plans, nil
}

// news notes what a plan shows of a procedure, and says whether it is new.
func news(plan *crew.Plan, p *book.Procedure, seen map[string]bool) (found bool) {
	for _, l := range plan.Lines {
		if l.Procedure != p || l.Kind != crew.StepLine {
			continue
		}
		key := fmt.Sprint(l.Number, l.Answer, shifts(plan, &l))
		found = found || !seen[key]
		seen[key] = true
	}
	return found
}

// shifts says that a line moves a control that was not there yet.
func shifts(plan *crew.Plan, l *crew.Line) bool {
	if l.Control == "" {
		return false
	}
	n, ok := plan.Record.Circuit().Node(circuit.Value{Item: l.Control})
	return ok && plan.Record.Circuit().WordText(plan.Record.Before(n, l.To)) != l.Position
}

// best chooses for each step the failure that shows most.
func (s *Study) best() {
	for i := range s.listed {
		f := &Finding{}
		for _, w := range s.Worths {
			if next := w.Steps[i]; f.Step == nil || tellsMore(next, f.Step) {
				f.Worth, f.Step = w, next
			}
		}
		s.Best = append(s.Best, f)
	}
}

// tellsMore says that a step shows more in one failure than in another.
func tellsMore(a, b *Step) bool {
	if a.Reached != b.Reached {
		return a.Reached
	}
	if !a.Reached {
		return false
	}
	x, bad := a.Left().Worst()
	y, worse := b.Left().Worst()
	switch {
	case bad && worse:
		return gravest(x, y) < 0
	case bad || worse:
		return bad
	}
	return len(a.Left().Harms) > 0 && len(b.Left().Harms) == 0
}
