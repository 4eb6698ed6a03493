package findings

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
)

// Guardian is an alert or an indication that alone tells of losses.
type Guardian struct {
	ID        string
	Alert     bool
	Losses    int     // how many losses (function, failure, phase) rest on it alone
	Functions []int32 // of them, each once
	Failures  []int   // single failures, each once
	Weight    float64 // sum of the severities of these functions
	Takers    []Taker // what takes it away, the most losses first
}

// Taker is a second failure with which losses are told worse, since their lone
// guardian no longer speaks or shows.
type Taker struct {
	Failure int
	Losses  int // so many of the losses that rested on the guardian
}

// guard is one loss and what alone tells of it.
type guard struct {
	function int32
	class    ledger.Class
	by       int32 // place in Alerts or Indications
	alert    bool
}

type watched struct {
	by    int32
	alert bool
}

// Guardians ranks them by the severities of the functions that rest on them. A
// loss rests on an alert if that alone of those that tell it is given; a loss
// that is only shown rests on an indication if that alone of those that cover
// it is neither dark nor wrong. Only what mattered counts. Takers are known if
// the sheets hold pairs.
func (s *Swept) Guardians(most int) []Guardian {
	g := &guards{Swept: s, found: map[watched]*Guardian{}, takers: map[watched]map[int]int{}}
	g.tells, g.covers = tells(s.Build), covers(s.Build)
	for _, sheet := range s.Sheets {
		g.sheet(sheet)
	}
	var list []Guardian
	for _, w := range g.order {
		list = append(list, g.finish(w))
	}
	return first(list, most, func(a, b Guardian) int {
		return cmp.Or(-cmp.Compare(a.Weight, b.Weight), -cmp.Compare(a.Losses, b.Losses))
	})
}

type guards struct {
	*Swept
	tells, covers [][]int32 // by function
	found         map[watched]*Guardian
	order         []watched
	takers        map[watched]map[int]int
}

// tells gives for each function the alerts that tell it.
func tells(b *book.Build) [][]int32 {
	by := make([][]int32, len(b.Functions))
	for i, a := range b.Alerts {
		for _, id := range a.Tells {
			if f := slices.IndexFunc(b.Functions, func(f *book.Function) bool { return f.ID == id }); f >= 0 {
				by[f] = append(by[f], int32(i))
			}
		}
	}
	return by
}

// covers gives for each function the indications that cover it and have a meaning.
func covers(b *book.Build) [][]int32 {
	by := make([][]int32, len(b.Functions))
	for i, ind := range b.Indications {
		if ind.Means == nil {
			continue
		}
		for _, id := range b.Covers(ind) {
			if f := slices.IndexFunc(b.Functions, func(f *book.Function) bool { return f.ID == id }); f >= 0 {
				by[f] = append(by[f], int32(i))
			}
		}
	}
	return by
}

func (g *guards) sheet(sheet *sweep.Sheet) {
	resting := make([][]guard, len(g.Failures))
	for n := range g.Failures {
		o := sheet.Outcome(sweep.Set{n})
		for _, l := range o.Lost {
			if r, ok := g.lone(&o, l); ok && l.Mattered {
				resting[n] = append(resting[n], r)
				g.note(n, r)
			}
		}
	}
	sheet.Met(func(set sweep.Set, o sweep.Outcome) {
		if len(set) == 2 {
			g.taken(resting[set[0]], set[1], &o)
			g.taken(resting[set[1]], set[0], &o)
		}
	})
}

// lone finds what alone tells of a loss.
func (g *guards) lone(o *sweep.Outcome, l sweep.Lost) (r guard, ok bool) {
	r = guard{function: l.Function, class: l.Class}
	switch l.Class {
	case ledger.Told, ledger.ToldLate:
		r.alert = true
		r.by, ok = only(g.tells[l.Function], func(a int32) bool { return has(o.Given, a) })
	case ledger.OnlyShown:
		r.by, ok = only(g.covers[l.Function], func(i int32) bool { return !has(o.Dark, i) && !has(o.Wrong, i) })
	}
	return r, ok
}

// only returns the one member that fits, if there is just one.
func only(list []int32, fits func(int32) bool) (one int32, ok bool) {
	n := 0
	for _, x := range list {
		if fits(x) {
			one = x
			n++
		}
	}
	return one, n == 1
}

func has(list []int32, x int32) bool { _, ok := slices.BinarySearch(list, x); return ok }

func (g *guards) note(failure int, r guard) {
	w := watched{r.by, r.alert}
	f := g.found[w]
	if f == nil {
		f = &Guardian{Alert: r.alert}
		g.found[w], g.takers[w] = f, map[int]int{}
		g.order = append(g.order, w)
	}
	f.Losses++
	if !slices.Contains(f.Functions, r.function) {
		f.Functions = append(f.Functions, r.function)
	}
	if !slices.Contains(f.Failures, failure) {
		f.Failures = append(f.Failures, failure)
	}
}

// taken notes the losses that are told worse once another failure is added and
// the guardian is gone.
func (g *guards) taken(resting []guard, other int, o *sweep.Outcome) {
	for _, r := range resting {
		l, lost := o.Loss(r.function)
		gone := !has(o.Given, r.by)
		if !r.alert {
			gone = has(o.Dark, r.by) || has(o.Wrong, r.by)
		}
		if lost && l.Mattered && l.Class > r.class && gone {
			g.takers[watched{r.by, r.alert}][other]++
		}
	}
}

func (g *guards) finish(w watched) Guardian {
	f := *g.found[w]
	f.ID = g.name(w)
	slices.Sort(f.Functions)
	slices.Sort(f.Failures)
	for _, n := range f.Functions {
		f.Weight += worth(g.Build.Functions[n].Graded(true)) // without it nobody knows
	}
	for failure, losses := range g.takers[w] {
		f.Takers = append(f.Takers, Taker{failure, losses})
	}
	slices.SortFunc(f.Takers, func(a, b Taker) int {
		return cmp.Or(-cmp.Compare(a.Losses, b.Losses), cmp.Compare(a.Failure, b.Failure))
	})
	return f
}

func (g *guards) name(w watched) string {
	if w.alert {
		return g.Build.Alerts[w.by].ID
	}
	return g.Build.Indications[w.by].ID
}
