package ask

import (
	"context"
	"errors"

	"knockon/book"
	"knockon/costs"
	"knockon/flight/fuel"
)

// Price is what a person asks of the costs of an answer, as typed.
type Price struct {
	Turn string // when the crew turn: a moment; "" when the first failure comes
	Rule string // of the final reserve, by its name; "" the first of fuel.Rules
	Most int    // airfields at most, the nearest; 0: 50
}

// mostAsked bounds how many airfields one question may ask for.
const mostAsked = 500

// Costs prices an answer in a region. The error is a *Trouble where the question
// is at fault.
func (a *Answer) Costs(ctx context.Context, region *costs.Region, p Price) (*costs.Costs, error) {
	q := costs.Question{Scenario: a.Scenario, Whole: a.Here, Most: p.Most}
	var err error
	if q.Rule, err = ruleNamed(p.Rule); err != nil {
		return nil, err
	}
	if p.Most < 0 || p.Most > mostAsked {
		return nil, trouble("most", "%d airfields: give 1 to %d", p.Most, mostAsked)
	}
	if q.At, err = a.turn(ctx, p.Turn); err != nil {
		return nil, err
	}
	c, err := costs.Of(ctx, a.Course, region, q)
	if err != nil {
		return nil, blame("turn", ctx, err)
	}
	return c, nil
}

func ruleNamed(name string) (fuel.Rule, error) {
	var names []string
	for _, r := range fuel.Rules() {
		if r.Name == name || name == "" {
			return r, nil
		}
		names = append(names, r.Name)
	}
	return fuel.Rule{}, trouble("reserve", "%s", near(name, "rule", names))
}

// turn is when the crew turn.
func (a *Answer) turn(ctx context.Context, text string) (book.Time, error) {
	if text == "" {
		if at, ok := a.Here.FirstStrike(); ok {
			return at, nil
		}
		return 0, trouble("turn", "nothing fails, so say when the crew turn, such as cruise")
	}
	m, err := book.ParseMoment(text, a.Course.Build)
	if err != nil {
		return 0, trouble("turn", "%v", err)
	}
	at, err := a.Course.Resolve(ctx, m)
	if err != nil {
		return 0, trouble("turn", "%v", err)
	}
	return at, nil
}

// When gives the last moment at which each airfield of the costs is still good.
func (a *Answer) When(ctx context.Context, region *costs.Region, c *costs.Costs) ([]costs.Latest, error) {
	list, err := c.When(ctx, region, costs.Question{Scenario: a.Scenario, Rule: c.Rule, Whole: a.Here})
	if errors.Is(err, costs.ErrBegun) {
		return nil, trouble("turn", "%v", err)
	}
	return list, err
}
