package run_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/roll"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestFly_TheFirstMicroseconds: what is inoperative has failed from the start, what
// fails a microsecond later from then, and a passing failure that ends moves nothing.
func TestFly_TheFirstMicroseconds(t *testing.T) {
	for _, stands := range []string{"on", "off"} {
		c := hopCourse(t, fmt.Sprintf("control \"right\" {\n positions = [\"on\", \"off\"]\n initial = %q\n}\n", stands))
		s := run.Scenario{Inoperative: []book.FailureRef{{Unit: "b"}}, Strikes: []run.Strike{strike(0.000001, 40*book.Second, "a")}}
		r := flown(t, c, s)
		failed := func(unit string) circuit.Value { return circuit.Value{Item: unit, Aspect: circuit.Failed} }
		if got, want := spans(t, r, failed("b")), fmt.Sprintf("0-%g ", r.End.Seconds()); got != want {
			t.Errorf("inoperative: %s, want %s", got, want)
		}
		if got := spans(t, r, failed("a")); got != "1e-06-40.000001 " {
			t.Errorf("a microsecond later: %s", got)
		}
		n, _ := r.Circuit().Node(circuit.Value{Item: "right"})
		if r.Instants()[0] != 0 || r.Circuit().WordText(r.At(n, r.End)) != stands {
			t.Errorf("begins at %d; the control: %+v", r.Instants()[0], r.History(n))
		}
	}
}

// TestFly_TriesLimitNothing (docs/meaning.md, section 4): a reset that was tried
// more often than its unit's reset_tries resets all the same.
func TestFly_TriesLimitNothing(t *testing.T) {
	c := hopCourse(t, "unit \"d\" {\n reset_by = left == \"off\"\n reset_tries = 1\n}\n")
	var s run.Scenario
	for _, x := range []float64{100, 200, 300} {
		k := strike(x, 0, "d")
		k.Resettable = true
		s.Strikes = append(s.Strikes, k)
		s.Actions = append(s.Actions, run.Action{Control: "left", Position: "off", At: at(x + 20)}, run.Action{Control: "left", Position: "on", At: at(x + 30)})
	}
	if got := spans(t, flown(t, c, s), circuit.Value{Item: "d", Aspect: circuit.Failed}); got != "100-120 200-220 300-320 " {
		t.Errorf("failed %s", got)
	}
}

// TestFlying_TheLastMoment is worked out to its end, as in the whole run.
func TestFlying_TheLastMoment(t *testing.T) {
	end := hopCourse(t, "").Path.End()
	c := hopCourse(t, fmt.Sprintf("signal \"over\" { value = real.time_s >= %.6f }\nsignal \"late\" { value = before(over) }\n", end.Seconds()))
	r := flown(t, c, run.Scenario{})
	f, err := c.Begin(t.Context(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Until(t.Context(), book.Never, nil); err != nil || !f.Ended() || f.Now() != r.End {
		t.Fatal(err, f.Ended())
	}
	for _, id := range []string{"over", "late"} {
		if n, _ := c.Circuit().Node(circuit.Value{Item: id}); f.Value(n) != 1 || r.At(n, r.End) != 1 {
			t.Errorf("%s is %g in the end, in the whole run %g", id, f.Value(n), r.At(n, r.End))
		}
	}
}

// TestCourse_CanTurn: a flight that feels the systems, over ground that is known.
func TestCourse_CanTurn(t *testing.T) {
	b := corvane.Build(t, "")
	f := corvane.Flight(t, b, "short_hop")
	for _, x := range []struct {
		set  run.Setting
		want bool
	}{{run.Setting{Router: oneField{60}}, true}, {run.Setting{}, false}, {run.Setting{Prescribed: true, Router: oneField{60}}, false}} {
		c, err := run.NewCourse(b, f, x.set)
		if err != nil {
			t.Fatal(err)
		}
		if c.CanTurn() != x.want {
			t.Errorf("%+v: %v", x.set, c.CanTurn())
		}
	}
}

// shortField is oneField with a runway of so many metres.
type shortField struct{ metres float64 }

func (shortField) Track(f *book.Flight) (run.Track, error) { return oneField{}.Track(f) }

func (g shortField) Fields(w run.Whereabouts) ([]run.Route, error) {
	r, err := g.Route(run.Leg{}, w)
	return []run.Route{r}, err
}

func (shortField) Suits(run.Route, run.Whereabouts) bool { return true }

func (g shortField) Route(l run.Leg, w run.Whereabouts) (run.Route, error) {
	r, err := oneField{60}.Route(l, w)
	r.LengthM = g.metres
	return r, err
}

// TestRecord_Overrun: what the roll of the landing takes against what the runway
// has, of a flight that was turned and of one that goes where the book sends it.
func TestRecord_Overrun(t *testing.T) {
	b := corvane.Build(t, "")
	var took float64
	for _, x := range []struct {
		metres float64
		over   bool
	}{{5000, false}, {300, true}, {1, true}, {0, false}} /* 0: it is not known */ {
		c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: shortField{x.metres}})
		if err != nil {
			t.Fatal(err)
		}
		r := flown(t, c, run.Scenario{Plan: []run.Leg{{Do: run.Divert, To: "ONE", At: from("climb", 60)}}})
		_, rolled, _ := r.Path().(*energy.Path).Landing()
		m, has, over := r.Overrun()
		if over != x.over || has != x.metres || m != rolled.TotalM || m < 500 {
			t.Errorf("runway of %g m: took %g of %g m, over %v; the roll is %g m", x.metres, m, has, over, rolled.TotalM)
		}
		took = m
		if m, has, over := flown(t, c, run.Scenario{}).Overrun(); m < 500 || has != x.metres || over != x.over {
			t.Errorf("without a turn: %g of %g m, %v", m, has, over)
		}
	}
	for _, metres := range []float64{took - 1, took + 1} {
		c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: shortField{metres}})
		if err != nil {
			t.Fatal(err)
		}
		if _, _, over := flown(t, c, run.Scenario{Plan: []run.Leg{{Do: run.Divert, To: "ONE", At: from("climb", 60)}}}).Overrun(); over != (metres < took) {
			t.Errorf("%g of %g m: over %v", took, metres, over)
		}
	}
}

