package rescue

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

func demoCourse(t testing.TB, flight string) *run.Course {
	t.Helper()
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, flight), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func failing(phase string, seconds float64, what ...string) run.Scenario {
	k := run.Strike{At: book.Moment{Phase: phase, Offset: book.AtSeconds(seconds)}}
	for _, w := range what {
		unit, fault, _ := strings.Cut(w, ".")
		k.Fail = append(k.Fail, book.FailureRef{Unit: unit, Fault: fault})
	}
	return run.Scenario{Strikes: []run.Strike{k}}
}

// scenarios are ten losses of the demonstration, on the short hop.
var scenarios = []struct {
	phase, function string
	fail            []string
}{
	{"climb", "rudder_travel", []string{"tr_left", "tr_right"}},
	{"cruise", "air_left", []string{"duct_burst"}},
	{"climb", "escape", []string{"tr_left", "tr_right"}},
	{"climb", "flaps", []string{"tr_left", "tr_right"}},
	{"climb", "evacuation_light", []string{"tr_left", "tr_right"}},
	{"climb", "bay_cooling", []string{"tr_left", "tr_right"}},
	{"cruise", "wing_ice_protection", []string{"duct_burst"}},
	{"climb", "cabin_supply", []string{"gen_left"}},
	{"climb", "approach_low", []string{"gen_left"}},
	{"climb", "mask_drop", []string{"dc_left"}},
}

// TestSearch_TheDemonstrationIsThatOfTheSlowWay: every single move of losses of
// the demonstration, each flown from the start on the flight that feels it. One
// loss at a few of its moments in every test run; KNOCKON_SLOW=1 tries all ten at all.
func TestSearch_TheDemonstrationIsThatOfTheSlowWay(t *testing.T) {
	c := demoCourse(t, "short_hop")
	tried, most, every := 0, 1, 8
	if os.Getenv("KNOCKON_SLOW") != "" {
		most, every = len(scenarios), 1
	}
	for _, x := range scenarios {
		f, err := book.Find("function", x.function, c.Build.Functions)
		if err != nil {
			t.Fatal(err)
		}
		if tried++; tried > most {
			break
		}
		s := failing(x.phase, 5, x.fail...)
		if b, err := newBase(context.Background(), c, s, f.ID); err != nil || len(b.loss) == 0 {
			t.Fatalf("%s is not lost by %v: %v", x.function, x.fail, err)
		}
		t.Log(x.function, x.fail, same(t, c, s, f, 1, every), "sets at their moments")
	}
}

// handful are controls whose pairs take minutes to fly slowly, not an hour.
var handful = []string{"apu_switch", "bleed_left_switch", "cross_bleed_selector", "engine_left_switch", "gen_right_switch", "pack_right_switch"}

// TestSearch_PairsOnTheDemonstration: of the sets of up to two moves that the search
// with all controls finds, those of some controls are those of the slow way, each
// flown from the start on the flight that feels it. KNOCKON_SLOW=1 tries a handful of
// controls, KNOCKON_SLOW=all all that reach the function, for ten losses on the short
// hop and the burst duct on the long flight, at all moments; every test run one loss
// with three controls at its first moment.
func TestSearch_PairsOnTheDemonstration(t *testing.T) {
	type loss struct {
		flight, phase string
		seconds       float64
		function      string
		fail          []string
	}
	var list []loss
	for _, x := range scenarios {
		list = append(list, loss{"short_hop", x.phase, 5, x.function, x.fail})
	}
	list = append(list, loss{"northern_link", "cruise", 60, "sound_wing", []string{"duct_burst"}})
	most, few := 1000, handful
	switch os.Getenv("KNOCKON_SLOW") {
	case "":
		list, most, few = list[7:8], 1, []string{"apu_switch", "engine_left_switch", "gen_right_switch"}
	case "all":
		few = nil
	}
	for _, x := range list {
		t.Run(x.function, func(t *testing.T) {
			c := demoCourse(t, x.flight)
			f, err := book.Find("function", x.function, c.Build.Functions)
			if err != nil {
				t.Fatal(err)
			}
			n := sameAmong(t, c, failing(x.phase, x.seconds, x.fail...), f, few, most)
			t.Log(x.fail, n, "sets at their moments")
			if n == 0 && most == 1 {
				t.Error("nothing was found")
			}
		})
	}
}

