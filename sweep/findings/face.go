package findings

import (
	"cmp"
	"fmt"
	"slices"

	"knockon/sweep"
)

// Face is a set of alerts that more than one cause brings about, so that the
// crew cannot tell the causes apart from what they are told.
type Face struct {
	Phase  int
	Alerts []int32 // given; empty: none
	Causes []Cause // the heaviest first
	Spread float64 // largest score of a cause less the smallest

	losses map[string]bool // of the causes so far
}

// Cause is a set of failures with that face. Lost are the functions whose loss
// mattered.
type Cause struct {
	Set   sweep.Set
	Lost  []int32
	Score float64
}

// Faces ranks, over all phases, the faces with causes that take different
// functions away, by the spread of their causes' scores. A face is looked at
// in the phase in which its spread is largest. Sets are those of up to order
// failures; of more than one, only those that are more than their parts. Causes that take away the
// same functions are shown by the first of them.
func (s *Swept) Faces(order, most int) []Face {
	best := map[string]int{}
	var list []Face
	for p := range s.Sheets {
		for _, f := range s.facesIn(p, order) {
			key := fmt.Sprint(f.Alerts)
			i, ok := best[key]
			switch {
			case !ok:
				best[key] = len(list)
				list = append(list, f)
			case f.Spread > list[i].Spread:
				list[i] = f
			}
		}
	}
	return first(list, most, func(a, b Face) int { return -cmp.Compare(a.Spread, b.Spread) })
}

func (s *Swept) facesIn(phase, order int) (list []Face) {
	at := map[string]int{}
	var faces []Face
	add := func(set sweep.Set, o sweep.Outcome) {
		key := fmt.Sprint(o.Given)
		i, ok := at[key]
		if !ok {
			i = len(faces)
			at[key] = i
			faces = append(faces, Face{Phase: phase, Alerts: o.Given})
		}
		faces[i].add(s.cause(set, o))
	}
	sheet := s.Sheets[phase]
	for n := range s.Failures {
		add(sweep.Set{n}, sheet.Outcome(sweep.Set{n}))
	}
	if order > 1 {
		sheet.Met(func(set sweep.Set, o sweep.Outcome) {
			if len(set) <= order {
				add(set, o)
			}
		})
	}
	for _, f := range faces {
		if f.finish(); len(f.Causes) > 1 {
			list = append(list, f)
		}
	}
	return list
}

func (s *Swept) cause(set sweep.Set, o sweep.Outcome) Cause {
	c := Cause{Set: set, Score: s.Score(o, s.chapters(set))}
	for _, l := range o.Lost {
		if l.Mattered {
			c.Lost = append(c.Lost, l.Function)
		}
	}
	return c
}

// add takes a cause that takes something away, unless one with the same losses is there.
func (f *Face) add(c Cause) {
	key := fmt.Sprint(c.Lost)
	if len(c.Lost) == 0 || f.losses[key] {
		return
	}
	if f.losses == nil {
		f.losses = map[string]bool{}
	}
	f.losses[key] = true
	f.Causes = append(f.Causes, c)
}

func (f *Face) finish() {
	f.losses = nil
	slices.SortStableFunc(f.Causes, func(a, b Cause) int { return -cmp.Compare(a.Score, b.Score) })
	if n := len(f.Causes); n > 0 {
		f.Spread = f.Causes[0].Score - f.Causes[n-1].Score
	}
}
