package worth

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/run"
	"knockon/say"
)

// Omissions flies a scenario once as the crew fly it, and once without each step that
// they come to: what a step is worth, with nothing else done wrong. Of every procedure
// that they do there is a Worth, in the order in which they begin them; none where they
// do none.
func Omissions(ctx context.Context, t *crew.Team, s run.Scenario) (list []*Worth, err error) {
	right, err := fly(ctx, t, s)
	if err != nil {
		return nil, err
	}
	for _, l := range right.Plan.Lines {
		if l.Step == nil || slices.ContainsFunc(list, func(w *Worth) bool { return w.Procedure == l.Procedure }) {
			continue
		}
		w := &Worth{Procedure: l.Procedure, Right: right, listed: stepsOf(t, l.Procedure)}
		if err := w.assess(ctx, t, s, omitted); err != nil {
			return nil, err
		}
		list = append(list, w)
	}
	return list, nil
}

func omitted(n numbered, _ *book.Build) []crew.Change {
	return []crew.Change{{Kind: crew.Omit, Step: n.step}}
}

// What leaving a step out brings weighs as a point does (docs/meaning.md, section 6b);
// what is only told or shown weighs less than any loss, a flight that breaks off more
// than one loss (assumption).
const (
	shownWeighs  = 0.1
	brokenWeighs = 16
)

// Weight is what leaving the step out costs beyond what it spares: what is lost while it
// is called for by severity, 1, 2, 4, 8 (a half where the book gives none).
func (s *Step) Weight() (sum float64) {
	left := s.Left()
	if left == nil {
		return 0
	}
	for _, h := range left.Harms {
		if h.Better {
			sum -= h.weight()
		} else {
			sum += h.weight()
		}
	}
	return sum
}

func (h Harm) weight() float64 {
	switch {
	case h.Kind == Breaks:
		return brokenWeighs
	case h.Kind != Loss:
		return shownWeighs
	case !h.Mattered:
		return 0
	case h.Severity < 0:
		return 0.5
	}
	return float64(int(1) << h.Severity)
}

// Heavy is a step with the list that it is of.
type Heavy struct {
	In   *Worth
	Step *Step
}

// Heaviest are the steps without which most is lost, all that weigh alike; a decision is
// left out for the line behind it on which its weight hangs. None where leaving none out
// makes anything worse, or where the flight breaks off, so that what would have come is
// not known.
func Heaviest(list []*Worth) (best []Heavy) {
	for _, w := range list {
		if broken(w.Right) != book.Never {
			return nil
		}
		for _, s := range w.Steps {
			switch weight := s.Weight(); {
			case weight <= 0 || len(best) > 0 && weight < best[0].Step.Weight():
			case len(best) > 0 && weight == best[0].Step.Weight():
				best = append(best, Heavy{w, s})
			default:
				best = []Heavy{{w, s}}
			}
		}
	}
	all := slices.Clone(best)
	return slices.DeleteFunc(best, func(o Heavy) bool {
		return slices.ContainsFunc(all, func(i Heavy) bool { return i.In == o.In && strings.HasPrefix(i.Step.Number, o.Step.Number+".") })
	})
}

// Omitted is in words what each step is worth that the crew came to.
type Omitted struct {
	Most  string        `json:"most"` // which step matters most, and why
	Steps []OmittedStep `json:"steps"`
}

// OmittedStep is a step of them.
type OmittedStep struct {
	Procedure string  `json:"procedure"`
	Number    string  `json:"step"`
	Because   string  `json:"because"`
	Nothing   bool    `json:"nothing_in_this_model"`
	Weight    float64 `json:"weight"`
	Most      bool    `json:"most,omitempty"` // no other weighs more
}

// OmittedView puts them into words.
func OmittedView(list []*Worth) *Omitted {
	v := &Omitted{Most: most(list), Steps: []OmittedStep{}}
	best := Heaviest(list)
	for _, w := range list {
		for _, s := range w.Steps {
			if s.Reached {
				v.Steps = append(v.Steps, OmittedStep{w.Procedure.ID, s.Number, s.Because, s.Nothing, s.Weight(), slices.Contains(best, Heavy{w, s})})
			}
		}
	}
	return v
}

func most(list []*Worth) string {
	best := Heaviest(list)
	switch {
	case len(list) == 0:
		return "No list is done, so no step matters."
	case len(best) == 0 && broken(list[0].Right) != book.Never:
		return "Which step matters most is not known: the flight breaks off at " + list[0].clock(broken(list[0].Right)) + "."
	case len(best) == 0:
		return "No step matters most: leaving any one of them out makes nothing worse in this model."
	}
	which := "Most hangs on step "
	if len(best) > 1 {
		which = "Most hangs on " + say.Counted(len(best), "step") + " that weigh alike, the first of them step "
	}
	first := best[0]
	return which + Short(first.Step.Number) + " of " + say.Quoted(first.In.Procedure.Title) + ", " + say.Quoted(Words(first.In.build(), first.Step.Step)) + ". " + first.Step.Because
}

// Short is the number of a step as people read it, without which way leads to it.
func Short(number string) string {
	return strings.NewReplacer(".then.", ".", ".else.", ".", ".unknown.", ".", ".later.", ".").Replace(number)
}
