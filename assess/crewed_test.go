package assess_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/ask"
	"knockon/assess"
	"knockon/book"
	"knockon/sweep"
)

// saved is a book whose list saves the brakes, and nothing else.
const saved = `
aircraft "toy" {
  title = "Toy"
}
phase "early" {}
phase "late" {
  begins = real.height_ft > 500
}
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
unit "pump" {
  rate_per_hour = 1e-5
}
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
  works    = pump
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

func TestFly_SaysWhatTheCrewSave(t *testing.T) {
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(saved)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	desk := ask.NewDesk(b)
	course, err := desk.Course("", "")
	if err != nil {
		t.Fatal(err)
	}
	w, err := sweep.On(context.Background(), course, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	data := assess.Swept{Build: course.Build, Flight: course.Flight, Hours: assess.HoursOf(w.Spans()), Failures: w.Failures(), Phases: w.Phases(), Order: 2}
	for phase := range w.Phases() {
		sheet, err := w.Run(context.Background(), phase, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		data.Sheets = append(data.Sheets, sheet)
	}
	a, told := assess.Of(data), 0
	if err := a.Fly(context.Background(), desk, course, 3, 2, func(done, of int) { told = of }); err != nil {
		t.Fatal(err)
	}
	if told != 1 {
		t.Errorf("%d flights, want the one that both need", told)
	}
	want := map[string]string{"brakes": "not lost", "steering": "lost all the same", "lights": ""}
	for _, l := range a.View(3).Losses {
		got := l.Sets[0].Crew
		if got != want[l.Function] && (want[l.Function] == "" || !strings.HasSuffix(got, ": "+want[l.Function])) {
			t.Errorf("%s: %q, want %q", l.Function, got, want[l.Function])
		}
		if flown := want[l.Function] != ""; l.Sets[0].Arrives != flown {
			t.Errorf("%s: the flight arrives: %v", l.Function, l.Sets[0].Arrives)
		}
		if l.Sets[0].CrewLost != (l.Function == "steering") {
			t.Errorf("%s: lost with the crew: %v", l.Function, l.Sets[0].CrewLost)
		}
	}
}
