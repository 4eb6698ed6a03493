package claim_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"knockon/claim"
)

func TestCheck_Scenarios(t *testing.T) {
	for _, c := range []struct {
		name, given, expect string
		holds               bool
	}{
		{"nothing fails: seconds count from the start", ``, "first(cruise) == 200", true},
		{"inoperative and a failure", "inoperative = [spare]\nfail = [pump]\nat = \"cruise + 10 s\"", "lost(pressure)", true},
		{"a passing failure", "fail = [pump]\nat = \"cruise\"\nfor_s = 30", "seconds(!pump) == 30", true},
		{"on a condition", "fail = [pump]\nwhen = real.time_s >= 250", "at(49, !landing), at(50, landing)", true},
		{"two failures", "fail = [pump]\nat = \"120 s\"\nalso {\nfail = [spare]\nat = \"180 s\"\n}", "first(!pressure) == 60", true},
		{"a fault", "fail = [pump.weak]\nat = \"120 s\"", "kept(brakes), at(0, pump.weak)", true},
		{"overlapping failures of one unit: the end of one leaves the other", "fail = [pump]\nat = \"120 s\"\nfor_s = 30\nalso {\nfail = [pump]\nat = \"140 s\"\nfor_s = 30\n}", "seconds(!pump) == 50, times(!pump) == 1", true},
		{"first and last of what ends at the strike", "fail = [pump]\nat = \"120 s\"", "first(pump) == 1000000, last(pump) == -1, times(pump) == 0", true},
		{"first and last of what begins at the strike", "fail = [pump]\nat = \"120 s\"", "first(!pump) == 0, last(!pump) == 1000000, times(!pump) == 1", true},
		{"first and last of what is yes at the strike for no duration", "fail = [pump]\nat = \"120 s\"", "first(before(pump) && !pump) == 0, last(before(pump) && !pump) == 0, times(before(pump) && !pump) == 1", true},
		{"an act cures", "fail = [pump]\nat = \"120 s\"\n" + hand("act", "when = held(!pump, 30)"), "lost(horn), seconds(valve == \"open\") > 100, seconds(!pump && valve == \"shut\") == 30, lost(spring)", true},
		{"an act that takes away is a loss", hand("act", "when = real.time_s >= 150"), "lost(spring), first(!spring) == 150", true},
		{"what a set-up takes away is none", "fail = [pump]\nat = \"120 s\"\n" + hand("set_up", "when = real.time_s >= 150"), "!lost(spring), first(valve == \"open\") == 30, lost(brakes)", true},
		{"a set-up from the start", "fail = [pump]\nat = \"120 s\"\n" + hand("set_up", ""), "!lost(spring), always(valve == \"open\"), lost(brakes)", true},
		{"a set-up at a moment", "fail = [pump]\nat = \"120 s\"\n" + hand("set_up", "at = \"cruise + 10 s\""), "!lost(spring), first(valve == \"open\") == 90", true},
		{"failed from the start", "fail = [pump]", "times(!pump) == 0, ever(!pump)", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := check(t, toy+valve+given("it", c.given, c.expect))
			if got := r.Results[0].Holds(); got != c.holds {
				t.Errorf("holds %v: %+v", got, r.Results[0].Givens[0])
			}
		})
	}
}

// hand opens the valve, which takes the spring and gives the horn.
func hand(word, when string) string {
	return word + " \"Valve\" {\nset = valve\nto = \"open\"\n" + when + "\n}"
}

const valve = `
control "valve" {
  positions = ["shut", "open"]
  initial   = "shut"
}
function "spring" { works = valve == "shut" || real.time_s < 100 }
function "horn" { works = pump || valve == "open" }
`

func TestCheck_ScenarioThatCannotBeJudged(t *testing.T) {
	loop := "signal \"round\" { value = !pump && !before(round) }\n"
	for _, c := range []struct{ name, given, expect, trouble string }{
		{"a phase that never comes", "fail = [pump]\nat = \"nowhere + 10 s\"", "lost(brakes)", "never reaches the phase nowhere"},
		{"after the end of the flight", "fail = [pump]\nat = \"9000 s\"", "lost(brakes)", "outside flight hop"},
		{"a condition that never becomes yes", "fail = [pump]\nwhen = real.time_s > 100000", "lost(brakes)", "never comes"},
		{"a loop that never settles", "fail = [pump]\nat = \"120 s\"", "lost(brakes)", "never settle"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := check(t, toy+loop+given("it", c.given, c.expect))
			o := r.Results[0].Givens[0]
			if r.Results[0].Holds() || !strings.Contains(o.Trouble, c.trouble) {
				t.Errorf("trouble %q, want %q", o.Trouble, c.trouble)
			}
		})
	}
}

func TestCheck_AtOutsideTheFlightFails(t *testing.T) {
	r := check(t, toy+given("it", "fail = [pump]\nat = \"120 s\"", "at(50000, !pump)"))
	f := r.Results[0].Givens[0].Findings[0]
	if f.Holds || !strings.Contains(f.Got, "outside the flight") {
		t.Errorf("%+v", f)
	}
}

func TestCheck_KeepsTheOrderOfTheBook(t *testing.T) {
	text := toy
	var want []string
	for i := range 12 {
		id := fmt.Sprintf("claim_%c", 'z'-i)
		want = append(want, id)
		text += given(id, fmt.Sprintf("fail = [pump]\nat = \"%d s\"", 100+10*i), "lost(brakes)")
	}
	for range 3 {
		var got []string
		for _, r := range check(t, text).Results {
			got = append(got, r.Claim.ID)
			if r.Givens[0].Given != r.Claim.Given[0] || !r.Holds() {
				t.Errorf("%s has the outcome of another", r.Claim.ID)
			}
		}
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("got %v", got)
		}
	}
}

func TestCheck_BuildsAndFlights(t *testing.T) {
	text := toy + `
variant "old" { title = "Old" }
variant "new" { title = "New" }
flight "other" {
  from               = "There"
  to                 = "Here"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 5000
  distance_nm        = 40
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
unit "monitor" { only = [new] }
alert "noticed" {
  only    = [new]
  level   = "caution"
  message = "Seen"
  when    = !pump && monitor
  tells   = [brakes]
}
claim "both" {
  says   = "The new build tells."
  source = "A manual"
  given "old" {
    fail   = [pump]
    at     = "120 s"
    expect = [not_told(brakes)]
  }
  given "new" {
    variant = new
    flight  = other
    fail    = [pump]
    at      = "120 s"
    expect  = [told(brakes), at(0, noticed), at(700, real.time_s == 820)]
  }
}
claim "new_only" {
  only   = [new]
  says   = "The monitor is there."
  source = "A manual"
  given {
    variant = new
    fail    = [monitor]
    at      = "120 s"
  }
  expect = [never_given(noticed)]
}
`
	r := check(t, text)
	if len(r.Results) != 2 || r.Failing() != 0 {
		var w strings.Builder
		if err := claim.WriteText(&w, r); err != nil {
			t.Fatal(err)
		}
		t.Error(w.String())
	}
}

func TestCheck_StopsWhenTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	b := load(t, toy+given("it", "fail = [pump]", "lost(brakes)"))
	cancel()
	if _, err := claim.Watch(ctx, b, nil, claim.All(b), nil); err == nil {
		t.Error("no error from a context that is done")
	}
}
