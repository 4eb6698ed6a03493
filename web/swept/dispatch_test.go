package swept

import (
	"net/http"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/ask"
	"knockon/book"
)

// twoPumps is an aircraft whose deferral leaves one failure to a catastrophe.
const twoPumps = `
aircraft "toy" {
  title           = "Toy"
  wing_area_m2    = 80
  max_altitude_ft = 39000
}
phase "ground" { title = "Taxi" }
phase "climb" {
  title  = "Climb"
  begins = !real.on_ground
}
phase "cruise" {
  title  = "Cruise"
  begins = real.altitude_ft > 9000
}
phase "landing" {
  title  = "Landing"
  begins = real.on_ground && real.time_s > 300
}
flight "hop" {
  title              = "The hop"
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 10000
  distance_nm        = 60
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
  icing_from_ft      = 4000
  icing_to_ft        = 8000
}
unit "pump_1" { title = "Pump 1" }
unit "pump_2" { title = "Pump 2" }
function "brakes" {
  title    = "Brakes"
  works    = pump_1 || pump_2
  severity = "catastrophic"
}
deferral "pump_out" {
  title      = "A pump"
  source     = "Toy list, 29-1, revision 1, 2026-11-01"
  items      = [pump_1, pump_2]
  category   = "B"
  words_crew = "Brake gently."
  only_if    = !all(failed(pump_1), failed(pump_2))
}
`

// TestDispatch_SaysWhatTheCommandSays: the page of an aircraft that goes, of one that
// does not, and the empty one.
func TestDispatch_SaysWhatTheCommandSays(t *testing.T) {
	p := pagesOf(t)
	for address, parts := range map[string][]string{
		"/dispatch?item=apu&flight=short_hop&in=lift_off&found=2026-11-25":     {"does not pass the check", "until the end of 2026-12-05", "Only if: <code>", "step 5", "Ground power and air", "91-deferrals.hcl:", "not for use in flight", "10 days"},
		"/dispatch?item=tr_left&flight=short_hop&in=lift_off&found=2026-11-25": {"By the book it may go.", "until the end of 2026-11-28", "Only if: <code>", "Nothing was found at which the next failure would not be survivable", "Read both DC buses", "91-deferrals.hcl:7", "not for use in flight", "3 days"},
		"/dispatch?item=landing_light_left,+landing_light_right":               {"It does not go.", "and that is not so", "<code>knockon ways --out landing_light_left --out landing_light_right</code>"},
		"/dispatch?item=wing_heat_valve_left&flight=short_hop&in=cruise":       {"may go, under conditions", "so it is flown without here", "stands at “off”", "takes away more, by the end of the flight, than it would"},
		"/dispatch?item=tr_left": {"By the book it may go; what is then one failure away is not known.", "Only if: <code>", "in=cruise", "<code>knockon dispatch tr_left --build first_series --flight northern_link</code>"},
		"/dispatch":              {"The book has deferrals for:", "item=tr_left", "Say what is inoperative"},
	} {
		code, text := get(t, p, address)
		if code != http.StatusOK {
			t.Fatalf("%s: %d\n%s", address, code, text)
		}
		for _, part := range parts {
			if !strings.Contains(text, part) {
				t.Errorf("%s: %q is missing", address, part)
			}
		}
	}
}

// TestDispatch_LeadsToTheAnswerOfANextFailure: what the check finds one failure away
// can be opened.
func TestDispatch_LeadsToTheAnswerOfANextFailure(t *testing.T) {
	b, diags := book.Load(t.Context(), fstest.MapFS{"toy.hcl": {Data: []byte(twoPumps)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	p, err := New(ask.NewDesk(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	code, text := get(t, p, "/dispatch?item=pump_1&in=cruise")
	if code != http.StatusOK {
		t.Fatalf("%d\n%s", code, text)
	}
	for _, part := range []string{"does not pass the check: what it leaves is catastrophic", "step 2", "/?at=", "out=pump_1", "fail=pump_2", "Brake gently.", "toy.hcl:43"} {
		if !strings.Contains(text, part) {
			t.Errorf("%q is missing", part)
		}
	}
}

func TestDispatch_SaysWhatIsWrong(t *testing.T) {
	p := pagesOf(t)
	for address, part := range map[string]string{
		"/dispatch?item=tr_lef":                      "did you mean",
		"/dispatch?item=tr_left&found=1":             "is not a day",
		"/dispatch?item=tr_left&in=clim":             "clim",
		"/dispatch?item=tr_left&build=x":             "no build",
		"/dispatch?item=" + strings.Repeat("a", 500): "at most 400 characters",
	} {
		if code, text := get(t, p, address); code < 400 || code > 499 || !strings.Contains(text, part) {
			t.Errorf("%s: %d, %q is missing in\n%s", address, code, part, text)
		}
	}
}
