package drill_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/drill"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/region"
)

func deck(tb testing.TB, flight string) *drill.Deck {
	tb.Helper()
	b := corvane.Book(tb)
	d, err := drill.NewDeck(b, "", flight, region.Router{Region: islands.Region(tb)})
	if err != nil {
		tb.Fatal(err)
	}
	return d
}

func open(tb testing.TB, d *drill.Deck, s drill.Script) *drill.Session {
	tb.Helper()
	x, err := d.Open(context.Background(), s)
	if err != nil {
		tb.Fatal(err)
	}
	return x
}

// screens is what all three see, as bytes.
func screens(tb testing.TB, s *drill.Session) string {
	tb.Helper()
	var out bytes.Buffer
	for _, who := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Instructor} {
		if err := json.NewEncoder(&out).Encode(s.Screen(who)); err != nil {
			tb.Fatal(err)
		}
	}
	return out.String()
}

// player sends random inputs, sensible and not.
type player struct {
	*rand.Rand
	deck    *drill.Deck
	numbers map[string]int
}

func (p *player) input(now book.Time) drill.Input {
	b := p.deck.Build()
	who := []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Instructor}[p.IntN(3)]
	in := drill.Input{Client: "tablet of " + string(who), Who: who, At: now + book.Time(p.Int64N(int64(2*book.Second)))}
	p.numbers[in.Client]++
	in.Number = p.numbers[in.Client]
	control := b.Controls[p.IntN(len(b.Controls))]
	list := b.Procedures[p.IntN(12)]
	switch n := p.IntN(20); {
	case who == drill.Instructor && n < 4:
		u := b.Units[p.IntN(len(b.Units))]
		in.Do, in.Strike = drill.Inject, &drill.Strike{What: []string{u.ID}, ForS: float64(p.IntN(2) * 40)}
	case who == drill.Instructor && n < 6:
		in.Do, in.Back = drill.Rewind, book.Time(p.Int64N(int64(now)+1))
	case who == drill.Instructor:
		in.Do, in.Rate = drill.Clock, []int{1, 1, 2, 4, 0}[p.IntN(5)]
	case n < 8:
		in.Do, in.ID, in.To = drill.Move, control.ID, control.Positions[p.IntN(len(control.Positions))]
	case n < 13:
		in.Do, in.ID = drill.Look, b.Indications[p.IntN(len(b.Indications))].ID
	case n < 16:
		in.Do, in.ID = drill.Call, list.ID
	case n < 17:
		in.Do, in.To = drill.TurnTo, []string{"land", "return", "go_around", "hold 1 min", "divert QSVA", "fly home"}[p.IntN(6)]
	case n < 19:
		in.Do, in.ID, in.Step, in.To = drill.Tick, list.ID, "1", "yes"
	default:
		in.Do, in.ID = drill.Look, "nothing of the kind"
	}
	return in
}

// TestSession_IsAFunctionOfItsLog: a drill that was lived through in pieces of
// any length, with refused inputs, injections, freezes and rewinds, shows at each
// moment to the byte what a fresh one shows that is built from the log so far.
func TestSession_IsAFunctionOfItsLog(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	compared, refused, rewound, injected := 0, 0, 0, 0
	for seed := range uint64(5) {
		p := &player{rand.New(rand.NewPCG(seed, 1)), d, map[string]int{}}
		script := drill.Script{Fail: []drill.Strike{{What: []string{"dc_left"}, At: "climb + 20 s"}}, Out: []string{"tr_left"}}
		s := open(t, d, script)
		var log bytes.Buffer
		if err := drill.WriteScript(&log, script); err != nil {
			t.Fatal(err)
		}
		for range 100 {
			if s.Rate() > 0 || p.IntN(3) > 0 {
				if err := s.Advance(ctx, s.Now()+book.Time(p.Int64N(int64(9*book.Second)))); err != nil {
					t.Fatal(err)
				}
			}
			in := p.input(s.Now())
			before := screens(t, s)
			if _, err := s.Accept(ctx, in); err != nil {
				var r *drill.Refusal
				if !errors.As(err, &r) {
					t.Fatal(err)
				}
				p.numbers[in.Client]--
				refused++
				if after := screens(t, s); after != before {
					t.Fatalf("seed %d: %v was refused (%v) and yet\n%s", seed, in, err, firstDifference(before, after))
				}
				continue
			}
			if err := drill.WriteInput(&log, in); err != nil {
				t.Fatal(err)
			}
			if in.Do == drill.Rewind {
				rewound++
			}
			if in.Do == drill.Inject {
				injected++
			}
			if p.IntN(6) == 0 {
				fresh, err := d.Replay(ctx, bytes.NewReader(log.Bytes()))
				if err != nil {
					t.Fatalf("seed %d: %v", seed, err)
				}
				if err := fresh.Advance(ctx, s.Now()); err != nil {
					t.Fatal(err)
				}
				if a, b := screens(t, s), screens(t, fresh); a != b {
					t.Fatalf("seed %d after %v:\n%s", seed, in, firstDifference(a, b))
				}
				compared++
			}
		}
	}
	t.Logf("%d moments compared; %d inputs refused, %d rewinds, %d injections", compared, refused, rewound, injected)
	if compared < 12 || refused < 20 || rewound < 5 || injected < 8 {
		t.Error("the test shows little")
	}
}

func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return s[max(0, i-150):min(len(s), i+150)] }
	return fmt.Sprintf("%s\n%s", cut(a), cut(b))
}

