package run_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/roll"
	"knockon/internal/corvane"
	"knockon/run"
)

// oneField is a ground with one field, so many miles from wherever a flight is.
type oneField struct{ nm float64 }

func (oneField) Track(*book.Flight) (run.Track, error) {
	return run.Track{To: geo.Place{Lon: 1}}, nil
}

func (g oneField) Fields(w run.Whereabouts) ([]run.Route, error) {
	r, err := g.Route(run.Leg{}, w)
	return []run.Route{r}, err
}

func (oneField) Suits(run.Route, run.Whereabouts) bool { return true }

func (g oneField) Route(l run.Leg, _ run.Whereabouts) (run.Route, error) {
	if l.To == "NONE" {
		return run.Route{}, errors.New("there is no such field")
	}
	r := roll.Runway{Code: 6}
	return run.Route{Field: "ONE", Name: "Onefield", End: "09", Turn: energy.Turn{To: energy.Diversion{DistanceM: g.nm * geo.MetresPerNM, Runway: r}}}, nil
}

func planned(t *testing.T, plan ...run.Leg) (*run.Course, *run.Record) {
	t.Helper()
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: oneField{60}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := c.Fly(context.Background(), run.Scenario{Plan: plan})
	if err != nil {
		t.Fatal(err)
	}
	return c, r
}

func from(phase string, seconds float64) book.Moment {
	return book.Moment{Phase: phase, Offset: book.AtSeconds(seconds)}
}

func altitude(t *testing.T, r *run.Record, at book.Time) float64 {
	t.Helper()
	for i, q := range book.Quantities {
		if q.Name == "altitude_ft" {
			return r.Path().Value(i, at)
		}
	}
	t.Fatal("no altitude")
	return 0
}

// TestPlan_TurnsAtItsMoment: up to the moment, that included, the flight is that
// without a plan; from then on it goes elsewhere, and ends there.
func TestPlan_TurnsAtItsMoment(t *testing.T) {
	c, r := planned(t, run.Leg{Do: run.Divert, To: "ONE", At: from("climb", 60)})
	begins, _ := c.Resolve(context.Background(), from("climb", 60))
	plain, err := c.Fly(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Turns) != 1 || r.Turns[0].At != begins || r.Turns[0].Why != "" || r.Bound() != "Onefield" || !r.Ending().Arrived() || r.End == plain.End {
		t.Fatalf("turned %+v, ends at %v as %v; without a plan at %v", r.Turns, r.End, r.Ending(), plain.End)
	}
	for x := book.Time(0); x <= begins; x += 10 * book.Second {
		if a, b := altitude(t, r, x), altitude(t, plain, x); a != b {
			t.Fatalf("at %v already %v ft, not %v", x, a, b)
		}
	}
}

// TestPlan_TurnsOnItsCondition: once, when it becomes yes.
func TestPlan_TurnsOnItsCondition(t *testing.T) {
	b := corvane.Build(t, "")
	high, diags := book.ParseExpr("real.altitude_ft > 3000", b)
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	_, r := planned(t, run.Leg{Do: run.Divert, To: "ONE", When: high})
	if len(r.Turns) != 1 {
		t.Fatalf("turned %d times", len(r.Turns))
	}
	if x := r.Turns[0].At; altitude(t, r, x) < 3000 || altitude(t, r, x-book.Second) > 3000 {
		t.Errorf("turned at %v ft, a second before at %v", altitude(t, r, x), altitude(t, r, x-book.Second))
	}
}

// TestPlan_WhatCannotBeFlownIsReported: it changes nothing, and of two turns at
// once the first that can be flown stands.
func TestPlan_WhatCannotBeFlownIsReported(t *testing.T) {
	_, alone := planned(t)
	for name, l := range map[string]run.Leg{
		"on the ground":             {Do: run.Divert, To: "ONE", At: from("", 5)},
		"no such field":             {Do: run.Divert, To: "NONE", At: from("climb", 5)},
		"no approach yet":           {Do: run.GoAround, At: from("climb", 5)},
		"the take-off is long over": {Do: run.Reject, At: from("climb", 5)},
	} {
		_, r := planned(t, l)
		if len(r.Turns) != 1 || r.Turns[0].Why == "" || r.End != alone.End {
			t.Errorf("%s: %+v, ends at %v; without it at %v", name, r.Turns, r.End, alone.End)
		}
	}
	_, r := planned(t, run.Leg{Do: run.Divert, To: "NONE", At: from("climb", 60)}, run.Leg{Do: run.Divert, To: "ONE", At: from("climb", 60)}, run.Leg{Do: run.Return, At: from("climb", 60)})
	if len(r.Turns) != 3 || r.Turns[0].Why == "" || r.Turns[1].Why != "" || !strings.Contains(r.Turns[2].Why, "same moment") {
		t.Errorf("%+v", r.Turns)
	}
}