// TestPlan_TwoThatWait: each turns when its own condition comes.
func TestPlan_TwoThatWait(t *testing.T) {
	b := corvane.Build(t, "")
	above := func(ft int) run.Leg {
		e, diags := book.ParseExpr(fmt.Sprintf("real.altitude_ft > %d", ft), b)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		return run.Leg{Do: run.Divert, To: "ONE", When: e}
	}
	for _, plan := range [][]run.Leg{{above(3000), above(5000)}, {above(5000), above(3000)}} {
		_, r := planned(t, plan...)
		if len(r.Turns) != 2 || math.Abs(altitude(t, r, r.Turns[0].At)-3000) > 1 || math.Abs(altitude(t, r, r.Turns[1].At)-5000) > 1 {
			t.Errorf("%+v", r.Turns)
		}
	}
}

// TestAlong_TheLegsOnlyNamePhases: on a path that is given the plan turns nothing
// any more, and the phases are those of the flight that was turned.
func TestAlong_TheLegsOnlyNamePhases(t *testing.T) {
	c, r := planned(t, run.Leg{Do: run.GoAround, At: from("final", 5)})
	x, err := c.Along(r.Path()).Fly(context.Background(), r.Scenario)
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(x.Phases()) != fmt.Sprint(r.Phases()) || x.Path() != r.Path() || len(r.Turns) != 1 || r.Turns[0].Phase == "" {
		t.Errorf("%v, turned %v", x.Phases(), r.Phases())
	}
}

// farSighted moves something once, a given time after the first failure.
type farSighted struct {
	at, later book.Time
	done      bool
}

func (h *farSighted) Sees(v run.View) run.Will {
	w := run.Will{Look: book.Never}
	if !h.done && v.Now() > h.at {
		h.done = true
		w.Moves = []run.Action{{Control: "engine_ice_switch", Position: "on", At: book.Moment{Offset: v.Now() + h.later}}}
	}
	return w
}

func (h *farSighted) Fork() run.Hand { k := *h; return &k }

// TestFlyWith_AMoveFarAhead is made, also on a flight that is not flown as far yet;
// one behind the end of the flight is not, and is no action of the record.
func TestFlyWith_AMoveFarAhead(t *testing.T) {
	for _, prescribed := range []bool{false, true} {
		b := corvane.Build(t, "")
		c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Prescribed: prescribed})
		if err != nil {
			t.Fatal(err)
		}
		s := fail(during("climb", 30), "engine_left")
		at, _ := c.Resolve(context.Background(), s.Strikes[0].At)
		for _, x := range []struct {
			later book.Time
			moves int
		}{{500 * book.Second, 1}, {100000 * book.Second, 0}} {
			r, err := c.FlyWith(context.Background(), s, &farSighted{at: at, later: x.later})
			if err != nil {
				t.Fatal(err)
			}
			n, _ := r.Circuit().Node(circuit.Value{Item: "engine_ice_switch"})
			if on := r.Circuit().WordText(r.At(n, r.End)) == "on"; len(r.Scenario.Actions) != x.moves || on != (x.moves > 0) {
				t.Errorf("prescribed %v, %g s ahead: %v, and in the end it is on: %v", prescribed, x.later.Seconds(), r.Scenario.Actions, on)
			}
		}
	}
}

