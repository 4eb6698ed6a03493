package run_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/run"
)

// wired is a small book whose signals read each other at random, most of all through
// what remembers: many of their loops settle, and some never do.
func wired(rng *rand.Rand, signals int) string {
	var s strings.Builder
	any := func() string {
		return []string{"a", "b", "!a", "space", "air", fmt.Sprintf("before(s%d)", rng.IntN(signals)), fmt.Sprintf("!before(s%d)", rng.IntN(signals))}[rng.IntN(7)]
	}
	for i := range signals {
		one := any()
		if i > 0 && rng.IntN(2) == 0 {
			one = fmt.Sprintf("s%d", rng.IntN(i))
		}
		value := []string{
			"%s && %s", "%s || %s", "%s || !(%s)", "held(%s, 3) || %s", "held(%s, 0.4) && %s", "pulse(%s, 2) && %s", "(%s ? %s : b)", "at_least(1, %s, %s, !a)",
			"total(%s) > 20 && %s", "count(%s) > 3 || %s",
		}[rng.IntN(10)]
		if rng.IntN(6) == 0 {
			fmt.Fprintf(&s, "signal \"s%d\" {\n set = %s\n reset = s%d || %s\n}\n", i, one, rng.IntN(i+1), any())
			continue
		}
		fmt.Fprintf(&s, "signal \"s%d\" { value = "+value+" }\n", i, one, any())
	}
	return s.String()
}

// TestNarrowed_IsTheWhole: whatever is kept of a book, with what it hangs on and with
// what could keep changing, has the values of the whole one, and the run ends when
// that does and for the same reason; how a run breaks off is the same as well.
func TestNarrowed_IsTheWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 1))
	loops, ends, left := 0, 0, 0
	for range 400 {
		const signals = 8
		text := wired(rng, signals)
		c := hopCourse(t, text)
		k := c.Circuit()
		keep := k.Restless()
		for range 1 + rng.IntN(2) {
			n, _ := k.Node(circuit.Value{Item: fmt.Sprint("s", rng.IntN(signals))})
			keep = append(keep, n)
		}
		narrow := c.Narrowed(k.Behind(keep...))
		for range 3 {
			s := run.Scenario{Strikes: []run.Strike{strike(1+rng.Float64()*600, book.AtSeconds(float64(rng.IntN(3))), "a"), strike(1+rng.Float64()*600, 0, "b")}}
			slow, slowErr := c.Fly(t.Context(), s)
			fast, fastErr := narrow.Fly(t.Context(), s)
			if slowErr != nil || fastErr != nil {
				if slowErr == nil || fastErr == nil {
					t.Fatalf("%v and %v\n%s", slowErr, fastErr, text)
				}
				loops++
				continue
			}
			if left += k.Size() - narrow.Circuit().Size(); slow.Fault != nil {
				ends++
			}
			sameNames(t, fast, slow)
		}
	}
	if loops+ends < 50 || left < 1000 {
		t.Errorf("%d runs did not start, %d broke off, %d nodes left out: the test shows little", loops, ends, left)
	}
}

// sameNames holds what a record has of another to its changes.
func sameNames(t *testing.T, fast, slow *run.Record) {
	t.Helper()
	if fast.End != slow.End || fast.Ending() != slow.Ending() {
		t.Fatalf("ends at %d: %+v, and at %d: %+v", fast.End, fast.Ending(), slow.End, slow.Ending())
	}
	for _, v := range fast.Circuit().Values() {
		n, ok := slow.Circuit().Node(v.Value)
		if !ok || fast.Steady(v.Node) != slow.Steady(n) {
			t.Fatalf("no %v", v.Value)
		}
		x, y := fast.History(v.Node), slow.History(n)
		if slow.Fault != nil { // how often all had changed in its last moment is nobody's business
			x, y = until(x, slow.End), until(y, slow.End)
		}
		for i := range max(len(x), len(y)) {
			if len(x) != len(y) || x[i].At != y[i].At || x[i].To != y[i].To {
				t.Fatalf("%v: %d and %d changes", v.Value, len(x), len(y))
			}
		}
	}
}

// until are the changes before a moment.
func until(list []circuit.Change, at book.Time) []circuit.Change {
	return list[:len(list)-len(after(list, at-1))]
}

// TestNarrowed_OfTheDemonstration: the same of random failures and random items of
// the demonstration, on a flight that feels what they do.
func TestNarrowed_OfTheDemonstration(t *testing.T) {
	c := liveCourse(t, "northern_link", 0)
	k, rng := c.Circuit(), rand.New(rand.NewPCG(12, 2))
	for range 4 {
		keep := k.Restless()
		for _, e := range c.Build.Effects {
			n, _ := k.Node(circuit.Value{Item: e.ID})
			keep = append(keep, n)
		}
		n, _ := k.Node(circuit.Value{Item: c.Build.Aircraft.ID, Aspect: circuit.Flyable})
		keep = append(keep, n, k.Values()[rng.IntN(len(k.Values()))].Node)
		narrow := c.Narrowed(k.Behind(keep...))
		if narrow.Circuit().Size() > k.Size()/2 {
			t.Errorf("%d of %d nodes", narrow.Circuit().Size(), k.Size())
		}
		for _, s := range scenarios(c.Build, c.Path.End(), 6) {
			sameNames(t, flown(t, narrow, s), flown(t, c, s))
		}
	}
}

// TestNarrowed_RefusesConditions: they are compiled into the whole book.
func TestNarrowed_RefusesConditions(t *testing.T) {
	c := hopCourse(t, "")
	when, diags := book.ParseExpr("real.height_ft > 3000", c.Build)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "a"}}, When: when}}}
	if !s.Waits() || (run.Scenario{Strikes: []run.Strike{strike(3, 0, "a")}}).Waits() {
		t.Error("which scenario waits")
	}
	if _, err := c.Narrowed(c.Circuit().Behind()).Fly(t.Context(), s); err == nil || !strings.Contains(err.Error(), "whole course") {
		t.Error(err)
	}
}

// TestAlong_IsTheRunBeside: a run led along the path that another flew from the turn
// is the one that flies there beside it.
func TestAlong_IsTheRunBeside(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	for i, s := range scenarios(c.Build, c.Path.End()/2, 4) {
		at := c.Path.End() / 2
		here, err := c.Hold(ctx, s, at)
		if err != nil {
			t.Fatal(err)
		}
		there, err := c.HoldBeside(ctx, here, s.Healthy())
		if err != nil {
			t.Fatal(err)
		}
		slow, err := run.Together(ctx, places[i%len(places)], func(c []energy.Config) energy.Config { return c[0] }, here, there)
		if err != nil {
			t.Fatal(err)
		}
		fast, err := there.Along(ctx, slow[0].Path().(*energy.Path))
		if err != nil {
			t.Fatal(err)
		}
		sameNames(t, fast, slow[1])
	}
}
