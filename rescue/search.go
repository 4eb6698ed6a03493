package rescue

import (
	"context"
	"slices"
	"sync"

	"knockon/book"
	"knockon/run"
)

// Found is a smallest set of moves that rescues at a moment.
type Found struct {
	Set    Set
	Kind   Kind
	Counts bool // its worst cost is less severe than the function
}

// Tried is a moment at which moves were tried, and what was found there: those
// that count before those that are dearer.
type Tried struct {
	At    book.Time
	Order int // of sets of up to so many moves
	Moves int // single moves that there are
	Found []Found

	delay  delay // the longest that a single move brought
	proven bool  // lost whatever is moved, and however often
}

// delay is a loss put off.
type delay struct {
	by  book.Time
	set Set
}

// Search is all that was found, moment by moment, before windows are worked out.
type Search struct {
	*grove
	Controls []*book.Control // that reach the function
	Order    int
	Tried    []*Tried

	only []Move // no others are tried; nil: all
}

// Progress is told how much of the work is done.
type Progress func(done, of int)

// search looks for the smallest sets of moves at every moment tried.
func search(ctx context.Context, c *run.Course, q Question, tell Progress) (*Search, error) {
	b, err := newBase(ctx, c, q.Scenario, q.Function)
	if err != nil {
		return nil, err
	}
	s := &Search{Order: min(max(q.Order, 1), mostOrder), only: q.Only}
	times, main := b.moments(b.loss)
	if len(times) == 0 {
		s.grove = &grove{base: b}
		return s, nil
	}
	if s.grove, err = newGrove(ctx, b); err != nil {
		return nil, err
	}
	s.Controls = s.web.controls(c.Build)
	done := 0
	var mu sync.Mutex
	s.Tried = make([]*Tried, len(times))
	err = share(ctx, q.Workers, len(times), func(ctx context.Context, i int) error {
		order := s.Order
		if !slices.Contains(main, times[i]) {
			order = 1
		}
		t, err := s.at(ctx, times[i], order)
		mu.Lock()
		defer mu.Unlock()
		s.Tried[i] = t
		if done++; tell != nil {
			tell(done, len(times))
		}
		return err
	})
	return s, err
}

