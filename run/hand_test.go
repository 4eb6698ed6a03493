package run_test

import (
	"context"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/run"
)

// restless looks every few seconds and, whenever an alert has come or gone,
// moves the next control of the book to another position a little later.
type restless struct {
	build  *book.Build
	alerts []circuit.Node
	was    []float64
	turn   int
	looked int
}

func (h *restless) Sees(v run.View) run.Will {
	h.looked++
	var is []float64
	for _, n := range h.alerts {
		is = append(is, v.Value(n))
	}
	look := v.Now() + 7300*book.Second/1000
	if h.was == nil || slices.Equal(h.was, is) {
		h.was = is
		return run.Will{Look: look}
	}
	h.was = is
	h.turn++
	c := h.build.Controls[h.turn*5%len(h.build.Controls)]
	to := c.Positions[h.turn%len(c.Positions)]
	return run.Will{Moves: []run.Action{{Control: c.ID, Position: to, At: book.Moment{Offset: v.Now() + 1700*book.Second/1000}}}, Look: look}
}

// TestFlyWith_IsFlyWithTheSameActions: whoever flies the actions that a hand took
// gets the same record to the microsecond, so looking changes nothing.
func TestFlyWith_IsFlyWithTheSameActions(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	moved := 0
	for _, s := range scenarios(b, c.Path.End(), 60) {
		h := &restless{build: b}
		for _, a := range b.Alerts {
			n, _ := c.Circuit().Node(circuit.Value{Item: a.ID})
			h.alerts = append(h.alerts, n)
		}
		with, err := c.FlyWith(context.Background(), s, h)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := c.Fly(context.Background(), with.Scenario)
		if err != nil {
			t.Fatal(err)
		}
		if err := same(with, plain); err != nil {
			t.Errorf("%v: %v", s, err)
		}
		moved += len(with.Scenario.Actions)
		if len(s.Actions) > 0 || h.looked < 100 {
			t.Errorf("the scenario given was changed, or the hand looked only %d times", h.looked)
		}
	}
	if moved < 80 {
		t.Errorf("only %d actions: the test shows nothing", moved)
	}
}

// stuck breaks the rules of a hand.
type stuck struct {
	move []run.Action
	look book.Time
}

func (h stuck) Sees(run.View) run.Will { return run.Will{Moves: h.move, Look: h.look} }

func TestFlyWith_RefusesAHandThatCannotBe(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	later := book.Moment{Offset: book.Second}
	for name, h := range map[string]stuck{
		"looks again at once":     {nil, 0},
		"moves at once":           {[]run.Action{{Control: "gear_lever", Position: "up"}}, book.Never},
		"moves what is not there": {[]run.Action{{Control: "gear", Position: "up", At: later}}, book.Never},
		"to where it cannot be":   {[]run.Action{{Control: "gear_lever", Position: "half", At: later}}, book.Never},
		"on a condition":          {[]run.Action{{Control: "gear_lever", Position: "up", At: later, When: b.Alerts[0].When}}, book.Never},
	} {
		if _, err := c.FlyWith(context.Background(), run.Scenario{}, h); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
