package still_test

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/booktest"
	"knockon/ways"
)

// TestFind_IsBruteForce enumerates, for a made-up book of 20 units, every set of
// up to two failures (three with KNOCKON_ALL set) at every phase, flies each on a
// flight that stands still, and picks the smallest that take each function: the
// same sets, one for one, are what Find gives.
func TestFind_IsBruteForce(t *testing.T) {
	most := 2
	if os.Getenv("KNOCKON_ALL") != "" {
		most = 3
	}
	loaded, ds := book.Load(context.Background(), booktest.Synthetic(20, 200))
	b := load(t, loaded, ds)
	compared, found := 0, 0
	for _, p := range b.Phases {
		s := newScene(t, b, middle(t, b, p.ID))
		smallest := bruteForce(t, s, most)
		for i, f := range b.Functions {
			n, _ := s.c.Node(circuit.Value{Item: f.ID})
			top, err := s.s.Lost(f.ID)
			if err != nil || s.s.BuiltUp(n) {
				continue
			}
			w, err := ways.Find(context.Background(), s.s.Logic, top, ways.Options{Order: most})
			if err != nil || w.Why != nil {
				t.Fatal(f.ID, err, w.Why)
			}
			got := []string{}
			for order := 1; order <= most; order++ {
				list, _ := w.List(order, 1<<20)
				for _, set := range list {
					got = append(got, key(w.Names(set)))
				}
			}
			slices.Sort(got)
			if !slices.Equal(got, smallest[i]) {
				t.Errorf("%s in %s: %d sets, brute force finds %d: %v, want %v", f.ID, p.ID, len(got), len(smallest[i]), got, smallest[i])
			}
			compared, found = compared+1, found+len(got)
		}
	}
	t.Logf("%d functions in %d phases, %d smallest sets of up to %d failures", compared, len(b.Phases), found, most)
	if compared < 40 || found < 40 {
		t.Error("the test shows little")
	}
}

func key(names []string) string {
	names = slices.Clone(names)
	slices.Sort(names)
	return strings.Join(names, " + ")
}

// bruteForce lists, for each function, its smallest sets up to a size.
func bruteForce(t *testing.T, s *scene, most int) [][]string {
	t.Helper()
	runs := newRuns(s, s.stood)
	all := failures(s.stood.Build)
	lost := map[string][]bool{}
	smallest := make([][]string, len(s.stood.Build.Functions))
	var sets [][]string
	var choose func(from int, set []string, size int)
	choose = func(from int, set []string, size int) {
		if size == 0 {
			sets = append(sets, slices.Clone(set))
			return
		}
		for i := from; i < len(all); i++ {
			choose(i+1, append(set, all[i]), size-1)
		}
	}
	for size := 1; size <= most; size++ {
		choose(0, nil, size)
	}
	for _, set := range sets {
		lost[key(set)] = runs.lost(t, set)
	}
	for _, set := range sets {
		for i := range smallest {
			if lost[key(set)][i] && !partSuffices(lost, set, i) {
				smallest[i] = append(smallest[i], key(set))
			}
		}
	}
	for i := range smallest {
		slices.Sort(smallest[i])
		if smallest[i] == nil {
			smallest[i] = []string{}
		}
	}
	return smallest
}

// partSuffices says that a proper part of a set takes a function.
func partSuffices(lost map[string][]bool, set []string, function int) bool {
	for i := range set {
		part := slices.Delete(slices.Clone(set), i, i+1)
		if len(part) > 0 && (lost[key(part)][function] || partSuffices(lost, part, function)) {
			return true
		}
	}
	return false
}

// TestOf_TermsThatHardlyDiffer: what takes ten failures, and what takes ten others,
// are told apart though of a few failures none makes either true.
func TestOf_TermsThatHardlyDiffer(t *testing.T) {
	var units strings.Builder
	var all []string
	for _, id := range "efghijklm" {
		units.WriteString("unit \"" + string(id) + "\" {}\n")
		all = append(all, string(id))
	}
	s := sceneOf(t, "", units.String()+`
		signal "nine" { value = !(`+strings.Join(all, " || ")+`) }
		signal "either" {
		  set   = nine && !a || held(nine && !b, 5)
		  reset = false
		}`)
	for _, set := range [][]string{all, append([]string{"a"}, all...), append([]string{"b"}, all...)} {
		if _, differ := s.check(t, set...); len(differ) > 0 {
			t.Errorf("%v: %v differ", set, differ)
		}
	}
}
