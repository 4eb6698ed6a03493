package point_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane/answers"
	"knockon/internal/smallbook"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/scenario"
)

const plant = `
unit "pump" {
  title   = "Pump"
  chapter = 29
}
unit "box" { title = "Box" }
unit "spare" { title = "Spare" }
function "brakes" {
  title    = "Brakes"
  chapter  = 32
  works    = pump
  severity = "major"
}
`

// busOfFour feeds four minor functions that no alert names, and one that is
// hazardous and told.
const busOfFour = `
unit "bus" { title = "Bus" }
alert "off" {
  level   = "warning"
  message = "OFF"
  when    = !bus
  tells   = [stop]
}
function "one" {
  title = "One"
  works = bus
  severity = "minor"
}
function "two" {
  title = "Two"
  works = bus
  severity = "minor"
}
function "three" {
  title = "Three"
  works = bus
  severity = "minor"
}
function "four" {
  title = "Four"
  works = bus
  severity = "minor"
}
function "stop" {
  title = "Stop"
  works = bus
  severity = "hazardous"
}
`

func alert(id, when, more string) string {
	return fmt.Sprintf("alert %q {\n  level = \"caution\"\n  message = %q\n  when = %s\n  tells = [brakes]\n  %s\n}\n", id, strings.ToUpper(id), when, more)
}

// TestView_SaysOfEachKind: what is said where a book is as small as the point.
func TestView_SaysOfEachKind(t *testing.T) {
	for _, c := range []struct{ name, text, fails, want string }{
		{"nothing tells", plant, "pump@120",
			"Brakes: lost from +0:00 (major), and nothing tells."},
		{"told: nothing to teach but that", plant + alert("low", "!pump", ""), "pump@120",
			"All that is lost is told, or noticed at once. The gravest of it: brakes: lost from +0:00 (major), and told by “LOW”."},
		{"told, and a gauge that is wrong all the same", plant + alert("low", "!pump", "") + `indication "gauge" {
  title = "Gauge"
  shows = pump ? 1 : 5
  means = 1
}
`, "pump@120", "Brakes: lost from +0:00 (major), and told by “LOW”.\n“Gauge” shows wrong from +0:00: 5, where 1 is so at +2:20."},
		{"nothing is lost, and nobody sees what failed", plant, "spare@120", "Spare: failed, and nothing on this flight shows it: no alert, no readout, no loss that is called for. It waits for the next failure, and for the next flight; the book has no check that finds it."},
		{"nothing is lost, and a gauge goes dark", plant + "indication \"gauge\" {\n  title = \"Gauge\"\n  shows = 1\n  lit_by = spare\n}\n", "spare@120", "Nothing is lost that is called for meanwhile. Dark: “Gauge”."},
		{"what is hazardous is a point though it is told", busOfFour[strings.Index(busOfFour, "function \"stop\""):] + "unit \"bus\" { title = \"Bus\" }\nalert \"off\" {\n  level = \"warning\"\n  message = \"OFF\"\n  when = !bus\n  tells = [stop]\n}\n", "bus@120", "Stop: lost from +0:00 (hazardous), and told by “OFF”."},
		{"a check finds it", "unit \"idle\" {\n  title = \"Idle\"\n  checked_every_h = 50\n}\n" + plant, "idle@120", "Idle: failed, and nothing on this flight shows it: no alert, no readout, no loss that is called for. It waits for the next failure, and for the next flight; the check that finds it comes every 50 h of flight."},
		{"nothing is lost, and an alert tells", plant + "alert \"spare_out\" {\n  level = \"caution\"\n  message = \"SPARE\"\n  when = !spare\n}\n", "spare@120", "Nothing is lost that is called for meanwhile. What tells of the failure: “SPARE”."},
		{"one of two fails unseen", plant, "pump@120 spare@120", "Brakes: lost from +0:00 (major), and nothing tells.\nSpare: failed, and nothing on this flight shows it: no alert, no readout, no loss that is called for. It waits for the next failure, and for the next flight; the book has no check that finds it."},
		{"a readout goes dark: that is something to go by", plant + "indication \"gauge\" {\n  title = \"Gauge\"\n  shows = 1\n  lit_by = pump\n}\n", "pump@120", "Brakes: lost from +0:00 (major), and nothing names it, though “Gauge” goes dark."},
		{"a readout goes dark for another reason: nothing tells", plant + "indication \"gauge\" {\n  title = \"Gauge\"\n  shows = 1\n  lit_by = spare\n}\n", "pump@120 spare@120", "Brakes: lost from +0:00 (major), and nothing tells."},
		{"an alert says what is not so", plant + "alert \"hot\" {\n  level = \"warning\"\n  message = \"HOT\"\n  when = !spare\n  true_when = !box\n}\n", "spare@120", "“HOT” is false from +0:00: what it says is not so."},
		{"three readouts, one wrong", plant + gauge("a", "spare ? 1 : 9") + gauge("b", "1") + gauge("c", "1"), "spare@120", "At +0:00 “A” shows 9, where 1 is so. Believe “B” and “C”. Behind it: spare."},
		{"two failures may stand behind it: none is named", plant + gauge("a", "spare && box ? 1 : 9") + gauge("b", "1") + gauge("c", "1"), "spare@120 box@120", "At +0:00 “A” shows 9, where 1 is so. Believe “B” and “C”."},
		{"a readout is wrong for a while", plant + gauge("a", "!spare && box ? 9 : 1"), "spare@120 box@150", "“A” shows wrong from +0:00 to +0:30: 9, where 1 is so at +0:15."},
		{"three readouts, two wrong alike", plant + gauge("a", "spare ? 1 : 9") + gauge("b", "spare ? 1 : 9") + gauge("c", "1"), "spare@120", "At +0:00 “A” shows 9 and “B” shows 9, where 1 is so. Believe “C”: the 2 that agree are wrong. Behind it: spare."},
		{"two readouts wrong alike", plant + gauge("a", "spare ? 1 : 9") + gauge("b", "spare ? 1 : 9"), "spare@120", "At +0:00 “A” shows 9 and “B” shows 9, where 1 is so. They agree, and none is to be believed. Behind it: spare."},

		{"the flight breaks off: nobody knows that there is nothing", "# aircraft: flyable = pump && box\n" + plant + alert("low", "!pump", ""), "box@120",
			"What there is to teach cannot be said: the question has no full answer."},
		{"what gives the alert is dead", plant + alert("low", "!pump", "given_by = box"), "box@110 pump@120",
			"“LOW” would tell and is not given at +0:10, since what would give it is dead. Lost: brakes."},
		{"all its ways of telling are dead", plant + alert("low", "!pump", "text = box"), "box@110 pump@120",
			"“LOW” would tell and is not given at +0:10, since what would give it is dead. Lost: brakes."},
		{"held back by the phase", plant + alert("low", "!pump", "quiet_in = [climb, cruise, landing]"), "pump@120",
			"“LOW” would tell and is not given at +0:00, held back by the phase or the conditions. Lost: brakes."},
		{"the hazardous loss that is told comes before the wave of lesser ones that are less known", busOfFour, "bus@120",
			"Stop: lost from +0:00 (hazardous), and told by “OFF”.\nAt +0:00 bus does not work: 5 functions are lost with it, 4 to be worked out from what is told and 1 told. Among them: stop (hazardous), one, two and 2 more."},
		{"somebody ended it: that is no fault of its own", plant + alert("low", "!pump", "until = !spare"), "spare@110 pump@120",
			"Brakes: lost from +0:10 (major), and nothing tells."},
		{"goes out as its giver dies", plant + alert("low", "!pump", "given_by = box"), "pump@120 box@160",
			"“LOW” goes out at +0:40, since what would give it is dead, though what it told is still so: brakes."},
		{"it stands already", plant + alert("low", "!pump || !spare", ""), "/spare pump@120",
			"“LOW” stands already because of what is inoperative, and says nothing new at +0:00. Lost then: brakes."},
		{"late", plant + alert("low", "held(!pump, 60)", ""), "pump@120",
			"“LOW” comes at +1:00, late. Lost until then without a word: brakes."},
		{"denied", plant + `indication "lamp" {
  title = "Brake lamp"
  shows = true
  means = brakes
}
`, "pump@120", "From +0:00 “Brake lamp” denies a loss: brakes."},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := saidOf(t, c.text, c.fails); got != c.want {
				t.Errorf("got:\n%s\nwant:\n%s", got, c.want)
			}
		})
	}
}

