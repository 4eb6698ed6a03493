package rescue

import (
	"context"
	"math/rand/v2"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// bookOf loads a random book and lays its flight; ok is false where it does not load.
func bookOf(t *testing.T, r *rand.Rand) (c *run.Course, text string, ok bool) {
	t.Helper()
	return courseOf(t, randomBook(r))
}

func courseOf(t *testing.T, text string) (c *run.Course, _ string, ok bool) {
	t.Helper()
	loaded, _ := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if loaded == nil {
		return nil, text, false
	}
	build, _ := loaded.Build("")
	c, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c, text, true
}

// TestFuture_HoldsWhateverIsMoved: from some moment on random controls of a set are
// moved at random, and no value that a function hangs on is ever one that the
// future of that set does not have.
func TestFuture_HoldsWhateverIsMoved(t *testing.T) {
	ctx := context.Background()
	r := rand.New(rand.NewPCG(14, 11))
	kept, flown := 0, 0
	for books := 0; books < 120; {
		c, text, ok := bookOf(t, r)
		if !ok {
			continue
		}
		books++
		s := asked(r, c.Path.End())
		for _, f := range c.Build.Functions {
			b, err := newBase(ctx, c, s, f.ID)
			if err != nil {
				t.Fatal(err)
			}
			g, err := newGrove(ctx, b)
			if err != nil {
				t.Fatal(err)
			}
			stem, err := g.thin.stem(ctx, b.strike+1+book.Time(r.Int64N(int64(c.Path.End()-b.strike))))
			if err != nil {
				t.Fatal(err)
			}
			some := g.web.controls(c.Build)
			r.Shuffle(len(some), func(i, j int) { some[i], some[j] = some[j], some[i] })
			some = some[:r.IntN(len(some)+1)]
			sure := foreseen(t, r, g, stem, some, text)
			kept += sure
			flown++
		}
	}
	if kept < 5*flown {
		t.Errorf("of %d futures only %d values are sure", flown, kept)
	}
}

// foreseen flies a stem with some controls moved, holds the values to the future
// of that set, and gives how many yes/no were sure.
func foreseen(t *testing.T, r *rand.Rand, g *grove, s *stem, some []*book.Control, text string) (sure int) {
	t.Helper()
	w, x := g.web, s.here.Part()
	lane := []int{}
	for _, k := range some {
		i, _, _ := w.c.Control(k.ID, k.Positions[0])
		lane = append(lane, i)
	}
	f := newFuture(w, s.here, [][]int{lane})
	was := map[circuit.Node]float64{}
	for _, n := range w.cone {
		was[n] = x.Value(n)
	}
	for range 6 * len(some) {
		k := some[r.IntN(len(some))]
		if err := x.Move(k.ID, k.Positions[r.IntN(len(k.Positions))], s.at+book.Time(r.Int64N(int64(600*book.Second)))); err != nil {
			t.Fatal(err)
		}
	}
	for x.Step(book.Never) {
		for _, n := range w.cone {
			v := x.Value(n)
			may := f.yes[n]&1 != 0 || w.c.Smooth(n) || v == was[n]
			if w.c.Type(n) == book.YesNo {
				may = v != 0 && f.yes[n]&1 != 0 || v == 0 && f.no[n]&1 != 0
			}
			if !may {
				name, _ := w.c.NameOf(n)
				t.Fatalf("node %d (%v, kind %d) comes to %g at %d, after %d with %v\n%+v\n%s", n, name, w.gates[n].Kind, v, x.Now(), s.at, book.IDs(some), g.asked.Strikes, text)
			}
		}
	}
	for _, n := range w.cone {
		if w.c.Type(n) == book.YesNo && f.yes[n]&f.no[n]&1 == 0 {
			sure++
		}
	}
	return sure
}
