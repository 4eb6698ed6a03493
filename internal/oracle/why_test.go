package oracle_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/oracle"
	"knockon/run"
	"knockon/why"
)

// whys is how many random books to explain values of, from KNOCKON_WHY.
func whys(t testing.TB) int {
	t.Helper()
	text := os.Getenv("KNOCKON_WHY")
	if text == "" {
		return 200
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("KNOCKON_WHY: %v", err)
	}
	return n
}

// inquiry is one scenario whose values are explained. The leaves of each
// explanation are put into the other run by flying it with these failures and
// actions; the oracle does so on random books, which share no code with what
// explains.
type inquiry struct {
	t           *testing.T
	here, there *run.Record
	all, beside oracle.Scenario // this run, and the other
	again       func(oracle.Scenario, circuit.Value) (valueOf, bool)
	about       string
	sum         *whySum
	failed      bool
}

// valueOf gives the values that an item had at a moment, those of no duration
// among them; the last is the one that settled.
type valueOf func(v circuit.Value, at book.Time) []string

// Most moments of a scenario that are looked at, and most values explained that
// are the same in both runs.
const (
	mostMoments = 150
	mostSame    = 12
)

type whySum struct{ scenarios, values, leaves, flights, loops, mutual, same, bad int }

func (s whySum) String() string {
	return fmt.Sprintf("%d scenarios, %d values that differ with %d leaves, proven by %d flights (%d not, since they break off before the moment), %d that hang on the order inside an instant, %d values that are the same",
		s.scenarios, s.values, s.leaves, s.flights, s.loops, s.mutual, s.same)
}

// TestWhyOnGrid explains values of random books with every kind of memory, and
// loops through them; the oracle flies what proves the leaves.
func TestWhyOnGrid(t *testing.T) { whyOnBooks(t, whys(t), false) }

// TestWhySmooth does so where numbers run; package run flies.
func TestWhySmooth(t *testing.T) { whyOnBooks(t, whys(t), true) }

func whyOnBooks(t *testing.T, n int, smooth bool) {
	var sum whySum
	for seed := range uint64(n) {
		whyOnBook(t, seed, smooth, &sum)
		if sum.bad >= 5 {
			t.FailNow()
		}
	}
	t.Log(sum)
	if sum.mutual*200 > sum.values {
		t.Errorf("of %d values %d hang on the order inside an instant", sum.values, sum.mutual)
	}
}

func whyOnBook(t *testing.T, seed uint64, smooth bool, sum *whySum) {
	f := makeFlight(t, seed, smooth)
	if q := f.inquire(t, sum, smooth); q != nil {
		sum.scenarios++
		q.explainSome(rand.New(rand.NewPCG(seed, 9)), 4)
	}
}

// lettingGo is a scenario without hands that stay on a control: no question whose
// answer is explained has any.
func lettingGo(s oracle.Scenario) oracle.Scenario {
	s.Actions = slices.Clone(s.Actions)
	for i := range s.Actions {
		s.Actions[i].Held = false
	}
	return s
}

// inquire flies a random scenario and the run without its failures, in which
// every other action is left out too; nil where the flight cannot start.
func (f flightOf) inquire(t *testing.T, sum *whySum, smooth bool) *inquiry {
	f.scenario = lettingGo(f.scenario)
	c := course(t, f.build, f.build.Flights[0], newScript(t, f.path, randomEnd), f.watch...)
	q := &inquiry{t: t, sum: sum, about: f.String(), all: f.scenario}
	q.beside = oracle.Scenario{Inoperative: f.scenario.Inoperative}
	for i, a := range f.scenario.Actions {
		if i%2 == 0 || a.When != nil { // put in as one at a time, a condition may come in another evaluation
			q.beside.Actions = append(q.beside.Actions, a)
		}
	}
	here, errHere := c.Fly(t.Context(), scenarioOf(f.scenario))
	there, errThere := c.Fly(t.Context(), scenarioOf(q.beside))
	if errHere != nil || errThere != nil {
		return nil
	}
	q.here, q.there = here, there
	q.again = func(s oracle.Scenario, v circuit.Value) (valueOf, bool) {
		if n, _ := here.Circuit().Node(v); smooth || here.Circuit().Type(n) == book.Number {
			return flownBy(t, c, s) // the oracle samples numbers before counts go up
		}
		g := f
		g.scenario = s
		trace, loop := g.fly(t, book.AtSeconds(gridStep))
		end := book.Never
		if loop != nil {
			end = loop.At - 1
		}
		return func(v circuit.Value, at book.Time) []string {
			if at > end {
				return nil
			}
			return historyOf(trace, here.Circuit(), v).at(at)
		}, true
	}
	return q
}

