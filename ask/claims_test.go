package ask_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/ways"
	"knockon/ways/sets"
)

// proven is a loss that a claim of the book proves.
type proven struct {
	claim, function, build, flight, at, phase string
	fail, out                                 []string
	of                                        *book.Build
}

// provenLosses lists what the claims of a book prove to be lost by failures that
// all come at one moment.
func provenLosses(t *testing.T, d *ask.Desk) (list []proven) {
	t.Helper()
	first, _ := d.Book.Build("")
	for _, c := range first.Claims {
		for _, g := range c.Given {
			if len(g.Strikes) != 1 || g.Strikes[0].When != nil {
				continue
			}
			k := g.Strikes[0]
			p := proven{claim: c.ID + "/" + g.Title, build: g.Variant, flight: g.Flight, at: k.At, of: first}
			if g.Variant != "" {
				p.of, _ = d.Book.Build(g.Variant)
			}
			for _, f := range k.Fail {
				p.fail = append(p.fail, f.String())
			}
			for _, f := range g.Inoperative {
				p.out = append(p.out, f.String())
			}
			for _, e := range g.Expect {
				if e.Op != book.OpLedger || !slices.Contains([]string{"lost", "told", "told_late", "only_shown", "not_told", "told_wrong"}, e.Word) {
					continue
				}
				if p.function = e.Args[0].ID; slices.ContainsFunc(first.Functions, func(f *book.Function) bool { return f.ID == p.function }) {
					list = append(list, p)
				}
			}
		}
	}
	return list
}

// TestWays_DenyNoClaim: what a claim of the book proves to take a function away,
// in some phase, is or holds a set that ways gives for that function in that
// phase, of the aircraft held still or of the flight that goes on. Two claims
// begin at the start of a phase what its middle leaves no time for; from their own
// moment on it is found.
func TestWays_DenyNoClaim(t *testing.T) {
	d := desk(t)
	stood := map[string]*ask.Standing{}
	asked, late := map[string]bool{}, 0
	for _, p := range provenLosses(t, d) {
		phase, _, _ := strings.Cut(p.at, " ")
		held, flown := p.found(t, d, stood, phase)
		asked[p.function+p.claim] = true
		if !held && flown {
			late++
		}
		if held || flown {
			continue
		}
		if held, flown = p.found(t, d, stood, p.at); !held && !flown {
			t.Errorf("%s: %s is lost by %v, %v out, at %q; ways gives no part of that", p.claim, p.function, p.fail, p.out, p.at)
		} else {
			t.Logf("%s: %s only from %q on", p.claim, p.function, p.at)
		}
	}
	t.Logf("%d losses proven by claims; %d of them come only in time", len(asked), late)
	if len(asked) < 150 || late < 10 {
		t.Error("hardly any loss was asked of")
	}
}

// found says whether ways gives a set that the failures of a claim hold.
func (p proven) found(t *testing.T, d *ask.Desk, stood map[string]*ask.Standing, in string) (held, flown bool) {
	t.Helper()
	ctx := context.Background()
	q := ask.Sought{Functions: []string{p.function}, Out: p.out, In: in, Build: p.build, Flight: p.flight}
	c, err := q.Condition(p.of)
	if err != nil {
		t.Fatal(p.claim, err)
	}
	key := strings.Join(append([]string{p.build, p.flight, in}, p.out...), "|")
	if stood[key] == nil {
		if stood[key], err = d.Stand(ctx, q); err != nil {
			t.Fatal(p.claim, err)
		}
	}
	r, err := stood[key].Ways(ctx, c, sets.Ask{Options: ways.Options{Order: 3}, Most: 1 << 20})
	if err != nil {
		t.Fatal(p.claim, err)
	}
	return p.holds(r.Orders), p.holds(r.Flown.Orders)
}

func (p proven) holds(orders []sets.Order) bool {
	other := func(f string) bool { return !slices.Contains(p.fail, f) }
	return slices.ContainsFunc(orders, func(o sets.Order) bool {
		return slices.ContainsFunc(o.Sets, func(s sets.Set) bool { return !slices.ContainsFunc(s.Names, other) })
	})
}
