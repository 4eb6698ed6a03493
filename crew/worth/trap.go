package worth

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/ledger"
)

// Trap is an omission and the consequence that hides best.
type Trap struct {
	Worth *Worth
	Step  *Step
	Harm  Harm
	After book.Time // from when the step was due to when it bites
}

// Traps ranks the omissions of procedures: the one first whose consequence is
// least announced, and of those the one whose consequence comes latest; behind
// them, in the same order, what was lost already and is not brought back. What
// is for the better, and what nobody needs, is no trap.
func Traps(list ...*Worth) (traps []Trap) {
	for _, w := range list {
		for _, s := range w.Steps {
			if t, ok := w.trap(s); ok {
				traps = append(traps, t)
			}
		}
	}
	slices.SortStableFunc(traps, hidesBetter)
	return traps
}

// trap is the consequence of leaving a step out that hides best.
func (w *Worth) trap(s *Step) (t Trap, ok bool) {
	left := s.Left()
	if left == nil {
		return t, false
	}
	for _, h := range left.Harms {
		if h.Better || h.Kind == Loss && !h.Mattered {
			continue
		}
		next := Trap{w, s, h, max(0, h.Bites-s.At)}
		if !ok || hidesBetter(next, t) < 0 {
			t, ok = next, true
		}
	}
	return t, ok
}

// hidesBetter orders traps.
func hidesBetter(a, b Trap) int {
	return cmp.Or(
		cmp.Compare(no(a.Harm.Already), no(b.Harm.Already)),
		-cmp.Compare(a.Harm.hidden(), b.Harm.hidden()),
		-cmp.Compare(a.After, b.After),
		gravest(a.Harm, b.Harm),
	)
}

// hidden is how little is told of a harm, more for less: a loss by its class; a
// longer stop and less range have nothing that tells of them; alerts tell of
// themselves, false ones wrongly.
func (h Harm) hidden() ledger.Class {
	switch h.Kind {
	case Loss, Worse, Misleads:
		return h.Class
	case Stop, Range, False, Dark:
		return ledger.OnlyShown
	}
	return ledger.Told
}

// OnePerStep keeps the first trap of each step.
func OnePerStep(list []Trap) (traps []Trap) {
	seen := map[*book.Step]bool{}
	for _, t := range list {
		if !seen[t.Step.Step] {
			seen[t.Step.Step] = true
			traps = append(traps, t)
		}
	}
	return traps
}
