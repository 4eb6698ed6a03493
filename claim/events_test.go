package claim_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"knockon/claim"
)

// listed is the toy with a list that the crew do: told at 80 s after a failure at
// 120 s, since the climb is quiet until then.
var listed = strings.Replace(toy, "quiet_in = [climb]", "quiet_in  = [climb]\n  procedure = pump_list", 1) + `
control "spare_switch" {
  positions = ["off", "on"]
  initial   = "off"
}
indication "spare_lamp" {
  shows = spare
}
procedure "pump_list" {
  do {
    set    = spare_switch
    to     = "on"
    sensed = true
  }
  check {
    that   = held(spare_switch == "on", 20)
    sensed = true
  }
  decide {
    that = spare_lamp
    then {
      note { says = "Pressure is kept." }
    }
    else {
      note { says = "Pressure is lost." }
    }
  }
}
procedure "door_list" {
  note { says = "Doors." }
}
`

func judged(t *testing.T, r *claim.Report) []claim.Finding {
	t.Helper()
	o := r.Results[0].Givens[0]
	if o.Trouble != "" {
		t.Fatal(o.Trouble)
	}
	return o.Findings
}

// expected holds what each expectation comes to against what it should.
type expected struct {
	expect string
	holds  bool
	got    string // part of what is found
}

func hold(t *testing.T, text, scene string, list []expected) {
	t.Helper()
	var all []string
	for _, c := range list {
		all = append(all, c.expect)
	}
	for i, f := range judged(t, check(t, text+given("it", scene, strings.Join(all, ",\n")))) {
		if c := list[i]; f.Holds != c.holds || !strings.Contains(f.Got, c.got) {
			t.Errorf("%s holds %v, got %q; want %v, %q", c.expect, f.Holds, f.Got, c.holds, c.got)
		}
	}
}

func TestCheck_WhatTheCrewDo(t *testing.T) {
	hold(t, listed+"signal \"door_list_said\" { value = false }\n", "fail = [pump]\nat = \"120 s\"\ncrew = \"by_the_book\"", []expected{
		{"read(pump_list)", true, "read(pump_list) at +1:"},
		{"read(door_list)", false, "read(door_list) never comes"},
		{"done(pump_list, 1)", true, "done(pump_list, \"1\") at +1:"},
		{`done(pump_list, "3.then.1")`, true, "at +"},
		{`done(pump_list, "3.else.1")`, false, "never comes"},
		{"ticks(pump_list, 1)", true, "at +1:"},
		{"first(ticks(pump_list, 1)) == first(spare_switch == \"on\")", true, "first = "},
		{"first(ticks(pump_list, 2)) - first(ticks(pump_list, 1)) == 20", true, ""},
		{"in_order(low, read(pump_list), done(pump_list, 1), done(pump_list, 2), done(pump_list, 3))", true, "read(pump_list) at"},
		{"in_order(done(pump_list, 2), done(pump_list, 1))", false, "done(pump_list, \"2\") at"},
		{"in_order(done(pump_list, 2), ticks(pump_list, 2))", true, "ticks"},
		{"by(79, low)", false, "low at +1:20"},
		{"by(80, low)", true, "low at +1:20"},
		{"within(60, low, done(pump_list, 1))", true, "after it"},
		{"within(3, low, done(pump_list, 1))", false, "low at +1:20; done(pump_list, \"1\") "},
		{"within(600, done(pump_list, 1), low)", true, ""},
		{"within(600, door_list_said, low)", false, "door_list_said never comes"},
		{"flown(\"return\")", false, "flown(\"return\") never comes"},
		{"arrives()", true, "arrives at There, at +"},
		{`arrives("There")`, true, ""},
		{`arrives("Here")`, false, "arrives at There"},
		{"never_arrives()", false, "arrives at There"},
		{"about(first(low), 81, 1)", true, "first = 80 s"},
		{"about(first(low), 82, 1.5)", false, "2 off"},
		{`open("There")`, false, "the airfields are not known"},
	})
}

