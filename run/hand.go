package run

import (
	"context"
	"fmt"

	"knockon/book"
	"knockon/circuit"
)

// Hand moves controls while a flight is under way, from what it has seen so far.
type Hand interface {
	// Sees is called when a moment is over at which something may have changed,
	// and at each moment that the hand asked for. It returns what it will move,
	// each at a later moment, and the next moment at which it wants to look
	// whatever happens; book.Never for none. What it has returned stands.
	Sees(v View) (moves []Action, look book.Time)
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
	p.scenario.Actions = append([]Action(nil), s.Actions...)
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
	if p.hand == nil || again {
		return nil
	}
	for at := m.Now(); ; at = p.look {
		if err := p.seen(ctx, m, at); err != nil {
			return err
		}
		if p.look >= p.next(m, p.flown().End()) {
			return nil
		}
	}
}

// seen shows the hand a moment and takes up what it will move.
func (p *pilot) seen(ctx context.Context, m *circuit.Machine, at book.Time) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	moves, look := p.hand.Sees(glance{m, at})
	if look <= at {
		return fmt.Errorf("run: a hand at %d wants to look again at %d", at, look)
	}
	p.look = look
	for _, a := range moves {
		number, to, ok := p.circuit.Circuit().Control(a.Control, a.Position)
		if !ok || a.At.Offset <= at || a.When != nil || a.At.Phase != "" {
			return fmt.Errorf("run: a hand at %d cannot set %s to %q at %d", at, a.Control, a.Position, a.At.Offset)
		}
		if a.At.Offset <= p.flown().End() {
			p.push(a.At.Offset, circuit.Input{Strike: -1, End: -1, Control: number, To: to})
			p.scenario.Actions = append(p.scenario.Actions, a.Taken())
		}
	}
	return nil
}