// sameAmong compares the search with the slow way among a few controls (nil: all) at
// so many moments.
func sameAmong(t *testing.T, c *run.Course, s run.Scenario, f *book.Function, among []string, most int) (sets int) {
	t.Helper()
	got, err := search(context.Background(), c, Question{Scenario: s, Function: idOf(f), Order: 2, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	few := slices.DeleteFunc(slices.Clone(got.Controls), func(k *book.Control) bool { return among != nil && !slices.Contains(among, k.ID) })
	w := newSlow(t, c, s, f)
	for i, x := range got.Tried[:min(most, len(got.Tried))] {
		some := *x
		some.Found = slices.DeleteFunc(slices.Clone(x.Found), func(f Found) bool {
			return slices.ContainsFunc(f.Set, func(p Placed) bool { return !slices.Contains(few, p.Control) })
		})
		have, want := spoken(t, got, &some), w.at(x.At, few, x.Order)
		if !slices.Equal(have, want) {
			t.Fatalf("%s at %d among %v:\n have %s\n want %s", idOf(f), x.At, book.IDs(few), strings.Join(have, "\n      "), strings.Join(want, "\n      "))
		}
		w.flights = map[string]*slowFlight{}
		sets += len(want)
		t.Logf("moment %d of %d: %d sets agree", i+1, len(got.Tried), len(want))
	}
	return sets
}

// among searches with some controls only.
func among(t *testing.T, c *run.Course, q Question, ids ...string) *Search {
	t.Helper()
	ctx := context.Background()
	b, err := newBase(ctx, c, q.Scenario, q.Function)
	if err != nil {
		t.Fatal(err)
	}
	g, err := newGrove(ctx, b)
	if err != nil {
		t.Fatal(err)
	}
	s := &Search{grove: g, Order: q.Order}
	for _, x := range g.web.controls(c.Build) {
		if slices.Contains(ids, x.ID) {
			s.Controls = append(s.Controls, x)
		}
	}
	if len(s.Controls) != len(ids) {
		t.Fatalf("%d of %v reach %s", len(s.Controls), ids, q.Function)
	}
	times, _ := b.moments(b.loss)
	for _, at := range times {
		x, err := s.at(ctx, at, q.Order)
		if err != nil {
			t.Fatal(err)
		}
		s.Tried = append(s.Tried, x)
	}
	return s
}

// TestOf_TheBurstDuct: of all sets of up to two moves, bleed off and cross-bleed shut
// save the wing for nothing, until just before ten minutes of hot air are over; either
// alone does not.
func TestOf_TheBurstDuct(t *testing.T) {
	ctx := context.Background()
	c := demoCourse(t, "northern_link")
	asked := failing("cruise", 60, "duct_burst")
	a, err := Of(ctx, c, Question{Scenario: asked, Function: "sound_wing", Order: 2, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	team, err := crew.NewTeam(c.Build, c.Flight, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if err := a.WithCrew(ctx, team, asked, 1); err != nil {
		t.Fatal(err)
	}
	v := a.View()
	for _, r := range v.Rescues {
		t.Logf("%+v", r)
	}
	if len(v.Rescues) == 0 || len(a.Rescues[0].Set) != 2 {
		t.Fatalf("%+v", v)
	}
	if got := a.Rescues[0].Set.key(); got != "bleed_left_switch=off+0;cross_bleed_selector=shut+0;" || len(a.Rescues[0].Costs) > 0 {
		t.Errorf("the first is %s, for %v", got, a.Rescues[0].Costs)
	}
	w := a.Rescues[0].Windows
	if len(w) != 1 || w[0].To-a.Strike < book.AtSeconds(590) || w[0].To-a.Strike > book.AtSeconds(600) {
		t.Errorf("until %+v", w)
	}
	if len(a.Rescues[0].Parts) != 2 || a.Rescues[0].Parts[0].Does == PreventsIt || a.Rescues[0].Parts[1].Does == PreventsIt {
		t.Errorf("parts: %+v", a.Rescues[0].Parts)
	}
	deadlines(t, c, asked, a)
}

// deadlines flies a rescue second by second around its deadline.
func deadlines(t *testing.T, c *run.Course, asked run.Scenario, a *Answer) {
	t.Helper()
	slow, until := newSlow(t, c, asked, a.Function), a.Rescues[0].Windows[0].To
	for s := -10; s <= 10; s++ {
		at := until + book.Time(s)*book.Second
		kind, _, counts := slow.verdict(at, a.Rescues[0].Set)
		if ok := kind != Fails && counts; ok != (s <= 0) {
			t.Errorf("%d s after the deadline: %v", s, ok)
		}
	}
}

// TestOf_None: what nothing saves is said to have none, and what is proven so.
func TestOf_None(t *testing.T) {
	c := demoCourse(t, "northern_link")
	s := among(t, c, Question{Scenario: failing("cruise", 60, "duct_burst"), Function: "sound_wing", Order: 2}, "bleed_right_switch", "apu_switch")
	a, err := s.answer(context.Background(), Question{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	if v := a.View(); !v.None || len(v.Rescues) > 0 || !strings.HasPrefix(v.Verdict, "None in this model") || v.Tried == "" {
		t.Errorf("%+v", v)
	}
}

// TestOf_NoneIsProven: the air of a duct that has burst comes back with no moves of
// any number, and that is proven, not only tried.
func TestOf_NoneIsProven(t *testing.T) {
	c := demoCourse(t, "short_hop")
	a, err := Of(context.Background(), c, Question{Scenario: failing("cruise", 5, "duct_burst"), Function: "air_left", Order: 3, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if v := a.View(); !a.Proven || !v.None || !strings.HasPrefix(v.Verdict, "None in this model, of any number of moves: wherever the controls are set from +0:10 on") {
		t.Errorf("proven %v: %+v", a.Proven, v)
	}
	b, err := Of(context.Background(), c, Question{Scenario: failing("climb", 5, "gen_left"), Function: "cabin_supply", Order: 1}, nil)
	if err != nil || b.Proven || b.View().None {
		t.Errorf("what a switch brings back is said to have none: %v", err)
	}
}

// TestSpare_TheBurstDuct: shutting the cross-bleed and the bleed spares the wing until its minute.
func TestSpare_TheBurstDuct(t *testing.T) {
	c := demoCourse(t, "northern_link")
	var set Set
	for _, m := range [][2]string{{"bleed_left_switch", "off"}, {"cross_bleed_selector", "shut"}} {
		x, err := book.Find("control", m[0], c.Build.Controls)
		if err != nil {
			t.Fatal(err)
		}
		set = append(set, Placed{Move: Move{Control: x, Position: m[1]}})
	}
	p, err := Spare(context.Background(), c, failing("cruise", 60, "duct_burst"), set)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(p.Steps, func(s Step) bool { return s.Function.ID == "sound_wing" })
	if i < 0 || p.Steps[i].Windows[0].To-p.Strike > book.AtSeconds(600) {
		t.Errorf("%+v", p.View())
	}
}
