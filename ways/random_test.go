package ways_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/ways"
	"knockon/ways/logic"
)

// randomCircuit builds gates of all kinds over some events, each gate over
// events and earlier gates. The top joins the gates that no other gate uses.
func randomCircuit(r *rand.Rand, events, gates int, negation bool) (*logic.Logic, logic.Term) {
	l := logic.New()
	terms := randomEvents(r, l, events)
	used := map[logic.Term]bool{}
	for range gates {
		args := make([]logic.Term, 2+r.IntN(3))
		for i, at := range r.Perm(len(terms))[:len(args)] {
			args[i] = terms[at]
			used[args[i].Plain()] = true
		}
		terms = append(terms, randomGate(r, l, args, negation))
	}
	var loose []logic.Term
	for _, t := range terms[events:] {
		if !used[t.Plain()] && l.Op(t) != logic.Constant {
			loose = append(loose, t)
		}
	}
	return l, randomGate(r, l, loose, negation)
}

func randomEvents(r *rand.Rand, l *logic.Logic, n int) []logic.Term {
	var terms []logic.Term
	for i := range n {
		e := l.Event(fmt.Sprintf("e%d", i))
		if err := l.SetP(e, r.Float64()); err != nil {
			panic(err)
		}
		terms = append(terms, e)
	}
	return terms
}

// randomGate joins the arguments, a third of them as their opposites if there
// is to be negation.
func randomGate(r *rand.Rand, l *logic.Logic, args []logic.Term, negation bool) logic.Term {
	for i := range args {
		if negation && r.IntN(3) == 0 {
			args[i] = args[i].Not()
		}
	}
	switch r.IntN(8) {
	case 0, 1, 2:
		return l.And(args...)
	case 3, 4, 5:
		return l.Or(args...)
	case 6:
		return l.AtLeast(1+r.IntN(max(len(args), 1)), args...)
	}
	if negation {
		return l.Xor(args...)
	}
	return l.Or(args...)
}

// hardCircuit asks for a failure in each of many random triples. The number of
// its smallest sets grows fast with the number of triples.
func hardCircuit(r *rand.Rand, events, triples int, negation bool) (*logic.Logic, logic.Term) {
	l := logic.New()
	terms := randomEvents(r, l, events)
	var all []logic.Term
	for range triples {
		p := r.Perm(events)
		third := terms[p[2]]
		if negation && r.IntN(3) == 0 {
			third = third.Not()
		}
		all = append(all, l.Or(terms[p[0]], terms[p[1]], third))
	}
	return l, l.And(all...)
}

func TestFind_EqualsBruteForceOnRandomCircuits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	constant, tangled := 0, 0
	for n := 0; tangled < 3000; n++ {
		l, top := randomCircuit(r, 5+r.IntN(6), 3+r.IntN(15), n%4 != 0)
		yes := make([]bool, 1<<len(l.Events()))
		count := 0
		for c := range yes {
			yes[c] = l.Eval(top, func(e int) bool { return c>>e&1 == 1 })
			if yes[c] {
				count++
			}
		}
		w := find(t, l, top, ways.Options{})
		want := smallest(l, yes)
		if got := listed(t, w); !sameSets(got, want) {
			t.Fatalf("circuit %d: sets %q, by table %q", n, got, want)
		}
		if w.Never != (count == 0) || w.Always != (count == len(yes)) {
			t.Fatalf("circuit %d: never %v, always %v, but %d of %d cases", n, w.Never, w.Always, count, len(yes))
		}
		if w.Never || w.Always {
			constant++
		}
		if !w.Monotone() && !w.Never && !w.Always {
			tangled++
		}
		checkTruncated(t, l, top, want)
		checkRisk(t, l, yes, w)
	}
	if constant < 10 {
		t.Errorf("only %d constant circuits: they test too little", constant)
	}
}

// checkTruncated compares a search up to order 2 with the sets by table.
func checkTruncated(t *testing.T, l *logic.Logic, top logic.Term, sets []string) {
	t.Helper()
	var want []string
	for _, s := range sets {
		if len(strings.Fields(s)) <= 2 {
			want = append(want, s)
		}
	}
	w := find(t, l, top, ways.Options{Order: 2})
	if got := listed(t, w); !sameSets(got, want) || w.Why != nil || w.Complete != 2 {
		t.Fatalf("up to order 2: sets %q, want %q; complete %d", got, want, w.Complete)
	}
	if w.Never && len(sets) > 0 {
		t.Fatalf("said to be never true, but there is %q", sets)
	}
}

func checkRisk(t *testing.T, l *logic.Logic, yes []bool, w *ways.Ways) {
	t.Helper()
	risk, err := w.Risk(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if q := tableChance(l, yes, -1, 0); !near(risk.P, q, 1e-9) {
		t.Fatalf("P = %.15g, by table %.15g", risk.P, q)
	}
	for _, i := range risk.Events {
		q1, q0 := tableChance(l, yes, i.Event, 1), tableChance(l, yes, i.Event, 0)
		if d := i.Birnbaum - (q1 - q0); d > 1e-9 || d < -1e-9 {
			t.Fatalf("Birnbaum of %s %.12g, by table %.12g", l.Events()[i.Event].Name, i.Birnbaum, q1-q0)
		}
	}
}

// With little memory every answer must still be right up to the order that it
// names, and say what is missing.
func TestFind_PartialAnswersAreRight(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	partial := 0
	for n := range 6 {
		l, top := hardCircuit(r, 30, 40, n%2 == 0)
		full := find(t, l, top, ways.Options{})
		part := find(t, l, top, ways.Options{Megabytes: 1})
		if part.Complete == ways.AllOrders {
			continue
		}
		partial++
		if !errors.Is(part.Why, ways.ErrMemory) {
			t.Fatalf("circuit %d: complete up to order %d because of %v", n, part.Complete, part.Why)
		}
		for order := range part.Complete + 1 {
			if got, want := part.Count(order), full.Count(order); got.Cmp(want) != 0 {
				t.Errorf("circuit %d: %v sets of order %d, want %v", n, got, order, want)
			}
		}
		if part.Highest() > part.Complete {
			t.Errorf("circuit %d: sets of order %d above %d", n, part.Highest(), part.Complete)
		}
	}
	if partial < 3 {
		t.Errorf("only %d of 6 answers were partial: the circuits test too little", partial)
	}
}

// A search whose time is over says so and gives no answer that it cannot vouch
// for.
func TestFind_StopsWithItsContext(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 3))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	stopped := 0
	for range 6 {
		l, top := hardCircuit(r, 30, 40, true)
		w, err := ways.Find(ctx, l, top, ways.Options{})
		switch {
		case err != nil && errors.Is(err, context.Canceled):
			stopped++
		case err != nil:
			t.Fatal(err)
		case w.Complete < ways.AllOrders && !errors.Is(w.Why, context.Canceled):
			t.Fatalf("complete up to order %d because of %v", w.Complete, w.Why)
		}
	}
	if stopped == 0 {
		t.Error("no search was stopped: the circuits test too little")
	}
}
