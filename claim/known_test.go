package claim_test

import (
	"strings"
	"testing"
)

// knowing is a pump whose loss is known in every way.
const knowing = toy + `
unit "well" {}
unit "mill" { needs = well }
function "watering" { works = mill }
function "silent" { works = well }
function "shaft" {
  works           = well
  noticed_at_once = true
  noticed_by      = "felt"
  noticed_source  = "A test"
}
function "spring" {
  works          = well
  noticed_when   = landing && !well
  noticed_by     = "tried"
  noticed_source = "A test"
}
function "bucket" { works = mill }
function "cistern" { works = mill }
function "kept_by_rain" { works = mill || !spare }
indication "bucket_lamp" {
  shows = true
  means = bucket
}
alert "mill_off" {
  level   = "caution"
  message = "Mill off"
  when    = !mill
  tells   = [cistern]
}
alert "mill_dry" {
  level    = "advisory"
  message  = "Mill dry"
  when     = held(!well, 30)
  tells    = [silent]
}
`

func TestCheck_HowALossIsKnown(t *testing.T) {
	cases := []struct {
		expect string
		holds  bool
	}{
		{"named(cistern)", true}, {"named(silent)", true}, {"named(watering)", false}, {"named(pressure)", false},
		{"follows(watering)", true}, {"follows(cistern)", false}, {"follows(silent)", false},
		{"known_late(silent)", true}, {"known_late(watering)", false},
		{"denied(bucket)", true}, {"denied(watering)", false},
		{"noticed(shaft)", true}, {"noticed(cistern)", false}, {"noticed(spring)", false},
		{"hidden(silent)", false}, {"hidden(watering)", false}, {"hidden(pressure)", false},
		{"false_conclusion(cistern)", false},
	}
	var all []string
	for _, c := range cases {
		all = append(all, c.expect)
	}
	o := check(t, knowing+given("known", "fail = [well]\nat = \"120 s\"", strings.Join(all, ",\n"))).Results[0].Givens[0]
	if o.Trouble != "" {
		t.Fatal(o.Trouble)
	}
	for i, c := range cases {
		if o.Findings[i].Holds != c.holds {
			t.Errorf("%s: holds %v, got %q", c.expect, o.Findings[i].Holds, o.Findings[i].Got)
		}
	}
}

// Without any alert that claims it a loss is hidden, and a claim that an alert makes
// falsely takes away what works.
func TestCheck_HiddenAndFalselyConcluded(t *testing.T) {
	book := toy + `
unit "well" {}
unit "eye" {}
unit "roof" {}
function "watering" { works = well }
function "drinking" { works = eye || failed(roof) }
alert "eye_off" {
  level   = "caution"
  message = "Eye off"
  when    = !eye
}
`
	for expect, holds := range map[string]bool{"hidden(watering)": true, "noticed(watering)": false, "follows(watering)": false} {
		if got := check(t, book+given("known", "fail = [well]\nat = \"120 s\"", expect)).Results[0].Holds(); got != holds {
			t.Errorf("%s: %v", expect, got)
		}
	}
	covered := "fail = [eye, roof]\nat = \"120 s\""
	for expect, holds := range map[string]bool{"false_conclusion(drinking)": true, "false_conclusion(watering)": false} {
		if got := check(t, book+given("known", covered, expect)).Results[0].Holds(); got != holds {
			t.Errorf("%s: %v", expect, got)
		}
	}
}

// What comes after a break may make another word of it.
func TestCheck_KnownIsUndecidedWhereTheFlightBreaksOff(t *testing.T) {
	text := strings.Replace(knowing, "  limit_kt = 30\n", "  limit_kt = 30\n  flyable = well\n", 1)
	if text == knowing {
		t.Fatal("the aircraft is another one")
	}
	f := check(t, text+given("known", "fail = [well]\nat = \"120 s\"", "follows(watering)")).Results[0].Givens[0].Findings[0]
	if f.Holds || !f.Undecided {
		t.Errorf("%+v", f)
	}
}
