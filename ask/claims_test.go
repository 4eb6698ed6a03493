package ask_test

import (
	"context"
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/ask"
	"knockon/book"
	"knockon/sweep"
	"knockon/ways"
	"knockon/ways/sets"
)

// proven is a loss that a claim of the book proves.
type proven struct {
	claim, function, build, flight, at string
	fail, out                          []string
	of                                 *book.Build
	byHand                             bool // the crew move something
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
			p := proven{claim: c.ID + "/" + g.Title, build: g.Variant, flight: g.Flight, at: k.At, of: first, byHand: len(g.Acts)+len(g.SetUps) > 0}
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
// phase, of the aircraft held still or of the flight that goes on; at the latest
// for the moment of the claim, where the middle of the phase leaves no time.
// What a loss needs the crew's hands for is not looked for, and the answer says
// so. One loss in twelve is asked of; KNOCKON_SLOW=1 asks of all.
func TestWays_DenyNoClaim(t *testing.T) {
	step := 12
	if os.Getenv("KNOCKON_SLOW") != "" {
		step = 1
	}
	d := desk(t)
	stood := map[string]*ask.Standing{}
	asked, late := 0, 0
	for i, p := range provenLosses(t, d) {
		if i%step != 0 {
			continue
		}
		phase, _, _ := strings.Cut(p.at, " ")
		a := p.found(t, d, stood, phase)
		if !a.held && !a.flown {
			a = p.found(t, d, stood, p.at)
		}
		asked++
		switch {
		case a.held:
		case a.flown:
			late++
		case !p.byHand:
			t.Errorf("%s: %s is lost by %v, %v out, at %q; ways gives no part of that", p.claim, p.function, p.fail, p.out, p.at)
		case a.never || !strings.Contains(a.says, "nothing moved by hand"):
			t.Errorf("%s: %s is lost by %v when the crew act; ways says: never %v, %s", p.claim, p.function, p.fail, a.never, a.says)
		}
	}
	t.Logf("%d losses proven by claims; %d of them come only in time", asked, late)
	if asked < 16 || late < 3 {
		t.Error("hardly any loss was asked of")
	}
}

// answer is what ways says of a loss that a claim proves.
type answer struct {
	held, flown, never bool
	says               string
}

// found says whether ways gives a set that the failures of a claim hold.
func (p proven) found(t *testing.T, d *ask.Desk, stood map[string]*ask.Standing, in string) answer {
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
	return answer{p.holds(r.Orders), p.holds(r.Flown.Orders), r.Never, r.Flown.Says}
}

func (p proven) holds(orders []sets.Order) bool {
	other := func(f string) bool { return !slices.Contains(p.fail, f) }
	return slices.ContainsFunc(orders, func(o sets.Order) bool {
		return slices.ContainsFunc(o.Sets, func(s sets.Set) bool { return !slices.ContainsFunc(s.Names, other) })
	})
}

// TestWays_SayWhatIsNotAnswered: a function that works at no moment of the
// question, or reads what fills or empties in time, is not said to be safe from
// failures, and how it is lost in time is found by flying on.
func TestWays_SayWhatIsNotAnswered(t *testing.T) {
	ctx, d := context.Background(), desk(t)
	for _, c := range []struct {
		in   ask.Sought
		says string
		by   string // a set found by flying on
	}{
		{ask.Sought{Functions: []string{idleIn(t, d, "cruise")}, In: "cruise", Told: "wrong"}, "does not work at", ""},
		{ask.Sought{Functions: []string{"cabin_pressure"}, In: "cruise"}, "reads a total", "cabin_wall.leaks"},
		{ask.Sought{Functions: []string{"apu_start"}, In: "cruise"}, "reads a total", "feed_line_left.leaks"},
	} {
		s, err := d.Stand(ctx, c.in)
		if err != nil {
			t.Fatal(err)
		}
		r, err := s.Ways(ctx, s.Condition, sets.Ask{Options: ways.Options{Order: 2}, Most: 40, Rows: 3})
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Join(append([]string{r.Verdict, r.Complete}, r.NotAnswered...), " ")
		if !strings.Contains(strings.Join(r.NotAnswered, " "), c.says) || strings.Contains(strings.ToLower(all), "complete") || r.Never || r.Verdict != "" {
			t.Errorf("%v: %q, never %v; want that it says %q", c.in, all, r.Never, c.says)
		}
		if r.Risk != nil && (r.Risk.P == 0 || !strings.Contains(r.Risk.Says, "counting only")) {
			t.Errorf("%v: %s %g", c.in, r.Risk.Says, r.Risk.P)
		}
		found := c.by == ""
		for _, o := range r.Flown.Orders {
			for _, x := range o.Sets {
				found = found || strings.Join(x.Names, " + ") == c.by
			}
		}
		if !found {
			t.Errorf("%v: flown on, %s is not found: %+v", c.in, c.by, r.Flown)
		}
	}
}

// idleIn is a function that does not work in a phase, though nothing has failed.
func idleIn(t *testing.T, d *ask.Desk, phase string) string {
	t.Helper()
	s, err := d.Stand(context.Background(), ask.Sought{In: phase})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range s.Course.Build.Functions {
		if !s.Still.Before(f.ID) {
			return f.ID
		}
	}
	t.Fatalf("every function works in %s", phase)
	return ""
}

// TestStand_OfABookWithoutPhases: the moment is half-way, and a sweep says what is
// missing.
func TestStand_OfABookWithoutPhases(t *testing.T) {
	ctx := context.Background()
	loaded, diags := book.Load(ctx, fstest.MapFS{"a.hcl": {Data: []byte(phaseless)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	s, err := ask.NewDesk(loaded).Stand(ctx, ask.Sought{Functions: []string{"f"}})
	if err != nil || s.At == 0 || strings.Contains(s.Moment, "(") {
		t.Fatalf("%+v, %v", s, err)
	}
	r, err := s.Ways(ctx, s.Condition, sets.Ask{Most: 5, Rows: 5})
	if err != nil || !r.Orders[0].All || r.Orders[0].Sets[0].Names[0] != "u0" || len(r.Flown.Orders) > 0 {
		t.Errorf("%+v, %v", r, err)
	}
	if len(r.Risk.Rows) != 2 || r.Risk.Rows[1].RiskAchievement != 1 || r.Risk.Rows[1].FussellVesely != 0 {
		t.Errorf("what drops out: %+v", r.Risk.Rows)
	}
	w, err := sweep.Of(ctx, s.Course.Build, nil, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.RunAll(ctx, nil, 1, nil, nil); !errors.Is(err, sweep.ErrNoPhases) || !strings.Contains(err.Error(), "add phase blocks") {
		t.Errorf("a sweep of it: %v", err)
	}
}

// phaseless is a made-up book: the numbers are those of a small jet.
const phaseless = `
aircraft "x" { title = "X" }
unit "u0" {
  title         = "U0"
  rate_per_hour = 1e-5
}
unit "u1" {
  title         = "U1"
  rate_per_hour = 1e-5
}
function "f" {
  title = "F"
  works = u0 && (u1 || u0)
}
flight "hop" {
  title              = "Hop"
  takeoff_mass_kg    = 36500
  fuel_kg            = 4900
  cruise_altitude_ft = 10000
  distance_nm        = 100
  rotate_kt          = 132
  climb_kt           = 250
  climb_mach         = 0.74
  descent_kt         = 250
  approach_kt        = 128
}
`
