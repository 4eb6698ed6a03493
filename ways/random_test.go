package ways_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
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
	constant, tangled, dropped := 0, 0, 0
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
		dropped += checkRisk(t, l, yes, w)
	}
	if dropped < 100 {
		t.Errorf("only %d events drop out of their condition: they test too little", dropped)
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

// checkRisk compares the importances of every event, of those that drop out of
// the condition too, with what the table gives by their definitions in
// docs/meaning.md, section 9.
func checkRisk(t *testing.T, l *logic.Logic, yes []bool, w *ways.Ways) (dropped int) {
	t.Helper()
	risk, err := w.Risk(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	q := tableChance(l, yes, -1, 0)
	if !near(risk.P, q, 1e-9) {
		t.Fatalf("P = %.15g, by table %.15g", risk.P, q)
	}
	sets := setsOf(t, w)
	for _, i := range risk.Events {
		p, q1, q0 := l.Events()[i.Event].P, tableChance(l, yes, i.Event, 1), tableChance(l, yes, i.Event, 0)
		if q1 == q0 {
			dropped++
		}
		for name, pair := range map[string][2]float64{
			"Birnbaum": {i.Birnbaum, q1 - q0}, "criticality": {i.Criticality, p * (q1 - q0) / q}, "diagnostic": {i.Diagnostic, p * q1 / q},
			"risk achievement": {i.RiskAchievement, q1 / q}, "risk reduction": {i.RiskReduction, q / q0},
		} {
			if got, want := pair[0], pair[1]; !alike(got, want) {
				t.Fatalf("%s of %s is %.12g, by table %.12g", name, l.Events()[i.Event].Name, got, want)
			}
		}
		if !w.Monotone() {
			continue
		}
		fv, err := w.FussellVesely(context.Background(), i.Event)
		if want := holdingChance(l, sets, i.Event) / q; err != nil || !alike(fv, want) {
			t.Fatalf("Fussell-Vesely of %s is %.12g (%v), by table %.12g", l.Events()[i.Event].Name, fv, err, want)
		}
	}
	return dropped
}

// alike says that two figures are the same but for rounding; a ratio to a number
// that is 0, and was 0 but for rounding, is without end or very large.
func alike(got, want float64) bool {
	if math.IsNaN(want) {
		return math.IsNaN(got)
	}
	return got == want || math.Abs(got-want) <= 1e-9*(1+math.Abs(want)) || math.Abs(want) > 1e7 && math.Abs(got) > 1e7
}

func setsOf(t *testing.T, w *ways.Ways) (all []ways.Set) {
	t.Helper()
	for order := 0; order <= w.Highest(); order++ {
		sets, _ := w.List(order, 1<<20)
		all = append(all, sets...)
	}
	return all
}

// holdingChance is how likely it is that all members of a set that holds an
// event have failed, case by case.
func holdingChance(l *logic.Logic, sets []ways.Set, event int) float64 {
	var masks []int
	for _, s := range sets {
		mask := 0
		for _, e := range s {
			mask |= 1 << e
		}
		if mask>>event&1 == 1 {
			masks = append(masks, mask)
		}
	}
	yes := make([]bool, 1<<len(l.Events()))
	for c := range yes {
		yes[c] = slices.ContainsFunc(masks, func(m int) bool { return c&m == m })
	}
	return tableChance(l, yes, -1, 0)
}

// TestRisk_OfWhatDropsOut: in u0 && (u1 || u0) the second unit plays no part, so
// all is as likely with it as without it, whatever its chance, known or not.
func TestRisk_OfWhatDropsOut(t *testing.T) {
	ctx := context.Background()
	l := logic.New()
	u0, u1 := l.Event("u0"), l.Event("u1")
	if err := l.SetP(u0, 0.25); err != nil {
		t.Fatal(err)
	}
	lost := l.And(u0.Not(), l.Or(u1.Not(), u0.Not())).Not()
	risk, err := find(t, l, lost, ways.Options{}).Risk(ctx)
	if err != nil || risk.P != 0.25 || len(risk.Events) != 1 {
		t.Fatalf("with a chance unknown that plays no part: %+v, %v", risk, err)
	}
	if err := l.SetP(u1, 0.5); err != nil {
		t.Fatal(err)
	}
	w := find(t, l, lost, ways.Options{})
	if risk, err = w.Risk(ctx); err != nil || len(risk.Events) != 2 {
		t.Fatalf("%+v, %v", risk, err)
	}
	want := ways.Importance{Event: 1, P: 0.5, Birnbaum: 0, Criticality: 0, Diagnostic: 0.5, RiskAchievement: 1, RiskReduction: 1}
	if risk.Events[1] != want {
		t.Errorf("%+v, want %+v", risk.Events[1], want)
	}
	if fv, err := w.FussellVesely(ctx, 1); fv != 0 || err != nil {
		t.Errorf("Fussell-Vesely %v, %v, want 0", fv, err)
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
