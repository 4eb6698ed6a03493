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
// same away in the same phase, with the same excess, are one finding, under the
// first of them.
func (s *Swept) Together(most int) (list []Together) {
	at := map[string]int{}
	for _, x := range s.excesses() {
		if most > 0 && len(list) == most && x.excess < list[most-1].Excess {
			break
		}
		t := s.excess(s.Sheets[x.phase], sweep.SetOf(x.key))
		t.Phase, t.In = x.phase, x.in
		key := fmt.Sprint(t.Phase, t.In, t.Excess, t.New, t.Worse)
		if i, ok := at[key]; ok {
			list[i].Also = append(list[i].Also, t.Set)
			continue
		}
		if most > 0 && len(list) == most {
			continue // as bad as the last one, but something else
		}
		at[key] = len(list)
		list = append(list, t)
	}
	return list
}

// brief is a set with its excess in the phase in which that is largest.
type brief struct {
	key       uint64
	excess    float64
	phase, in int
}

// excesses lists every set with an excess, the worst first.
func (s *Swept) excesses() (list []brief) {
	place := map[uint64]int{}
	for p, sheet := range s.Sheets {
		sheet.Met(func(set sweep.Set, o sweep.Outcome) {
			x := s.excessOf(sheet, set, o)
			if x <= 0 {
				return
			}
			key := set.Key()
			i, ok := place[key]
			if !ok {
				i = len(list)
				place[key] = i
				list = append(list, brief{key: key})
			}
			list[i].in++
			if x > list[i].excess {
				list[i].excess, list[i].phase = x, p
			}
		})
	}
	slices.SortFunc(list, func(a, b brief) int {
		return cmp.Or(-cmp.Compare(a.excess, b.excess), cmp.Compare(a.key, b.key))
	})
	return list
}

// excessOf is the excess of a set alone.
func (s *Swept) excessOf(sheet *sweep.Sheet, set sweep.Set, o sweep.Outcome) (sum float64) {
	s.beyond(sheet, set, o, func(_ sweep.Lost, more float64, _ bool) { sum += more })
	return sum
}

// excess says in full what a set takes away beyond its parts.
func (s *Swept) excess(sheet *sweep.Sheet, set sweep.Set) Together {
	t := Together{Case: Case{Set: set}}
	s.beyond(sheet, set, sheet.Outcome(set), func(l sweep.Lost, more float64, had bool) {
		t.Excess += more
		if had {
			t.Worse = append(t.Worse, l)
		} else {
			t.New = append(t.New, l)
		}
	})
	return t
}

// beyond goes through the losses of a set that weigh more than in any part of
// it: by how much, and whether any part has them at all. Losses are in the
// order of the functions, so that one step through all lists is enough.
func (s *Swept) beyond(sheet *sweep.Sheet, set sweep.Set, o sweep.Outcome, visit func(l sweep.Lost, more float64, had bool)) {
	var lists [3][]sweep.Lost
	for i, part := range parts(sheet, set) {
		lists[i] = part.Lost
	}
	chapters := s.chapters(set)
	for _, l := range o.Lost {
		most, had := 0.0, false
		for i := range lists {
			for len(lists[i]) > 0 && lists[i][0].Function < l.Function {
				lists[i] = lists[i][1:]
			}
			if len(lists[i]) > 0 && lists[i][0].Function == l.Function {
				most, had = max(most, s.Weight(lists[i][0], chapters)), true
			}
		}
		if more := s.Weight(l, chapters) - most; more > 0 {
			visit(l, more, had)
		}
	}
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
	t := s.excess(sheet, set)
	return slices.Concat(t.New, t.Worse)
}
