package ways_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/crillab/gophersat/solver"

	"knockon/ways"
	"knockon/ways/logic"
)

// clauses translates a term into clauses over the events, numbered from 1, and
// one variable for each gate (G. Tseitin's translation).
type clauses struct {
	l    *logic.Logic
	list [][]int
	last int
	of   map[logic.Term]int
}

func (c *clauses) literal(t logic.Term) int {
	if t.Negated() {
		return -c.literal(t.Not())
	}
	if v, ok := c.of[t]; ok {
		return v
	}
	v := c.gate(t)
	c.of[t] = v
	return v
}

func (c *clauses) fresh() int { c.last++; return c.last }

func (c *clauses) gate(t logic.Term) int {
	if c.l.Op(t) == logic.Basic {
		return c.l.K(t) + 1
	}
	args := make([]int, len(c.l.Args(t)))
	for i, a := range c.l.Args(t) {
		args[i] = c.literal(a)
	}
	switch c.l.Op(t) {
	case logic.And:
		return c.and(args)
	case logic.Or:
		return -c.and(opposites(args))
	case logic.Xor:
		v := args[0]
		for _, a := range args[1:] {
			v = -c.and([]int{-c.and([]int{v, -a}), -c.and([]int{-v, a})})
		}
		return v
	case logic.AtLeast:
		return c.atLeast(c.l.K(t), args)
	}
	no := c.fresh()
	c.list = append(c.list, []int{-no})
	return no
}

func opposites(args []int) []int {
	var o []int
	for _, a := range args {
		o = append(o, -a)
	}
	return o
}

func (c *clauses) and(args []int) int {
	v := c.fresh()
	long := []int{v}
	for _, a := range args {
		c.list = append(c.list, []int{-v, a})
		long = append(long, -a)
	}
	c.list = append(c.list, long)
	return v
}

func (c *clauses) atLeast(k int, args []int) int {
	yes := c.fresh()
	c.list = append(c.list, []int{yes})
	rows := make([]int, k+1)
	for j := range rows {
		rows[j] = -yes
	}
	rows[0] = yes
	for _, a := range args {
		for j := k; j > 0; j-- {
			rows[j] = -c.and([]int{-rows[j], -c.and([]int{rows[j-1], a})})
		}
	}
	return rows[k]
}

// bySolver enumerates the smallest failure sets with a satisfiability solver
// that knows nothing of diagrams: a case in which top is yes is shrunk until no
// case is yes with a part of its failures; then every case with all of these is
// ruled out.
func bySolver(t *testing.T, l *logic.Logic, top logic.Term, most int) []string {
	t.Helper()
	c := &clauses{l: l, last: len(l.Events()), of: map[logic.Term]int{}}
	c.list = append(c.list, []int{c.literal(top)})
	var sets []string
	for len(sets) <= most {
		failed, ok := solve(c.list, len(l.Events()))
		if !ok {
			return sets
		}
		for {
			smaller, ok := solve(append(slices.Clone(c.list), within(failed, len(l.Events()))...), len(l.Events()))
			if !ok {
				break
			}
			failed = smaller
		}
		var names []string
		for _, e := range failed {
			names = append(names, l.Events()[e-1].Name)
		}
		slices.Sort(names)
		sets = append(sets, strings.Join(names, " "))
		if len(failed) == 0 {
			return sets
		}
		c.list = append(c.list, opposites(failed))
	}
	t.Fatalf("more than %d sets", most)
	return nil
}

// within asks for a proper part of the failures, and no others.
func within(failed []int, events int) [][]int {
	list := [][]int{opposites(failed)}
	if len(failed) == 0 {
		list = [][]int{{1}, {-1}}
	}
	for e := 1; e <= events; e++ {
		if !slices.Contains(failed, e) {
			list = append(list, []int{-e})
		}
	}
	return list
}

func solve(list [][]int, events int) (failed []int, ok bool) {
	s := solver.New(solver.ParseSlice(list))
	if s.Solve() != solver.Sat {
		return nil, false
	}
	for e, yes := range s.Model()[:events] {
		if yes {
			failed = append(failed, e+1)
		}
	}
	return failed, true
}

// The solver is github.com/crillab/gophersat, a general-purpose one.
func TestFind_AgreesWithSatisfiabilitySolver(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 4))
	for n := range 150 {
		l, top := randomCircuit(r, 8+r.IntN(8), 6+r.IntN(15), n%3 > 0)
		if top <= logic.True {
			continue
		}
		w := find(t, l, top, ways.Options{})
		if got, want := listed(t, w), bySolver(t, l, top, 5000); !sameSets(got, want) {
			t.Fatalf("circuit %d: sets %q, by solver %q", n, got, want)
		}
	}
}

func TestFind_AgreesWithSatisfiabilitySolverOnOpenTrees(t *testing.T) {
	for _, o := range openTrees(t) {
		if !slices.Contains([]string{"chinese", "ftr10"}, o.name) {
			continue
		}
		w := find(t, o.l, o.top, ways.Options{})
		if got, want := listed(t, w), bySolver(t, o.l, o.top, 5000); !sameSets(got, want) {
			t.Errorf("%s: %d sets, by solver %d", o.name, len(got), len(want))
		}
	}
}

func BenchmarkFind_OpenTrees(b *testing.B) {
	for _, o := range openTrees(b) {
		if o.name == unsolved || o.slow() {
			continue
		}
		b.Run(fmt.Sprint(o.name), func(b *testing.B) {
			for b.Loop() {
				find(b, o.l, o.top, ways.Options{})
			}
		})
	}
}
