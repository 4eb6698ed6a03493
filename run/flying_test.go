package run_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestFlying_IsFly: a run that goes on in pieces of any length, with actions that
// come on the way, has at each of its moments the values that the whole run has.
func TestFlying_IsFly(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	var nodes []circuit.Node
	for _, v := range c.Circuit().Values() {
		nodes = append(nodes, v.Node)
	}
	gauge, rng := circuit.NewGauge(c.Circuit(), nodes), rand.New(rand.NewPCG(5, 6))
	ctx, compared := context.Background(), 0
	for _, s := range scenarios(b, c.Path.End(), 12) {
		f, err := c.Begin(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		type sample struct {
			at     book.Time
			values []float64
		}
		var samples []sample
		for !f.Ended() {
			if err := f.Until(ctx, f.Now()+book.Time(rng.Int64N(int64(20*book.Second))), nil); err != nil {
				t.Fatal(err)
			}
			if rng.IntN(4) == 0 {
				x := sample{at: f.Now()}
				for _, n := range nodes {
					x.values = append(x.values, f.Read(gauge, n))
				}
				samples = append(samples, x)
			}
			if ctrl := b.Controls[rng.IntN(len(b.Controls))]; rng.IntN(6) == 0 {
				if err := f.Move(ctrl.ID, ctrl.Positions[rng.IntN(len(ctrl.Positions))], f.Now()+book.Time(1+rng.Int64N(int64(book.Second)))); err != nil {
					t.Fatal(err)
				}
			}
		}
		whole, err := c.Fly(ctx, f.Scenario())
		if err != nil {
			t.Fatal(err)
		}
		if whole.End != f.Now() {
			t.Errorf("%v: ends at %d and %d", s, f.Now(), whole.End)
		}
		for _, x := range samples {
			for i, n := range nodes {
				if want := whole.At(n, x.at); size(x.values[i]-want) > 1e-9*max(size(want), 1) { // docs/meaning.md, section 4
					t.Errorf("%v at %d: %s is %g, on the whole run %g", s, x.at, c.Circuit().Values()[i].Value, x.values[i], want)
				}
				compared++
			}
		}
	}
	if compared < 100000 {
		t.Errorf("only %d values compared", compared)
	}
}

func size(x float64) float64 { return max(x, -x) }

func TestFlying_RefusesWhatCannotBe(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	f, err := c.Begin(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Until(context.Background(), 100*book.Second, nil); err != nil || f.Now() != 100*book.Second {
		t.Fatalf("%v, at %d", err, f.Now())
	}
	for _, err := range []error{
		f.Move("gear_lever", "up", 100*book.Second), f.Move("gear_lever", "half", 200*book.Second), f.Move("lever", "up", 200*book.Second),
	} {
		if err == nil {
			t.Error("no error")
		}
	}
	if err := f.Until(context.Background(), 50*book.Second, nil); err != nil || f.Now() != 100*book.Second {
		t.Errorf("going back: %v, at %d", err, f.Now())
	}
}
