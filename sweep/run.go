package sweep

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"slices"

	"knockon/book"
)

// Run works out a phase: every failure alone, and every set of up to order
// (1, 2 or 3) of them. progress, which may be nil, is told how many sets are
// done and how many there are to work out, as far as that is known; it is
// called from many goroutines.
func (s *Sweep) Run(ctx context.Context, phase, order int, progress func(done, all int64)) (*Sheet, error) {
	if phase < 0 || phase >= len(s.phases) {
		return nil, fmt.Errorf("the flight has phases 0 to %d, not %d", len(s.phases)-1, phase)
	}
	h, err := s.RunAt(ctx, s.phases[phase].At, order, progress)
	if err == nil {
		h.Phase = s.phases[phase]
	}
	return h, err
}

// RunAt works out the same for failures that strike at any moment of the flight
// after its start.
func (s *Sweep) RunAt(ctx context.Context, at book.Time, order int, progress func(done, all int64)) (*Sheet, error) {
	if order < 1 || order > 3 {
		return nil, fmt.Errorf("a sweep takes 1, 2 or 3 failures together, not %d", order)
	}
	w, err := s.newWork(ctx, at, progress)
	if err != nil {
		return nil, err
	}
	defer w.end()
	f := &found{phaseWork: w, singles: make([]uint32, len(s.failures)), reaches: make([]reach, len(s.failures))}
	if len(s.p.felt) > 0 {
		f.felt = make([]bool, len(s.failures))
	}
	w.all.Store(int64(len(s.failures)))
	if err := w.do(job{n: len(s.failures), set: func(i int) Set { return Set{i} }, of: f.singles, reaches: f.reaches, felt: f.felt}); err != nil {
		return nil, err
	}
	if err := w.employ(s.workers); err != nil {
		return nil, err
	}
	if order >= 2 {
		err = f.pairs(order)
	}
	if err == nil && order == 3 {
		err = f.triples()
	}
	if err != nil {
		return nil, err
	}
	return f.sheet(order), nil
}

// ErrNoPhases says that there is no phase for failures to strike in.
var ErrNoPhases = errors.New("it goes through no phase, and a sweep lets failures strike 5 s after each begins: add phase blocks to the book, in the order of the flight")

