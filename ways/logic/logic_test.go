package logic_test

import (
	"math"
	"math/bits"
	"testing"

	"knockon/ways/logic"
)

func abc() (l *logic.Logic, a, b, c logic.Term) {
	l = logic.New()
	return l, l.Event("a"), l.Event("b"), l.Event("c")
}

func TestLogic_SimplifiesWhatIsPlain(t *testing.T) {
	l, a, b, c := abc()
	cases := []struct {
		name      string
		got, want logic.Term
	}{
		{"the same event", l.Event("a"), a},
		{"and of nothing", l.And(), logic.True},
		{"or of nothing", l.Or(), logic.False},
		{"and of one", l.And(a), a},
		{"twice the same", l.Or(a, b, a), l.Or(a, b)},
		{"opposites", l.And(a, b, a.Not()), logic.False},
		{"a or not a", l.Or(a, a.Not()), logic.True},
		{"yes or", l.Or(a, logic.True), logic.True},
		{"yes and", l.And(a, logic.True), a},
		{"none needed", l.AtLeast(0, a, b), logic.True},
		{"too many needed", l.AtLeast(3, a, b), logic.False},
		{"one needed", l.AtLeast(1, a, b), l.Or(a, b)},
		{"all needed", l.AtLeast(2, a, b), l.And(a, b)},
		{"one is given", l.AtLeast(2, a, b, c, logic.True), l.Or(a, b, c)},
		{"xor with itself", l.Xor(a, b, a), b},
		{"xor with the opposite", l.Xor(a, b.Not()), l.Xor(a, b).Not()},
		{"xor with yes", l.Xor(a, logic.True), a.Not()},
		{"not not", a.Not().Not(), a},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.name, c.got, c.want)
		}
	}
}

func TestLogic_EvaluatesEveryOperation(t *testing.T) {
	l, a, b, c := abc()
	terms := map[string]logic.Term{
		"00000001": l.And(a, b, c),
		"01111111": l.Or(a, b, c),
		"01101001": l.Xor(a, b, c),
		"00010111": l.AtLeast(2, a, b, c),
		"00110101": l.If(a, c, b),
		"11110000": a.Not(),
	}
	for want, term := range terms {
		for n := range 8 {
			yes := l.Eval(term, func(e int) bool { return n>>(2-e)&1 == 1 })
			if yes != (want[n] == '1') {
				t.Errorf("%s: case %03b is %v", want, n, yes)
			}
		}
	}
}

func TestLanes_AreSeparateCases(t *testing.T) {
	l := logic.New()
	var events []logic.Term
	for _, name := range []string{"a", "b", "c", "d", "e", "f"} {
		events = append(events, l.Event(name))
	}
	// Lane i has the events of the binary digits of i.
	lanes := l.Lanes(l.AtLeast(3, events...), func(e int) (v uint64) {
		for i := range 64 {
			v |= uint64(i>>e&1) << i
		}
		return v
	})
	for i := range 64 {
		if want := bits.OnesCount(uint(i)) >= 3; lanes>>i&1 == 1 != want {
			t.Errorf("case %06b: %v, want %v", i, !want, want)
		}
	}
}

func TestSetP_RefusesWhatIsNoProbability(t *testing.T) {
	l, a, b, _ := abc()
	for _, p := range []float64{-0.1, 1.1, math.NaN(), math.Inf(1)} {
		if err := l.SetP(a, p); err == nil {
			t.Errorf("%v was taken", p)
		}
	}
	if err := l.SetP(l.And(a, b), 0.5); err == nil {
		t.Error("a gate was given a probability")
	}
	if err := l.SetP(a, 0.5); err != nil || l.Events()[0].P != 0.5 {
		t.Errorf("P is %v, %v", l.Events()[0].P, err)
	}
}
