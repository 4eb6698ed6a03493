package still_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/internal/booktest"
	"knockon/internal/corvane"
	"knockon/internal/tree"
	"knockon/run"
	"knockon/ways"
	"knockon/ways/still"
)

// held is a flight that stands still from a moment on.
type held struct {
	flight.Path
	at book.Time
}

func (h held) End() book.Time { return h.at + 3*3600*book.Second }

func (h held) Knots() []book.Time {
	var list []book.Time
	for _, k := range h.Path.Knots() {
		if k < h.at {
			list = append(list, k)
		}
	}
	return append(list, h.at, h.End())
}

func (h held) Value(q int, t book.Time) float64 { return h.Path.Value(q, min(t, h.at)) }

// scene is a still with the course that stands still at the same moment.
type scene struct {
	c     *circuit.Circuit
	s     *still.Still
	stood *run.Course
	at    book.Time
}

func newScene(t *testing.T, b *book.Build, at book.Time) *scene {
	t.Helper()
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	record, err := course.Healthy(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := still.Of(record.Trace, at)
	if err != nil {
		t.Fatal(err)
	}
	stood, err := run.NewCourse(b, nil, run.Setting{Path: held{course.Path, at}})
	if err != nil {
		t.Fatal(err)
	}
	return &scene{course.Circuit(), s, stood, at}
}

// check strikes with the failures and compares every yes/no value, after three
// hours of standing still, with its term. It returns how many it compared and
// which differ.
func (s *scene) check(t *testing.T, fail ...string) (compared int, differ []string) {
	t.Helper()
	var refs []book.FailureRef
	for _, f := range fail {
		ref, err := book.ParseFailure(f, s.stood.Build)
		if err != nil {
			t.Fatal(err)
		}
		refs = append(refs, ref)
	}
	record, err := s.stood.Fly(context.Background(), run.Scenario{FliesOn: true,
		Strikes: []run.Strike{{Fail: refs, At: book.Moment{Offset: s.at}}},
	})
	if err != nil || record.Fault != nil {
		t.Fatal(err, record.Fault)
	}
	happened := map[int]bool{}
	for _, f := range fail {
		e, ok := s.s.Logic.Find(f)
		if !ok {
			t.Fatalf("no event %s", f)
		}
		happened[s.s.Logic.K(e)] = true
	}
	for _, v := range s.c.Values() {
		if v.Type != book.YesNo {
			continue
		}
		term, err := s.s.Term(v.Node)
		if err != nil {
			continue
		}
		if s.s.BuiltUp(v.Node) {
			continue
		}
		n, _ := s.stood.Circuit().Node(v.Value)
		compared++
		want := record.At(n, record.End) != 0
		if got := s.s.Logic.Eval(term, func(e int) bool { return happened[e] }); got != want {
			differ = append(differ, v.Value.String())
		}
	}
	return compared, differ
}

func load(t *testing.T, b *book.Book, ds book.Diagnostics) *book.Build {
	t.Helper()
	return loadBuild(t, b, ds, "")
}

func loadBuild(t *testing.T, b *book.Book, ds book.Diagnostics, variant string) *book.Build {
	t.Helper()
	if b == nil {
		t.Fatal(ds)
	}
	build, ok := b.Build(variant)
	if !ok {
		t.Fatal("no build", variant)
	}
	return build
}

func failures(b *book.Build) []string {
	var list []string
	for _, u := range b.Units {
		list = append(list, u.ID)
		for _, f := range u.Faults {
			list = append(list, u.ID+"."+f.ID)
		}
	}
	for _, e := range b.Events {
		list = append(list, e.ID)
	}
	return list
}

func TestOf_EqualsRunsOfAHeldFlight(t *testing.T) {
	loaded, ds := book.Load(context.Background(), booktest.Synthetic(20, 200))
	b := load(t, loaded, ds)
	r := rand.New(rand.NewPCG(5, 6))
	all := failures(b)
	for _, at := range []book.Time{0, 100 * book.Second, 600 * book.Second} {
		s := newScene(t, b, at)
		total := 0
		for range 60 {
			fail := []string{all[r.IntN(len(all))]}
			for r.IntN(2) == 0 {
				fail = append(fail, all[r.IntN(len(all))])
			}
			compared, differ := s.check(t, fail...)
			total += compared
			if len(differ) > 0 {
				t.Errorf("at %v, %v: %v differ", at, fail, differ)
			}
		}
		t.Logf("at %v: %d values compared", at, total)
	}
}

// On the demonstration book only what reads a total may differ.
func TestOf_EqualsHeldRunsOfTheDemonstration(t *testing.T) {
	b := corvane.Build(t, "")
	all := failures(b)
	r := rand.New(rand.NewPCG(5, 7))
	s := newScene(t, b, middle(t, b, "cruise"))
	for range 8 {
		fail := []string{all[r.IntN(len(all))], all[r.IntN(len(all))]}
		compared, differ := s.check(t, fail...)
		if compared < 500 {
			t.Errorf("only %d values compared", compared)
		}
		for _, d := range differ {
			t.Errorf("%v: %s differs", fail, d)
		}
	}
}

func middle(t *testing.T, b *book.Build, phase string) book.Time {
	t.Helper()
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	record, err := course.Healthy(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	at, err := still.Middle(record.Trace, phase)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// The ways of every function of the demonstration book in the cruise: up to
// order 3 when it is lost, of all orders when it is lost and not told.
func TestFind_FunctionsOfTheDemonstration(t *testing.T) {
	b := corvane.Build(t, "")
	s := newScene(t, b, middle(t, b, "cruise")).s
	start := time.Now()
	found := 0
	for _, f := range b.Functions {
		top, err := s.Lost(f.ID)
		if err != nil {
			t.Fatal(err)
		}
		w, err := ways.Find(context.Background(), s.Logic, top, ways.Options{Order: 3})
		if err != nil || w.Why != nil {
			t.Fatal(f.ID, err)
		}
		found += int(tree.Total(w).Int64())
	}
	t.Logf("%d functions, %d ways to lose them up to order 3, %.3f s", len(b.Functions), found, time.Since(start).Seconds())
	start, found = time.Now(), 0
	for _, f := range b.Functions {
		top, err := s.Untold(f.ID)
		if err != nil {
			t.Fatal(err)
		}
		w, err := ways.Find(context.Background(), s.Logic, top, ways.Options{})
		if err != nil || w.Why != nil {
			t.Fatal(f.ID, err)
		}
		found += int(tree.Total(w).Int64())
	}
	t.Logf("%d ways to lose one untold, %.3f s", found, time.Since(start).Seconds())
}
