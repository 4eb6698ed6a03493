package swept

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"knockon/ask"
	"knockon/book"
)

// saved is a book whose list saves the brakes, and nothing else.
const saved = `
aircraft "toy" { title = "Toy" }
phase "early" {}
phase "late" { begins = real.height_ft > 500 }
flight "hop" {
  from               = "A"
  to                 = "B"
  takeoff_mass_kg    = 30000
  fuel_kg            = 5000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 130
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 130
}
control "spare" {
  positions = ["off", "on"]
  initial   = "off"
}
unit "pump" { rate_per_hour = 1e-5 }
unit "lamp" { rate_per_hour = 1e-9 }
function "brakes" {
  works    = pump || spare == "on"
  wanted   = real.braking
  severity = "hazardous"
}
function "steering" {
  works    = pump
  wanted   = real.on_ground
  severity = "catastrophic"
}
function "lights" {
  works    = lamp
  severity = "minor"
}
alert "pump_off" {
  level     = "caution"
  message   = "PUMP OFF"
  when      = !pump
  procedure = pump_list
}
procedure "pump_list" {
  do {
    set = spare
    to  = "on"
  }
}
`

func little(t *testing.T) *Pages {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(saved)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	p, err := New(ask.NewDesk(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

// assessed begins an assessment and asks for it until it is done.
func assessed(t *testing.T, p *Pages, query string) string {
	t.Helper()
	if code, h, text := post(t, p, "/assess/begin?"+query); code != http.StatusSeeOther || !strings.HasPrefix(h.Get("Location"), "/assess?") {
		t.Fatalf("begin: %d %v %s", code, h, text)
	}
	for range 300 {
		code, text := get(t, p, "/assess?"+query)
		if code != http.StatusOK {
			t.Fatalf("%d %s", code, text)
		}
		if !strings.Contains(text, `id="working"`) {
			return text
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("the assessment does not end")
	return ""
}

func TestAssess_BesideTheObjectives(t *testing.T) {
	p := little(t)
	code, text := get(t, p, "/assess")
	if code != http.StatusOK || !strings.Contains(text, "Begin the assessment") || !strings.Contains(text, `action="/assess/begin" method="post"`) || len(p.jobs.all) != 0 {
		t.Fatalf("%d, no button that begins it, or something has begun:\n%s", code, text)
	}
	text = assessed(t, p, "order=3")
	for _, want := range []string{
		"A single failure reaches it, and none may: pump.", `<span class="verdict">a single failure</span>`, `<span class="verdict">over</span>`,
		"With the crew by the book: lost all the same.", "With the crew by the book: not lost.", "Met: lights 1e-9.", "not for use in flight",
		`href="/?at=`, "crew=by_the_book", "crew=none", "60,000 h: lamp.", "no check is known: it stays for the life of the aircraft, 60,000 h", `<a href="#catastrophic">`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if strings.Contains(text, "Sets of more than") {
		t.Error("it says that three together were not looked for")
	}
	if t.Failed() {
		t.Log(text)
	}
	// The sweep of three together is the same work, and is there now.
	if _, text := get(t, p, "/sweep?order=3"); !strings.Contains(text, "Traps") {
		t.Error("the sweep of the assessment is not there")
	}
}

func TestAssess_OfFewerSaysSo(t *testing.T) {
	text := assessed(t, little(t), "order=1")
	if !strings.Contains(text, "Sets of more than 1 failure were not looked for") || strings.Contains(text, "With the crew") || strings.Contains(text, "Met: ") {
		t.Errorf("of single failures alone the page says too much:\n%s", text)
	}
}

func TestAssess_WrongWords(t *testing.T) {
	p := little(t)
	for _, q := range []string{"order=4", "build=none", "flight=none", "most=0"} {
		if code, text := get(t, p, "/assess?"+q); code != http.StatusBadRequest || !strings.Contains(text, "not for use in flight") {
			t.Errorf("%s: %d %s", q, code, text)
		}
	}
}
