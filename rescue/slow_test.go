package rescue

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
)

// slow is the search of docs/rescue.md in the obvious way: every set of moves
// in every order, each flown from the start and compared at every instant
// of both records. It shares the words of the search, and nothing that works
// anything out.
type slow struct {
	t       *testing.T
	c       *run.Course
	asked   run.Scenario
	f       *book.Function // nil: the flight
	base    *run.Record
	plain   map[string][]circuit.Span
	strike  book.Time
	flights map[string]*slowFlight
}

type slowFlight struct {
	arrives bool
	works   bool      // the function, when it was over
	gone    book.Time // when first, from just before the moves on, nobody could make one
	bites   map[string][]circuit.Span
}

func newSlow(t *testing.T, c *run.Course, s run.Scenario, f *book.Function) *slow {
	w := &slow{t: t, c: c, asked: s, f: f, flights: map[string]*slowFlight{}}
	here, there := w.fly(nil)
	w.base, w.plain = here, w.bitesOf(here, there)
	w.strike, _ = here.FirstStrike()
	return w
}

func (w *slow) fly(more []run.Action) (here, there *run.Record) {
	s := w.asked
	s.Actions = append(slices.Clone(s.Actions), more...)
	here, err := w.c.Fly(context.Background(), s)
	if err != nil {
		w.t.Fatal(err)
	}
	if there, err = w.c.Beside(context.Background(), here); err != nil {
		w.t.Fatal(err)
	}
	return here, there
}

// bitesOf looks at every instant of both records.
func (w *slow) bitesOf(here, there *run.Record) map[string][]circuit.Span {
	end := min(here.End, there.End)
	times := append(slices.Concat(here.Instants(), there.Instants()), end)
	slices.Sort(times)
	times = slices.Compact(times)
	all := map[string][]circuit.Span{}
	for _, f := range w.c.Build.Functions {
		is := func(r *run.Record, a circuit.Aspect, at book.Time) bool {
			n, ok := r.Circuit().Node(circuit.Value{Item: f.ID, Aspect: a})
			return ok && r.At(n, at) != 0
		}
		var lost, wanted []circuit.Span
		for i, at := range times {
			if at >= end {
				break
			}
			p := circuit.Span{From: at, To: times[i+1]}
			if is(there, circuit.Main, at) && !is(here, circuit.Main, at) {
				lost = joined(lost, p, 0)
			}
			if is(there, circuit.Wanted, at) || is(here, circuit.Wanted, at) {
				wanted = joined(wanted, p, 0)
			}
		}
		var gone []circuit.Span
		for _, p := range lost {
			if p.To-p.From > 1000 { // less is rounding
				gone = joined(gone, p, ledger.WrongAfter(w.c.Build.Aircraft)-1)
			}
		}
		for _, p := range gone {
			for _, q := range wanted {
				if x := (circuit.Span{From: max(p.From, q.From), To: min(p.To, q.To)}); x.From < x.To {
					all[f.ID] = append(all[f.ID], x)
				}
			}
		}
	}
	return all
}

// joined adds a stretch to a list, as one with the last if no more than gap lies
// between.
func joined(list []circuit.Span, p circuit.Span, gap book.Time) []circuit.Span {
	if n := len(list) - 1; n >= 0 && p.From-list[n].To <= gap {
		list[n].To = p.To
		return list
	}
	return append(list, p)
}

func (w *slow) flight(t book.Time, set Set) *slowFlight {
	key := fmt.Sprint(t, set.key())
	if w.flights[key] == nil {
		here, there := w.fly(w.actions(t, set))
		x := &slowFlight{arrives: here.Ending().Arrived(), bites: w.bitesOf(here, there), gone: gone(here, t)}
		if w.f != nil {
			n, _ := here.Circuit().Node(circuit.Value{Item: w.f.ID})
			x.arrives, x.works = x.arrives && there.Ending().Arrived(), here.At(n, min(here.End, there.End)-1) != 0
		}
		w.flights[key] = x
	}
	return w.flights[key]
}

// gone is when first nobody can move a control, of a record from just before a moment on.
func gone(r *run.Record, t book.Time) book.Time {
	n, ok := r.Circuit().Node(circuit.Value{Item: r.Course.Build.Aircraft.ID, Aspect: circuit.CrewAble})
	for _, at := range append([]book.Time{t - 1}, r.Instants()...) {
		if ok && at >= t-1 && r.At(n, at) == 0 {
			return at
		}
	}
	return book.Never
}

