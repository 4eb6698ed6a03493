package why_test

import (
	"context"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
	"knockon/why"
)

// TestNeeds_HoldingOneSavesTheLoss: with what a loss hangs on held as it is in the
// other run, the failures and all else as here, the function works at that moment as
// it does there. KNOCKON_NEEDS says how many random pairs of failures.
func TestNeeds_HoldingOneSavesTheLoss(t *testing.T) {
	ctx, b := context.Background(), corvane.Build(t, "")
	c, err := run.NewCourse(b, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	items := holdable(b)
	rng := rand.New(rand.NewPCG(5, 12))
	held, losses := 0, 0
	for range many("KNOCKON_NEEDS", 24) {
		s := run.Scenario{}
		var puts []run.Put
		at := book.AtSeconds(float64(300 + rng.IntN(3000)))
		for range 2 {
			ref := book.FailureRef{Unit: b.Units[rng.IntN(len(b.Units))].ID}
			s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{ref}, At: book.Moment{Offset: at}})
			puts = append(puts, run.Put{Way: &ref, From: at, To: book.Never})
		}
		l, err := ledger.Answer(ctx, c, s)
		if err != nil {
			t.Fatal(err)
		}
		n := why.NewNeeds(l.Here.Trace, l.There.Trace)
		for _, loss := range l.Losses {
			losses++
			v, when := circuit.Value{Item: loss.Function.ID}, loss.Spans[0].From
			needs := n.Of(v, when)
			if len(needs) == 0 {
				t.Errorf("%v: nothing that %s hangs on", s.Strikes, loss.Function.ID)
			}
			for _, m := range needs {
				if m.Far == 0 {
					continue
				}
				put, ok := asThere(l.There.Trace, m, at, items)
				if !ok {
					continue
				}
				held++
				r, err := c.Told(ctx, l.Here, ids(items), append(puts[:2:2], put))
				if err != nil {
					t.Fatal(err)
				}
				if !worksAt(r.Trace, v, when) {
					t.Errorf("%v: with %s held %s, %s is lost at %v all the same", names(s), m.Value.Item, put.Way.Fault, loss.Function.ID, when.Seconds())
				}
			}
		}
	}
	t.Logf("%d losses, %d held", losses, held)
	if held < 50 {
		t.Errorf("only %d were held", held)
	}
}

func names(s run.Scenario) (list []string) {
	for _, x := range s.Strikes {
		list = append(list, x.Fail[0].Unit)
	}
	return list
}

func many(variable string, otherwise int) int {
	if n, err := strconv.Atoi(os.Getenv(variable)); err == nil {
		return n
	}
	return otherwise
}

func holdable(b *book.Build) map[string]bool {
	items := map[string]bool{}
	for _, u := range b.Units {
		items[u.ID] = true
	}
	for _, f := range b.Functions {
		items[f.ID] = true
	}
	for _, s := range b.Signals {
		if s.Type == book.YesNo && s.Value != nil {
			items[s.ID] = true
		}
	}
	return items
}

func ids(items map[string]bool) (list []string) {
	for id := range items {
		list = append(list, id)
	}
	return list
}

// asThere holds an item as it is in the other run, where it is one thing there from
// the strike on.
func asThere(there *circuit.Trace, m why.Need, strike book.Time, items map[string]bool) (p run.Put, ok bool) {
	if m.Value.Aspect != circuit.Main || !items[m.Value.Item] {
		return p, false
	}
	v := there.At(m.Node, strike)
	for _, ch := range there.History(m.Node) {
		if ch.At > strike {
			return p, false
		}
	}
	fault := circuit.HeldNo
	if v != 0 {
		fault = circuit.HeldYes
	}
	return run.Put{Way: &book.FailureRef{Unit: m.Value.Item, Fault: fault}, From: strike, To: book.Never}, true
}

func worksAt(t *circuit.Trace, v circuit.Value, at book.Time) bool {
	n, ok := t.Circuit().Node(v)
	return ok && t.At(n, at) != 0
}
