package ledger_test

import (
	"encoding/json"
	"strings"
	"testing"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

// twisted is the book of every row with a unit whose failure takes nothing, and
// one whose failure leaves a signal that never settles.
const twisted = everything + `
unit "idle" { title = "Idle unit" }
unit "twist" { title = "Twist" }
signal "chase" {
  title = "Chase"
  value = !twist && !before(chase)
}
signal "spare_light" { value = idle }
unit "bulb" { title = "Bulb" }
indication "bulb_lamp" {
  title = "Bulb lamp"
  shows = bulb
}
unit "cell" { title = "Cell" }
indication "cell_lamp" {
  title  = "Cell lamp"
  shows  = true
  lit_by = cell
}
unit "bell" { title = "Bell" }
function "chime" {
  title = "Chime"
  works = bell
}
alert "bell_off" {
  level   = "caution"
  message = "Bell off"
  when    = !bell
  tells   = [chime]
}
unit "hatch" { title = "Hatch" }
function "hatch_shut" {
  title = "Hatch shut"
  works = hatch
}
indication "hatch_lamp" {
  title = "Hatch lamp"
  shows = true
  means = hatch_shut
}
`

// reassuring are the sentences of the ledger that say that all is well in some
// respect, each with a question of which it is true. They are never printed of a
// flight that breaks off, nor of one on which the failure never comes.
var reassuring = []struct{ sentence, true string }{
	{"This takes nothing away.", "idle@120"},
	{"No function is lost.", "cell@120"},
	{"What is lost is not called for meanwhile.", "panel@120"},
	{"Nothing that is lost when it is called for is hidden: 1 told.", "bell@120"},
	{"All that is lost when it is called for is denied by an indication.", "hatch@120"},
	{"Nothing that is lost when it is called for is hidden: 1 denied and 1 told.", "bell@120 hatch@120"},
	{"No indication hides a loss.", "idle@120"},
	{"None.", "idle@120"},
	{"No indication lies.", "idle@120"},
	{"No indication goes dark.", "idle@120"},
	{"No alert is held back.", "idle@120"},
	{"No alert is given only with the failure.", "idle@120"},
	{"Nothing of note: no function that is still there has lost half of what it uses.", "idle@120"},
	{"lasts to the end of the flight.", "burst@120"},
	{"to the end", "burst@120"},
	{"No function lost.", "idle@120"},
	{"No indication wrong", "idle@120"},
	{"No alert and no indication tells of the failure itself.", "idle@120"},
}

// all is everything that a ledger says: text, JSON and every item in one line.
func all(t *testing.T, l *ledger.Ledger) string {
	t.Helper()
	var w strings.Builder
	if err := ledger.WriteText(&w, l, 200); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	w.Write(text)
	return w.String()
}

func TestView_ReassuresOnlyWhereTheQuestionIsAnswered(t *testing.T) {
	c := course(t, twisted)
	broken := all(t, answer(t, c, failing(t, "burst@120 twist@200")))
	idle := all(t, answer(t, c, failing(t, "idle@120 twist@200")))
	never := failing(t, "idle@120")
	never.Strikes[0].When = condition(t, c, "real.height_ft < -5")
	silent := all(t, answer(t, c, never))
	for _, r := range reassuring {
		if text := all(t, answer(t, c, failing(t, r.true))); !strings.Contains(text, r.sentence) {
			t.Errorf("%q is not said of %s, of which it is true", r.sentence, r.true)
		}
		if strings.Contains(broken, r.sentence) || strings.Contains(idle, r.sentence) {
			t.Errorf("%q is said of a flight that breaks off", r.sentence)
		}
		if r.true == "idle@120" && strings.Contains(silent, r.sentence) {
			t.Errorf("%q is said although the failure never comes", r.sentence)
		}
	}
}

func condition(t *testing.T, c *run.Course, text string) *book.Expr {
	t.Helper()
	e, diags := book.ParseExpr(text, c.Build)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return e
}

// What breaks off is said first, with when and why in words; what comes after the
// break is not said to have come or not to have come.
func TestView_OpensWithHowTheFlightEnded(t *testing.T) {
	c := course(t, twisted)
	l := answer(t, c, failing(t, "idle@120 twist@200"))
	v := l.View()
	const want = "The flight breaks off 3:20 into the flight (+1:20, Cruise): these keep changing each other and never settle: Chase. What would have come after that is not known."
	if v.Unanswered != want || !strings.HasPrefix(v.Summary, want) {
		t.Errorf("unanswered: %s\nsummary: %s", v.Unanswered, v.Summary)
	}
	if v.Ended.How != run.NeverSettles || v.Ended.Arrived || v.Ended.At.TimeS != 200 || v.Ended.Why == "" {
		t.Errorf("ended: %+v", v.Ended)
	}
	if got := l.Say("doors"); got != "not lost up to 3:20, where the flight breaks off" {
		t.Errorf("doors: %s", got)
	}
	var w strings.Builder
	if err := ledger.WriteText(&w, l, 300); err != nil || strings.Split(w.String(), "\n")[1] != want {
		t.Errorf("%v\n%s", err, w.String())
	}
	if v := answer(t, c, failing(t, "idle@120")).View(); v.Unanswered != "" || !v.Ended.Arrived || v.Ended.How != run.Arrived {
		t.Errorf("a flight that arrives: %+v %s", v.Ended, v.Unanswered)
	}
}

// A failure for which the flight does not last has not come.
func TestView_AFailureBehindTheBreakHasNotCome(t *testing.T) {
	l := answer(t, course(t, twisted), failing(t, "twist@200 burst@300"))
	v := l.View()
	if !strings.Contains(v.Heading, "Pipe burst comes: but the flight breaks off before this comes") || strings.Contains(v.Heading, "5:00") {
		t.Errorf("heading: %s", v.Heading)
	}
}

// An alert held back to where the flight breaks off may have been given after it.
func TestView_HeldBackWhereTheFlightBreaksOff(t *testing.T) {
	c := course(t, twisted)
	for question, want := range map[string]string{
		"burst@120 twist@150": "Held back in Climb; not given before the flight breaks off.",
		"burst@120+30":        "Held back in Climb; never given.",
		"burst@120":           "Held back in Climb; given at +1:20 (Cruise).",
	} {
		if got := answer(t, c, failing(t, question)).Say("low"); !strings.Contains(got, want) {
			t.Errorf("%s: %s, want %s", question, got, want)
		}
	}
}

// That nothing tells of a failure is said of one that nothing shows, not of one
// that an indication alone shows, an alert tells, or that is not there.
func TestView_SaysThatNothingTellsOfTheFailure(t *testing.T) {
	c := course(t, twisted)
	for question, want := range map[string]bool{"idle@120": true, "bulb@120": false, "burst@120": false, "": false, "idle@120 twist@200": false} {
		v := answer(t, c, failing(t, question)).View()
		if got := strings.HasPrefix(v.Groups[0].None, "No alert and no indication tells of the failure itself. This"); got != want || got != (v.Silent != "") {
			t.Errorf("%q: %s %s", question, v.Groups[0].None, v.Silent)
		}
	}
}

// An act for which the flight does not last was not done.
func TestView_AnActBehindTheBreakIsNotDone(t *testing.T) {
	c := course(t, twisted)
	v := answer(t, c, failing(t, "twist@200 valve=shut@150 valve=open@300 =valve=shut@350")).View()
	for _, want := range []string{
		"whatever fails: Valve to shut at 350 s (but the flight breaks off before this comes);",
		"the crew: Valve to shut at 150 s, Valve to open at 300 s (but the flight breaks off before this comes); nothing else is done.",
	} {
		if !strings.Contains(v.Setting, want) {
			t.Errorf("%s\nwants %s", v.Setting, want)
		}
	}
	if v = answer(t, c, failing(t, "valve=open@300")).View(); strings.Contains(v.Setting, "before this comes") {
		t.Error(v.Setting)
	}
}

// Each of the sentences about all that is lost is said of its own question only.
func TestView_HowAllIsToldIsSaidOfNothingElse(t *testing.T) {
	c := course(t, twisted)
	questions := []string{"idle@120", "cell@120", "panel@120", "bell@120", "hatch@120", "bell@120 hatch@120", "pump@120"}
	for i, r := range reassuring[:6] {
		for k, q := range questions {
			if got := strings.Contains(answer(t, c, failing(t, q)).View().Groups[0].None, r.sentence) && len(answer(t, c, failing(t, q)).View().Groups[0].Rows) == 0; got != (i == k) {
				t.Errorf("%q is said of %s: %v", r.sentence, q, got)
			}
		}
	}
}