// TestHoldWith_IsHoldOfWhatTheHandMoves, on the way as before.
func TestHoldWith_IsHoldOfWhatTheHandMoves(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	s := fail(during("climb", 30), "engine_left")
	at, _ := c.Resolve(ctx, s.Strikes[0].At)
	for _, later := range []book.Time{100 * book.Second, 900 * book.Second} { // the flight is held after 300 s
		held, err := c.HoldWith(ctx, s, at+300*book.Second, &farSighted{at: at, later: later})
		if err != nil {
			t.Fatal(err)
		}
		r, err := held.Divert(ctx, places[1])
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Scenario.Actions) != 1 || !r.Crewed {
			t.Fatalf("%v, crewed %v", r.Scenario.Actions, r.Crewed)
		}
		moved := s
		moved.Actions = r.Scenario.Actions
		plain, err := c.Hold(ctx, moved, at+300*book.Second)
		if err != nil {
			t.Fatal(err)
		}
		q, err := plain.Divert(ctx, places[1])
		if err != nil {
			t.Fatal(err)
		}
		sameAfter(t, r, q, at+300*book.Second)
	}
}

// TestHoldBeside_HasLivedAlongThePath: the run without the failures has at the turn
// the phases and all else that it has flown from the start along the failed path.
func TestHoldBeside_HasLivedAlongThePath(t *testing.T) {
	ctx := context.Background()
	c := liveCourse(t, "northern_link", 0)
	s := fail(during("climb", 60), "engine_left")
	failed := flown(t, c, s)
	late, ok := failed.PhaseBegins("cruise")
	soon, err := c.Resolve(ctx, during("cruise", 0))
	if err != nil || !ok || max(late-soon, soon-late) < 10*book.Second {
		t.Fatalf("the cruise begins at %d, on one engine at %d: the test shows nothing; %v", soon, late, err)
	}
	at := (late + soon) / 2
	here, err := c.Hold(ctx, s, at)
	if err != nil {
		t.Fatal(err)
	}
	there, err := c.HoldBeside(ctx, here, s.Healthy())
	if err != nil {
		t.Fatal(err)
	}
	r, err := there.Divert(ctx, places[1])
	if err != nil {
		t.Fatal(err)
	}
	slow := flown(t, c.Along(r.Path()), s.Healthy())
	sameAfter(t, r, slow, at)
}

// TestDivert_IsTheLeg: a held run that is diverted flies as with that leg in its
// plan, also what fails late on the way, down to the roll.
func TestDivert_IsTheLeg(t *testing.T) {
	ctx := context.Background()
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "northern_link"), run.Setting{Router: oneField{60}})
	if err != nil {
		t.Fatal(err)
	}
	at, _ := c.Resolve(ctx, during("climb", 90))
	to := energy.Diversion{DistanceM: 60 * geo.MetresPerNM, Runway: roll.Runway{Code: 6}}
	plain, err := c.Hold(ctx, run.Scenario{}, at)
	if err != nil {
		t.Fatal(err)
	}
	r, err := plain.Divert(ctx, to)
	if err != nil {
		t.Fatal(err)
	}
	down, _, ok := r.Path().(*energy.Path).Touchdown()
	if !ok {
		t.Fatal("it does not land")
	}
	ends := map[book.Time]bool{}
	for _, before := range []book.Time{600, 200, 60, 20, -2, -10} {
		s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "engine_left"}, {Unit: "brake_left"}}, At: book.Moment{Offset: down - before*book.Second}}}}
		held, err := c.Hold(ctx, s, at)
		if err != nil {
			t.Fatal(err)
		}
		turned, err := held.Divert(ctx, to)
		if err != nil {
			t.Fatal(err)
		}
		leg, err := held.Goes(ctx, run.Leg{Do: run.Divert, To: "ONE", At: book.Moment{Offset: at}})
		if err != nil {
			t.Fatal(err)
		}
		if turned.End != leg.End || turned.Path().End() != leg.Path().End() {
			t.Errorf("failing %d s before touchdown: ends at %d, as a leg at %d", before, turned.End, leg.End)
		}
		ends[turned.End] = true
	}
	if len(ends) < 4 {
		t.Errorf("what fails late changes nothing: %v", ends)
	}
}
