package rescue

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// breakingOff are flights of the demonstration that do not arrive, each another way.
var breakingOff = []struct {
	name, flight string
	how          run.How
	asked        run.Scenario
	rescued      bool
	among        []string // controls for the slow way with pairs
}{
	{"both engines", "short_hop", run.CannotStayUp, failing("cruise", 60, "engine_left", "engine_right"), false,
		[]string{"apu_switch", "engine_left_switch", "gen_right_switch", "thrust_levers"}},
	{"levers that close", "short_hop", run.Stalled, failing("approach", 0, "radio_alt_1.reads_low", "radio_alt_2.reads_low"), true,
		[]string{"autothrottle_switch", "approach_button", "gen_left_switch", "gen_right_switch", "engine_left_switch"}},
	{"a leak", "northern_link", run.OutOfFuel, opened(failing("climb", 0, "feed_line_left.leaks")), true,
		[]string{"fire_handle_left", "engine_left_switch", "flap_lever", "gear_lever"}},
	{"nobody awake", "northern_link", run.NotFlyable, failing("cruise", 60, "cabin_wall.leaks"), true,
		[]string{"crew_masks", "outflow_selector", "thrust_levers", "spoiler_lever"}},
	{"gear that stays out", "northern_link", run.OutOfFuel, failing("lift_off", 0, "reservoir_right"), false,
		[]string{"gear_lever", "flap_lever", "thrust_levers", "spoiler_lever"}},
}

// opened is the same with the crossfeed open from the start: both tanks feed the leak.
func opened(s run.Scenario) run.Scenario {
	s.Actions = append(s.Actions, run.Action{Control: "crossfeed_switch", Position: "open"})
	return s
}

// TestArrival_TheDemonstrationIsThatOfTheSlowWay: what lets flights arrive that break
// off, each set flown from the start. Every test run single moves of all controls at
// two moments; KNOCKON_SLOW=1 these and pairs of some
// controls at all moments, KNOCKON_SLOW=all pairs of all controls.
func TestArrival_TheDemonstrationIsThatOfTheSlowWay(t *testing.T) {
	slow := os.Getenv("KNOCKON_SLOW") != ""
	for _, x := range breakingOff {
		t.Run(x.name, func(t *testing.T) {
			c := demoCourse(t, x.flight)
			r, err := c.Fly(context.Background(), x.asked)
			if err != nil || r.Ending().How != x.how {
				t.Fatalf("it ends otherwise: %v, %v", r.Ending(), err)
			}
			every := 1
			if !slow {
				every = 9
			}
			n := same(t, c, x.asked, nil, 1, every)
			if few := x.among; slow {
				if os.Getenv("KNOCKON_SLOW") == "all" {
					few = nil
				}
				n += sameAmong(t, c, x.asked, nil, few, 1000)
			}
			t.Log(n, "sets at their moments")
			if (n > 0) != x.rescued {
				t.Errorf("%d sets", n)
			}
		})
	}
}

// breakable is a random book whose aircraft cannot be flown without some functions.
func breakable(r *rand.Rand) string {
	which := fmt.Sprintf("function_%d", r.IntN(4))
	if r.IntN(2) == 0 {
		which += fmt.Sprintf(" || function_%d", r.IntN(4))
	}
	lines := fmt.Sprintf("title = \"A\"\n  flyable = %s\n  flyable_again_s = %d", which, 1+r.IntN(200))
	return strings.Replace(randomBook(r), `title = "A"`, lines, 1)
}

// TestArrival_RandomBooksAreThoseOfTheSlowWay: the same on random books, up to three
// moves of all controls.
func TestArrival_RandomBooksAreThoseOfTheSlowWay(t *testing.T) {
	asks := 200
	if os.Getenv("KNOCKON_SLOW") != "" {
		asks = 2000
	}
	r := rand.New(rand.NewPCG(14, 15))
	done, sets, rescued := 0, 0, 0
	for try := 0; done < asks; try++ {
		if try > 40*asks {
			t.Fatalf("only %d flights that break off in %d tries", done, try)
		}
		c, text, ok := courseOf(t, breakable(r))
		if !ok {
			continue
		}
		s := asked(r, c.Path.End())
		if f, err := c.Fly(context.Background(), s); err != nil || f.Ending().How != run.NotFlyable || !slices.ContainsFunc(f.Struck, func(k run.Struck) bool { return k.Came && k.At+soonest < f.End }) {
			continue
		}
		done++
		n := same(t, c, s, nil, 2+done%2, 1)
		if sets += n; n > 0 {
			rescued++
		}
		if t.Failed() {
			t.Fatalf("try %d, %+v:\n%s", try, s.Strikes, text)
		}
	}
	t.Logf("%d flights that break off, %d of them with a rescue, %d sets at their moments", done, rescued, sets)
	if rescued < asks/8 {
		t.Error("hardly any was rescued")
	}
}

