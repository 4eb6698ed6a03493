package oracle_test

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/oracle"
	"knockon/run"
)

// answer is a record of package run, as the oracle asks about it.
type answer struct {
	*run.Record
	watch []*book.Expr
}

// mains are the aspects that the circuit knows by an item's id alone.
var mains = []string{oracle.Works, oracle.Value, oracle.Position, oracle.Given, oracle.Shows, oracle.Active}

func (r answer) node(a oracle.Aspect) (circuit.Node, bool) {
	if a.Of == oracle.Watch {
		var n int
		fmt.Sscan(a.Item, &n)
		return r.Circuit().WatchOf(r.watch[n])
	}
	of := circuit.Aspect(strings.TrimPrefix(a.Of, "fault "))
	switch {
	case a.Of == oracle.CanBeGiven:
		of = circuit.Possible
	case slices.Contains(mains, a.Of):
		of = circuit.Main
	}
	return r.Circuit().Node(circuit.Value{Item: a.Item, Aspect: of})
}

func (r answer) Changes(a oracle.Aspect) (all []oracle.Change, ok bool) {
	if a.Of == oracle.Sounds {
		return r.sounds(a.Item)
	}
	n, ok := r.node(a)
	if !ok {
		return nil, false
	}
	all = append(all, oracle.Change{Value: r.val(n, r.Initial(n))})
	for _, c := range r.History(n) {
		all = append(all, oracle.Change{At: c.At, Value: r.val(n, c.To)})
	}
	return all, true
}

func (r answer) val(n circuit.Node, v float64) oracle.Val {
	if r.Circuit().Type(n) == book.Word {
		return oracle.Val{Word: r.Circuit().WordText(v)}
	}
	return oracle.Val{Number: v}
}

func (r answer) sounds(id string) (all []oracle.Change, ok bool) {
	item, _ := r.Course.Build.Item(id)
	alert, ok := item.(*book.Alert)
	if !ok {
		return nil, false
	}
	all = []oracle.Change{{}}
	for _, at := range r.Sounds(alert) {
		n := all[len(all)-1].Value.Number + 1
		if at == 0 {
			all = nil
		}
		all = append(all, oracle.Change{At: at, Value: oracle.Val{Number: n}})
	}
	return all, true
}

func (r answer) Number(a oracle.Aspect, at book.Time) (float64, bool) {
	n, ok := r.node(a)
	if !ok {
		return 0, false
	}
	return r.At(n, at), true
}

// scenarioOf says a scenario as package run wants it.
func scenarioOf(s oracle.Scenario) run.Scenario {
	out := run.Scenario{Inoperative: s.Inoperative}
	for _, f := range s.Failures {
		out.Strikes = append(out.Strikes, run.Strike{
			Fail: []book.FailureRef{f.Ref}, At: book.Moment{Offset: f.At}, When: f.When, Lasts: f.Lasts, Resettable: f.Resettable,
		})
	}
	for _, a := range s.Actions {
		out.Actions = append(out.Actions, run.Action{Control: a.Control, Position: a.Position, At: book.Moment{Offset: a.At}, When: a.When})
	}
	return out
}

// ask flies a scenario with package run. A loop at the very start leaves no
// record.
func ask(t testing.TB, c *run.Course, s oracle.Scenario, watch ...*book.Expr) (answer, error) {
	t.Helper()
	record, err := c.Fly(t.Context(), scenarioOf(s))
	if err != nil {
		return answer{}, err
	}
	return answer{record, watch}, record.Fault
}

func course(t testing.TB, b *book.Build, f *book.Flight, path flight.Path, watch ...*book.Expr) *run.Course {
	t.Helper()
	c, err := run.NewCourse(b, f, run.Setting{Path: path, Watch: watch})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// until cuts a trace off just before a loop, and tells whether the two
// evaluators found a loop within tol of the same moment, or both none.
func until(trace *oracle.Trace, loop *oracle.LoopError, fault error, tol book.Time) (*oracle.Trace, bool) {
	var unsettled *circuit.Unsettled
	if loop == nil || !errors.As(fault, &unsettled) {
		return trace, loop == nil && fault == nil
	}
	if d := loop.At - unsettled.At; d > tol || -d > tol {
		return trace, false
	}
	return trace.Until(min(loop.At, unsettled.At) - 1), true
}

// upTo leaves out what comes after a moment.
func upTo(changes []oracle.Change, end book.Time) []oracle.Change {
	return slices.DeleteFunc(slices.Clone(changes), func(c oracle.Change) bool { return c.At > end })
}

// TestAgreeOnGrid flies random books in which everything happens on a grid, so
// that both evaluators must give the same changes at the same moments, those
// without duration too, to the microsecond.
func TestAgreeOnGrid(t *testing.T) {
	loops := 0
	for seed := range uint64(share(t, 400)) {
		f := makeFlight(t, seed, false)
		trace, loop := f.fly(t, book.AtSeconds(gridStep))
		got, fault := ask(t, course(t, f.build, f.build.Flights[0], newScript(t, f.path, randomEnd)), f.scenario)
		trace, ok := until(trace, loop, fault, 0)
		if !ok {
			t.Fatalf("loop: want %v, got %v\n%s", loop, fault, f)
		}
		if got.Record == nil {
			continue
		}
		if loop != nil {
			loops++
		}
		for _, h := range trace.Histories {
			if h.Item == "aircraft" {
				continue // no value of an item
			}
			if h.IsNumber() {
				compareSamples(t, h, got, f)
				continue
			}
			changes, _ := got.Changes(h.Aspect)
			if changes = upTo(changes, trace.End); !slices.Equal(changes, h.Changes) {
				t.Fatalf("%s: want %s, got %s\n%s", h.Aspect, told(h), told(&oracle.History{Type: h.Type, Changes: changes}), f)
			}
		}
	}
	t.Logf("%d flights, %d of them up to a loop that never settles", share(t, 400), loops)
}

func compareSamples(t *testing.T, h *oracle.History, got answer, f flightOf) {
	t.Helper()
	for _, c := range h.Changes {
		if v, ok := got.Number(h.Aspect, c.At); !ok || v != c.Value.Number {
			t.Fatalf("%s at %g s: want %g, got %g\n%s", h.Aspect, c.At.Seconds(), c.Value.Number, v, f)
		}
	}
}

// share is how many of something to test: few, or the given number times
// KNOCKON_AGREE.
func share(t testing.TB, few int) int {
	t.Helper()
	text := os.Getenv("KNOCKON_AGREE")
	if text == "" {
		return few
	}
	times, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("KNOCKON_AGREE: %v", err)
	}
	return int(times * float64(few))
}
