package drilling_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"knockon/drill"
	"knockon/internal/corvane/islands"
	"knockon/region"
)

// TestInput_Turns: a pilot turns the flight from a seat, every seat sees where it goes
// then, and a turn that cannot be flown is refused with why.
func TestInput_Turns(t *testing.T) {
	r := &room{TB: t, dir: t.TempDir(), watch: &watch{at: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}, over: region.Router{Region: islands.Region(t)}}
	r.open()
	seats := r.begin(left) // 45 s before the failure, in the cruise
	turn := func(number int, to string) (int, string) {
		return r.post(seats[drill.PilotFlying], fmt.Sprintf(`{"client":"a","number":%d,"do":"turn","to":%q}`, number, to))
	}
	if status, text := turn(1, "divert QXXX"); status != 409 || !strings.Contains(text, "there is no airfield") || !strings.Contains(text, "not_flown") {
		t.Errorf("to nowhere: %d %s", status, text)
	}
	if status, text := turn(1, "return"); status != 200 {
		t.Fatalf("%d %s", status, text)
	}
	r.watch.pass(5 * time.Second)
	for who, seat := range seats {
		if status, screen := r.get(seat + "/now"); status != 200 || !strings.Contains(screen, `{"title":"Going to","text":"Kestrin"}`) || !strings.Contains(screen, "back to Kestrin") {
			t.Errorf("%s sees %d %s", who, status, screen)
		}
	}
	if status, text := turn(2, "return"); status != 409 || !strings.Contains(text, "it goes to Kestrin already") {
		t.Errorf("again: %d %s", status, text)
	}
}
