package wave_test

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/wave"
	"knockon/why"
)

// many is how many random scenarios are tried; KNOCKON_WAVES says another number.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("KNOCKON_WAVES")); err == nil {
		return n
	}
	return 12
}

// scenarios gives random pairs of failures, the second of them often a common cause,
// with the ways of failing that they are.
func scenarios(b *book.Build) func(func(run.Scenario, []run.Put) bool) {
	rng := rand.New(rand.NewPCG(8, 12))
	return func(yield func(run.Scenario, []run.Put) bool) {
		for i := range many() {
			at := book.AtSeconds(float64(60 + rng.IntN(3000)))
			refs := []book.FailureRef{{Unit: b.Units[rng.IntN(len(b.Units))].ID}, {Unit: b.Units[rng.IntN(len(b.Units))].ID}}
			if i%2 == 0 {
				refs = append(refs[:1], b.Events[rng.IntN(len(b.Events))].Fails...)
			}
			s, puts := run.Scenario{}, []run.Put(nil)
			s.Strikes = []run.Strike{{Fail: refs, At: book.Moment{Offset: at}}}
			for _, r := range refs {
				puts = append(puts, run.Put{Way: &r, From: at, To: book.Never})
			}
			if !yield(s, puts) {
				return
			}
		}
	}
}

func judged(t *testing.T, c *run.Course, s run.Scenario) *ledger.Ledger {
	t.Helper()
	l, err := ledger.Answer(t.Context(), c, s)
	if err == nil {
		err = known.Judge(t.Context(), l)
	}
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func onCourse(t *testing.T) *run.Course {
	t.Helper()
	c, err := run.NewCourse(corvane.Build(t, ""), nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestOf_EveryLossInOneWave: each loss is in one wave, whose cause it hangs on; waves
// are in order, and losses of one wave lie as near in time as a stretch does.
func TestOf_EveryLossInOneWave(t *testing.T) {
	c, caused := onCourse(t), 0
	for s := range scenarios(c.Build) {
		l := judged(t, c, s)
		seen := map[string]bool{}
		last := book.Time(0)
		for _, w := range wave.Of(l) {
			if w.At < last && !slices.ContainsFunc(w.Losses, func(x *ledger.Loss) bool { return wave.Start(x) >= last-wave.Gap }) {
				t.Errorf("%v: the wave of %v comes after that of %v", s.Strikes, w.At, last)
			}
			last = max(last, w.At)
			for _, x := range w.Losses {
				if seen[x.Function.ID] {
					t.Errorf("%v: %s is in two waves", s.Strikes, x.Function.ID)
				}
				seen[x.Function.ID] = true
				if w.Cause == nil {
					continue
				}
				caused++
				needs := why.NewNeeds(l.Here.Trace, l.There.Trace).Of(circuit.Value{Item: x.Function.ID}, wave.Start(x))
				if !slices.ContainsFunc(needs, func(n why.Need) bool { return n.Node == w.Cause.Node }) {
					t.Errorf("%v: %s does not hang on %s", s.Strikes, x.Function.ID, w.Cause.Label)
				}
			}
		}
		if len(seen) != len(l.Losses) {
			t.Errorf("%v: %d losses of %d are in a wave", s.Strikes, len(seen), len(l.Losses))
		}
	}
	if caused < 20 {
		t.Errorf("only %d losses have a cause: the test shows little", caused)
	}
}

// TestOf_HoldingTheCausePreventsTheLosses: with the cause of a wave as it is in the
// other run, the failures as here, what the wave took works as its time comes.
func TestOf_HoldingTheCausePreventsTheLosses(t *testing.T) {
	c, held := onCourse(t), 0
	hands, items := onCourse(t), holdable(c.Build) // what is judged holds other things, once for a course
	for s, failed := range scenarios(c.Build) {
		l := judged(t, c, s)
		for _, w := range wave.Of(l) {
			put, ok := asThere(l, w.Cause, items)
			if !ok {
				continue
			}
			r, err := hands.Told(context.Background(), l.Here, items, append(slices.Clone(failed), put))
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range w.Losses {
				held++
				n, _ := r.Circuit().Node(circuit.Value{Item: x.Function.ID})
				if r.At(n, wave.Start(x)) == 0 {
					t.Errorf("%v: with %s held %s, %s is lost all the same", s.Strikes, w.Cause.Value.Item, put.Way.Fault, x.Function.ID)
				}
			}
		}
	}
	t.Logf("%d losses prevented", held)
	if held < 20 {
		t.Errorf("only %d losses were prevented: the test shows little", held)
	}
}

func holdable(b *book.Build) (items []string) {
	items = append(book.IDs(b.Units), book.IDs(b.Functions)...)
	for _, s := range b.Signals {
		if s.Type == book.YesNo && s.Value != nil {
			items = append(items, s.ID)
		}
	}
	return items
}

// asThere holds a cause as it is in the other run, where it is one thing there from
// the strike on.
func asThere(l *ledger.Ledger, cause *why.Need, items []string) (p run.Put, ok bool) {
	if cause == nil || cause.Value.Aspect != circuit.Main || !slices.Contains(items, cause.Value.Item) {
		return p, false
	}
	fault := circuit.HeldNo
	if l.There.At(cause.Node, l.Strike) != 0 {
		fault = circuit.HeldYes
	}
	moved := slices.ContainsFunc(l.There.History(cause.Node), func(ch circuit.Change) bool { return ch.At > l.Strike })
	return run.Put{Way: &book.FailureRef{Unit: cause.Value.Item, Fault: fault}, From: l.Strike, To: book.Never}, !moved
}
