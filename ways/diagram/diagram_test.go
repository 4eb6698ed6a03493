package diagram_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/ways/diagram"
)

var ctx = context.Background()

func vars(t *testing.T, d *diagram.Decisions, n int) []diagram.Ref {
	t.Helper()
	list := make([]diagram.Ref, n)
	for i := range list {
		f, err := d.Var(i)
		if err != nil {
			t.Fatal(err)
		}
		list[i] = f
	}
	return list
}

// value follows a diagram down.
func value(d *diagram.Decisions, f diagram.Ref, yes func(int) bool) bool {
	for d.Level(f) >= 0 {
		no, on := d.Branch(f)
		if yes(d.Level(f)) {
			f = on
		} else {
			f = no
		}
	}
	return f == diagram.Yes
}

// members lists the sets of a family.
func members(s *diagram.Families, z diagram.Family) (sets []string) {
	var visit func(z diagram.Family, set []int)
	visit = func(z diagram.Family, set []int) {
		switch {
		case z == diagram.Unit:
			sets = append(sets, fmt.Sprint(set))
		case z != diagram.Nothing:
			without, with := s.Branch(z)
			visit(without, set)
			visit(with, append(slices.Clone(set), s.Level(z)))
		}
	}
	visit(z, nil)
	slices.Sort(sets)
	return sets
}

func TestAtLeast_OfDifferentEvents(t *testing.T) {
	binomial := map[[2]int]int{{3, 2}: 3, {8, 3}: 56, {10, 5}: 252, {6, 6}: 1, {7, 1}: 7}
	for nk, want := range binomial {
		d := diagram.NewDecisions(ctx, 10000)
		f, err := d.AtLeast(nk[1], vars(t, d, nk[0])...)
		if err != nil {
			t.Fatal(err)
		}
		s := diagram.NewFamilies(ctx, 10000)
		z, err := s.Minimal(d, f, diagram.AllOrders)
		if got := len(members(s, z)); got != want || err != nil {
			t.Errorf("%d of %d has %d smallest sets, want %d (%v)", nk[1], nk[0], got, want, err)
		}
		if least, most := s.Orders(z); least != nk[1] || most != nk[1] {
			t.Errorf("orders %d to %d, want %d", least, most, nk[1])
		}
	}
}

// By hand: {{a,b},{a,c},{b,c}} with a first takes four nodes as a family.
func TestFamilies_SizeOfTwoOfThree(t *testing.T) {
	s := diagram.NewFamilies(ctx, 100)
	z, err := s.Of([][]int{{0, 1}, {0, 2}, {1, 2}})
	if err != nil {
		t.Fatal(err)
	}
	s.Keep(z)
	if s.Len() != 4+2 {
		t.Errorf("%d nodes with the terminals, want 6", s.Len())
	}
}

func TestKeep_LeavesFunctionsAsTheyAre(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	d := diagram.NewDecisions(ctx, 100000)
	fs := vars(t, d, 8)
	for range 200 {
		a, b := fs[r.IntN(len(fs))]^diagram.Ref(r.IntN(2)), fs[r.IntN(len(fs))]^diagram.Ref(r.IntN(2))
		f, err := d.And(a, b)
		if r.IntN(3) == 0 {
			f, err = d.Xor(a, b)
		}
		if err != nil {
			t.Fatal(err)
		}
		fs = append(fs, f)
	}
	fs = fs[len(fs)-5:]
	var before [][]bool
	table := func(f diagram.Ref) (cases []bool) {
		for c := range 256 {
			cases = append(cases, value(d, f, func(v int) bool { return c>>v&1 == 1 }))
		}
		return cases
	}
	for _, f := range fs {
		before = append(before, table(f))
	}
	full := d.Len()
	fs = d.Keep(fs)
	if d.Len() >= full {
		t.Errorf("%d nodes of %d were kept", d.Len(), full)
	}
	for i, f := range fs {
		if !slices.Equal(table(f), before[i]) {
			t.Errorf("function %d changed", i)
		}
	}
	if f, err := d.And(fs[0], fs[0].Not()); f != diagram.No || err != nil {
		t.Errorf("after Keep f and not f is %v, %v", f, err)
	}
}

// Families joined and multiplied, whole and cut, against the same done to lists
// of sets.
func TestFamilies_AgainstLists(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		s := diagram.NewFamilies(ctx, 100000)
		a, b := randomSets(r), randomSets(r)
		f, err1 := s.Of(a)
		g, err2 := s.Of(b)
		or, err3 := s.Or(f, g)
		and, err4 := s.And(diagram.AllOrders, f, g)
		low, err5 := s.And(3, f, g)
		if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
			t.Fatal(err)
		}
		var products [][]int
		for _, x := range a {
			for _, y := range b {
				products = append(products, union(x, y))
			}
		}
		check(t, s, or, append(slices.Clone(a), b...), 99)
		check(t, s, and, products, 99)
		check(t, s, low, products, 3)
	}
}

func randomSets(r *rand.Rand) [][]int {
	sets := make([][]int, r.IntN(6))
	for i := range sets {
		sets[i] = union(nil, r.Perm(7)[:r.IntN(4)])
	}
	return sets
}

func union(a, b []int) []int {
	u := append(slices.Clone(a), b...)
	slices.Sort(u)
	return slices.Compact(u)
}

func check(t *testing.T, s *diagram.Families, z diagram.Family, sets [][]int, highest int) {
	t.Helper()
	var want []string
	for _, x := range sets {
		smallest := len(x) <= highest
		for _, y := range sets {
			smallest = smallest && (len(y) >= len(x) || !slices.Equal(union(x, y), x))
		}
		if smallest {
			want = append(want, fmt.Sprint(x))
		}
	}
	slices.Sort(want)
	want = slices.Compact(want)
	if got := members(s, z); !slices.Equal(got, want) {
		t.Fatalf("family %v, by lists %v, of %v", got, want, sets)
	}
}

func TestLimits_AreErrors(t *testing.T) {
	d := diagram.NewDecisions(ctx, 20)
	if _, err := d.AtLeast(8, vars(t, d, 16)...); !errors.Is(err, diagram.ErrNodes) {
		t.Errorf("with 20 nodes: %v", err)
	}
	over, cancel := context.WithCancel(ctx)
	cancel()
	d = diagram.NewDecisions(over, 1<<20)
	if _, err := d.AtLeast(100, vars(t, d, 200)...); !errors.Is(err, context.Canceled) {
		t.Errorf("with no time: %v", err)
	}
}
