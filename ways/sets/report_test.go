package sets_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"knockon/ways"
	"knockon/ways/logic"
	"knockon/ways/sets"
)

// TestMake_SaysUpToWhereItIsComplete: that there are no others only where all orders
// were looked for, up to an order where that was asked, and nothing of the kind where
// memory ran out before; that nothing brings it about only of what is so.
func TestMake_SaysUpToWhereItIsComplete(t *testing.T) {
	l := logic.New()
	a, b, c := l.Event("a"), l.Event("b"), l.Event("c")
	var many, clauses []logic.Term
	for i := range 60 {
		many = append(many, l.Event(fmt.Sprint("e", i)))
	}
	for i := range 90 { // any three of sixty in every clause: too much for a megabyte
		clauses = append(clauses, l.Or(many[i*7%60], many[i*i%60], many[(i*i*i+11)%60]))
	}
	hard := l.And(clauses...)
	for name, x := range map[string]struct {
		top               logic.Term
		ask               ways.Options
		complete, verdict string
		count             int
	}{
		"all orders":           {l.Or(a, l.And(b, c)), ways.Options{}, "Complete: there are no other smallest sets.", "", 2},
		"up to one failure":    {l.Or(a, l.And(b, c)), ways.Options{Order: 1}, "Complete up to 1 failure; larger sets were not looked for.", "", 1},
		"none of one failure":  {l.And(b, c), ways.Options{Order: 1}, "Complete up to 1 failure; larger sets were not looked for.", "", 0},
		"nothing brings it":    {l.And(a, a.Not()), ways.Options{}, "Complete: there are no other smallest sets.", "No set of failures brings it about.", 0},
		"it is so in any case": {l.Or(a, a.Not()), ways.Options{}, "Complete: there are no other smallest sets.", "It is so whatever fails, and if nothing does.", 0},
		"memory ran out":       {hard, ways.Options{Megabytes: 1}, "PARTIAL: ", "", -1},
	} {
		r, err := sets.Make(context.Background(), name, l, x.top, sets.Ask{Options: x.ask, Most: 10})
		if err != nil {
			t.Fatal(name, err)
		}
		n := 0
		for _, o := range r.Orders {
			n += len(o.Sets)
		}
		if !strings.HasPrefix(r.Complete, x.complete) || r.Verdict != x.verdict || x.count >= 0 && n != x.count {
			t.Errorf("%s: %q, %q, %d sets", name, r.Complete, r.Verdict, n)
		}
		if partial := strings.HasPrefix(r.Complete, "PARTIAL"); partial != r.Partial || partial && strings.Contains(r.Complete, "no other") {
			t.Errorf("%s: partial %v, but %q", name, r.Partial, r.Complete)
		}
	}
}
