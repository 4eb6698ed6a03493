package worth

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/flight/energy"
	"knockon/say"
)

// Price is what leaving a step out costs on a flight that feels its systems: one
// with drag and thrust (docs/meaning.md section 8), not the profile.
type Price struct {
	Range           bool      // it costs range
	FuelKg, RightKg float64   // on board at the end, without the step and with it
	End, RightEnd   book.Time // when the flight ended
	Ended, Right    string    // how: "arrived", ...

	StopM, RightStopM float64 // from the threshold to the stop, at full braking; 0 where it never lands

	Lost []string // grave functions that are lost without the step and not with it, or more than a minute sooner
}

// Price flies what the omissions that burden the flight cost, with a team of the
// same build and flight that feels its systems.
func (s *Study) Price(ctx context.Context, live *crew.Team) error {
	for _, w := range s.Worths {
		if err := w.price(ctx, live); err != nil {
			return err
		}
	}
	return nil
}

func (w *Worth) price(ctx context.Context, live *crew.Team) error {
	var right *crew.Plan
	for _, s := range w.Steps {
		if !s.burdens(Range) && !s.burdens(Stop) && s.Step.Leg == "" {
			continue
		}
		var err error
		if right == nil {
			if right, err = live.Fly(ctx, w.Right.Plan.Asked); err != nil {
				return err
			}
		}
		step := sameStep(live, w.Procedure.ID, s.Number)
		left, err := live.Fly(ctx, w.Right.Plan.Asked, crew.Change{Kind: crew.Omit, Step: step})
		if err != nil {
			return err
		}
		s.Price = &Price{Range: s.burdens(Range), FuelKg: fuel(left), RightKg: fuel(right), End: left.Record.End, RightEnd: right.Record.End,
			Ended: ended(left), Right: ended(right)}
		if s.Price.Lost, err = graver(ctx, live, left, right); err != nil {
			return err
		}
		if len(s.Price.Lost) > 0 { // what the flight does is a part of what the step is worth
			s.Because, s.Nothing = strings.Replace(s.Because, "Leaving it out makes nothing worse in this model", "Along one and the same path leaving it out makes nothing worse", 1), false
		}
		if !s.burdens(Stop) {
			if !s.burdens(Range) && len(s.Price.Lost) == 0 {
				s.Price = nil
			}
			continue
		}
		if s.Price.StopM, err = stopM(ctx, live, left); err == nil {
			s.Price.RightStopM, err = stopM(ctx, live, right)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// graver names the hazardous and catastrophic functions that are lost on one flight and
// not on another, or more than a minute sooner, while they were called for.
func graver(ctx context.Context, live *crew.Team, left, right *crew.Plan) (list []string, err error) {
	a, err := live.Ledger(ctx, left)
	if err != nil {
		return nil, err
	}
	b, err := live.Ledger(ctx, right)
	if err != nil {
		return nil, err
	}
	for _, l := range a.Losses {
		grave := l.Function.Severity == "hazardous" || l.Function.Severity == "catastrophic"
		other := b.Loss(l.Function.ID)
		if grave && l.Mattered && (other == nil || !other.Mattered || other.Spans[0].From-l.Spans[0].From > 60*book.Second) {
			list = append(list, fmt.Sprintf("%s lost from %s", l.Function.Title, say.Clock(l.Spans[0].From)))
		}
	}
	return list, nil
}

// ended says how a flight ended, after "the flight".
func ended(p *crew.Plan) string {
	if e := p.Record.Ending(); !e.Arrived() {
		return "breaks off, since " + e.Why
	}
	return arrives
}

// arrives is how a flight ended that did.
const arrives = "arrives"

// burdens says that leaving a step out costs range, or a longer stop.
func (s *Step) burdens(k Kind) bool {
	left := s.Left()
	return left != nil && slices.ContainsFunc(left.Harms, func(h Harm) bool { return h.Kind == k })
}

// sameStep finds a step by its number: another team may hold another copy.
func sameStep(t *crew.Team, id, number string) (step *book.Step) {
	for _, p := range t.Build().Procedures {
		if p.ID == id {
			crew.Walk(t.Steps(p), func(s *book.Step, _ string) {
				if t.Number(s) == number {
					step = s
				}
			})
		}
	}
	return step
}

func fuel(p *crew.Plan) float64 {
	return p.Record.Path().Value(quantity("fuel_kg"), p.Record.End)
}

// stopM is how far the aircraft goes from the threshold of its destination to the
// stop, in metres: the flight is held at the end of its descent and flown to a
// landing whose devices come when the systems say so (docs/costs.md). It is 0
// where the flight never lands.
func stopM(ctx context.Context, live *crew.Team, p *crew.Plan) (float64, error) {
	path, ok := p.Record.Path().(*energy.Path)
	if !ok {
		return 0, nil
	}
	at := lastTurn(path)
	if at == 0 {
		return 0, nil
	}
	h, err := live.Course().Hold(ctx, p.Record.Scenario, at)
	if err != nil {
		return 0, err
	}
	r, err := h.Divert(ctx, destination(live.Course().Flight, path.LeftM(at)))
	if err != nil {
		return 0, err
	}
	_, rolled, ok := r.Path().(*energy.Path).Landing()
	if !ok {
		return 0, nil
	}
	return rolled.TotalM, nil
}

// lastTurn is the last corner of a path at which it can still be flown to another
// landing; 0 for none.
func lastTurn(path *energy.Path) (at book.Time) {
	for _, t := range path.Knots() {
		if t < path.End() && path.CanDivert(t) {
			at = t
		}
	}
	return at
}

// destination is the runway of a flight of the book, so far away.
func destination(f *book.Flight, metres float64) energy.Diversion {
	return energy.Diversion{DistanceM: metres, Wind: energy.PlanOf(f).Wind, Runway: energy.RunwayOf(f)}
}

func quantity(name string) int {
	return slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == name })
}

// leastStopM is the least difference of two landings that is told.
const leastStopM = 5.0

// String says it in words.
func (p *Price) String() string {
	var parts []string
	if len(p.Lost) > 0 {
		parts = append(parts, "without the step "+say.And(p.Lost))
	}
	if p.Range {
		parts = append(parts, fmt.Sprintf("%.0f kg of fuel at the end without the step, %.0f kg with it", p.FuelKg, p.RightKg))
	}
	if p.StopM > 0 && p.RightStopM > 0 {
		text := fmt.Sprintf("a stop %.0f m behind the threshold without the step, %.0f m with it", p.StopM, p.RightStopM)
		if math.Abs(p.StopM-p.RightStopM) < leastStopM {
			text = fmt.Sprintf("a stop %.0f m behind the threshold, with the step or without it", p.RightStopM)
		}
		parts = append(parts, text)
	}
	if d := p.End - p.RightEnd; d > shifted {
		parts = append(parts, say.Lasts(d)+" later without it")
	}
	switch {
	case p.Ended != p.Right:
		parts = append(parts, fmt.Sprintf("without it the flight %s, with it it %s", p.Ended, p.Right))
	case p.Right != arrives:
		parts = append(parts, fmt.Sprintf("with the step or without it the flight %s, and nothing is known of what would come after", p.Right))
	}
	if len(parts) == 0 {
		return "On a flight that feels it nothing differs."
	}
	return "On a flight that feels it: " + strings.Join(parts, "; ") + "."
}
