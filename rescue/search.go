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
	Costs  []Cost
	Counts bool // its worst cost is less severe than the function
}

// Tried is a moment at which moves were tried, and what was found there: those
// that count before those that are dearer.
type Tried struct {
	At    book.Time
	Moves int // single moves that there are
	Found []Found

	delay  delay // the longest that anything brought
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
}

// Progress is told how much of the work is done.
type Progress func(done, of int)

// search looks for the smallest sets of moves at every moment tried.
func search(ctx context.Context, c *run.Course, q Question, tell Progress) (*Search, error) {
	b, err := newBase(ctx, c, q.Scenario, q.Function)
	if err != nil {
		return nil, err
	}
	s := &Search{Order: min(max(q.Order, 1), mostOrder)}
	times := b.moments(b.bites[b.f])
	if len(times) == 0 {
		s.grove = &grove{base: b}
		return s, nil
	}
	if s.grove, err = newGrove(ctx, b); err != nil {
		return nil, err
	}
	s.Controls = s.web.controls(c.Build, b.functions[b.f])
	done := 0
	var mu sync.Mutex
	s.Tried = make([]*Tried, len(times))
	err = share(ctx, q.Workers, len(times), func(ctx context.Context, i int) error {
		t, err := s.at(ctx, times[i])
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
	stem   *stem
	moves  []Move
	known  map[string]*outcome
	plain  *outcome       // without moves
	number map[string]int // of a control, by its id
	all    []int          // all numbers
	lanes  [][][]int      // sets of controls: one, up to two, up to three
	found  []Found
	best   delay
}

// at looks for the smallest sets at one moment.
func (s *Search) at(ctx context.Context, t book.Time) (*Tried, error) {
	stem, err := s.stem(ctx, t)
	if err != nil {
		return nil, err
	}
	m := &moment{Search: s, ctx: ctx, stem: stem, moves: moves(s.Controls, stem.stood), known: map[string]*outcome{}}
	if err := m.ask(); err != nil {
		return nil, err
	}
	for order := 1; order <= s.Order; order++ {
		if err := m.sets(order, nil, 0); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(m.found, func(a, b Found) int { return rank(a) - rank(b) })
	return &Tried{At: t, Moves: len(m.moves), Found: m.found, delay: m.best, proven: !m.plain.helped(m.all)}, nil
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
		if len(chosen) > 0 && chosen[len(chosen)-1].Control == m.moves[i].Control {
			continue
		}
		if err := m.sets(more-1, append(chosen[:len(chosen):len(chosen)], m.moves[i]), i+1); err != nil {
			return err
		}
	}
	return nil
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
	o, err := m.fly(set)
	if err != nil || !o.rescues() {
		return nil, err
	}
	f := &Found{Set: set, Kind: o.kind, Costs: o.costs, Counts: counts(m.functions[m.f], o.costs)}
	for _, part := range parts(set) {
		p, err := m.fly(part)
		if err != nil {
			return nil, err
		}
		if p.rescues() && (!f.Counts || counts(m.functions[m.f], p.costs)) {
			return nil, nil
		}
	}
	if !f.Counts && m.dearer(set) {
		return nil, nil
	}
	return f, nil
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
	o, err := m.try(m.ctx, m.stem, set, false, m.lanesBeside(set))
	if err != nil {
		return nil, err
	}
	m.known[key] = o
	m.put(o, set)
	return o, nil
}

// put notes how far a set that is made together puts off a loss that has not begun.
func (m *moment) put(o *outcome, set Set) {
	without := from(m.bites[m.f], m.stem.at)
	if !set.together() || o.first == book.Never || len(without) == 0 || without[0].From <= m.stem.at {
		return
	}
	if by := o.first - without[0].From; by > m.best.by {
		m.best = delay{by, set}
	}
}