func gauge(id, shows string) string {
	return fmt.Sprintf("indication %q {\n  title = %q\n  shows = %s\n  means = 1\n}\n", id, strings.ToUpper(id), shows)
}

func saidOf(t *testing.T, text, fails string) string {
	t.Helper()
	l, err := ledger.Answer(context.Background(), smallbook.Course(t, text), smallbook.Failing(t, fails))
	if err == nil {
		err = known.Judge(context.Background(), l)
	}
	if err != nil {
		t.Fatal(err)
	}
	v := point.Of(l).View(l)
	var said []string
	for _, p := range v.Points {
		said = append(said, p.Text)
	}
	if v.Nothing != "" {
		said = append(said, v.Nothing)
	}
	return strings.Join(said, "\n")
}

// TestView_SinceWhenACauseIsSo: what is first called for on the landing roll is lost for a
// bus that died in the climb, and the sentence has both times; what is lost for as long as
// a generator is away says when that is over, and what lasts does not.
func TestView_SinceWhenACauseIsSo(t *testing.T) {
	for _, c := range []struct {
		fail         []string
		says, saysNo string
	}{
		{[]string{"dc_left", "vital_diode_left"}, ", since from +0:00 on left DC bus does not work: 2 functions are lost", "None of it is lost any more"},
		{[]string{"gen_control_left"}, "None of it is lost any more from +1:", ""},
	} {
		a := answers.Of(t, ask.Question{Fail: []scenario.Strike{{What: c.fail, At: "climb + 120 s"}}})
		var text strings.Builder
		for _, x := range point.Of(a.Ledger).View(a.Ledger).Points {
			text.WriteString(x.Text + "\n")
		}
		if !strings.Contains(text.String(), c.says) || c.saysNo != "" && strings.Contains(text.String(), c.saysNo) {
			t.Errorf("%v:\n%s", c.fail, &text)
		}
	}
}
