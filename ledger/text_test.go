package ledger_test

import (
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

var update = flag.Bool("update", false, "write the golden files again")

// everything is a small book that gives a row of every kind.
const everything = `
unit "pump" {
  title        = "Pump"
  not_modelled = "air in its line"
}
unit "spare" { title = "Spare pump" }
unit "light" {
  title        = "Taxi light"
  not_modelled = "glare"
}
unit "panel" { title = "Lamp panel" }
unit "sensor" {
  title = "Pressure sensor"
  fault "low" { title = "reads low for ever" }
}
event "burst" {
  title = "Pipe burst"
  fails = [pump, panel]
}
control "valve" {
  title     = "Valve"
  positions = ["open", "shut"]
  initial   = "open"
}
function "brakes" {
  title    = "Wheel brakes"
  works    = pump
  wanted   = landing
  severity = "hazardous"
}
function "steering" {
  title        = "Steering"
  not_modelled = "how far the rudder alone steers"
  works    = pump
  severity = "major"
}
function "doors" {
  title = "Doors"
  works = pump
}
function "flaps" {
  title    = "Flaps"
  works    = pump
  severity = "minor"
}
function "reserve" {
  title = "Reserve pressure"
  works = pump
}
function "taxi_light" {
  title  = "Taxi light"
  works  = panel
  wanted = ground
}
function "pressure" {
  title = "Pressure"
  works = pump || spare
}
function "lights" {
  title = "Lights"
  works = !light
}
alert "low" {
  level    = "warning"
  message  = "Pressure low"
  when     = !pump
  quiet_in = [climb]
  tells    = [flaps]
}
alert "door" {
  level   = "caution"
  message = "Doors stay shut"
  when    = !pump
  tells   = [doors]
}
alert "sense" {
  level     = "advisory"
  message   = "Pressure falling"
  when      = sensor.low || !pump
  true_when = false
  repeats_s = 60
}
indication "steering_lamp" {
  title = "Steering lamp"
  shows = true
  means = steering
}
indication "gauge" {
  title = "Pressure gauge"
  shows = pump
  means = pump
  tells = [reserve]
}
indication "panel_lamp" {
  title  = "Panel lamp"
  shows  = true
  lit_by = panel
}
indication "second_lamp" {
  title  = "Second lamp"
  shows  = true
  lit_by = panel
}
`

func TestWriteText_GoldenPages(t *testing.T) {
	c := course(t, everything)
	s := failing(t, "burst@120 sensor.low@320+30 /light")
	for name, width := range map[string]int{"page_80.txt": 80, "page_40.txt": 40} {
		var w strings.Builder
		if err := ledger.WriteText(&w, answer(t, c, s), width); err != nil {
			t.Fatal(err)
		}
		golden(t, name, w.String())
	}
}

func TestMarshalJSON_GoldenFile(t *testing.T) {
	l := answer(t, course(t, everything), failing(t, "burst@120 /light"))
	text, err := json.MarshalIndent(l, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "ledger.json", string(text)+"\n")
}

// golden compares with a file of testdata; -update writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile("testdata/"+name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is now\n%s", name, got)
	}
}

func TestWriteText_KeepsItsWidth(t *testing.T) {
	c := demoCourse(t)
	l := answer(t, c, failing(t, "dc_left@1500 dc_right@2000"))
	for _, width := range []int{0, 40, 72, 100, 200} {
		var w strings.Builder
		if err := ledger.WriteText(&w, l, width); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(w.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > max(width, 40) {
				t.Errorf("width %d: a line of %d: %s", width, n, line)
			}
		}
		if !strings.HasSuffix(strings.Join(strings.Fields(w.String()), " "), book.Caution) {
			t.Errorf("width %d: the page does not end with the caution", width)
		}
	}
}

// Every row of the ledger is in the view once, and every loss has its class.
func TestView_HasEveryRow(t *testing.T) {
	l := answer(t, demoCourse(t), failing(t, "dc_left@1500 dc_right@2000"))
	count := map[string]int{}
	for _, g := range l.View().Groups {
		for _, r := range g.Rows {
			count[r.Kind]++
			if r.Title == "" || r.Kind == "function" && g.ID != ledger.GroupKept && r.Class == "" {
				t.Errorf("row %+v says too little", r)
			}
			if g.ID == ledger.GroupHidden && (r.Known != ledger.Hidden || r.Class != "not told" && r.Class != "only shown" || !r.Mattered) {
				t.Errorf("%s is in the wrong group", r.ID)
			}
		}
	}
	if got, want := count["function"], len(l.Losses)+len(l.Kept); got != want {
		t.Errorf("%d functions in the view, %d in the ledger", got, want)
	}
	if got, want := count["indication"], len(l.Wrong)+len(l.Dark); got != want {
		t.Errorf("%d indications in the view, %d in the ledger", got, want)
	}
	if got, want := count["alert"], len(l.Alerts)+len(l.False)+len(l.Held); got != want {
		t.Errorf("%d alerts in the view, %d in the ledger", got, want)
	}
}

