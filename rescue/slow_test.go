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

// slow is the search of docs/rescue.md in the obvious way: every set of up to two
// moves in every order, each flown from the start and compared at every instant
// of both records. It shares the words of the search, and nothing that works
// anything out.
type slow struct {
	t       *testing.T
	c       *run.Course
	asked   run.Scenario
	f       *book.Function
	base    *run.Record
	plain   map[string][]circuit.Span
	strike  book.Time
	flights map[string]*slowFlight
}

type slowFlight struct {
	arrives bool
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
		w.flights[key] = &slowFlight{here.Ending().Arrived() && there.Ending().Arrived(), w.bitesOf(here, there)}
	}
	return w.flights[key]
}

func (w *slow) actions(t book.Time, set Set) (list []run.Action) {
	for _, m := range set {
		list = append(list, run.Action{Control: m.Control.ID, Position: m.Position, At: book.Moment{Offset: t + m.After}}.Taken())
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
	b, was := after(x.bites[w.f.ID], t), after(w.plain[w.f.ID], t)
	switch {
	case !x.arrives:
		return Fails, nil, false
	case len(b) == 0:
		kind = Prevents
	case len(b) == 1 && b[0].From == t && len(was) > 0 && b[0].To+60*book.Second < was[len(was)-1].To:
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

func (w *slow) moments() (list []book.Time) {
	first := w.strike + 10*book.Second
	b := after(w.plain[w.f.ID], first)
	if len(b) == 0 {
		return nil
	}
	until, ends := b[0].From, false
	if until <= first {
		until, ends = b[len(b)-1].To, true
	}
	list = []book.Time{first}
	for _, p := range w.base.Phases() {
		if p.From > first && p.From < until {
			list = append(list, p.From)
		}
	}
	for k := range 12 {
		at := first + (until-first)*book.Time(k)/12
		if since := at - w.strike; since%book.Second != 0 {
			at = max(first, at-since%book.Second)
		}
		list = append(list, at)
	}
	if !ends {
		list = append(list, until)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// moves are those of all controls that the search says reach the function:
// TestControls holds that list to a slow one of its own.
func (w *slow) moves(controls []*book.Control, t book.Time) (list []Move) {
	for _, c := range controls {
		for _, p := range c.Positions {
			if p != w.stands(c, t) {
				list = append(list, Move{c, p, false}, Move{c, p, true})
			}
		}
	}
	return list
}

// at tries everything at one moment.
func (w *slow) at(t book.Time, controls []*book.Control, order int) (found []string) {
	counting, dear := map[Move]bool{}, map[Move]bool{}
	list := w.moves(controls, t)
	for _, m := range list {
		set := Set{{Move: m}}
		if kind, cost, counts := w.verdict(t, set); kind != Fails {
			found = append(found, said(set, kind, cost, counts))
			counting[m], dear[m] = counts, !counts
		}
	}
	for i, m := range list {
		for _, n := range list[i+1:] {
			if order > 1 && m.Control != n.Control && !counting[m] && !counting[n] {
				if x := w.pair(t, m, n, dear[m] || dear[n]); x != "" {
					found = append(found, x)
				}
			}
		}
	}
	slices.SortStableFunc(found, func(a, b string) int { return strings.Compare(a[:1], b[:1]) })
	return found
}

func (w *slow) pair(t book.Time, m, n Move, partly bool) (found string) {
	for _, set := range []Set{{{m, 0}, {n, 0}}, {{m, 0}, {n, 120 * book.Second}}, {{n, 0}, {m, 120 * book.Second}}} {
		kind, cost, counts := w.verdict(t, set)
		if kind == Fails {
			continue
		}
		enough := false
		for _, part := range []Set{{set[0]}, {set[1]}} {
			k, _, c := w.verdict(t, part)
			enough = enough || k != Fails && (c || !counts)
		}
		switch {
		case enough:
		case counts:
			return said(set, kind, cost, counts)
		case found == "" && !partly:
			found = said(set, kind, cost, counts)
		}
	}
	return found
}

func said(set Set, kind Kind, cost []string, counts bool) string {
	rank := 1
	if counts {
		rank = 0
	}
	return fmt.Sprint(rank, " ", set.key(), " ", kind, " ", cost)
}

// spoken is what the search found at a moment, in the same words.
func spoken(x *Tried) (list []string) {
	for _, f := range x.Found {
		var cost []string
		for _, c := range f.Costs {
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
	got, err := search(context.Background(), c, Question{Scenario: s, Function: f.ID, Order: order, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	w := newSlow(t, c, s, f)
	times := w.moments()
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
		have, want := spoken(x), w.at(at, got.Controls, order)
		if !slices.Equal(have, want) {
			t.Errorf("%s at %d (strike %d):\n have %s\n want %s", f.ID, at, w.strike, strings.Join(have, "\n      "), strings.Join(want, "\n      "))
			return sets
		}
		sets += len(want)
	}
	return sets
}