// RunAll works out many phases, as many at once as there are workers, and gives
// the sheet of each to done, in the order of the list.
func (s *Sweep) RunAll(ctx context.Context, phases []int, order int, progress func(done, all int64), done func(phase int, h *Sheet) error) error {
	if len(s.phases) == 0 {
		return ErrNoPhases
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	alone := *s
	alone.workers = 1
	sheets := make([]chan *Sheet, len(phases))
	for i := range sheets {
		sheets[i] = make(chan *Sheet, 1)
	}
	count := newCount(len(phases), progress)
	next := make(chan int)
	var failed firstError
	for range min(s.workers, len(phases)) {
		go func() {
			for i := range next {
				h, err := alone.caught(ctx, phases[i], order, count.of(i))
				if err != nil {
					failed.set(err)
					stop()
				}
				sheets[i] <- h
			}
		}()
	}
	go func() {
		defer close(next)
		for i := range phases {
			next <- i
		}
	}()
	var last error
	for i, c := range sheets {
		h := <-c
		if h == nil || last != nil {
			continue
		}
		if last = failed.get(); last == nil {
			if last = done(phases[i], h); last != nil {
				stop()
			}
		}
	}
	return cmp.Or(last, failed.get())
}

// caught is Run on a goroutine of its own: see phaseWork.caught.
func (s *Sweep) caught(ctx context.Context, phase, order int, progress func(done, all int64)) (h *Sheet, err error) {
	defer func() {
		if p := recover(); p != nil {
			h, err = nil, fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	return s.Run(ctx, phase, order, progress)
}

// Outcomes works out any sets of failures that strike at any moment of the
// flight after its start. Each is worked out, whether its failures meet or not.
func (s *Sweep) Outcomes(ctx context.Context, at book.Time, sets []Set) ([]Outcome, error) {
	w, err := s.newWork(ctx, at, nil)
	if err != nil {
		return nil, err
	}
	defer w.end()
	if err := w.employ(s.workers); err != nil {
		return nil, err
	}
	of := make([]uint32, len(sets))
	if err := w.do(job{n: len(sets), set: func(i int) Set { return sets[i] }, of: of}); err != nil {
		return nil, err
	}
	list := make([]Outcome, len(sets))
	lists := newShared()
	for i, n := range of {
		list[i] = s.p.outcome(w.outcomes[n], lists)
	}
	return list, nil
}

// found is what is known of a phase so far.
type found struct {
	*phaseWork
	singles []uint32
	reaches []reach // by failure
	felt    []bool  // by failure

	meets     [][]bool // by two failures
	before    [][]row  // outcomes as they were when the job began: parts are among them
	pairSet   []uint64
	pairOf    []uint32
	pairReach []reach // by pair that meets

	tripleSet []uint64
	tripleOf  []uint32
}

// pairs works out the pairs that meet.
func (f *found) pairs(order int) error {
	n := len(f.failures)
	f.meets = meetings(f.reaches)
	for a := range n {
		for b := a + 1; b < n; b++ {
			if f.meets[a][b] {
				f.pairSet = append(f.pairSet, Set{a, b}.Key())
			}
		}
	}
	f.all.Add(int64(len(f.pairSet)))
	f.pairOf = make([]uint32, len(f.pairSet))
	if order > 2 {
		f.pairReach = make([]reach, len(f.pairSet))
	}
	f.before = f.outcomes
	return f.do(job{n: len(f.pairSet), set: func(i int) Set { return SetOf(f.pairSet[i]) }, usual: f.usualPair, of: f.pairOf, reaches: f.pairReach})
}

// triples works out the triples in which one pair meets and the third failure
// meets what the pair does, or in which more than one pair meets.
func (f *found) triples() error {
	n := len(f.failures)
	for a := range n {
		for b := a + 1; b < n; b++ {
			for c := b + 1; c < n; c++ {
				if f.together(a, b, c) {
					f.tripleSet = append(f.tripleSet, Set{a, b, c}.Key())
				}
			}
		}
	}
	f.all.Add(int64(len(f.tripleSet)))
	f.tripleOf = make([]uint32, len(f.tripleSet))
	f.before = f.outcomes
	return f.do(job{n: len(f.tripleSet), set: func(i int) Set { return SetOf(f.tripleSet[i]) }, usual: f.usualTriple, of: f.tripleOf})
}

func (f *found) together(a, b, c int) bool {
	ab, ac, bc := f.meets[a][b], f.meets[a][c], f.meets[b][c]
	switch {
	case ab && (ac || bc) || ac && bc:
		return true
	case ab:
		return f.reachOfPair(a, b).meets(f.reaches[c])
	case ac:
		return f.reachOfPair(a, c).meets(f.reaches[b])
	case bc:
		return f.reachOfPair(b, c).meets(f.reaches[a])
	}
	return false
}

func (f *found) reachOfPair(a, b int) reach {
	i, _ := slices.BinarySearch(f.pairSet, Set{a, b}.Key())
	return f.pairReach[i]
}

// usualPair is what two failures come to if neither changes the other.
func (f *found) usualPair(s Set, into []row) []row {
	return mergeRows(f.before[f.singles[s[0]]], f.before[f.singles[s[1]]], into)
}

// usualTriple is what Sheet.Outcome makes of the parts of three failures.
func (f *found) usualTriple(s Set, into []row) []row {
	for i := range s {
		a, b := s[(i+1)%3], s[(i+2)%3]
		if a > b {
			a, b = b, a
		}
		if !f.meets[a][b] {
			continue
		}
		j, _ := slices.BinarySearch(f.pairSet, Set{a, b}.Key())
		if f.pairOf[j] != as {
			return mergeRows(f.before[f.pairOf[j]], f.before[f.singles[s[i]]], into)
		}
	}
	return mergeRows(f.usualPair(s[:2], nil), f.before[f.singles[s[2]]], into)
}

// sheet puts everything in order. Outcomes get their numbers by where they
// first come up, so that they do not depend on who was quicker.
func (f *found) sheet(order int) *Sheet {
	h := &Sheet{Order: order, Singles: f.singles, Felt: f.felt, Broken: f.broken}
	slices.Sort(h.Broken)
	pairs, pairOf := unusual(f.pairSet, f.pairOf)
	triples, tripleOf := unusual(f.tripleSet, f.tripleOf)
	h.Sets, h.Of = inOrder(pairs, pairOf, triples, tripleOf)
	number, lists := make([]uint32, len(f.outcomes)), newShared()
	for _, list := range [][]uint32{h.Singles, h.Of} {
		for i, n := range list {
			if number[n] == 0 {
				h.Outcomes = append(h.Outcomes, f.p.outcome(f.outcomes[n], lists))
				number[n] = uint32(len(h.Outcomes))
			}
			list[i] = number[n] - 1
		}
	}
	h.Outcomes = slices.Clip(slices.Clone(h.Outcomes))
	return h
}

// inOrder merges two ascending lists of sets and their outcomes.
func inOrder(a []uint64, aOf []uint32, b []uint64, bOf []uint32) ([]uint64, []uint32) {
	if len(b) == 0 {
		return a, aOf
	}
	sets, of := make([]uint64, 0, len(a)+len(b)), make([]uint32, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		if len(b) == 0 || len(a) > 0 && a[0] < b[0] {
			sets, of, a, aOf = append(sets, a[0]), append(of, aOf[0]), a[1:], aOf[1:]
		} else {
			sets, of, b, bOf = append(sets, b[0]), append(of, bOf[0]), b[1:], bOf[1:]
		}
	}
	return sets, of
}

// unusual keeps the sets that come to something else than their parts do.
func unusual(sets []uint64, of []uint32) (kept []uint64, keptOf []uint32) {
	for i, n := range of {
		if n != as {
			kept, keptOf = append(kept, sets[i]), append(keptOf, n)
		}
	}
	return kept, keptOf
}
