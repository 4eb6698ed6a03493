package drill_test

import (
	"bytes"
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/drill"
	"knockon/internal/corvane/islands"
	"knockon/run"
)

// sender numbers the inputs of one device.
type sender struct {
	testing.TB
	*drill.Session
	sent int
}

func (x *sender) try(in drill.Input) error {
	in.Client, in.Number = "one", x.sent+1
	if in.Who == "" {
		in.Who = drill.Alone
	}
	_, err := x.Accept(context.Background(), in)
	if err == nil {
		x.sent++
	}
	return err
}

func (x *sender) send(in drill.Input) {
	x.Helper()
	if err := x.try(in); err != nil {
		x.Fatal(in, err)
	}
}

// facts are what a person knows without looking, by title.
func facts(s *drill.Session, who drill.Role) map[string]string {
	m := map[string]string{}
	for _, f := range s.Screen(who).Situation {
		m[f.Title] = f.Text
	}
	return m
}

// TestTurn: the flight goes where it is turned, as the same leg of a plan has it go, and
// every seat sees where; a log that is read again gives the same drill, and a rewind
// has it go on as before.
func TestTurn(t *testing.T) {
	d, at := deck(t, "short_hop"), 200*book.Second
	x := &sender{TB: t, Session: open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"gen_left"}, At: "climb"}}})}
	x.send(drill.Input{Do: drill.TurnTo, To: "return", At: at})
	if err := x.Advance(t.Context(), at+30*book.Second); err != nil {
		t.Fatal(err)
	}
	for _, who := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Instructor} {
		if f := facts(x.Session, who); f["Going to"] != "Kestrin" || !strings.Contains(f["Last turn"], "back to Kestrin") {
			t.Errorf("%s knows %v", who, f)
		}
	}
	planned := run.Scenario{Strikes: x.Flown().Strikes, Plan: []run.Leg{{Do: run.Return, At: book.Moment{Offset: at + 1}}}}
	lived, err := d.Course().Fly(t.Context(), x.Flown())
	if err != nil {
		t.Fatal(err)
	}
	want, err := d.Course().Fly(t.Context(), planned)
	if err != nil {
		t.Fatal(err)
	}
	if lived.End != want.End || lived.Bound() != "Kestrin" || !slices.Equal(lived.Instants(), want.Instants()) {
		t.Errorf("ends at %v at %s, planned at %v", lived.End, lived.Bound(), want.End)
	}
	var log bytes.Buffer
	_ = drill.WriteScript(&log, x.Script())
	for _, in := range x.Session.Log() {
		_ = drill.WriteInput(&log, in)
	}
	again, err := d.Replay(t.Context(), &log)
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Advance(t.Context(), x.Now()); err != nil || screens(t, again) != screens(t, x.Session) {
		t.Errorf("read again it is another drill: %v", err)
	}
	x.send(drill.Input{Do: drill.Rewind, Who: drill.Instructor, Back: at - 1, At: x.Now()})
	if f := facts(x.Session, drill.PilotFlying); f["Going to"] != "Little Ansa" || f["Last turn"] != "" {
		t.Errorf("wound back it knows %v", f)
	}
}

// TestTurn_Twice: at one moment, and to where it goes already, it is refused in words,
// and the drill is as it was; to a third field it goes.
func TestTurn_Twice(t *testing.T) {
	at := 200 * book.Second
	x := &sender{TB: t, Session: open(t, deck(t, "short_hop"), drill.Script{})}
	x.send(drill.Input{Do: drill.TurnTo, To: "return", At: at})
	refused := func(in drill.Input, words string) {
		t.Helper()
		before := screens(t, x.Session)
		var r *drill.Refusal
		if err := x.try(in); !errors.As(err, &r) || r.Why != drill.NotFlown || !strings.Contains(r.Text, words) {
			t.Errorf("%s: %v", in.To, err)
		}
		if screens(t, x.Session) != before {
			t.Errorf("%s: the drill has changed", in.To)
		}
	}
	refused(drill.Input{Do: drill.TurnTo, To: "land", At: at}, "another turn begins at this moment")
	refused(drill.Input{Do: drill.TurnTo, To: "return", At: at + 5*book.Second}, "it goes to Kestrin already")
	refused(drill.Input{Do: drill.TurnTo, To: "reject", At: at + 6*book.Second}, "past its take-off roll")
	x.send(drill.Input{Do: drill.TurnTo, To: "divert QSVA", At: at + 9*book.Second})
	if err := x.Advance(t.Context(), at+10*book.Second); err != nil {
		t.Fatal(err)
	}
	if f := facts(x.Session, drill.PilotFlying); f["Going to"] == "Kestrin" || f["Going to"] == "Little Ansa" {
		t.Errorf("it goes to %q", f["Going to"])
	}
}

