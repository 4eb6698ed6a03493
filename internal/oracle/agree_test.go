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
	"knockon/internal/oracle"
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
	return nodeIn(r.Circuit(), a)
}

// nodeIn is the node of an item's aspect.
func nodeIn(c *circuit.Circuit, a oracle.Aspect) (circuit.Node, bool) {
	of := circuit.Aspect(strings.TrimPrefix(a.Of, "fault "))
	switch {
	case a.Of == oracle.CanBeGiven:
		of = circuit.Possible
	case slices.Contains(mains, a.Of):
		of = circuit.Main
	}
	return c.Node(circuit.Value{Item: a.Item, Aspect: of})
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
		out.Actions = append(out.Actions, run.Action{Control: a.Control, Position: a.Position, At: book.Moment{Offset: a.At}, When: a.When, Held: a.Held})
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

// until cuts a trace off where the run ended, and tells whether the two
// evaluators found that end within tol of the same moment, or both none.
func (r answer) until(trace *oracle.Trace, loop *oracle.LoopError, fault error, tol book.Time) (*oracle.Trace, bool) {
	if r.Record == nil { // a loop at the start
		return untilLoop(trace, loop, fault, tol)
	}
	var lost *run.Uncontrolled
	at, ok := trace.NotFlyable(book.AtSeconds(r.Course.Build.Aircraft.FlyableAgainS))
	switch found := errors.As(fault, &lost); {
	case found && ok && max(at-r.End, r.End-at) <= tol:
		return trace.Until(min(at, r.End) - 1), true
	case found, ok && at < r.End-tol: // only one of them found it
		return trace, false
	}
	return untilLoop(trace, loop, fault, tol)
}

// untilLoop cuts a trace off just before a loop, and tells whether the two
// evaluators found a loop within tol of the same moment, or both none. Where
// only the circuit found one, something must chatter there.
func untilLoop(trace *oracle.Trace, loop *oracle.LoopError, fault error, tol book.Time) (*oracle.Trace, bool) {
	var unsettled *circuit.Unsettled
	switch found := errors.As(fault, &unsettled); {
	case !found:
		return trace, loop == nil && fault == nil
	case loop == nil || loop.At > unsettled.At+tol:
		return trace.Until(unsettled.At - book.Second), chatters(trace, unsettled)
	case loop.At < unsettled.At-tol:
		return trace, false
	}
	return trace.Until(min(loop.At, unsettled.At) - 1), true
}

// TestAgreeOnGrid flies random books in which everything happens on a grid, so
// that both evaluators must give the same changes at the same moments, those
// without duration too, to the microsecond.
func TestAgreeOnGrid(t *testing.T) {
	exact := oracle.Tolerance{}
	agreeOn(t, 100*asked(t), false, func(f flightOf, got answer, fault error) []oracle.Difference {
		trace, loop := f.fly(t, book.AtSeconds(gridStep))
		trace, ok := got.until(trace, loop, fault, 0)
		if !ok {
			return []oracle.Difference{{Want: fmt.Sprint(loop), Got: fmt.Sprint(fault)}}
		}
		return append(got.compare(trace, exact), got.unequal(trace)...)
	})
}

// TestAgree flies random books with everything in them. Where the two differ,
// the oracle flies again at finer steps: what its steps alone cause goes away.
func TestAgree(t *testing.T) {
	again := 0
	agreeOn(t, 20*asked(t), true, func(f flightOf, got answer, fault error) (all []oracle.Difference) {
		for i, step := range fineSteps {
			again += min(i, 1)
			trace, loop := f.fly(t, step)
			trace, ok := got.until(trace, loop, fault, book.Second/10)
			if all = []oracle.Difference{{Want: fmt.Sprint(loop), Got: fmt.Sprint(fault)}}; ok {
				all = got.compare(trace, within)
			}
			if len(all) == 0 {
				return nil
			}
		}
		return all
	})
	t.Logf("%d flown again at a finer step", again)
}

var (
	fineSteps = []book.Time{step, step / 10, step / 50, step / 500}
	within    = oracle.Tolerance{Time: book.Second / 10, Relative: 1e-3, Absolute: 1e-2}
)

// agreeOn makes flights of random books, flies them with package run, and
// reports what differ finds, for a few of them.
func agreeOn(t *testing.T, n int, smooth bool, differ func(flightOf, answer, error) []oracle.Difference) {
	loops, lost, bad := 0, 0, 0
	for seed := range uint64(n) {
		f := makeFlight(t, seed, smooth)
		got, fault := ask(t, course(t, f.build, f.build.Flights[0], newScript(t, f.path, randomEnd), f.watch...), f.scenario, f.watch...)
		switch unflown := (*run.Uncontrolled)(nil); {
		case errors.As(fault, &unflown):
			lost++
		case fault != nil:
			loops++
		}
		if d := differ(f, got, fault); len(d) > 0 {
			t.Errorf("%v\n%s", d, f)
			if bad++; bad == 5 {
				t.FailNow()
			}
		}
	}
	t.Logf("%d flights, %d of them up to a loop that never settles, %d until they could not be flown", n, loops, lost)
	if n >= 400 && lost == 0 {
		t.Error("no flight came to where it could not be flown")
	}
}

// compare holds the record to the trace. What the oracle calls an item of its
// own is left out.
func (r answer) compare(trace *oracle.Trace, tol oracle.Tolerance) []oracle.Difference {
	if r.Record == nil {
		return nil // a loop at the start
	}
	return slices.DeleteFunc(oracle.Compare(trace, r, tol), func(d oracle.Difference) bool { return own(d.Aspect) })
}

// own are the aspects that only the oracle has.
func own(a oracle.Aspect) bool { return a.Item == "aircraft" || a.Of == oracle.Noticeable }

// unequal lists the histories that are not the same change for change.
func (r answer) unequal(trace *oracle.Trace) (all []oracle.Difference) {
	for _, h := range trace.Histories {
		if r.Record == nil || h.IsNumber() || own(h.Aspect) {
			continue
		}
		got, _ := r.Changes(h.Aspect)
		got = slices.DeleteFunc(got, func(c oracle.Change) bool { return c.At > trace.End })
		if !slices.Equal(got, h.Changes) {
			all = append(all, oracle.Difference{Aspect: h.Aspect, Want: told(h), Got: told(&oracle.History{Type: h.Type, Changes: got})})
		}
	}
	return all
}

// asked is how many random scenarios of the demonstration book to fly, from
// KNOCKON_AGREE; the other tests here take their number from it.
func asked(t testing.TB) int {
	t.Helper()
	text := os.Getenv("KNOCKON_AGREE")
	if text == "" {
		return 4
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("KNOCKON_AGREE: %v", err)
	}
	return n
}