// TestSearch_FlightsThatMovesBreakOff: what a function is lost for, on random books on
// which moves may make the aircraft one that cannot be flown: a set whose flight breaks
// off is no rescue, and may be a part of one.
func TestSearch_FlightsThatMovesBreakOff(t *testing.T) {
	asks := 60
	if os.Getenv("KNOCKON_SLOW") != "" {
		asks = 600
	}
	r := rand.New(rand.NewPCG(20, 3))
	done, sets, rescued := 0, 0, 0
	for try := 0; done < asks; try++ {
		if try > 40*asks {
			t.Fatalf("only %d losses in %d tries", done, try)
		}
		c, text, ok := courseOf(t, breakable(r))
		if !ok {
			continue
		}
		s := asked(r, c.Path.End())
		for _, f := range c.Build.Functions {
			if times, _ := newSlow(t, c, s, f).moments(); len(times) == 0 {
				continue
			}
			done++
			n := same(t, c, s, f, 2+done%2, 1)
			if sets += n; n > 0 {
				rescued++
			}
			if t.Failed() {
				t.Fatalf("try %d, %s, %+v:\n%s", try, f.ID, s.Strikes, text)
			}
			break
		}
	}
	t.Logf("%d losses, %d of them with a rescue, %d sets at their moments", done, rescued, sets)
	if rescued < asks/8 {
		t.Error("hardly any was rescued")
	}
}

// TestArrival_ALeak: with the crossfeed open into a leak, the fire handle keeps the fuel
// of both tanks and the crossfeed shut that of one, until its minute, and the flight
// without either is over.
func TestArrival_ALeak(t *testing.T) {
	x := breakingOff[2]
	a, err := Of(context.Background(), demoCourse(t, x.flight), Question{Scenario: x.asked, Order: 1, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Rescues) != 2 || a.Rescues[0].Set.key() != "fire_handle_left=pulled+0;" || a.Rescues[1].Set.key() != "crossfeed_switch=shut+0;" || !a.Rescues[0].Landed.Ending().Arrived() {
		t.Fatalf("%+v", a.Rescues)
	}
	until := a.Rescues[0].Windows[0].To
	for _, late := range []book.Time{0, book.Second} {
		s := x.asked
		s.Actions = append(s.Actions, a.Rescues[0].Set.actions(until+late, a.stood(until+late))...)
		r, err := a.Course.Fly(context.Background(), s)
		if err != nil || r.Ending().Arrived() != (late == 0) {
			t.Errorf("%v s after the deadline it ends so: %v, %v", late.Seconds(), r.Ending(), err)
		}
	}
}

// arrival is the verdict on a flight that is to arrive, whatever else is lost: the
// price is what is lost before it would have broken off.
func (w *slow) arrival(t book.Time, x *slowFlight) (kind Kind, cost []string, counts bool) {
	if !x.arrives {
		return Fails, nil, false
	}
	counts = true
	for _, f := range w.c.Build.Functions {
		is, was := after(x.bites[f.ID], t), after(w.plain[f.ID], t)
		if len(is) > 0 && is[0].From < w.base.End && (len(was) == 0 || is[0].From+60*book.Second < was[0].From) {
			cost = append(cost, f.ID)
			counts = counts && f.Severity != "catastrophic"
		}
	}
	return Prevents, cost, counts
}

// loss is what is in question from a moment on.
func (w *slow) loss(first book.Time) []circuit.Span {
	if w.f != nil {
		return after(w.plain[w.f.ID], first)
	}
	if w.base.Ending().Arrived() || w.base.End <= first {
		return nil
	}
	return []circuit.Span{{From: w.base.End, To: w.base.End}}
}

// idOf is how a question names a function; nil is the flight.
func idOf(f *book.Function) string {
	if f == nil {
		return ""
	}
	return f.ID
}
