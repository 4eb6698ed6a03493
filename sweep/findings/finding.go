// Package findings reads the sheets of a sweep and says what an instructor
// should know: traps, pairs that are worse than their parts, the phase and the
// build that matter, lone guardians, and failures with one face.
//
// Invariant: a finding is a pure function of the sheets, and every number in
// it follows from a formula that is stated beside it and in docs/sweep.md.
//
// Start reading at Weight and Traps.
package findings

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
)

// Swept is what a sweep found on one build: a sheet for each phase of the
// flight, in order.
type Swept struct {
	Build    *book.Build
	Failures []book.FailureRef
	Sheets   []*sweep.Sheet
}

// Case is a set of failures in a phase.
type Case struct {
	Set   sweep.Set
	Phase int // index into Sheets
}

// severity of a loss doubles from class to class: that of a loss that nobody knows of
// where it is hidden, or an indication denies it.
func (s *Swept) severity(l sweep.Lost) float64 { return worth(s.graded(l)) }

func worth(class string) float64 {
	for i := len(book.Severities) - 1; i > 0; i-- {
		if class == book.Severities[i] {
			return float64(int(1) << i)
		}
	}
	return 1
}

func (s *Swept) graded(l sweep.Lost) string {
	return s.Build.Functions[l.Function].Graded(l.Known.Unknown())
}

// Weight of a lost function is severity × how it is known × surprise; 0 for one that
// did not matter. Severity is 1, 2, 4, 8 from minor to catastrophic (1 where none is
// given). How it is known is known.WeightOf: from ¼ for what is told to 4 for what is
// hidden. Surprise is 2 for a function of another chapter than all that failed, else 1.
func (s *Swept) Weight(l sweep.Lost, chapters []int) float64 {
	if !l.Mattered {
		return 0
	}
	f := s.Build.Functions[l.Function]
	w := s.severity(l) * l.Weight()
	if f.Chapter != 0 && !slices.Contains(chapters, f.Chapter) {
		w *= 2
	}
	return w
}

// Score of an outcome is the sum of the weights of its losses.
func (s *Swept) Score(o sweep.Outcome, chapters []int) (sum float64) {
	for _, l := range o.Lost {
		sum += s.Weight(l, chapters)
	}
	return sum
}

// chapters of the units that a set of failures fails.
func (s *Swept) chapters(set sweep.Set) (list []int) {
	add := func(id string) {
		if item, ok := s.Build.Item(id); ok && item.Named().Chapter != 0 {
			list = append(list, item.Named().Chapter)
		}
	}
	for _, n := range set {
		id := s.Failures[n].Unit
		add(id)
		item, _ := s.Build.Item(id)
		if e, ok := item.(*book.Event); ok {
			for _, f := range e.Fails {
				add(f.Unit)
			}
		}
	}
	return list
}

// Worst is a set of failures in the phase in which it is worst.
type Worst struct {
	Case
	Score    float64
	In       int // in so many phases it is a trap
	Silent   int // losses that mattered and were hidden or denied
	LateS    int // the latest that one came to be known
	Strange  int // losses that mattered, of a chapter in which nothing failed
	Severity string
}

// Traps ranks the single failures by Score, the worst first, in phases in which
// something that matters is neither told nor noticed at once; the others are no traps.
// most 0 lists all.
func (s *Swept) Traps(most int) []Worst {
	var list []Worst
	for n := range s.Failures {
		set := sweep.Set{n}
		w := Worst{Case: Case{Set: set}}
		chapters := s.chapters(set)
		for p, sheet := range s.Sheets {
			o := sheet.Outcome(set)
			if !slices.ContainsFunc(o.Lost, escapes) {
				continue
			}
			w.In++
			if score := s.Score(o, chapters); score > w.Score {
				w.Score, w.Phase = score, p
			}
		}
		if w.Score > 0 {
			s.describe(&w, chapters)
			list = append(list, w)
		}
	}
	return first(list, most, func(a, b Worst) int { return -cmp.Compare(a.Score, b.Score) })
}

// escapes says that a loss matters and is neither told nor noticed at once.
func escapes(l sweep.Lost) bool {
	return l.Mattered && l.Known != ledger.IsTold && l.Known != ledger.AtOnce
}

func (s *Swept) describe(w *Worst, chapters []int) {
	worst := -1
	for _, l := range s.Sheets[w.Phase].Outcome(w.Set).Lost {
		if !l.Mattered {
			continue
		}
		f := s.Build.Functions[l.Function]
		worst = max(worst, slices.Index(book.Severities, s.graded(l)))
		w.LateS = max(w.LateS, int(l.KnownS))
		if l.Known.Unknown() {
			w.Silent++
		}
		if f.Chapter != 0 && !slices.Contains(chapters, f.Chapter) {
			w.Strange++
		}
	}
	if worst >= 0 {
		w.Severity = book.Severities[worst]
	}
}

// first sorts a list, leaving equals in the order they have, and cuts it.
func first[T any](list []T, most int, by func(a, b T) int) []T {
	slices.SortStableFunc(list, by)
	if most > 0 && len(list) > most {
		list = list[:most]
	}
	return list
}

// ScoreOf is the score of what a set of failures comes to.
func (s *Swept) ScoreOf(set sweep.Set, o sweep.Outcome) float64 { return s.Score(o, s.chapters(set)) }
