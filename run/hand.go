package run

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// Hand moves controls while a flight is under way, from what it has seen so far.
type Hand interface {
	// Sees is called when a moment is over at which something may have changed,
	// and at each moment that the hand asked for. It returns what it will move,
	// each at a later moment, and the next moment at which it wants to look
	// whatever happens. What it has returned stands.
	Sees(v View) Will
}

// Forker is a hand that can be in two places: a run that is held with it can be
// flown on more than once.
type Forker interface {
	Hand
	Fork() Hand // the same from now on, apart from this one
}

// Will is what a hand decides when it looks.
type Will struct {
	Moves []Action  // each at a later moment
	Legs  []Leg     // where the flight goes, each from a later moment on
	Look  book.Time // when it wants to look next; book.Never: when something changes
}

// View is the flight at a moment, as far as it changes at instants.
type View interface {
	Now() book.Time
	// Value of a steady node (circuit.Trace.Steady) when the moment is over.
	Value(n circuit.Node) float64
}

// FlyWith flies a scenario with a hand that acts on what happens. Looking
// changes nothing: the record is that of Fly on the scenario with the actions
// that the hand took, and names them behind those of the scenario.
func (c *Course) FlyWith(ctx context.Context, s Scenario, h Hand) (*Record, error) {
	p, err := c.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	p.scenario.Actions, p.scenario.Plan = slices.Clone(s.Actions), slices.Clone(s.Plan)
	p.hand = h
	return p.fly(ctx)
}

// attention is the part of a pilot that somebody's hand belongs to.
type attention struct {
	hand Hand
	look book.Time // when it wants to look next
}

// glance is the present moment of a run.
type glance struct {
	*circuit.Machine
	at book.Time
}

func (g glance) Now() book.Time { return g.at }

// attend lets the hand look at a moment that is over, and at all that it wants
// to see before the next instant.
func (p *pilot) attend(ctx context.Context, m *circuit.Machine, again bool) error {
	return p.attendUntil(ctx, m, again, book.Never)
}

// attendUntil is attend for what comes before a moment.
func (p *pilot) attendUntil(ctx context.Context, m *circuit.Machine, again bool, until book.Time) error {
	if p.hand == nil || again {
		return nil
	}
	for at := m.Now(); ; at = p.look {
		if err := p.seen(ctx, m, at); err != nil {
			return err
		}
		if p.look >= p.after(m, until) {
			return nil
		}
	}
}

// seen shows the hand a moment and takes up what it will move.
func (p *pilot) seen(ctx context.Context, m *circuit.Machine, at book.Time) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	w := p.hand.Sees(glance{m, at})
	if w.Look <= at {
		return fmt.Errorf("run: a hand at %d wants to look again at %d", at, w.Look)
	}
	p.look = w.Look
	if err := p.take(ctx, w.Legs, at); err != nil {
		return err
	}
	for _, a := range w.Moves {
		number, to, ok := p.circuit.Circuit().Control(a.Control, a.Position)
		if !ok || a.At.Offset <= at || a.When != nil || a.At.Phase != "" {
			return fmt.Errorf("run: a hand at %d cannot set %s to %q at %d", at, a.Control, a.Position, a.At.Offset)
		}
		if a.At.Offset <= p.flown().End() || p.path != nil && p.path.Open() {
			p.push(a.At.Offset, circuit.Input{Strike: -1, End: -1, Control: number, To: to, Hold: a.Held})
			p.scenario.Actions = append(p.scenario.Actions, a.Acted())
		}
	}
	return nil
}

// take takes up legs that a hand has decided on.
func (p *pilot) take(ctx context.Context, legs []Leg, at book.Time) error {
	for _, l := range legs {
		if l.At.Offset <= at || l.When != nil || l.At.Phase != "" || p.path == nil {
			return fmt.Errorf("run: a hand at %d cannot have %s flown from %d on", at, l.Do, l.At.Offset)
		}
		if err := p.addLeg(ctx, l.Taken()); err != nil {
			return err
		}
		p.scenario.Plan = append(p.scenario.Plan, l.Taken())
	}
	return nil
}
