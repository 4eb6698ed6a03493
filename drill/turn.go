package drill

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
	"knockon/run"
)

// leg reads where somebody turns the flight: a leg of a plan without a moment, since it
// begins at once.
func (d *Deck) leg(text string) (run.Leg, error) {
	l, err := book.ParseLeg(text, d.Build())
	if err != nil {
		return run.Leg{}, refuse(Garbage, "%v", err)
	}
	if l.Timed {
		return run.Leg{}, refuse(Garbage, "a flight that is turned in a drill is turned at once: leave out the @ and what follows it")
	}
	return run.LegOf(l, nil), nil
}

// step is the line of a list with a number; nil if there is none.
func (d *Deck) step(list *book.Procedure, number string) (step *book.Step) {
	crew.Walk(d.team.Steps(list), func(x *book.Step, n string) {
		if n == number {
			step = x
		}
	})
	return step
}

// turn turns the flight as an input says.
func (s *Session) turn(in Input) error {
	l, err := s.deck.leg(in.To)
	if err != nil {
		return err
	}
	if err := s.flying.Turn(s.found(l, in.At+1), in.At+1); err != nil {
		return refuse(NotFlown, "the flight cannot do that: %v", err)
	}
	return nil
}

// lead turns the flight where a line that is finished sends it, as a crew by the book
// do: one that goes to another field already is not sent to a third, and one that was
// sent down to a level not there again.
func (s *Session) lead(step *book.Step, at book.Time) {
	if step == nil || step.Leg == "" {
		return
	}
	l := run.Leg{Do: run.Manoeuvre(step.Leg), LevelFt: step.LegFt}
	plan := s.flying.Scenario().Plan
	switch {
	case l.OverGround() && (!s.deck.Course().CanTurn() || slices.ContainsFunc(plan, run.Leg.OverGround)):
		return
	case l.Do == run.Descend && len(plan) > 0 && plan[len(plan)-1].LevelFt == l.LevelFt:
		return
	}
	s.flying.Lead(s.found(l, at), at)
}

// found is a leg to the nearest field with the field that a crew by the book find, where
// they begin it at the same moment. Others' flight is flown on as if nobody did any more.
func (s *Session) found(l run.Leg, at book.Time) run.Leg {
	if l.Do != run.Land {
		return l
	}
	asked := s.Flown()
	asked.Actions, asked.Plan = nil, s.asked.Plan
	best, err := s.deck.team.Fly(context.Background(), asked)
	if err != nil {
		return l
	}
	for _, x := range best.Record.Scenario.Plan {
		if x.Do == l.Do && x.At.Offset == at {
			return x
		}
	}
	return l
}

// going says where the flight goes, and what became of its last turn.
func (s *Session) going() (facts []Fact) {
	if to := s.flying.Bound(); to != "" {
		facts = append(facts, Fact{"Going to", to})
	}
	if turns := s.flying.Turns(); len(turns) > 0 {
		facts = append(facts, Fact{"Last turn", ledger.Turned(turns[len(turns)-1])})
	}
	return facts
}
