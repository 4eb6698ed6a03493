package ledger

import (
	"context"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// Answer flies a scenario with and without its failures and gives the ledger.
// It fails where run.Course.Fly does.
func Answer(ctx context.Context, c *run.Course, s run.Scenario) (*Ledger, error) {
	here, err := c.Fly(ctx, s)
	if err != nil {
		return nil, err
	}
	there, err := c.Beside(ctx, here)
	if err != nil {
		return nil, err
	}
	return Of(here, there), nil
}

// Of compares a run with its failures with the run of the same flight, build,
// set-up and inoperative units without them, and without what the crew move. Where a run ended early, nothing
// is said of what comes after.
func Of(here, there *run.Record) *Ledger { return Until(here, there, book.Never) }

// Until is Of up to a moment: its rows say nothing of what comes after it. A view of
// it would, for the records go on.
func Until(here, there *run.Record, end book.Time) *Ledger {
	c := newComparison(here, there, end)
	l := &Ledger{Here: here, There: there, Strike: c.strike}
	l.Losses = c.losses()
	l.Wrong, l.Dark = c.readings()
	l.Alerts, l.False, l.Held = c.announcements()
	l.Kept = c.kept(l.Losses)
	return l
}

// comparison is what all rows are worked out from.
type comparison struct {
	here, there *run.Record
	build       *book.Build
	end         book.Time // of the shorter run
	strike      book.Time // the start where nothing fails
	parted      book.Time // before it the two runs are the same
	told, wrong book.Time // told_within_s, wrong_after_s
	phases      []run.PhaseSpan

	telling  map[string][]*book.Alert      // function -> alerts that tell it
	covering map[string][]*book.Indication // function -> indications that cover it
	news     map[string]span.Set           // alert -> given here and not there
	passing  map[string][]book.Time        // alert -> given so for no duration
	right    map[string]span.Set           // alert -> of news, while it is not false
	lies     map[string]span.Set           // indication -> wrong here and not there, for longer than wrong
	moments  []book.Time                   // where numbers are looked at; see shown.go
}

func newComparison(here, there *run.Record, end book.Time) *comparison {
	c := &comparison{
		here: here, there: there, build: here.Course.Build, end: min(here.End, there.End, end),
		telling: map[string][]*book.Alert{}, covering: map[string][]*book.Indication{},
		news: map[string]span.Set{}, passing: map[string][]book.Time{}, right: map[string]span.Set{}, lies: map[string]span.Set{},
	}
	c.strike, _ = here.FirstStrike()
	if c.phases = here.Phases(); len(here.Scenario.Actions) == 0 {
		c.parted = c.strike
	}
	c.told, c.wrong = ToldWithin(c.build.Aircraft), WrongAfter(c.build.Aircraft)
	for _, a := range c.build.Alerts {
		c.listen(a)
	}
	for _, i := range c.build.Indications {
		c.watch(i)
	}
	return c
}

// ToldWithin is how soon after a loss an alert must come to count as told.
func ToldWithin(a *book.Aircraft) book.Time { return setting(a, "told_within_s", 10) }

// WrongAfter is how long an indication must be wrong to count as wrong.
func WrongAfter(a *book.Aircraft) book.Time { return setting(a, "wrong_after_s", 2) }

func setting(a *book.Aircraft, name string, otherwise float64) book.Time {
	for _, n := range a.Numbers {
		if n.Name == name {
			return book.AtSeconds(n.Value)
		}
	}
	return book.AtSeconds(otherwise)
}

func (c *comparison) listen(a *book.Alert) {
	here, there := c.both(a.ID, circuit.Main)
	c.news[a.ID] = span.Lasting(here).Beyond(span.Lasting(there))
	c.passing[a.ID] = span.OnlyHere(here, there)
	c.right[a.ID] = c.news[a.ID].Minus(c.isHere(a.ID, circuit.False))
	for _, f := range a.Tells {
		c.telling[f] = append(c.telling[f], a)
	}
}

func (c *comparison) watch(i *book.Indication) {
	if i.Means != nil {
		c.lies[i.ID] = c.newly(i.ID, circuit.Wrong).Longer(c.wrong)
	}
	for _, f := range c.build.Covers(i) {
		c.covering[f] = append(c.covering[f], i)
	}
}

// both gives when a value is yes in the two runs, as far as both went.
func (c *comparison) both(id string, a circuit.Aspect) (here, there []circuit.Span) {
	return c.cut(c.here, id, a), c.cut(c.there, id, a)
}

func (c *comparison) cut(r *run.Record, id string, a circuit.Aspect) []circuit.Span {
	n, ok := r.Circuit().Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		return nil
	}
	list := r.Spans(n)
	for len(list) > 0 && list[len(list)-1].From > c.end {
		list = list[:len(list)-1]
	}
	if last := len(list) - 1; last >= 0 {
		list[last].To = min(list[last].To, c.end)
	}
	return list
}

// newly gives when a value is yes here and not there, with duration.
func (c *comparison) newly(id string, a circuit.Aspect) span.Set {
	here, there := c.both(id, a)
	return span.Lasting(here).Beyond(span.Lasting(there))
}

func (c *comparison) isHere(id string, a circuit.Aspect) span.Set {
	return span.Lasting(c.cut(c.here, id, a))
}

func (c *comparison) isThere(id string, a circuit.Aspect) span.Set {
	return span.Lasting(c.cut(c.there, id, a))
}