// TestSession_ShowsTheRun: alerts, controls and readings are those of the plain
// run of the same failures and actions.
func TestSession_ShowsTheRun(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	p := &player{rand.New(rand.NewPCG(8, 8)), d, map[string]int{}}
	s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"gen_left", "pump_left"}, At: "climb"}}})
	type sample struct {
		at     book.Time
		screen drill.Screen
	}
	var samples []sample
	for !s.Ended() {
		if err := s.Advance(ctx, s.Now()+book.Time(p.Int64N(int64(8*book.Second)))); err != nil {
			t.Fatal(err)
		}
		if in := p.input(s.Now()); in.Do != drill.Rewind && in.Do != drill.Inject && !(in.Do == drill.Clock && in.Rate == 0) {
			if _, err := s.Accept(ctx, in); err != nil {
				p.numbers[in.Client]--
			}
		} else {
			p.numbers[in.Client]--
		}
		samples = append(samples, sample{s.Now(), s.Screen(drill.Instructor)})
	}
	r, err := d.Course().Fly(ctx, s.Flown())
	if err != nil {
		t.Fatal(err)
	}
	c, alarms := r.Circuit(), 0
	for _, x := range samples {
		var want, got []string
		for _, a := range d.Build().Alerts {
			if n, _ := c.Node(circuit.Value{Item: a.ID}); r.At(n, x.at) != 0 {
				want = append(want, a.ID)
			}
		}
		for _, a := range x.screen.Alerts {
			got = append(got, a.ID)
		}
		alarms += len(got)
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(want, got) {
			t.Errorf("at %d: alerts %v, in the run %v", x.at, got, want)
		}
		for _, k := range x.screen.Controls {
			if n, _ := c.Node(circuit.Value{Item: k.ID}); c.WordText(r.At(n, x.at)) != k.To {
				t.Errorf("at %d: %s is at %s", x.at, k.ID, k.To)
			}
		}
		for _, k := range x.screen.Truth {
			n, _ := c.Node(circuit.Value{Item: k.ID, Aspect: circuit.Lit})
			if lit := r.At(n, x.at) != 0; lit != k.Lit {
				t.Errorf("at %d: %s lit %v", x.at, k.ID, k.Lit)
			}
		}
	}
	if alarms < 100 {
		t.Errorf("only %d alerts seen", alarms)
	}
}

// TestSession_LookingTakesAMoment: a reading is not there at once, and is that of
// its moment, not of the present.
func TestSession_LookingTakesAMoment(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{})
	at := 100 * book.Second
	var id string
	for _, i := range d.Build().Indications {
		if strings.Contains(i.ID, "airspeed") {
			id = i.ID
		}
	}
	if _, err := s.Accept(ctx, drill.Input{Client: "a", Number: 1, At: at, Who: drill.PilotFlying, Do: drill.Look, ID: id}); err != nil {
		t.Fatal(err)
	}
	look := func() drill.Reading { return s.Screen(drill.PilotFlying).Looked[0] }
	if r := look(); r.Ready || r.Text != "" {
		t.Errorf("at once: %+v", r)
	}
	if err := s.Advance(ctx, at+drill.LookTakes); err != nil {
		t.Fatal(err)
	}
	first := look()
	if !first.Ready || first.Text == "" || first.AtUS != at+drill.LookTakes {
		t.Errorf("a moment later: %+v", first)
	}
	if err := s.Advance(ctx, at+60*book.Second); err != nil {
		t.Fatal(err)
	}
	if look() != first {
		t.Errorf("the reading moves on by itself: %+v", look())
	}
	if len(s.Screen(drill.PilotMonitoring).Looked) != 0 {
		t.Error("the other pilot sees what was not looked at")
	}
	if v := s.Screen(drill.PilotMonitoring); v.Truth != nil || v.Failed != nil {
		t.Error("a trainee sees the truth")
	}
}

// TestSession_Rewind: after a rewind all is as it was, and what was done later is
// forgotten.
func TestSession_Rewind(t *testing.T) {
	d, ctx := deck(t, "short_hop"), context.Background()
	s := open(t, d, drill.Script{Fail: []drill.Strike{{What: []string{"gen_left"}, At: "climb"}}})
	number := 0
	accept := func(who drill.Role, in drill.Input) {
		t.Helper()
		number++
		in.Client, in.Number, in.Who = "one", number, who
		if _, err := s.Accept(ctx, in); err != nil {
			t.Fatal(err)
		}
	}
	accept(drill.PilotMonitoring, drill.Input{At: 150 * book.Second, Do: drill.Move, ID: "gen_left_switch", To: "off"})
	if err := s.Advance(ctx, 200*book.Second); err != nil {
		t.Fatal(err)
	}
	was := s.Screen(drill.PilotMonitoring)
	accept(drill.PilotMonitoring, drill.Input{At: 210 * book.Second, Do: drill.Move, ID: "gen_left_switch", To: "on"})
	accept(drill.Instructor, drill.Input{At: 220 * book.Second, Do: drill.Inject, Strike: &drill.Strike{What: []string{"gen_right"}}})
	if err := s.Advance(ctx, 300*book.Second); err != nil {
		t.Fatal(err)
	}
	if failed := s.Screen(drill.Instructor).Failed; !slices.Equal(failed, []string{"gen_left", "gen_right"}) {
		t.Errorf("failed: %v", failed)
	}
	accept(drill.Instructor, drill.Input{At: 300 * book.Second, Do: drill.Rewind, Back: 200 * book.Second})
	is := s.Screen(drill.PilotMonitoring)
	if !is.Held || is.Rate != 0 {
		t.Error("a drill that was wound back runs on by itself")
	}
	is.Held, is.Rate = was.Held, was.Rate
	if a, b := fmt.Sprint(was), fmt.Sprint(is); a != b {
		t.Errorf("not as it was: %s", firstDifference(a, b))
	}
	if failed := s.Screen(drill.Instructor).Failed; !slices.Equal(failed, []string{"gen_left"}) {
		t.Errorf("failed after the rewind: %v", failed)
	}
}
