package findings

import (
	"cmp"
	"fmt"
	"slices"

	"knockon/sweep"
)

// Together is a set of failures that is worse than its parts.
type Together struct {
	Case
	Excess float64      // sum over functions: the weight in the set less the largest in any part, where that is more
	In     int          // in so many phases there is an excess
	New    []sweep.Lost // lost with the set and with no part of it
	Worse  []sweep.Lost // lost with a part too, but told better there
	Also   []sweep.Set  // other sets of which all this is true, in order
}

// Together ranks the sets of two or more failures by their excess in the phase
// in which it is largest. A part is the set less one member. Sets that take the
// same away in the same phase are one finding, under the first of them.
func (s *Swept) Together(most int) []Together {
	list := alike(s.together())
	if most > 0 && len(list) > most {
		list = list[:most]
	}
	return list
}

// alike makes one finding of those that say the same.
func alike(list []Together) (groups []Together) {
	at := map[string]int{}
	for _, t := range list {
		key := fmt.Sprint(t.Phase, t.In, t.New, t.Worse)
		if i, ok := at[key]; ok {
			groups[i].Also = append(groups[i].Also, t.Set)
			continue
		}
		at[key] = len(groups)
		groups = append(groups, t)
	}
	return groups
}

// together lists every set with an excess, the worst first.
func (s *Swept) together() []Together {
	best := map[uint64]int{}
	var list []Together
	for p, sheet := range s.Sheets {
		sheet.Met(func(set sweep.Set, o sweep.Outcome) {
			x := s.excess(sheet, set, o)
			if x.Excess <= 0 {
				return
			}
			x.Phase, x.In = p, 1
			i, ok := best[set.Key()]
			if !ok {
				best[set.Key()] = len(list)
				list = append(list, x)
				return
			}
			x.In += list[i].In
			if x.Excess > list[i].Excess {
				list[i] = x
			}
			list[i].In = x.In
		})
	}
	return first(list, 0, func(a, b Together) int {
		return cmp.Or(-cmp.Compare(a.Excess, b.Excess), cmp.Compare(a.Set.Key(), b.Set.Key()))
	})
}

// excess compares a set with its parts, function by function.
func (s *Swept) excess(sheet *sweep.Sheet, set sweep.Set, o sweep.Outcome) Together {
	t := Together{Case: Case{Set: set}}
	parts := parts(sheet, set)
	chapters := s.chapters(set)
	for _, l := range o.Lost {
		most, anywhere := 0.0, false
		for i := range parts {
			if had, ok := parts[i].Loss(l.Function); ok {
				anywhere = true
				most = max(most, s.Weight(had, chapters))
			}
		}
		w := s.Weight(l, chapters) - most
		if w <= 0 {
			continue
		}
		t.Excess += w
		if anywhere {
			t.Worse = append(t.Worse, l)
		} else {
			t.New = append(t.New, l)
		}
	}
	return t
}

// parts gives the outcomes of a set less each of its members.
func parts(sheet *sweep.Sheet, set sweep.Set) (list []sweep.Outcome) {
	for i := range set {
		part := append(append(sweep.Set{}, set[:i]...), set[i+1:]...)
		list = append(list, sheet.Outcome(part))
	}
	return list
}

// Beyond lists the losses of a set that weigh more than in any part of it.
func (s *Swept) Beyond(sheet *sweep.Sheet, set sweep.Set) []sweep.Lost {
	if len(set) < 2 {
		return nil
	}
	t := s.excess(sheet, set, sheet.Outcome(set))
	return slices.Concat(t.New, t.Worse)
}