// share does n pieces of work with so many hands.
func share(ctx context.Context, workers, n int, work func(context.Context, int) error) error {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	next := make(chan int)
	var hands sync.WaitGroup
	for range max(1, workers) {
		hands.Go(func() {
			for i := range next {
				if err := work(ctx, i); err != nil {
					stop(err)
				}
			}
		})
	}
	for i := range n {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	hands.Wait()
	return context.Cause(ctx)
}

// moment is the search at one moment.
type moment struct {
	*Search
	ctx    context.Context
	most   int // moves
	stem   *stem
	moves  []Move
	known  map[string]*outcome
	begun  map[string]*attempt // the first moves of sets, made and flown up to the last
	pairs  map[string]*attempt // the same of two moves, one of which leads
	led    Move                // that one
	plain  *outcome            // without moves
	number map[string]int      // of a control, by its id
	all    []int               // all numbers
	lost   map[string]bool     // sets of controls that cannot bring the function back
	lanes  [][][]int           // sets of controls: one, up to two, up to three
	asks   []how               // with which it is asked for these
	found  []Found
	best   delay
}

// at looks for the smallest sets of so many moves at one moment.
func (s *Search) at(ctx context.Context, t book.Time, most int) (*Tried, error) {
	stem, err := s.thin.stem(ctx, t)
	if err != nil {
		return nil, err
	}
	m := &moment{Search: s, ctx: ctx, most: most, stem: stem, moves: s.tryable(stem), known: map[string]*outcome{}, begun: map[string]*attempt{}, pairs: map[string]*attempt{}}
	if err := m.ask(); err != nil {
		return nil, err
	}
	for order := 1; order <= most; order++ {
		if err := m.sets(order, nil, 0); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(m.found, func(a, b Found) int { return rank(a) - rank(b) })
	return &Tried{At: t, Order: most, Moves: len(m.moves), Found: m.found, delay: m.best, proven: m.lost[laneOf(slices.Clone(m.all)...)] || !m.plain.helped(m.all)}, nil
}

// tryable lists the moves that there are at a moment, of those asked for.
func (s *Search) tryable(x *stem) []Move {
	all := moves(s.Controls, x.stood)
	if s.only == nil {
		return all
	}
	return slices.DeleteFunc(all, func(m Move) bool { return !slices.Contains(s.only, m) })
}

func rank(f Found) int {
	if f.Counts {
		return 0
	}
	return 1
}

// sets goes through all sets of so many more moves, in the order of the book.
func (m *moment) sets(more int, chosen []Move, next int) error {
	if more == 0 {
		return m.weigh(chosen)
	}
	for i := next; i < len(m.moves); i++ {
		if len(chosen) == 0 {
			m.lead(m.moves[i])
		}
		if !fits(chosen, m.moves[i]) {
			continue
		}
		if err := m.sets(more-1, append(chosen[:len(chosen):len(chosen)], m.moves[i]), i+1); err != nil {
			return err
		}
	}
	return nil
}

// fits says that a move may stand in a set: each is of another control, and at
// most one is put back.
func fits(chosen []Move, m Move) bool {
	return !slices.ContainsFunc(chosen, func(c Move) bool { return c.Control == m.Control || c.Back && m.Back })
}

// weigh looks whether moves rescue, made together or one after another. The
// first way that counts is found, else the first that is dear.
func (m *moment) weigh(chosen []Move) error {
	if m.contains(chosen) {
		return nil
	}
	var dear *Found
	for _, delays := range orders(len(chosen)) {
		set := make(Set, len(chosen))
		for i, c := range chosen {
			set[i] = Placed{c, delays[i]}
		}
		set = sorted(set)
		f, err := m.rescue(set)
		switch {
		case err != nil:
			return err
		case f == nil:
		case f.Counts:
			m.found = append(m.found, *f)
			return nil
		case dear == nil:
			dear = f
		}
	}
	if dear != nil {
		m.found = append(m.found, *dear)
	}
	return nil
}

// contains says that a part of the moves was found to rescue and count.
func (m *moment) contains(chosen []Move) bool {
	return slices.ContainsFunc(m.found, func(f Found) bool {
		return f.Counts && !slices.ContainsFunc(f.Set, func(p Placed) bool { return !slices.Contains(chosen, p.Move) })
	})
}

// rescue says whether a set rescues and no part of it does; nil if not.
func (m *moment) rescue(set Set) (*Found, error) {
	if m.useless(set) || m.neverMeets(set) {
		return nil, nil
	}
	if m.dearer(set) { // listed only if it counts
		if o, err := m.try(m.ctx, m.grave, m.stem.at, set, how{}); err != nil || !o.rescues() || o.dear {
			return nil, err
		}
	}
	o, err := m.fly(set)
	if err != nil || !o.rescues() {
		return nil, err
	}
	f := &Found{Set: set, Kind: o.kind}
	if f.Counts, err = m.worth(set, o); err != nil {
		return nil, err
	}
	for _, part := range parts(set) {
		enough, err := m.suffices(part, f.Counts)
		if enough || err != nil {
			return nil, err
		}
	}
	if !f.Counts && m.dearer(set) {
		return nil, nil
	}
	return f, nil
}

// suffices says that a part of a set rescues, and counts if the set does.
func (m *moment) suffices(part Set, count bool) (bool, error) {
	o, err := m.fly(part)
	if err != nil || !o.rescues() || !count {
		return err == nil && o.rescues(), err
	}
	return m.worth(part, o)
}

// worth says of a set that rescues that it counts.
func (m *moment) worth(set Set, o *outcome) (bool, error) {
	if !o.weighed {
		x, err := m.try(m.ctx, m.grave, m.stem.at, set, how{})
		if err != nil {
			return false, err
		}
		o.dear, o.weighed = x.dear, true
	}
	return !o.dear, nil
}

// dearer says that a part of a dear set, made in its own way, was found already.
func (m *moment) dearer(set Set) bool {
	var all []Move
	for _, p := range set {
		all = append(all, p.Move)
	}
	return slices.ContainsFunc(m.found, func(f Found) bool {
		return len(f.Set) < len(set) && !slices.ContainsFunc(f.Set, func(p Placed) bool { return !slices.Contains(all, p.Move) })
	})
}

// parts lists the proper parts of a set, each move at its own time.
func parts(set Set) (list []Set) {
	for mask := 1; mask < 1<<len(set)-1; mask++ {
		var part Set
		for i, p := range set {
			if mask>>i&1 != 0 {
				part = append(part, p)
			}
		}
		list = append(list, part)
	}
	return list
}

// fly gives the outcome of a set at this moment, once.
func (m *moment) fly(set Set) (*outcome, error) {
	key := set.key()
	if o, ok := m.known[key]; ok {
		return o, nil
	}
	o, err := m.flyOn(set)
	if err != nil {
		return nil, err
	}
	m.known[key] = o
	m.put(o, set)
	return o, nil
}

// put notes how far a single move puts off a loss that has not begun.
func (m *moment) put(o *outcome, set Set) {
	without := from(m.loss, m.stem.at)
	if o.nobody || len(set) > 1 || o.first == book.Never || len(without) == 0 || without[0].From <= m.stem.at {
		return
	}
	if by := o.first - without[0].From; by > m.best.by && m.putsOff(o) {
		m.best = delay{by, set}
	}
}
