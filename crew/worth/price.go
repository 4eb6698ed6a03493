package worth

import (
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
)

// Price is what leaving a step out costs on a flight that feels its systems: one
// with drag and thrust (docs/meaning.md section 8), not the profile.
type Price struct {
	FuelKg, RightKg float64   // on board at the end, without the step and with it
	End, RightEnd   book.Time // when the flight ended
	Ended, Right    string    // how: "arrived", ...
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
		if !s.burdens() {
			continue
		}
		var err error
		if right == nil {
			if right, err = live.Fly(ctx, w.Right.Plan.Asked); err != nil {
				return err
			}
		}
		step := sameStep(live.Build(), w.Procedure.ID, s.Number)
		left, err := live.Fly(ctx, w.Right.Plan.Asked, crew.Change{Kind: crew.Omit, Step: step})
		if err != nil {
			return err
		}
		s.Price = &Price{FuelKg: fuel(left), RightKg: fuel(right), End: left.Record.End, RightEnd: right.Record.End,
			Ended: left.Record.Ended.String(), Right: right.Record.Ended.String()}
	}
	return nil
}

// burdens says that leaving a step out costs range.
func (s *Step) burdens() bool {
	left := s.Left()
	return left != nil && slices.ContainsFunc(left.Harms, func(h Harm) bool { return h.Kind == Range })
}

// sameStep finds a step by its number: another team may hold another copy.
func sameStep(b *book.Build, id, number string) (step *book.Step) {
	for _, p := range b.Procedures {
		if p.ID == id {
			crew.Walk(p.Steps, func(s *book.Step, n string) {
				if n == number {
					step = s
				}
			})
		}
	}
	return step
}

func fuel(p *crew.Plan) float64 {
	q := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "fuel_kg" })
	return p.Record.Path().Value(q, p.Record.End)
}

// String says it in words.
func (p *Price) String() string {
	text := fmt.Sprintf("On a flight that feels it: %.0f kg of fuel at the end without the step, %.0f kg with it", p.FuelKg, p.RightKg)
	if d := p.End - p.RightEnd; d > shifted {
		text += ", " + ledger.Clock(d) + " later"
	}
	if p.Ended != p.Right {
		text += fmt.Sprintf("; without it the flight %s, with it it %s", p.Ended, p.Right)
	}
	return text + "."
}
