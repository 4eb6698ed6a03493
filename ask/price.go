package ask

import (
	"context"
	"errors"
	"slices"

	"knockon/book"
	"knockon/costs"
	"knockon/flight"
	"knockon/flight/fuel"
	"knockon/region"
	"knockon/say"
	"knockon/scenario"
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
func (a *Answer) Costs(ctx context.Context, region *region.Region, p Price) (*costs.Costs, error) {
	q := a.toPrice()
	q.Most = p.Most
	var err error
	if q.Rule, err = ruleNamed(p.Rule); err != nil {
		return nil, err
	}
	if p.Most < 0 || p.Most > mostAsked {
		return nil, trouble("most", "%d airfields: give 1 to %d", p.Most, mostAsked)
	}
	if q.At, q.Why, err = a.turn(ctx, p.Turn); err != nil {
		return nil, err
	}
	c, err := costs.Of(ctx, a.Course, region, q)
	if err != nil {
		return nil, blame(atFault(err), ctx, err)
	}
	return c, nil
}

// toPrice is an answer as a question of what it costs. A crew who have the flight
// turned by themselves are flown again as one who do not.
func (a *Answer) toPrice() costs.Question {
	q := costs.Question{Scenario: a.Scenario, Whole: a.Here, Right: a.There}
	if a.team != nil {
		q.Hand, q.Sees = a.team.Hand, a.team.Sees()
	}
	if len(a.Here.Turns) > 0 {
		q.Whole, q.Right = nil, nil
	}
	return q
}

// atFault is the part of the question that an error of the costs is about.
func atFault(err error) string {
	var ends *region.NoEnds
	switch {
	case !errors.As(err, &ends):
		return "turn"
	case ends.Named:
		return "airfields"
	}
	return "book"
}

func ruleNamed(name string) (fuel.Rule, error) {
	if r, ok := fuel.Named(name); ok {
		return r, nil
	}
	var names []string
	for _, r := range fuel.Rules() {
		names = append(names, r.Name)
	}
	return fuel.Rule{}, trouble("reserve", "%s", say.No("rule", name, names))
}

// turn is when the crew turn, and why then where nobody said.
func (a *Answer) turn(ctx context.Context, text string) (at book.Time, why string, err error) {
	if text == "" {
		return a.turnAtOnce()
	}
	m, err := scenario.Moment("turn", text, a.Course.Build)
	if err != nil {
		return 0, "", err
	}
	if at, err = a.Course.Resolve(ctx, m); err != nil {
		return 0, "", trouble("turn", "%v", err)
	}
	return at, "", nil
}

// afterLiftOff is when the crew of a flight that has failed on the ground turn: with
// gear and flaps on their way in, as soon as a flight can be flown elsewhere.
const afterLiftOff = 60 * book.Second

// onGround is the place of real.on_ground.
var onGround = slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "on_ground" })

// liftOff is the first moment in the air after another.
func liftOff(p flight.Path, after book.Time) (at book.Time, ok bool) {
	for _, t := range p.Knots() {
		if t >= after && p.Value(onGround, t) == 0 {
			return t, true
		}
	}
	return 0, false
}

// turnAtOnce is when the first failure comes; of one that comes before the flight
// is in the air, a minute after the lift-off.
func (a *Answer) turnAtOnce() (at book.Time, why string, err error) {
	at, ok := a.Here.FirstStrike()
	if !ok {
		return 0, "", trouble("turn", "no failure comes on this flight, so say when the crew turn, such as cruise")
	}
	if path := a.Here.Path(); path.Value(onGround, at) != 0 {
		if off, flies := liftOff(path, at); flies {
			off += afterLiftOff
			return off, "The failure comes on the ground, so the crew turn a minute after lift-off, " + say.Clock(off) + " into the flight; another moment can be named.", nil
		}
	}
	return at, "", nil
}

// When gives the last moment at which each airfield of the costs is still good.
func (a *Answer) When(ctx context.Context, region *region.Region, c *costs.Costs) ([]costs.Latest, error) {
	q := a.toPrice()
	q.Rule = c.Rule
	list, err := c.When(ctx, region, q)
	if errors.Is(err, costs.ErrBegun) {
		return nil, trouble("turn", "%v", err)
	}
	return list, err
}