// TestPlan_NamesThePhase: a go-around makes the phase current that the book names
// for it, a microsecond later, and phases step forward from there; so they do in
// the run that it is compared with.
func TestPlan_NamesThePhase(t *testing.T) {
	c, r := planned(t, run.Leg{Do: run.GoAround, At: from("final", 5)})
	if len(r.Turns) != 1 || r.Turns[0].Why != "" || r.Turns[0].Phase != "first_climb" {
		t.Fatalf("%+v", r.Turns)
	}
	beside, err := c.Beside(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	turned := r.Turns[0].At
	for _, x := range []*run.Record{r, beside} {
		if was, is := x.PhaseAt(turned), x.PhaseAt(turned+1); was != "final" || is != "first_climb" {
			t.Errorf("the phase is %s, then %s", was, is)
		}
		finals := 0
		for _, p := range x.Phases() {
			if p.ID == "final" {
				finals++
			}
		}
		if finals != 2 || !x.Ending().Arrived() {
			t.Errorf("%d finals, and it %s", finals, x.Ending().How)
		}
	}
}

// turning has the flight turned once, and moves something.
type turning struct{ done bool }

func (h *turning) Sees(v run.View) run.Will {
	w := run.Will{Look: book.Never}
	if !h.done && v.Now() > 320*book.Second {
		h.done = true
		w.Legs = []run.Leg{{Do: run.Land, At: book.Moment{Offset: v.Now() + 7*book.Second}}}
		w.Moves = []run.Action{{Control: "seat_belt_switch", Position: "on", At: book.Moment{Offset: v.Now() + 9*book.Second}}}
	}
	return w
}

// TestFlyWith_AHandTurnsTheFlight: the record is that of the scenario with the
// legs and the actions that the hand decided on.
func TestFlyWith_AHandTurnsTheFlight(t *testing.T) {
	c, _ := planned(t)
	h := &turning{}
	hand := run.Hand(h)
	if _, ok := c.Circuit().Node(circuit.Value{Item: "seat_belt_switch"}); !ok {
		hand = legsOnly{h}
	}
	with, err := c.FlyWith(context.Background(), run.Scenario{}, hand)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := c.Fly(context.Background(), with.Scenario)
	if err != nil {
		t.Fatal(err)
	}
	if len(with.Turns) != 1 || with.Turns[0].Why != "" || !with.Crewed || plain.Crewed {
		t.Fatalf("%+v", with.Turns)
	}
	if err := same(with, plain); err != nil {
		t.Error(err)
	}
}

// legsOnly leaves the moves of a hand out.
type legsOnly struct{ run.Hand }

func (h legsOnly) Sees(v run.View) run.Will {
	w := h.Hand.Sees(v)
	w.Moves = nil
	return w
}

// TestPlan_NeedsAFlightThatFeels: one that keeps to its profile goes nowhere else.
func TestPlan_NeedsAFlightThatFeels(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Prescribed: true, Router: oneField{60}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Fly(context.Background(), run.Scenario{Plan: []run.Leg{{Do: run.Divert, To: "ONE", At: from("climb", 60)}}}); err == nil || !strings.Contains(err.Error(), "elsewhere") {
		t.Errorf("%v", err)
	}
}

// TestPlan_TooLowToTurnWithoutThrust: at lift-off with no engine there is only
// straight ahead; from the low cruise the flight is turned to a field that the glide
// reaches with its turns, and to no other.
func TestPlan_TooLowToTurnWithoutThrust(t *testing.T) {
	b := corvane.Build(t, "")
	for _, x := range []struct {
		at  book.Moment
		nm  float64
		why string
	}{{from("lift_off", 1), 3, "too low to turn"}, {from("cruise", 5), 60, "does not reach Onefield"}, {from("cruise", 5), 6, ""}} {
		c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: oneField{x.nm}})
		if err != nil {
			t.Fatal(err)
		}
		s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "engine_left"}, {Unit: "engine_right"}}, At: x.at}}, Plan: []run.Leg{{Do: run.Divert, To: "ONE", At: x.at}}}
		r, err := c.Fly(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Turns) != 1 || (r.Turns[0].Why == "") != (x.why == "") || !strings.Contains(r.Turns[0].Why, x.why) {
			t.Errorf("%v, %g NM: %+v", x.at, x.nm, r.Turns)
		}
		if at := r.Ending().How; x.why == "" && at != run.Arrived {
			t.Errorf("%g NM: it %v", x.nm, r.Ending())
		}
	}
}

// TestPlan_ToWhereItIsGoing: a second leg to the same runway leaves the flight as it was.
func TestPlan_ToWhereItIsGoing(t *testing.T) {
	first := run.Leg{Do: run.Divert, To: "ONE", At: from("climb", 60)}
	_, once := planned(t, first)
	_, twice := planned(t, first, run.Leg{Do: run.Divert, To: "ONE", At: from("climb", 90)})
	if len(twice.Turns) != 2 || !strings.Contains(twice.Turns[1].Why, "it goes to Onefield already, to runway 09") {
		t.Errorf("%+v", twice.Turns)
	}
	if once.End != twice.End {
		t.Errorf("ends at %v, and at %v", once.End, twice.End)
	}
}

// TestPlan_WhatTheFlightEndsBefore is reported, and so is a level that the flight
// is not above.
func TestPlan_WhatTheFlightEndsBefore(t *testing.T) {
	_, r := planned(t, run.Leg{Do: run.Divert, To: "ONE", At: from("climb", 60)}, run.Leg{Do: run.Return, At: book.Moment{Offset: 600 * book.Second}}, run.Leg{Do: run.Descend, LevelFt: 60000, At: from("climb", 30)})
	var why []string
	for _, x := range r.Turns {
		why = append(why, x.Why)
	}
	if all := strings.Join(why, ";"); len(why) != 3 || !strings.Contains(all, "not above that level") {
		t.Errorf("%q", all)
	}
}