// TestTick_TurnsTheFlight: a line that sends the flight down is flown when it is ticked,
// once, as the same turn would be; without it nothing turns.
func TestTick_TurnsTheFlight(t *testing.T) {
	d := deck(t, "northern_link")
	clock, err := d.Course().Clock(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	at := clock[slices.IndexFunc(clock, func(p run.PhaseSpan) bool { return p.ID == "cruise" })].From + 300*book.Second
	flown := func(steps ...string) run.Scenario {
		x := &sender{TB: t, Session: open(t, d, drill.Script{})}
		x.send(drill.Input{Do: drill.Call, ID: "cabin_high_list", At: at - book.Second})
		for _, n := range steps {
			x.send(drill.Input{Do: drill.Tick, ID: "cabin_high_list", Step: n, At: at})
		}
		return x.Flown()
	}
	if plan := flown("1").Plan; len(plan) > 0 {
		t.Errorf("a line that sends nobody anywhere turns: %v", plan)
	}
	plan := flown("2", "2").Plan
	if len(plan) != 1 || plan[0].Do != run.Descend || plan[0].LevelFt != 10000 || plan[0].At.Offset != at+1 {
		t.Fatalf("turned: %+v", plan)
	}
	r, err := d.Course().Fly(t.Context(), run.Scenario{Plan: plan})
	if err != nil || len(r.Turns) != 1 || r.Turns[0].Why != "" {
		t.Errorf("%+v, %v", r.Turns, err)
	}
}

// TestDebrief_SaysWhereItWent: of the drill, and of a crew who do it right.
func TestDebrief_SaysWhereItWent(t *testing.T) {
	d := deck(t, "northern_link")
	x := &sender{TB: t, Session: open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}})}
	x.send(drill.Input{Do: drill.TurnTo, To: "divert QSTO", At: 700 * book.Second})
	if err := x.Advance(t.Context(), 900*book.Second); err != nil {
		t.Fatal(err)
	}
	v, err := x.Debrief(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	field, _ := islands.Region(t).Find("QSTO")
	// Done right it goes to land, and then down out of the ice that nothing melts.
	if len(v.Turns) != 1 || !strings.Contains(v.Turns[0], "urned at 11:40 to "+field.Name) || len(v.BestTurns) != 2 || !strings.Contains(v.BestTurns[0], "to land at ") || !strings.Contains(v.BestTurns[0], "the nearest on a straight way in this wind where, flown on, it stops") || !strings.HasPrefix(v.BestTurns[1], "Descended to 5,000 ft") {
		t.Errorf("here %q, done right %q", v.Turns, v.BestTurns)
	}
	if !slices.ContainsFunc(v.Events, func(e drill.Event) bool { return e.When == "done" && e.Text == "pilot: turns the flight: divert QSTO" }) {
		t.Errorf("not among what was done: %v", v.Events)
	}
}

// TestTurn_LengthensTheFlight: what is done after the end that the flight had before it
// was turned is taken.
func TestTurn_LengthensTheFlight(t *testing.T) {
	at := 200 * book.Second
	d := deck(t, "short_hop")
	x, before := &sender{TB: t, Session: open(t, d, drill.Script{})}, d.Course().Path.End()
	x.send(drill.Input{Do: drill.TurnTo, To: "hold 20 min", At: at})
	x.send(drill.Input{Do: drill.Move, ID: "gen_left_switch", To: "off", At: before + 60*book.Second})
	if x.Ended() || x.Now() != before+60*book.Second {
		t.Errorf("at %v, over %v", x.Now(), x.Ended())
	}
}

// TestDebrief_OpensWithAFlightThatBreaksOff: that nothing cost anything must not be the
// first that is said of it.
func TestDebrief_OpensWithAFlightThatBreaksOff(t *testing.T) {
	d := deck(t, "northern_link")
	x := &sender{TB: t, Session: open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"trim_motor_1.runs"}, At: "climb + 120 s"}}})}
	for _, end := range []book.Time{570 * book.Second, 700 * book.Second} {
		if err := x.Advance(t.Context(), end); err != nil {
			t.Fatal(err)
		}
		v, err := x.Debrief(t.Context(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if broke := strings.Contains(v.Heading, ". The flight breaks off at "); broke != (end > 600*book.Second) {
			t.Errorf("at %v: %q", end, v.Heading)
		}
	}
}
