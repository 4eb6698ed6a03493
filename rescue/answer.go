package rescue

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"knockon/book"
	"knockon/run"
)

// Answer is what can be done about the loss of a function.
type Answer struct {
	Course   *run.Course
	Function *book.Function // nil: the flight
	Strike   book.Time
	First    book.Time // when it first bites, from ten seconds after the strike on
	Last     book.Time // when it last stops biting
	Bites    bool      // at all, from then on
	Order    int
	Moments  []book.Time     // at which single moves were tried
	Main     []book.Time     // those at which larger sets were
	Controls []*book.Control // that reach the function
	Moves    int             // the most single moves that there were at a moment
	Rescues  []*Rescue       // those that count, then those that are dearer
	Delay    book.Time       // the longest that a single move puts the loss off; 0: none does
	DelayBy  Set
	DelayAt  book.Time
	DearHalf bool    // what puts it off longest is as bad: it is not told
	Crew     *Crewed // nil: nobody asked
	Proven   bool    // nothing counts of any order: the function is lost whatever is moved, at all moments tried

	*base
}

// Rescue is a smallest set of moves with the time that there is for it.
type Rescue struct {
	Set     Set
	Kind    Kind // at the first moment at which it rescues
	Counts  bool
	Costs   []Cost // at that moment
	At      book.Time
	Windows []Window
	Members []Member         // of a set made together: the time for each, the others made at the first moment
	Parts   []Part           // proper parts, at the first moment
	Without []*book.Function // of a flight that arrives: what else it has been without from where it would have broken off
	Landed  *run.Record      // of a flight that arrives, made at the first moment

	Held     bool      // flown once more with the crew by the book, it rescues as well
	HeldBy   Kind      // what it does then
	HeldFrom book.Time // it does not hold, but is lost for a while: works from then on; 0: else
	Crewed   bool      // that was asked
	Lists    []Listing // of the lists that are called, those that move what the set moves
}

// Window is a stretch of time in which a set can be made, to a second.
type Window struct {
	From, To book.Time
	Open     bool // nothing later was tried
}

// Member is a move of a set with its own time.
type Member struct {
	Move   Placed
	Window Window
}

// Part is a proper part of a set and what it does alone.
type Part struct {
	Set    Set
	Does   Does
	By     book.Time // Delays, BringsForward: so much
	Costs  []Cost
	Counts bool
}

// Does is what a part does.
type Does uint8

// What a part may do.
const (
	Nothing Does = iota
	Delays
	BringsForward
	Elsewhere // it makes another flight of it, on which the loss comes later all the same
	EndsIt
	PreventsIt // but the flight does not arrive, or the cost is too high
)

// Of looks for the smallest sets of moves that rescue a function, and works out
// what there is to say of each.
func Of(ctx context.Context, c *run.Course, q Question, tell Progress) (*Answer, error) {
	s, err := search(ctx, c, q, tell)
	if err != nil {
		return nil, err
	}
	return s.answer(ctx, q)
}

func (s *Search) answer(ctx context.Context, q Question) (*Answer, error) {
	a := &Answer{Course: s.course, Function: s.inQuestion(), Strike: s.strike, Order: s.Order, Controls: s.Controls, base: s.base}
	b := from(s.loss, s.strike+soonest)
	if a.Bites = len(b) > 0; !a.Bites {
		return a, nil
	}
	a.First, a.Last = b[0].From, last(b)
	if s.f == flight {
		a.First = s.loss[0].From
	}
	a.Rescues = s.listed()
	a.Proven = true
	for _, t := range s.Tried {
		if a.Moments = append(a.Moments, t.At); t.Order > 1 {
			a.Main = append(a.Main, t.At)
		}
		a.Moves = max(a.Moves, t.Moves)
		a.Proven = a.Proven && t.proven
		if t.delay.by > a.Delay {
			a.Delay, a.DelayBy, a.DelayAt = t.delay.by, t.delay.set, t.At
		}
	}
	if q.Best {
		if err := s.best(ctx, a); err != nil {
			return nil, err
		}
	}
	err := share(ctx, q.Workers, len(a.Rescues), func(ctx context.Context, i int) error { return s.detail(ctx, a.Rescues[i]) })
	a.sort()
	return a, errors.Join(err, s.dearHalf(ctx, a))
}

// best leaves the first of what an answer lists, in its order.
func (s *Search) best(ctx context.Context, a *Answer) error {
	for _, r := range a.Rescues {
		o, err := s.made(ctx, s.whole, r.At, r.Set, true)
		if err != nil {
			return err
		}
		r.Costs = worstFirst(o.costs)
	}
	a.sort()
	a.Rescues = a.Rescues[:min(1, len(a.Rescues))]
	return nil
}

// listed gathers what was found at the moments tried: each set once.
func (s *Search) listed() (list []*Rescue) {
	known := map[string]*Rescue{}
	for _, t := range s.Tried {
		for _, f := range t.Found {
			r := known[f.Set.key()]
			switch {
			case r == nil:
				r = &Rescue{Set: f.Set, Kind: f.Kind, Counts: f.Counts, At: t.At}
				known[f.Set.key()] = r
				list = append(list, r)
			case f.Counts && !r.Counts: // dearer at first
				*r = Rescue{Set: f.Set, Kind: f.Kind, Counts: true, At: t.At}
			}
		}
	}
	return list
}

// sort puts those that count first, the small and the cheap before the others.
func (a *Answer) sort() {
	slices.SortStableFunc(a.Rescues, func(a, b *Rescue) int {
		return cmp.Or(rankOf(a)-rankOf(b), len(a.Set)-len(b.Set), severest(a.Costs)-severest(b.Costs), cmp.Compare(a.At, b.At), len(a.Costs)-len(b.Costs))
	})
}

