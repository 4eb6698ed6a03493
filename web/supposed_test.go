package web

import (
	"strings"
	"testing"
)

// TestSite_WhatIsSupposedStays: what an address supposes of the flight is in the
// answer's heading, chosen in the form, and in the links that lead on; the sweep is
// of the book's own flight.
func TestSite_WhatIsSupposedStays(t *testing.T) {
	s := demoSite(t)
	body := get(s, "/?flight=northern_link,mass=33000,wind=-8&fail=gen_left&at=cruise").Body.String()
	for _, want := range []string{"What if: at 33,000 kg (with the speeds of the take-off at 39,300 kg) and with 8 kt from behind aloft.", "supposed at 33,000 kg (with the speeds of the take-off at 39,300 kg) and with 8 kt from behind aloft", `<option value="northern_link,mass=33000,wind=-8" selected>`, "flight=northern_link%2Cmass%3D33000%2Cwind%3D-8"} {
		if !strings.Contains(body, want) {
			t.Errorf("no %q", want)
		}
	}
	if body := get(s, "/?flight=northern_link,mass=3&fail=gen_left&at=cruise").Body.String(); !strings.Contains(body, "no take-off mass of 3 kg") {
		t.Error("a mass that cannot be is not refused")
	}
}
