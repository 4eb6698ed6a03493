package first

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/internal/corvane"
	"knockon/scenario"
)

func desk(t *testing.T) *ask.Desk {
	t.Helper()
	b, err := corvane.Load()
	if err != nil {
		t.Fatal(err)
	}
	return ask.NewDesk(b)
}

// TestOf_OnTheDemonstration: six questions, each with failures of its own, half of
// each kind; what each of the sweep's says is what its answer counts, and each of the
// claims' is word for word a claim of the book.
func TestOf_OnTheDemonstration(t *testing.T) {
	d := desk(t)
	list, err := Of(t.Context(), d, 6)
	if err != nil || len(list) != 6 {
		t.Fatalf("%d questions, %v", len(list), err)
	}
	seen, from := map[string]bool{}, map[string]int{}
	for _, q := range list {
		from[q.From]++
		for _, f := range q.Asks.Fail[0].What {
			if seen[f] {
				t.Errorf("%s comes twice", f)
			}
			seen[f] = true
		}
		a, err := d.Answer(t.Context(), q.Asks)
		if err != nil {
			t.Fatalf("%s: %v", q.Says, err)
		}
		if q.From == FromSweep {
			v := a.Ledger.View()
			want := [2]string{fmt.Sprintf(": %d loss", len(v.Hidden)+len(v.Denied)), ""}
			switch {
			case len(v.Hidden) == 0:
				want[1] = "denied by what is shown."
			case len(v.Denied) == 0:
				want[1] = "hidden."
			default:
				want = [2]string{fmt.Sprintf(": %d loss", len(v.Hidden)), fmt.Sprintf("hidden, %d denied by what is shown.", len(v.Denied))}
			}
			if v.Unanswered != "" {
				want[1] = strings.TrimSuffix(want[1], ".") + ", as far as it is flown."
			}
			if !strings.Contains(q.Says, want[0]) || !strings.HasSuffix(q.Says, want[1]) {
				t.Errorf("%q: the answer opens with %d hidden and %d denied", q.Says, len(v.Hidden), len(v.Denied))
			}
			continue
		}
		if !slices.ContainsFunc(corvane.Build(t, "").Claims, claims(q.Says)) {
			t.Errorf("the book does not claim %q", q.Says)
		}
	}
	if from[FromSweep] != 3 || from[FromClaim] != 3 {
		t.Errorf("%v", from)
	}
	again, err := Of(t.Context(), d, 6)
	if err != nil || !reflect.DeepEqual(again, list) {
		t.Errorf("asked again it is another list: %v", err)
	}
}

func question(f string, chapter int) Question {
	return Question{Says: f, chapter: chapter, Asks: scenario.Once(scenario.Strike{What: strings.Fields(f)})}
}

// TestChoose: in turn, new failures only, new chapters first.
func TestChoose(t *testing.T) {
	traps := []Question{question("a", 24), question("b", 24), question("c", 29), question("d", 29)}
	claims := []Question{question("a x", 30), question("c y", 31), question("e", 24), question("f", 32)}
	for most, want := range map[int]string{0: "", 1: "a", 2: "a c y", 3: "a c y d", 4: "a c y d f", 5: "a c y d f b", 9: "a c y d f b e"} {
		var got []string
		for _, q := range choose(most, traps, claims) {
			got = append(got, q.Says)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%d of them: %v; want %s", most, got, want)
		}
	}
}

func claims(says string) func(*book.Claim) bool {
	return func(c *book.Claim) bool { return c.Says == says }
}

// TestCounted_WhereTheFlightBreaksOff: nothing is said to be well of a flight that never
// arrived.
func TestCounted_WhereTheFlightBreaksOff(t *testing.T) {
	d := desk(t)
	a, err := d.Answer(t.Context(), scenario.Typed{Fail: []scenario.Strike{{What: []string{"engine_left", "engine_right"}, At: "lift_off"}}, Crew: scenario.Nobody})
	if err != nil {
		t.Fatal(err)
	}
	if a.Here.Ending().Arrived() {
		t.Fatal("it arrives: the test shows nothing")
	}
	a.Ledger.Losses = nil
	if got := counted(a.Ledger); got != "what it hides cannot be said" {
		t.Error(got)
	}
}