func (w *slow) actions(t book.Time, set Set) (list []run.Action) {
	for _, m := range set {
		list = append(list, run.Action{Control: m.Control.ID, Position: m.Position, At: book.Moment{Offset: t + m.After}, Held: m.Held}.Taken())
		if m.Back {
			list = append(list, run.Action{Control: m.Control.ID, Position: w.stands(m.Control, t), At: book.Moment{Offset: t + m.After + 3*book.Second}}.Taken())
		}
	}
	return list
}

func (w *slow) stands(c *book.Control, t book.Time) string {
	n, _ := w.base.Circuit().Node(circuit.Value{Item: c.ID})
	return w.base.Circuit().WordText(w.base.At(n, t-1))
}

// after is what of a list lies at t or later.
func after(list []circuit.Span, t book.Time) (rest []circuit.Span) {
	for _, p := range list {
		if p.To > t {
			rest = append(rest, circuit.Span{From: max(p.From, t), To: p.To})
		}
	}
	return rest
}

// verdict of a set made at t: what it does, and what it costs.
func (w *slow) verdict(t book.Time, set Set) (kind Kind, cost []string, counts bool) {
	x := w.flight(t, set)
	for _, a := range w.actions(t, set) {
		if a.At.Offset > x.gone {
			return Fails, nil, false
		}
	}
	if w.f == nil {
		return w.arrival(t, x)
	}
	b, was := after(x.bites[w.f.ID], t), after(w.plain[w.f.ID], t)
	switch {
	case !x.arrives:
		return Fails, nil, false
	case len(b) == 0:
		kind = Prevents
	case x.works && len(b) == 1 && b[0].From == t && len(was) > 0 && b[0].To+60*book.Second < was[len(was)-1].To:
		kind = Ends
	default:
		return Fails, nil, false
	}
	counts = true
	for _, f := range w.c.Build.Functions {
		is, was := after(x.bites[f.ID], t), after(w.plain[f.ID], t)
		if f != w.f && len(is) > 0 && (len(was) == 0 || is[0].From+60*book.Second < was[0].From) {
			cost = append(cost, f.ID)
			counts = counts && slices.Index(book.Severities, f.Severity) < slices.Index(book.Severities, w.f.Severity)
		}
	}
	return kind, cost, counts
}

func (w *slow) moments() (list, main []book.Time) {
	first := w.strike + 10*book.Second
	b := w.loss(first)
	if len(b) == 0 {
		return nil, nil
	}
	until, ends := b[0].From, w.f == nil // at its end nothing can be moved
	if until <= first {
		until, ends = b[len(b)-1].To, true
	}
	list = []book.Time{first}
	for _, p := range w.base.Phases() {
		if p.From > first && p.From < until {
			list = append(list, p.From)
		}
	}
	main = slices.Clone(list)
	for k := range 12 {
		at := first + (until-first)*book.Time(k)/12
		if since := at - w.strike; since%book.Second != 0 {
			at = max(first, at-since%book.Second)
		}
		list = append(list, at)
		if k == 4 || k == 8 {
			main = append(main, at)
		}
	}
	if !ends {
		list, main = append(list, until), append(main, until)
	}
	slices.Sort(list)
	slices.Sort(main)
	return slices.Compact(list), slices.Compact(main)
}

// moves are those of some controls; that others do not reach the function, a test of
// its own says (TestReaching_OtherControlsChangeNothing).
func (w *slow) moves(controls []*book.Control, t book.Time) (list []Move) {
	for _, c := range controls {
		for _, p := range c.Positions {
			if p != w.stands(c, t) {
				list = append(list, Move{Control: c, Position: p}, Move{Control: c, Position: p, Back: true})
			}
		}
	}
	return list
}

// at tries everything at one moment.
func (w *slow) at(t book.Time, controls []*book.Control, order int) (found []string) {
	var counting, listed [][]Move
	within := func(list [][]Move, chosen []Move) bool {
		return slices.ContainsFunc(list, func(part []Move) bool {
			return !slices.ContainsFunc(part, func(m Move) bool { return !slices.Contains(chosen, m) })
		})
	}
	for size := 1; size <= order; size++ {
		for _, chosen := range choices(w.moves(controls, t), size) {
			if within(counting, chosen) {
				continue
			}
			x := w.best(t, chosen, within(listed, chosen))
			if x == "" {
				continue
			}
			if found = append(found, x); x[0] == '0' {
				counting = append(counting, chosen)
			}
			listed = append(listed, chosen)
		}
	}
	slices.SortStableFunc(found, func(a, b string) int { return strings.Compare(a[:1], b[:1]) })
	return found
}

