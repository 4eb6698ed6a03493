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
		if b, err := newBase(context.Background(), c, s, f.ID); err != nil || len(b.bites[b.f]) == 0 {
			t.Fatalf("%s is not lost by %v: %v", x.function, x.fail, err)
		}
		t.Log(x.function, x.fail, same(t, c, s, f, 1, every), "sets at their moments")
	}
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
	for _, x := range g.web.controls(c.Build, b.functions[b.f]) {
		if slices.Contains(ids, x.ID) {
			s.Controls = append(s.Controls, x)
		}
	}
	if len(s.Controls) != len(ids) {
		t.Fatalf("%d of %v reach %s", len(s.Controls), ids, q.Function)
	}
	times, _ := b.moments(b.bites[b.f])
	for _, at := range times {
		x, err := s.at(ctx, at, q.Order)
		if err != nil {
			t.Fatal(err)
		}
		s.Tried = append(s.Tried, x)
	}
	return s
}

// TestOf_TheBurstDuct: bleed off and cross-bleed shut save the wing, until just
// before ten minutes of hot air are over; either alone does not.
func TestOf_TheBurstDuct(t *testing.T) {
	ctx := context.Background()
	c := demoCourse(t, "northern_link")
	asked := failing("cruise", 60, "duct_burst")
	s := among(t, c, Question{Scenario: asked, Function: "sound_wing", Order: 2}, "bleed_left_switch", "cross_bleed_selector")
	a, err := s.answer(ctx, 1)
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
	for i, want := range []string{"off", "shut"} {
		if got := a.Rescues[0].Set[i].Position; got != want {
			t.Errorf("move %d is to %s, want %s", i, got, want)
		}
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
	a, err := s.answer(context.Background(), 1)
	if err != nil {
		t.Fatal(err)
	}
	if v := a.View(); !v.None || len(v.Rescues) > 0 || !strings.HasPrefix(v.Verdict, "None in this model") || v.Tried == "" {
		t.Errorf("%+v", v)
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
