package worth

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
)

// Build is what the caller looks at.
func (c *Caller) Build() *book.Build { return c.team.Build() }

// First gives the first scenario of a list in which the crew come to a
// procedure; ok is false if none is. The flights are the crew's own, so that one
// that another procedure prevents does not count.
func (c *Caller) First(ctx context.Context, p *book.Procedure, list []run.Scenario) (s run.Scenario, ok bool, err error) {
	for _, s := range list {
		comes, err := c.Comes(ctx, p, s)
		if err != nil || comes {
			return s, comes, err
		}
	}
	return s, false, nil
}

// Comes says that the crew begin a procedure in a scenario.
func (c *Caller) Comes(ctx context.Context, p *book.Procedure, s run.Scenario) (bool, error) {
	plan, err := c.team.Fly(ctx, s)
	if err != nil {
		return false, err
	}
	return slices.ContainsFunc(plan.Lines, func(l crew.Line) bool { return l.Procedure == p && l.Kind == crew.StepLine }), nil
}
