package ways_test

import (
	"context"
	"math/big"
	"strings"
	"testing"

	"knockon/internal/tree"
	"knockon/ways"
	"knockon/ways/logic"
)

func TestFind_ConditionsThatFailuresDoNotDecide(t *testing.T) {
	l := logic.New()
	a, b, c := l.Event("a"), l.Event("b"), l.Event("c")
	cases := []struct {
		name          string
		top           logic.Term
		never, always bool
		sets          []string
	}{
		{"constant no", logic.False, true, false, nil},
		{"constant yes", logic.True, false, true, []string{""}},
		{"hidden no", l.And(l.Xor(a, b), l.AtLeast(2, a, b, c), l.And(l.Or(a, c), l.Or(b, c)).Not()), true, false, nil},
		{"hidden yes", l.Or(l.And(a, b), l.And(a, b.Not()), l.And(a.Not(), c), l.And(a.Not(), c.Not())), false, true, []string{""}},
		{"holds at rest, not always", l.And(a, b).Not(), false, false, []string{""}},
		{"one event", a, false, false, []string{"a"}},
		{"its opposite", a.Not(), false, false, []string{""}},
		{"a without b", l.And(a, b.Not()), false, false, []string{"a"}},
		{"one of two", l.Xor(a, b), false, false, []string{"a", "b"}},
	}
	for _, c := range cases {
		w := find(t, l, c.top, ways.Options{})
		if w.Never != c.never || w.Always != c.always || !sameSets(listed(t, w), c.sets) {
			t.Errorf("%s: never %v, always %v, sets %q", c.name, w.Never, w.Always, listed(t, w))
		}
	}
}

// 40 pairs in a row, one of each: 2^40 sets. They are counted, and no more are
// listed than asked for.
func TestList_RefusesMoreThanAsked(t *testing.T) {
	l := logic.New()
	var pairs []logic.Term
	for i := range 40 {
		name := strings.Repeat("x", i+1)
		pairs = append(pairs, l.Or(l.Event(name+"a"), l.Event(name+"b")))
	}
	w := find(t, l, l.And(pairs...), ways.Options{})
	if want := new(big.Int).Lsh(big.NewInt(1), 40); tree.Total(w).Cmp(want) != 0 || w.Count(40).Cmp(want) != 0 {
		t.Errorf("%v sets, want 2^40", tree.Total(w))
	}
	sets, all := w.List(40, 100)
	if len(sets) != 100 || all {
		t.Errorf("%d sets listed, all: %v", len(sets), all)
	}
	again, _ := w.List(40, 100)
	for i := range sets {
		if strings.Join(w.Names(sets[i]), " ") != strings.Join(w.Names(again[i]), " ") {
			t.Fatal("another list the second time")
		}
	}
}

// 100 triples in a row, any of three each: 3^100 sets, more than fit a machine
// word.
func TestCount_IsExactBeyondMachineWords(t *testing.T) {
	l := logic.New()
	var triples []logic.Term
	for i := range 100 {
		n := big.NewInt(int64(i)).String()
		triples = append(triples, l.Or(l.Event(n+"a"), l.Event(n+"b"), l.Event(n+"c")))
	}
	w := find(t, l, l.And(triples...), ways.Options{})
	if want := new(big.Int).Exp(big.NewInt(3), big.NewInt(100), nil); tree.Total(w).Cmp(want) != 0 {
		t.Errorf("%v sets, want 3^100", tree.Total(w))
	}
}

func TestRisk_NeedsProbabilities(t *testing.T) {
	l := logic.New()
	w := find(t, l, l.And(l.Event("a"), l.Event("b")), ways.Options{})
	if _, err := w.Risk(context.Background()); err == nil || !strings.Contains(err.Error(), "a has no probability") {
		t.Errorf("got %v", err)
	}
	if _, err := w.Bounds(); err == nil {
		t.Error("bounds without probabilities")
	}
}

func TestBounds_AreRefusedWhereAFailureCanPrevent(t *testing.T) {
	l := logic.New()
	w := find(t, l, l.And(l.Event("a"), l.Event("b").Not()), ways.Options{})
	if w.Monotone() {
		t.Error("said that no failure can prevent it")
	}
	if _, err := w.Bounds(); err == nil {
		t.Error("bounds for a condition that a failure can prevent")
	}
}
