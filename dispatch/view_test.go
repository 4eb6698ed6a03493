package dispatch_test

import (
	"encoding/json"
	"strings"
	"testing"

	"knockon/dispatch"
)

const pumps = `
unit "pump_1" { title = "Pump 1" }
unit "pump_2" { title = "Pump 2" }
unit "pump_3" { title = "Pump 3" }
unit "lamp" { title = "Lamp" }
control "lever" {
  title     = "Lever"
  positions = ["on", "off"]
  initial   = "on"
}
function "brakes" {
  title    = "Brakes"
  works    = pump_1 || pump_2
  severity = "catastrophic"
}
function "both" {
  title    = "Both pumps"
  works    = pump_1 && pump_2
  severity = "minor"
}
function "third" {
  title    = "A third pump"
  works    = pump_3
  severity = "major"
}
alert "low" {
  level   = "advisory"
  message = "LOW"
  when    = lamp && !pump_1 && !pump_2 && lever == "off"
  tells   = [brakes]
}
deferral "pump_out" {
  title             = "A pump"
  source            = "Toy list, 29-1, revision 1, 2026-11-01"
  items             = [pump_1, pump_2]
  category          = "C"
  words_crew        = "Brake gently."
  words_maintenance = "Look at the other."
  only_if           = !all(failed(pump_1), failed(pump_2))
  most_altitude_ft  = 9000
  no_icing          = true
  set_up "Lever off" {
    set = lever
    to  = "off"
  }
}
deferral "third_out" {
  title    = "The third pump"
  items    = [pump_3]
  category = "A"
  days     = 1
}
deferral "lamp_out" {
  title    = "The lamp"
  items    = [lamp]
  category = "D"
}
`

