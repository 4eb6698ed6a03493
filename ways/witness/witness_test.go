package witness_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"knockon/ways/logic"
	"knockon/ways/witness"
)

const events = 9

// random makes a logic of nested terms over nine events.
func random(r *rand.Rand, size int) (*logic.Logic, []logic.Term) {
	l := logic.New()
	var terms []logic.Term
	for i := range events {
		terms = append(terms, l.Event(fmt.Sprint("e", i)))
	}
	for range size {
		args := make([]logic.Term, 1+r.IntN(4))
		for i := range args {
			args[i] = terms[len(terms)-1-r.IntN(min(len(terms), 14))] ^ logic.Term(r.IntN(2))
		}
		made := []func() logic.Term{
			func() logic.Term { return l.And(args...) }, func() logic.Term { return l.Or(args...) },
			func() logic.Term { return l.Xor(args...) }, func() logic.Term { return l.AtLeast(1+r.IntN(4), args...) },
		}[r.IntN(4)]()
		terms = append(terms, made)
	}
	return l, terms
}

// holds says for which of all sets of events a term is true.
func holds(l *logic.Logic, t logic.Term) (cases [1 << events]bool) {
	for set := range cases {
		cases[set] = l.Eval(t, func(e int) bool { return set>>e&1 == 1 })
	}
	return cases
}

// TestFind_IsWhatTryingAllSetsSays, and the set that it gives does it; one finder
// is asked again and again, so what it has learnt is tried too.
func TestFind_IsWhatTryingAllSetsSays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	count := map[witness.Answer]int{}
	for range 60 {
		l, terms := random(r, 40)
		f := witness.New(l)
		for range 40 {
			a, b := terms[r.IntN(len(terms))], terms[r.IntN(len(terms))].Not()
			inA, inB := holds(l, a), holds(l, b)
			want := witness.None
			for set := range inA {
				if inA[set] && inB[set] {
					want = witness.Some
				}
			}
			got := f.Find(1<<20, a, b)
			if count[got]++; got != want {
				t.Fatalf("%v, want %v", got, want)
			}
			if got == witness.Some && !(l.Eval(a, f.Failed) && l.Eval(b, f.Failed)) {
				t.Fatal("the set does not do it")
			}
		}
	}
	if count[witness.None] < 200 || count[witness.Some] < 200 {
		t.Error("the test shows little:", count)
	}
}

func TestSame_IsWhatTryingAllSetsSays(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	same := 0
	for range 60 {
		l, terms := random(r, 60)
		f := witness.New(l)
		for range 60 {
			a, b := terms[r.IntN(len(terms))], terms[r.IntN(len(terms))]
			if r.IntN(2) == 0 { // the same in other words
				c := terms[r.IntN(len(terms))]
				b = l.Or(l.And(a, c), l.And(a, c.Not()))
			}
			want := holds(l, a) == holds(l, b)
			if got := f.Same(1<<20, a, b); (got == witness.None) != want || got == witness.Unknown {
				t.Fatalf("%v, want same %v", got, want)
			}
			if want && a != b {
				same++
			}
		}
	}
	if same < 200 {
		t.Error("the test shows little:", same)
	}
}

// TestFind_SaysThatItDoesNotKnow where it may not search long: that ten pigeons
// do not fit in nine holes has no short proof (Haken, 1985).
func TestFind_SaysThatItDoesNotKnow(t *testing.T) {
	l := logic.New()
	const holes = 9
	var all []logic.Term
	in := func(p, h int) logic.Term { return l.Event(fmt.Sprint(p, " in ", h)) }
	for p := range holes + 1 {
		var any []logic.Term
		for h := range holes {
			any = append(any, in(p, h))
			for q := range p {
				all = append(all, l.And(in(p, h), in(q, h)).Not())
			}
		}
		all = append(all, l.Or(any...))
	}
	if got := witness.New(l).Find(2000, l.And(all...)); got != witness.Unknown {
		t.Errorf("after 2000 tries: %v", got)
	}
}