// flownBy flies a scenario with package run.
func flownBy(t *testing.T, c *run.Course, s oracle.Scenario) (valueOf, bool) {
	r, err := c.Fly(t.Context(), scenarioOf(s))
	return func(v circuit.Value, at book.Time) (texts []string) {
		n, _ := r.Circuit().Node(v)
		if at > r.End {
			return nil
		}
		for i, instant := range r.Instants() {
			if instant == at {
				texts = append(texts, textOf(r.Circuit(), n, r.In(n, at, i)))
			}
		}
		return append(texts, textOf(r.Circuit(), n, r.At(n, at)))
	}, err == nil
}

// past is a history of the oracle as texts.
type past []struct {
	at   book.Time
	text string
}

func historyOf(trace *oracle.Trace, c *circuit.Circuit, v circuit.Value) (p past) {
	n, _ := c.Node(v)
	for _, h := range trace.Histories {
		if node, ok := nodeIn(c, h.Aspect); !ok || node != n || h.Of == oracle.Sounds {
			continue
		}
		for _, ch := range h.Changes {
			text := ch.Value.Word
			if c.Type(n) != book.Word {
				text = textOf(c, n, ch.Value.Number)
			}
			p = append(p, struct {
				at   book.Time
				text string
			}{ch.At, text})
		}
		return p
	}
	return nil
}

func (p past) at(t book.Time) (texts []string) {
	for _, c := range p {
		switch {
		case c.at < t:
			texts = []string{c.text}
		case c.at == t:
			texts = append(texts, c.text)
		}
	}
	return texts
}

// textOf is a value as a text; numbers that differ by rounding have the same.
func textOf(c *circuit.Circuit, n circuit.Node, v float64) string {
	if c.Type(n) != book.Number {
		return c.Text(n, v)
	}
	return fmt.Sprintf("%.12g", v+0)
}

// explainSome explains some values at moments at which they differ, and at some
// at which they do not.
func (q *inquiry) explainSome(r *rand.Rand, most int) {
	list := slices.Clone(q.here.Circuit().Values())
	r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	end := min(q.here.End, q.there.End)
	times := slices.Concat(q.here.Instants(), q.there.Instants())
	slices.Sort(times)
	times = slices.Compact(slices.DeleteFunc(times, func(at book.Time) bool { return at >= end }))
	if r.Shuffle(len(times), func(i, j int) { times[i], times[j] = times[j], times[i] }); len(times) > mostMoments {
		times = times[:mostMoments]
	}
	slices.Sort(times)
	same := 0
	for _, v := range list {
		var differ []book.Time
		for _, at := range times {
			if !near(q.text(q.here, v.Node, at), q.text(q.there, v.Node, at)) {
				differ = append(differ, at)
			}
		}
		if len(differ) == 0 {
			if same++; same <= mostSame {
				q.same(v.Value, times[r.IntN(len(times))])
			}
			continue
		}
		if most--; most < 0 {
			return
		}
		q.explain(v.Value, differ[0])
		q.explain(v.Value, differ[r.IntN(len(differ))])
	}
}

func (q *inquiry) text(r *run.Record, n circuit.Node, at book.Time) string {
	return textOf(r.Circuit(), n, r.At(n, at))
}

// same explains a value that is the same in both runs: all it says is true.
func (q *inquiry) same(v circuit.Value, at book.Time) {
	root, _ := why.Compare(q.here, q.there, v, at)
	q.sum.same++
	q.eachStep(root, func(s *why.Step) { q.isTrue(s) })
}

// explain explains a value that differs, and proves its leaves.
func (q *inquiry) explain(v circuit.Value, at book.Time) {
	root, _ := why.Compare(q.here, q.there, v, at)
	q.sum.values++
	var leaves []*why.Step
	q.eachStep(root, func(s *why.Step) {
		q.isTrue(s)
		if len(s.Because) == 0 && !slices.ContainsFunc(leaves, func(o *why.Step) bool { return o.Value == s.Value && o.Since == s.Since }) {
			leaves = append(leaves, s)
		}
	})
	q.sum.leaves += len(leaves)
	if len(leaves) == 0 || leaves[0] == root && root.Kind == why.Derived {
		q.wrong(root, "no leaf")
		return
	}
	if enough, ok := q.has(root, leaves); ok && !enough {
		if has, ok := q.hasWith(root, q.everything()); ok && !has {
			q.sum.mutual++
			return
		}
		q.wrong(root, "the leaves are not enough")
	}
	for i := range leaves {
		rest := slices.Delete(slices.Clone(leaves), i, i+1)
		if enough, ok := q.has(root, rest); ok && enough {
			q.wrong(root, fmt.Sprintf("%s is not needed", leaves[i].Value))
		}
	}
}