func textOf(t *testing.T, q dispatch.Question) string {
	t.Helper()
	var s strings.Builder
	if err := dispatch.WriteText(&s, answered(t, pumps, q).View()); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

const told = `With Pump 1 inoperative: By the book it may go. The deferral does not pass the check: what it leaves is catastrophic.
standard; The hop.

For 10 days after the day on which it was found, which is not counted (category C, “A pump”): found on 2026-02-25, it may fly until the end of 2026-03-07.
  Not above 9,000 ft: planned at 10,000 ft, so it is flown lower here.
  Not into icing: the flight has a layer of it from 4,000 to 8,000 ft, so it is flown without here.
  Lever stands at “off” from the start, and stays.

A pump (category C, toy.hcl:67)
  Crew: Brake gently.
  Maintenance: Look at the other.
  Only if: !all(failed(pump_1), failed(pump_2))
  Source: Toy list, 29-1, revision 1, 2026-11-01

Where the deferral breaks the principle that the next failure must be survivable
  One failure is catastrophic: “Brakes” is lost with Pump 2 in any phase. (step 2)

Lost with nothing more failed
  Both pumps (minor): from 0:00 on

A failure takes away more than it would with everything working, now or by the end of the flight:
Catastrophic
  Brakes: Pump 2 in any phase (told)
`

func TestWriteText(t *testing.T) {
	got := textOf(t, dispatch.Question{Items: []string{"pump_1"}, Found: "2026-02-25"})
	if !strings.HasPrefix(got, told) {
		t.Errorf("got:\n%s\nwant:\n%s", got, told)
	}
	for _, part := range []string{"every single failure and common cause, striking 5 seconds into a phase (2 moments)", "Not looked at: how likely it is (step 3)", "For training and study only"} {
		if !strings.Contains(got, part) {
			t.Errorf("%q is missing in\n%s", part, got)
		}
	}
}

// TestView_Sentences: each is said where it is true, and not where it is not.
func TestView_Sentences(t *testing.T) {
	texts := map[string]string{
		"pump":     textOf(t, dispatch.Question{Items: []string{"pump_1"}}),
		"third":    textOf(t, dispatch.Question{Items: []string{"pump_3"}, Thorough: true}),
		"lamp":     textOf(t, dispatch.Question{Items: []string{"lamp"}, In: "climb + 10 s"}),
		"both":     textOf(t, dispatch.Question{Items: []string{"pump_1", "pump_2"}}),
		"two":      textOf(t, dispatch.Question{Items: []string{"pump_1", "lamp"}}),
		"nothing":  textOf(t, dispatch.Question{Items: []string{"pump_2", "pump_3"}, Found: "2026-12-31", In: "climb"}),
		"breaking": breaking(t),
		"loose":    loose(t),
	}
	for says, where := range map[string]string{
		"By the book it may go.\n": "lamp",
		"By the book it may go; not all that is then one failure away is known.\n":                            "loose",
		"\nNot all is known; by what is, nothing was found at which the next failure would not be survivable": "loose",
		"\nNot all is known; by what is, no single failure that strikes":                                      "loose",
		"broke off in a loop that never settles, and what comes after that is not known: relay.\n":            "loose",
		"It does not go.": "both",
		"Pump 1: deferral “A pump” asks for !all(failed(pump_1), failed(pump_2)) (Pump 1 is":      "both",
		"knockon ways --out pump_1 --out pump_2":                                                  "both",
		"For 1 day after the day":                                                                 "third nothing",
		"until the end of 2027-01-01":                                                             "nothing",
		"For 120 days after":                                                                      "lamp breaking loose",
		"“A third pump” is lost with nothing more failed (major). (step 1)":                       "third nothing",
		"No single failure that strikes 5 seconds into a phase takes away more":                   "third",
		"No single failure that strikes at 3:":                                                    "",
		"\nNothing was found at which the next failure would not be survivable":                   "lamp",
		"Also a failure that nobody would know of with one more (step 4)":                         "third loose",
		"other items deferred as well (step 6); the last two with --thorough":                     "pump lamp two nothing",
		"“Brakes” is lost with Pump 2 in any phase. (step 2)":                                     "pump two",
		"is catastrophic: “Brakes” is lost with Pump 1 at ":                                       "nothing",
		"Brakes: Pump 2 in any phase (hidden)":                                                    "two",
		"Brakes: Pump 2 in any phase (told)":                                                      "pump",
		"what is then one failure away is not known.":                                             "breaking",
		"What is then one failure away is not known: the flight with nothing failed in it breaks": "breaking",
	} {
		for name, text := range texts {
			if want := strings.Contains(" "+where+" ", " "+name+" "); strings.Contains(text, says) != want {
				t.Errorf("%s: %q is said: %v\n%s", name, says, !want, text)
			}
		}
	}
}

// loose is an aircraft that chatters when one more failure comes: its answer has
// nothing that it could say for certain.
func loose(t *testing.T) string {
	t.Helper()
	text := strings.Replace(pumps, `unit "lamp" { title = "Lamp" }`, "unit \"lamp\" {}\nunit \"relay\" {}\nsignal \"chatter\" {\n set = !relay && !chatter\n reset = chatter\n}\nfunction \"buzz\" {\n works = !chatter\n}\n", 1)
	var s strings.Builder
	if err := dispatch.WriteText(&s, answered(t, text, dispatch.Question{Items: []string{"lamp"}, Thorough: true}).View()); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

// breaking is an aircraft that chatters with its lamp out: nothing is known of it.
func breaking(t *testing.T) string {
	t.Helper()
	text := strings.Replace(pumps, `unit "lamp" { title = "Lamp" }`, "unit \"lamp\" {}\nunit \"relay\" {}\nsignal \"chatter\" {\n set = !lamp && !chatter && real.time_s > 100\n reset = chatter\n}\n", 1)
	var s strings.Builder
	if err := dispatch.WriteText(&s, answered(t, text, dispatch.Question{Items: []string{"lamp"}}).View()); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

// TestView_IsWholeAsJSON: lists are never null, and what is said is there.
func TestView_IsWholeAsJSON(t *testing.T) {
	for _, items := range [][]string{{"pump_1"}, {"lamp"}, {"pump_1", "pump_2"}} {
		text, err := json.Marshal(answered(t, pumps, dispatch.Question{Items: items}).View())
		if err != nil || strings.Contains(string(text), "null") {
			t.Errorf("%v: %s, %v", items, text, err)
		}
	}
}
