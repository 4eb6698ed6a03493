package follow_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/costs"
	"knockon/crew"
	"knockon/crew/follow"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/ledger"
	"knockon/run"
)

func refs(ids ...string) (list [][]book.FailureRef) {
	for _, id := range ids {
		unit, fault, _ := strings.Cut(id, ".")
		list = append(list, []book.FailureRef{{Unit: unit, Fault: fault}})
	}
	return list
}

// TestOf_AgainstBothQuestions: for some failures of the demonstration, what is found
// is what the two answers and the two prices of the same question say, read here in
// another way. The lists of the demonstration
// do not meet the duct that takes its leak detector along: nobody goes to land.
func TestOf_AgainstBothQuestions(t *testing.T) {
	ctx, ground := context.Background(), islands.Region(t)
	desk := ask.NewDesk(corvane.Book(t)).Over(ground)
	course, err := desk.Course("", "")
	if err != nil {
		t.Fatal(err)
	}
	at := book.Moment{Phase: "cruise", Offset: 60 * book.Second}
	q := follow.Question{Team: desk.Team(course), At: at, Fail: refs("engine_left", "duct_burst", "waste_blower", "wrong_oil", "stall_vane_left.reads_high"), Ground: ground, Workers: 2}
	told := 0
	got, err := follow.Of(ctx, q, func(done, of int) { told = max(told, done) })
	if err != nil || told != len(q.Fail) || got.Flown != len(q.Fail) {
		t.Fatal(err, told, got)
	}
	var want []string
	called := 0
	for _, fail := range q.Fail {
		s := run.Scenario{Strikes: []run.Strike{{Fail: fail, At: at}}}
		plan, err := q.Team.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		if len(plan.Lines) == 0 {
			continue
		}
		called++
		with, err := q.Team.Ledger(ctx, plan)
		if err != nil {
			t.Fatal(err)
		}
		off, err := ledger.Answer(ctx, course, s)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, slowly(fail, off, with)...)
		if !strings.Contains(words(plan), " land") {
			want = append(want, longLost(fail, with)...)
		}
		want = append(want, closed(t, q, course, fail, s)...)
	}
	var found []string
	for _, x := range got.Findings {
		text := x.Fail[0].String() + ": " + string(x.Kind) + " " + x.Field
		if x.Function != nil {
			text += x.Function.ID
		}
		found = append(found, text)
	}
	slices.Sort(want)
	slices.Sort(found)
	if got.Called != called || !slices.Equal(found, want) {
		t.Errorf("%d called, %d wanted; found\n%s\nwanted\n%s", got.Called, called, strings.Join(found, "\n"), strings.Join(want, "\n"))
	}
	if len(found) == 0 {
		t.Error("nothing is found, so nothing was compared")
	}
}

// words are the legs that the lines of a plan ask for.
func words(p *crew.Plan) (s string) {
	for _, l := range p.Lines {
		if l.Step != nil {
			s += " " + l.Step.Leg
		}
	}
	return s
}

// longLost looks at each function each second.
func longLost(fail []book.FailureRef, with *ledger.Ledger) (list []string) {
	for _, f := range with.Here.Course.Build.Functions {
		loss, most, now := with.Loss(f.ID), 0, 0
		if loss == nil || f.Severity != "hazardous" && f.Severity != "catastrophic" {
			continue
		}
		for at := book.Time(0); at < with.Here.End; at += book.Second {
			if slices.ContainsFunc(loss.Spans, func(s ledger.LossSpan) bool { return s.Mattered && s.From <= at && at < s.To }) {
				now++
			} else {
				now = 0
			}
			most = max(most, now)
		}
		if most > 3600 {
			list = append(list, fail[0].String()+": nobody goes to land "+f.ID)
		}
	}
	return list
}

// slowly goes through the functions of the build instead of the losses.
func slowly(fail []book.FailureRef, off, with *ledger.Ledger) (list []string) {
	end := off.Here.Ending()
	if e := with.Here.Ending(); !e.Arrived() && end.Arrived() {
		list = append(list, fail[0].String()+": does not arrive ")
	}
	for _, f := range with.Here.Course.Build.Functions {
		a, b := firstBite(with, f.ID), firstBite(off, f.ID)
		switch {
		case f.Severity != "hazardous" && f.Severity != "catastrophic", a == book.Never:
		case b == book.Never && (end.Arrived() || a <= end.At):
			list = append(list, fail[0].String()+": lost as well "+f.ID)
		case b != book.Never && a < b-60*book.Second:
			list = append(list, fail[0].String()+": lost sooner "+f.ID)
		}
	}
	return list
}

func firstBite(l *ledger.Ledger, id string) book.Time {
	if loss := l.Loss(id); loss != nil {
		for _, s := range loss.Spans {
			if s.Mattered {
				return s.From
			}
		}
	}
	return book.Never
}

func closed(t *testing.T, q follow.Question, c *run.Course, fail []book.FailureRef, s run.Scenario) (list []string) {
	t.Helper()
	at, _ := c.Resolve(t.Context(), q.At)
	good := func(x costs.Question) map[string]bool {
		x.Scenario, x.At = s, at+1
		p, err := costs.Of(t.Context(), c, q.Ground, x)
		if err != nil {
			t.Fatal(err)
		}
		m := map[string]bool{}
		for i := range p.Places {
			m[p.Places[i].Airfield.Name] = p.Places[i].Failed.Good()
		}
		return m
	}
	with := good(costs.Question{Hand: q.Team.Hand})
	for name, ok := range good(costs.Question{}) {
		if ok && !with[name] {
			list = append(list, fail[0].String()+": field closed "+name)
		}
	}
	return list
}

// TestView_SaysOnlyWhatWasFlown: that nothing is worse is not said where no list was
// begun, and says so where flights arrive neither way.
func TestView_SaysOnlyWhatWasFlown(t *testing.T) {
	b := corvane.Build(t, "")
	f := b.Functions[0]
	for _, x := range []struct {
		f         follow.Followed
		want, not string
	}{
		{follow.Followed{Flown: 3}, "nothing is said of the lists", "After none"},
		{follow.Followed{Flown: 3, Called: 2}, "After none of them is anything grave lost", "as far as"},
		{follow.Followed{Flown: 3, Called: 2, Undone: 1}, "after 1 of them neither arrives", "worse"},
		{follow.Followed{Flown: 3, Called: 2, Priced: 1}, "priced both ways for the 1 ", "No field"},
		{follow.Followed{Flown: 3, Called: 2, Findings: []follow.Finding{{Kind: follow.Lost, Function: f, Fail: refs("gen_left")[0]}}}, "After 1 of them something grave is worse", "After none"},
	} {
		if lead := x.f.View(b).Lead; !strings.Contains(lead, x.want) || strings.Contains(lead, x.not) {
			t.Errorf("%+v: %s", x.f, lead)
		}
	}
	var text strings.Builder
	v := (&follow.Followed{Flown: 1, Called: 1, Strike: book.Second, Findings: []follow.Finding{{Kind: follow.Sooner, Function: f, Fail: refs("gen_left")[0], Lists: b.Procedures[:1], At: 11 * book.Second, HandsOff: 101 * book.Second}}}).View(b)
	if err := follow.WriteText(&text, v, b, 100); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"LOST SOONER", "Left generator: ", " is lost from +0:10, hands off from +1:40 (", b.Procedures[0].Title, "not for use in flight"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("no %q in\n%s", want, text.String())
		}
	}
}
