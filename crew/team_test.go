package crew_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

func team(tb testing.TB, b *book.Build, flight string, set crew.Setting) *crew.Team {
	tb.Helper()
	t, err := crew.NewTeam(b, corvane.Flight(tb, b, flight), set)
	if err != nil {
		tb.Fatal(err)
	}
	return t
}

// failing is a scenario: units, faults or events that fail at a moment.
func failing(tb testing.TB, b *book.Build, at string, what ...string) run.Scenario {
	tb.Helper()
	m, err := book.ParseMoment(at, b)
	if err != nil {
		tb.Fatal(err)
	}
	k := run.Strike{At: m}
	for _, w := range what {
		ref, err := book.ParseFailure(w, b)
		if err != nil {
			tb.Fatal(err)
		}
		k.Fail = append(k.Fail, ref)
	}
	return run.Scenario{Strikes: []run.Strike{k}}
}

// said is a plan in one line for each line of it.
func said(p *crew.Plan) (list []string) {
	for _, l := range p.Lines {
		what := string(l.Kind)
		if l.Step != nil {
			what = l.Step.Kind + " " + l.Number
		}
		if l.Control != "" {
			what += " " + l.Control + "=" + l.Position
		}
		list = append(list, fmt.Sprintf("%7.1f %6.1f %-4s %s %s %s", l.From.Seconds(), l.To.Seconds(), l.By, l.Procedure.ID, what, l.Answer))
	}
	return list
}

// ways lists every way in which one unit can fail, and the events of the book.
func ways(b *book.Build) (list []string) {
	for _, u := range b.Units {
		list = append(list, u.ID)
		for _, f := range u.Faults {
			list = append(list, u.ID+"."+f.ID)
		}
	}
	for _, e := range b.Events {
		list = append(list, e.ID)
	}
	return list
}

func same(t *testing.T, name string, a, b *crew.Plan) {
	t.Helper()
	x, y := said(a), said(b)
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			t.Errorf("%s: line %d:\n%s\n%s", name, i, x[i], y[i])
			return
		}
	}
	if len(x) != len(y) || !slices.Equal(a.Record.Changes(), b.Record.Changes()) {
		t.Errorf("%s: %d and %d lines; %d and %d changes", name, len(x), len(y), len(a.Record.Changes()), len(b.Record.Changes()))
	}
}

// TestFly_IsTheSlowWay: one flight with the crew on board gives the plan and the
// record that flying the whole flight again for each action gives, and the plain
// run of the plan's actions gives the same record.
func TestFly_IsTheSlowWay(t *testing.T) {
	b := corvane.Build(t, "")
	tm := team(t, b, "short_hop", crew.Setting{})
	ctx, actions := context.Background(), 0
	for i, w := range ways(b) {
		if i%5 != 0 {
			continue
		}
		s := failing(t, b, "cruise", w)
		fast, err := tm.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		slow, err := tm.FlySlowly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		same(t, w+", slowly", fast, slow)
		plain, err := tm.Course().Fly(ctx, fast.Record.Scenario)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(plain.Changes(), fast.Record.Changes()) {
			t.Errorf("%s: the plain run is another", w)
		}
		actions += len(fast.Record.Scenario.Actions)
	}
	if actions < 20 {
		t.Errorf("only %d actions: the test shows nothing", actions)
	}
}

// TestFly_AFailureOnACondition: such a scenario is compiled with its condition;
// what the crew look at is the same.
func TestFly_AFailureOnACondition(t *testing.T) {
	b := corvane.Build(t, "")
	tm := team(t, b, "short_hop", crew.Setting{})
	when, diags := book.ParseExpr("real.height_ft > 2500", b)
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	s := failing(t, b, "", "gen_left")
	s.Strikes[0].When = when
	fast, err := tm.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	slow, err := tm.FlySlowly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "on a condition", fast, slow)
	at, _ := fast.Record.FirstStrike()
	timed := failing(t, b, "", "gen_left")
	timed.Strikes[0].At = book.Moment{Offset: at}
	plain, err := tm.Fly(context.Background(), timed)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := said(fast), said(plain); !slices.Equal(a, b) || len(a) < 5 {
		t.Errorf("on a condition\n%s\nat that time\n%s", a, b)
	}
}