// choices are the ways to take so many moves of different controls, at most one of
// which is put back.
func choices(list []Move, size int) (all [][]Move) {
	if size == 0 {
		return [][]Move{nil}
	}
	for i, m := range list {
		for _, rest := range choices(list[i+1:], size-1) {
			if !slices.ContainsFunc(rest, func(r Move) bool { return r.Control == m.Control || r.Back && m.Back }) {
				all = append(all, append([]Move{m}, rest...))
			}
		}
	}
	return all
}

// ways to time moves: together, then one after another.
func ways(chosen []Move) (list []Set) {
	var together Set
	for _, m := range chosen {
		together = append(together, Placed{m, 0})
	}
	list = append(list, together)
	if len(chosen) == 1 {
		return list
	}
	var next func(done Set, rest []Move)
	next = func(done Set, rest []Move) {
		if len(rest) == 0 {
			list = append(list, slices.Clone(done))
		}
		for i, m := range rest {
			next(append(done, Placed{m, book.Time(len(done)) * 120 * book.Second}), slices.Concat(rest[:i], rest[i+1:]))
		}
	}
	next(nil, chosen)
	return list
}

// best is the first way that counts, else the first that is dear, if no part of
// it does.
func (w *slow) best(t book.Time, chosen []Move, partly bool) (found string) {
	for _, set := range ways(chosen) {
		kind, cost, counts := w.verdict(t, set)
		switch {
		case kind == Fails || w.enough(t, set, counts):
		case counts:
			return said(set, kind, cost, counts)
		case found == "" && !partly:
			found = said(set, kind, cost, counts)
		}
	}
	return found
}

// enough says that a proper part, each move at its own time, rescues and counts if
// the whole does.
func (w *slow) enough(t book.Time, set Set, counts bool) bool {
	for mask := 1; mask < 1<<len(set)-1; mask++ {
		var part Set
		for i, p := range set {
			if mask>>i&1 != 0 {
				part = append(part, p)
			}
		}
		if k, _, c := w.verdict(t, part); k != Fails && (c || !counts) {
			return true
		}
	}
	return false
}

func said(set Set, kind Kind, cost []string, counts bool) string {
	rank := 1
	if counts {
		rank = 0
	}
	return fmt.Sprint(rank, " ", set.key(), " ", kind, " ", cost)
}

// spoken is what the search found at a moment, in the same words.
func spoken(t *testing.T, s *Search, x *Tried) (list []string) {
	for _, f := range x.Found {
		o, err := s.made(context.Background(), s.whole, x.At, f.Set, true)
		if err != nil {
			t.Fatal(err)
		}
		var cost []string
		for _, c := range o.costs {
			cost = append(cost, c.Function.ID)
		}
		list = append(list, said(f.Set, f.Kind, cost, f.Counts))
	}
	return list
}

// same compares the search with the slow way, at every so many of the moments
// tried, and gives how many sets both found.
func same(t *testing.T, c *run.Course, s run.Scenario, f *book.Function, order, every int) (sets int) {
	t.Helper()
	got, err := search(context.Background(), c, Question{Scenario: s, Function: idOf(f), Order: order, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	w := newSlow(t, c, s, f)
	times, main := w.moments()
	if len(times) != len(got.Tried) {
		t.Fatalf("%d moments, want %d", len(got.Tried), len(times))
	}
	for i, at := range times {
		x := got.Tried[i]
		if x.At != at {
			t.Fatalf("moment %d is %d, want %d", i, x.At, at)
		}
		if i%every != 0 {
			continue
		}
		most := 1
		if slices.Contains(main, at) {
			most = order
		}
		have, want := spoken(t, got, x), w.at(at, got.Controls, most)
		if !slices.Equal(have, want) {
			t.Errorf("%s at %d (strike %d):\n have %s\n want %s", idOf(f), at, w.strike, strings.Join(have, "\n      "), strings.Join(want, "\n      "))
			return sets
		}
		sets += len(want)
	}
	return sets
}
