package still_test

import (
	"context"
	"slices"
	"testing"

	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/run"
	"knockon/ways"
	"knockon/ways/logic"
	"knockon/ways/still"
)

// TestAt_SaysWhatOfSays: what is worked out for one question alone has the same
// smallest sets, up to three failures, as where all is worked out together.
func TestAt_SaysWhatOfSays(t *testing.T) {
	b := corvane.Build(t, "")
	course, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	record, err := course.Healthy(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	at := middle(t, b, "cruise")
	all, err := still.Of(record.Trace, at)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for i, f := range b.Functions {
		if i%24 != 0 {
			continue
		}
		one, err := still.At(record.Trace, at)
		if err != nil {
			t.Fatal(err)
		}
		for name, ask := range map[string]func(*still.Still) (logic.Term, error){
			"lost":   func(s *still.Still) (logic.Term, error) { return s.Lost(f.ID) },
			"untold": func(s *still.Still) (logic.Term, error) { return s.Untold(f.ID) },
			"wrong":  func(s *still.Still) (logic.Term, error) { return s.Wrong(f.ID) },
		} {
			got, want := upTo3(t, one, ask), upTo3(t, all, ask)
			if !slices.Equal(got, want) {
				t.Errorf("%s %s: alone %d sets, %d with all together", f.ID, name, len(got), len(want))
			}
			found += len(want)
		}
		if n, _ := one.Circuit().Node(circuit.Value{Item: f.ID}); one.BuiltUp(n) != all.BuiltUp(n) {
			t.Errorf("%s: built up %v", f.ID, one.BuiltUp(n))
		}
	}
	if found < 100 {
		t.Error("the test shows little:", found)
	}
}

func upTo3(t *testing.T, s *still.Still, ask func(*still.Still) (logic.Term, error)) (list []string) {
	t.Helper()
	top, err := ask(s)
	if err != nil {
		return []string{err.Error()}
	}
	w, err := ways.Find(context.Background(), s.Logic, top, ways.Options{Order: 3})
	if err != nil || w.Why != nil {
		t.Fatal(err, w.Why)
	}
	for order := 1; order <= 3; order++ {
		sets, _ := w.List(order, 1<<20)
		for _, x := range sets {
			list = append(list, key(w.Names(x)))
		}
	}
	slices.Sort(list)
	return list
}