func rankOf(r *Rescue) int { return rank(Found{Counts: r.Counts}) }

// severest is the place of the worst cost, -2 where there is none.
func severest(costs []Cost) int {
	worst := -2
	for _, c := range costs {
		worst = max(worst, severity(c.Function))
	}
	return worst
}

func worstFirst(costs []Cost) []Cost {
	costs = slices.Clone(costs)
	slices.SortStableFunc(costs, func(a, b Cost) int { return severity(b.Function) - severity(a.Function) })
	return costs
}

// detail works out the windows of a set, those of its members, and what its
// parts do.
func (s *Search) detail(ctx context.Context, r *Rescue) (err error) {
	among := s.thin // what is dear anyway may be so at any price
	if r.Counts {
		among = s.grave
	}
	ok := func(t book.Time) (bool, error) {
		o, err := s.made(ctx, among, t, r.Set, false)
		return err == nil && o != nil && o.rescues() && !(r.Counts && o.dear), err
	}
	var times []book.Time
	for _, t := range s.Tried {
		times = append(times, t.At)
	}
	if s.f == flight {
		times, ok = s.toTheBreak(times, ok)
	}
	if r.Windows, err = windows(times, ok); err != nil {
		return err
	}
	o, err := s.made(ctx, s.whole, r.At, r.Set, true)
	if err != nil {
		return err
	}
	r.Costs = worstFirst(o.costs)
	if s.f == flight {
		if err := s.landing(ctx, r, o); err != nil {
			return err
		}
	}
	if r.Counts && len(r.Set) > 1 {
		if r.Set.together() {
			if err := s.members(ctx, r, times); err != nil {
				return err
			}
		}
		return s.halves(ctx, r)
	}
	return nil
}

// made flies a set at any moment; nil where a control stands there already.
func (s *Search) made(ctx context.Context, w *wood, t book.Time, set Set, whole bool) (*outcome, error) {
	stood := s.stood(t)
	for _, p := range set {
		if stood(p.Control.ID) == p.Position {
			return nil, nil
		}
	}
	return s.try(ctx, w, t, set, how{whole: whole})
}

// windows lists the stretches in which something succeeds, from what it does at
// the moments tried; where success and failure meet, to a second, by halving.
func windows(times []book.Time, ok func(book.Time) (bool, error)) (list []Window, err error) {
	open := false
	for i, t := range times {
		yes, err := ok(t)
		if err != nil {
			return nil, err
		}
		switch {
		case yes && !open:
			w := Window{From: t, To: t}
			if i > 0 {
				if _, w.From, err = halve(times[i-1], t, func(t book.Time) (bool, error) { y, err := ok(t); return !y, err }); err != nil {
					return nil, err
				}
			}
			list = append(list, w)
		case !yes && open:
			w := &list[len(list)-1]
			if w.To, _, err = halve(times[i-1], t, ok); err != nil {
				return nil, err
			}
		}
		if open = yes; yes {
			list[len(list)-1].To = t
		}
	}
	if open {
		list[len(list)-1].Open = true
	}
	return list, nil
}

// halve finds, between a moment at which something is so and one at which it is
// not, two that are a second apart at most.
func halve(is, not book.Time, so func(book.Time) (bool, error)) (last, first book.Time, err error) {
	for not-is > book.Second {
		mid := is + (not-is)/2
		mid -= mid % (book.Second / 10)
		if mid <= is {
			break
		}
		yes, err := so(mid)
		if err != nil {
			return 0, 0, err
		}
		if yes {
			is = mid
		} else {
			not = mid
		}
	}
	return is, not, nil
}

// members gives each move of a set its own time, with the others made at the
// first moment.
func (s *Search) members(ctx context.Context, r *Rescue, times []book.Time) error {
	times = slices.DeleteFunc(slices.Clone(times), func(t book.Time) bool { return t < r.At })
	for i := range r.Set {
		ok := func(t book.Time) (bool, error) {
			set := slices.Clone(r.Set)
			set[i].After = t - r.At
			o, err := s.made(ctx, s.grave, r.At, sorted(set), false)
			return err == nil && o != nil && o.rescues() && !o.dear, err
		}
		list, err := windows(times, ok)
		if err != nil {
			return err
		}
		if len(list) > 0 {
			r.Members = append(r.Members, Member{r.Set[i], list[0]})
		}
	}
	return nil
}

// halves says what each proper part of a set does at its first moment.
func (s *Search) halves(ctx context.Context, r *Rescue) error {
	for _, set := range parts(r.Set) {
		o, err := s.made(ctx, s.whole, r.At, set, true)
		if err != nil {
			return err
		}
		r.Parts = append(r.Parts, s.part(set, o, r.At))
	}
	return nil
}

// leastShift is the least time by which a loss comes sooner or later that is told.
const leastShift = book.Second

func (s *Search) part(set Set, o *outcome, t book.Time) Part {
	p := Part{Set: set, Costs: worstFirst(o.costs), Counts: s.counts(o.costs)}
	was := from(s.loss, t)
	switch o.kind {
	case Prevents:
		p.Does = PreventsIt
		return p
	case Ends:
		p.Does = EndsIt
		return p
	}
	switch by := o.first - was[0].From; {
	case by > leastShift:
		if p.Does = Elsewhere; s.putsOff(o) {
			p.Does, p.By = Delays, by
		}
	case -by > leastShift:
		p.Does, p.By = BringsForward, -by
	}
	return p
}
