package assess_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/ask"
	"knockon/assess"
	"knockon/book"
	"knockon/run"
	"knockon/sweep"
)

// rich is a book whose list saves the brakes of a dead pump as long as the sensor
// that calls it, the gauge that it reads and the valve that it moves are sound. The
// lamp has nothing to do with them.
const rich = `
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
  rate_per_hour = 1e-4
}
unit "second_pump" {
  rate_per_hour = 1e-4
}
unit "battery" {
  rate_per_hour   = 1e-5
  checked_every_h = 100
}
unit "sensor" {
  needs           = battery
  rate_per_hour   = 2e-5
  checked_every_h = 100
}
unit "gauge_box" {
  rate_per_hour = 3e-5
  fault "reads_high" {
    rate_per_hour = 4e-6
  }
}
unit "valve" {
  rate_per_hour   = 5e-6
  checked_every_h = 400
  fault "leaks" {
    rate_per_hour = 6e-6
  }
}
unit "lamp" {
  rate_per_hour = 7e-5
}
event "flood" {
  fails         = [battery, lamp]
  rate_per_hour = 1e-7
}
signal "oil_psi" {
  value = pump || gauge_box.reads_high ? 50 : 5
}
indication "oil" {
  shows  = oil_psi
  lit_by = gauge_box
}
indication "lamp_lit" {
  shows = lamp
}
function "brakes" {
  works    = pump || (spare == "on" && valve && second_pump)
  wanted   = real.braking
  severity = "hazardous"
}
function "lights" {
  works    = lamp
  severity = "minor"
}
alert "pump_off" {
  level     = "caution"
  message   = "PUMP OFF"
  when      = !pump
  given_by  = sensor
  procedure = pump_list
}
procedure "pump_list" {
  decide {
    that = oil < 20
    then {
      do {
        set = spare
        to  = "on"
      }
    }
    else {
      note { says = "The sensor errs." }
    }
  }
}
`

func assessed(t *testing.T, text string) (*assess.Assessment, *ask.Desk, *run.Course) {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
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
	data := assess.Swept{Build: course.Build, Flight: course.Flight, Hours: assess.HoursOf(w.Spans()), Failures: w.Failures(), Phases: w.Phases(), Order: 3}
	for phase := range w.Phases() {
		sheet, err := w.Run(context.Background(), phase, 3, nil)
		if err != nil {
			t.Fatal(err)
		}
		data.Sheets = append(data.Sheets, sheet)
	}
	return assess.Of(data), desk, course
}

// TestFlyPairs_FindsWhatTakesTheCrewsMeans, and no more: beside every other failure
// flown with the one that the crew clear, one at a time.
func TestFlyPairs_FindsWhatTakesTheCrewsMeans(t *testing.T) {
	ctx := context.Background()
	a, desk, course := assessed(t, rich)
	if err := a.Fly(ctx, desk, course, 3, 2, nil); err != nil {
		t.Fatal(err)
	}
	if err := a.FlyPairs(ctx, desk, course, 1000, 2, nil); err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(a.Losses, func(l assess.Loss) bool { return l.Function.ID == "brakes" })
	l := a.Losses[i]
	if l.ByBook == nil || len(l.ByBook.Cleared) != 1 {
		t.Fatalf("cleared: %+v", l.ByBook)
	}
	single := l.ByBook.Cleared[0]
	var found, slow []string
	if says := a.View(5).Classes[1].Says; !strings.Contains(says, "with the crew by the book, of the 1 that they clear of a single failure: 1 ") {
		t.Error(says)
	}
	sum := 0.0
	for _, p := range l.ByBook.Pairs {
		found, sum = append(found, other(a, p, single)), sum+p.PerH
	}
	for n, ref := range a.Failures {
		if n == single.Set[0] {
			continue
		}
		k := run.Strike{Fail: []book.FailureRef{a.Failures[single.Set[0]], ref}, At: a.Phases[single.Crewed.Phase].Moment}
		answer, err := desk.Fly(ctx, course, ask.Question{}, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range answer.Ledger.Losses {
			if row.Function.ID == "brakes" && row.Mattered {
				slow = append(slow, ref.String())
			}
		}
	}
	slices.Sort(found)
	slices.Sort(slow)
	// Written down by hand from the book as well, so that not both are wrong alike.
	want := []string{"battery", "flood", "gauge_box", "gauge_box.reads_high", "second_pump", "sensor", "valve"}
	if !slices.Equal(found, slow) || !slices.Equal(found, want) {
		t.Errorf("found %v\nslow  %v\nwant  %v", found, slow, want)
	}
	if b := l.ByBook; b.PerH < sum*(1-1e-9) || b.PerH > sum*(1+1e-9) || b.Left != 0 || b.Sets != 0 || b.Flown >= len(a.Failures)-1 {
		t.Errorf("%.3e per hour, the pairs add up to %.3e; %+v", b.PerH, sum, b)
	}
}

// other is the member of a pair that is not the single failure.
func other(a *assess.Assessment, p, single assess.Cut) string {
	for _, n := range p.Set {
		if n != single.Set[0] {
			return a.Failures[n].String()
		}
	}
	return ""
}

// TestFlyPairs_SaysWhatWasNotFlown: with room for two pairs the likeliest two are
// flown, and the others are added up as what may be missing.
func TestFlyPairs_SaysWhatWasNotFlown(t *testing.T) {
	ctx := context.Background()
	of := func(most int) *assess.ByBook {
		a, desk, course := assessed(t, rich)
		if err := a.Fly(ctx, desk, course, 3, 2, nil); err != nil {
			t.Fatal(err)
		}
		if err := a.FlyPairs(ctx, desk, course, most, 2, nil); err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(a.Losses, func(l assess.Loss) bool { return l.Function.ID == "brakes" })
		return a.Losses[i].ByBook
	}
	all, two := of(1000), of(2)
	if two.Flown != 2 || two.Left != all.Flown-2 || two.LeftH <= 0 || two.PerH+two.LeftH < all.PerH*(1-1e-9) {
		t.Errorf("flown %d, left %d at %.2e; %.2e of %.2e", two.Flown, two.Left, two.LeftH, two.PerH, all.PerH)
	}
	for i, p := range two.Pairs {
		if p.PerH != all.Pairs[i].PerH {
			t.Errorf("pair %d is as likely as %.2e, the likeliest %.2e", i, p.PerH, all.Pairs[i].PerH)
		}
	}
}

// TestOpen_WithinOnlyWhereWhatWasNotFlownLeavesItSo: a bound above the objective is said.
func TestOpen_WithinOnlyWhereWhatWasNotFlownLeavesItSo(t *testing.T) {
	for _, c := range []struct {
		left float64
		want string
	}{
		{5e-10, "With the crew by the book: 1e-10 per hour of flight by what is known, within the objective of 1e-9; not all is known."},
		{2e-9, "With the crew by the book: 1e-10 per hour of flight by what was flown. What was not flown could make it 2.1e-9, over the objective of 1e-9: whether it is met is not known."},
	} {
		b := assess.ByBook{PerH: 1e-10, LeftH: c.left}
		if got := b.Open("1e-10", 1e-9); got != c.want {
			t.Errorf("%g: %s", c.left, got)
		}
	}
}