// Nobody acts where a claim does not say so.
func TestCheck_NobodyActsUnlessItIsSaid(t *testing.T) {
	for _, conduct := range []string{"", "crew = \"none\""} {
		hold(t, listed, "fail = [pump]\nat = \"120 s\"\n"+conduct, []expected{
			{"read(pump_list)", false, "never comes: nobody acts"}, {"done(pump_list, 1)", false, "nobody acts"},
			{"ticks(pump_list, 1)", false, "never comes"}, {"always(spare_switch == \"off\")", true, ""},
		})
	}
}

// A flight on a given profile can go nowhere else, and the claim says so.
func TestCheck_APlanThatCannotBeFlown(t *testing.T) {
	r := check(t, listed+given("it", "fail = [pump]\nat = \"120 s\"\nplan = [\"return\"]", "arrives()"))
	if text := r.Results[0].Givens[0].Trouble; !strings.Contains(text, "airfields are not known") {
		t.Errorf("trouble %q", text)
	}
}

// switching is a signal that is yes in some stretches of whole seconds, and these.
type switching struct {
	id  string
	yes [][2]int
}

func (s switching) block() string {
	when := []string{"false"}
	for _, y := range s.yes {
		when = append(when, fmt.Sprintf("(real.time_s >= %d && real.time_s < %d)", y[0], y[1]))
	}
	return fmt.Sprintf("signal %q { value = %s }\n", s.id, strings.Join(when, " || "))
}

func (s switching) at(second int) bool {
	for _, y := range s.yes {
		if second >= y[0] && second < y[1] {
			return true
		}
	}
	return false
}

// next is the first second at which it is yes, looked at one by one; -1 for none.
func (s switching) next(from int) int {
	for t := from; t <= 600; t++ {
		if s.at(t) {
			return t
		}
	}
	return -1
}

// TestCheck_OrderAndDeadlinesAgreeWithLookingAtEverySecond: what is claimed of when
// things come, against a look at each second of the flight.
func TestCheck_OrderAndDeadlinesAgreeWithLookingAtEverySecond(t *testing.T) {
	const strike, all = 120, 200
	r := rand.New(rand.NewPCG(7, 8))
	var list []switching
	text := toy
	for i := range 12 {
		s := switching{id: fmt.Sprintf("s_%d", i)}
		for range r.IntN(4) {
			from := 60 + r.IntN(140)
			s.yes = append(s.yes, [2]int{from, from + 1 + r.IntN(60)})
		}
		list, text = append(list, s), text+s.block()
	}
	var expects []string
	var want []bool
	for range all {
		a, b, c, s := list[r.IntN(12)], list[r.IntN(12)], list[r.IntN(12)], r.IntN(90)
		x, y, z := a.next(strike), b.next(strike), c.next(strike)
		after := -1
		if x >= 0 {
			after = b.next(x)
		}
		first := "1000000"
		if x >= 0 {
			first = fmt.Sprint(x - strike)
		}
		expects = append(expects, fmt.Sprintf("in_order(%s, %s, %s)", a.id, b.id, c.id), fmt.Sprintf("by(%d, %s)", s, a.id), fmt.Sprintf("within(%d, %s, %s)", s, a.id, b.id), fmt.Sprintf("first(%s) == %s", a.id, first))
		want = append(want, x >= 0 && y > x && z > y, x >= 0 && x <= strike+s, x >= 0 && after >= 0 && after <= x+s, true)
	}
	holding := map[bool]int{}
	for i, f := range judged(t, check(t, text+given("it", "fail = [pump]\nat = \"120 s\"", strings.Join(expects, ",\n")))) {
		if holding[f.Holds]++; f.Holds != want[i] {
			t.Errorf("%s holds %v, got %s; looked at every second %v", f.Expect, f.Holds, f.Got, want[i])
		}
	}
	if holding[true] < all || holding[false] < all {
		t.Errorf("%v: too tame", holding)
	}
}