// has says whether the other run with leaves put in has the value.
func (q *inquiry) has(root *why.Step, leaves []*why.Step) (has, ok bool) {
	s := q.beside
	s.Failures, s.Actions = slices.Clone(s.Failures), slices.Clone(s.Actions)
	for _, l := range leaves {
		if !q.put(&s, l) {
			q.wrong(root, fmt.Sprintf("%s %s is no failure and no control moved", l.Value, l.Says))
			return false, false
		}
	}
	return q.hasWith(root, s)
}

// everything is the other run with all failures as they were here and all
// actions.
func (q *inquiry) everything() oracle.Scenario {
	s := q.beside
	s.Failures, s.Actions = nil, q.all.Actions
	c := q.here.Circuit()
	for _, ref := range c.Ways() {
		v := circuit.Value{Item: ref.Unit, Aspect: circuit.Aspect(ref.Fault)}
		if ref.Fault == "" {
			v.Aspect = circuit.Failed
		}
		n, _ := c.Node(v)
		for _, sp := range q.here.Spans(n) {
			q.put(&s, &why.Step{Value: v, Kind: why.Fails, Yes: true, Since: sp.From})
		}
	}
	return s
}

func (q *inquiry) hasWith(root *why.Step, s oracle.Scenario) (has, ok bool) {
	values, ok := q.again(s, root.Value)
	if !ok {
		q.sum.loops++
		return false, false
	}
	q.sum.flights++
	n, _ := q.here.Circuit().Node(root.Value)
	want := textOf(q.here.Circuit(), n, q.here.At(n, root.At))
	got := values(root.Value, root.At)
	if got == nil {
		q.sum.loops++
		return false, false
	}
	if near(want, q.text(q.there, n, root.At)) { // it has the value for no time
		return slices.ContainsFunc(got, func(g string) bool { return !near(g, want) }), true
	}
	return near(got[len(got)-1], want), true
}

// near says that two texts are the same, or numbers that differ by what a total
// does that was added up in other pieces.
func near(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	return a == b || errX == nil && errY == nil && max(x-y, y-x) <= 1e-6*max(x, y, -x, -y)
}

// put adds a leaf to a scenario, for as long as it was so here.
func (q *inquiry) put(s *oracle.Scenario, l *why.Step) bool {
	n, _ := q.here.Circuit().Node(l.Value)
	if l.Kind == why.Acted {
		s.Actions = append(s.Actions, oracle.Action{At: l.Since, Control: l.Value.Item, Position: l.Says})
		return true
	}
	if l.Kind != why.Fails || !l.Yes {
		return false
	}
	f := oracle.Failure{Ref: book.FailureRef{Unit: l.Value.Item}, At: l.Since}
	if l.Value.Aspect != circuit.Failed {
		f.Ref.Fault = string(l.Value.Aspect)
	}
	for _, sp := range q.here.Spans(n) {
		if sp.From == l.Since && sp.To < q.here.End {
			f.Lasts = max(sp.To-sp.From, 1)
		}
	}
	s.Failures = append(s.Failures, f)
	return true
}

// isTrue holds a step to the record: it had this value at that moment, and had
// it since it says.
func (q *inquiry) isTrue(s *why.Step) {
	n, ok := q.here.Circuit().Node(s.Value)
	if !ok || q.here.Circuit().Type(n) != book.YesNo {
		return
	}
	yes := q.here.At(n, s.At) != 0
	if s.Fleeting {
		if yes == s.Yes {
			q.wrong(s, "it is not fleeting")
		}
		return
	}
	if yes != s.Yes {
		q.wrong(s, "it is not so at its moment")
	}
	for _, ch := range q.here.History(n) {
		if ch.At > s.Since && ch.At < s.At {
			q.wrong(s, "it is not so since then")
		}
	}
	if s.Since > s.At || math.IsNaN(s.At.Seconds()) {
		q.wrong(s, "it is so since later")
	}
}

func (q *inquiry) eachStep(root *why.Step, visit func(*why.Step)) {
	seen := map[*why.Step]bool{}
	var walk func(*why.Step)
	walk = func(s *why.Step) {
		if seen[s] {
			return
		}
		seen[s] = true
		visit(s)
		for _, w := range s.While {
			q.isTrue(w)
		}
		for _, b := range s.Because {
			walk(b)
		}
	}
	walk(root)
}

func (q *inquiry) wrong(s *why.Step, what string) {
	if q.sum.bad++; q.failed {
		return
	}
	q.failed = true
	q.t.Errorf("%s: %s\n%s%s", s.Value, what, chainText(s, 0), q.about)
}

func chainText(s *why.Step, depth int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s %s [%s] at %g since %g fleeting %t\n", strings.Repeat("  ", depth), s.Value, s.Says, s.Kind, s.At.Seconds(), s.Since.Seconds(), s.Fleeting)
	for _, c := range s.Because {
		b.WriteString(chainText(c, depth+1))
	}
	return b.String()
}