func TestSay(t *testing.T) {
	l := answer(t, course(t, everything), failing(t, "burst@120 /light"))
	for id, want := range map[string]string{
		"brakes":        "lost, not told: From +0:00 to the end. Called for from +3:00 (Landing); no indication shows it.",
		"steering":      "lost, told wrong: From +0:00 to the end. Denied by Steering lamp.",
		"flaps":         "lost, told late: From +0:00 to the end. Told 80 s late by “Pressure low” (warning) at +1:20 (Cruise), held back in Climb.",
		"taxi_light":    "lost when it does not matter, not told: From +0:00 to the end. Nothing says so.",
		"low":           "held back: Held back in Climb; given at +1:20 (Cruise). From +0:00 until +1:20 (Cruise). given: From +1:20 to the end.",
		"gauge":         "lit and right, or the same without the failure",
		"pressure":      "still works: Without Pump; rests on Spare pump.",
		"lights":        "not lost",
		"panel_lamp":    "dark: From +0:00 to the end.",
		"steering_lamp": "shows wrong: From +0:00 to the end. Shows on, while the truth is off.",
		"nobody":        "no such item on this build",
	} {
		if got := l.Say(id); got != want {
			t.Errorf("%s:\n got %s\nwant %s", id, got, want)
		}
	}
}

// That the crew move a control in the second of a loss makes it no cause of it.
func TestView_NamesNoCauseForACoincidence(t *testing.T) {
	c := course(t, everything)
	s := failing(t, "burst@120")
	s.Actions = []run.Action{{Control: "valve", Position: "shut", At: book.Moment{Offset: 120 * book.Second}}}
	l := answer(t, c, s)
	if text := all(t, l); strings.Contains(text, "crew set") || !strings.Contains(text, "the crew: Valve to shut") {
		t.Error(text)
	}
	if got, want := l.Say("steering"), "lost, told wrong: From +0:00 to the end. Denied by Steering lamp."; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What keeps a function working by not being so is not said to be so.
func TestSay_RestsOnWhatIsNotSo(t *testing.T) {
	c := course(t, `
unit "left" {}
unit "right" {}
signal "worn" {
  title = "Worn out"
  set   = !left
  reset = !left
}
function "pressure" {
  works = left || right && !worn && !real.on_ground
}
`)
	const want = "rests on right and these not being so: Worn out and the weight is on the wheels."
	if got := answer(t, c, failing(t, "left@120")).Say("pressure"); !strings.HasSuffix(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
}

// A moment after the beginning of a phase is that of the flight with nothing failed.
func TestView_SaysThatThePhaseAskedForHasNotBegun(t *testing.T) {
	c := demoCourse(t)
	s := failing(t, "pump_left@0 /gear_valve")
	for moment, want := range map[string]string{
		"descent":        "(Cruise; with nothing failed Descent begins here)",
		"descent + 60 s": "(Cruise; with nothing failed Descent begins 60 s before)",
		"climb":          "(Climb)",
	} {
		s.Strikes[0].At, _ = book.ParseMoment(moment, c.Build)
		if got := answer(t, c, s).View().Heading; !strings.Contains(got, want) {
			t.Errorf("%s: %s", moment, got)
		}
	}
}

// JSON has every list, empty or not.
func TestLedger_JSONHasEveryList(t *testing.T) {
	text, err := json.Marshal(answer(t, course(t, everything), failing(t, "burst@120")))
	if err != nil {
		t.Fatal(err)
	}
	var v struct {
		Groups []struct {
			Rows []map[string]json.RawMessage
		}
	}
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			var spans []map[string]json.RawMessage
			if err := json.Unmarshal(r["spans"], &spans); err != nil || spans == nil {
				t.Errorf("%s: spans %s: %v", r["id"], r["spans"], err)
			}
			for _, s := range spans {
				if h, d := string(s["held_in"]), string(s["denied_by"]); !strings.HasPrefix(h, "[") || !strings.HasPrefix(d, "[") {
					t.Errorf("%s: held_in %s, denied_by %s", r["id"], h, d)
				}
			}
		}
	}
}
