package demo_test

import (
	"context"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestDemo_GoesAroundAsCrewsDo: on both flights the gear comes up and the flaps in
// after a go-around, and both are out again for the next landing.
func TestDemo_GoesAroundAsCrewsDo(t *testing.T) {
	b := corvane.Build(t, "")
	for _, f := range b.Flights {
		c, err := run.NewCourse(b, f, run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		around := run.Leg{Do: run.GoAround, At: book.Moment{Phase: "final", Offset: 20 * book.Second}}
		r, err := c.Fly(context.Background(), run.Scenario{Plan: []run.Leg{around}})
		if err != nil || len(r.Turns) != 1 || r.Turns[0].Why != "" || !r.Ending().Arrived() {
			t.Fatalf("%s: %v %+v", f.ID, err, r.Turns)
		}
		word := func(control string, at book.Time) string {
			n, _ := r.Circuit().Node(circuit.Value{Item: control})
			return r.Circuit().WordText(r.At(n, at))
		}
		at := r.Turns[0].At
		for _, x := range []struct {
			after         book.Time
			gear, spoiler string
		}{{-book.Second, "down", "armed"}, {60 * book.Second, "up", "in"}} {
			if gear, spoiler := word("gear_lever", at+x.after), word("spoiler_lever", at+x.after); gear != x.gear || spoiler != x.spoiler {
				t.Errorf("%s, %g s after the go-around: gear %s, spoilers %s", f.ID, x.after.Seconds(), gear, spoiler)
			}
		}
		least, order := "full", []string{"up", "slight", "middle", "full"}
		for s := at; s < at+240*book.Second; s += book.Second {
			if now := word("flap_lever", s); slices.Index(order, now) < slices.Index(order, least) {
				least = now
			}
		}
		down := book.Time(0)
		for _, p := range r.Phases() {
			if p.ID == "landing_roll" {
				down = p.From // the last
			}
		}
		if least != "up" && least != "slight" || word("gear_lever", down) != "down" || word("flap_lever", down) != "full" {
			t.Errorf("%s: flaps at least %s after it; gear %s and flaps %s for the landing", f.ID, least, word("gear_lever", down), word("flap_lever", down))
		}
	}
}
