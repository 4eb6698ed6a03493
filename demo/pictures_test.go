package demo_test

import (
	"flag"
	"fmt"
	"os"
	"testing"

	"knockon/book"
	"knockon/figure"
	"knockon/figure/layout"
	"knockon/figure/sheet"
	"knockon/internal/corvane"
)

var redraw = flag.Bool("redraw", false, "draw the pictures of docs/corvane.md again")

// drawn are the pictures of docs/corvane.md: what stands in each, by its id. The
// first is drawn boldly. The arrows between them are the book's own: what a thing
// reads of another.
var drawn = []struct {
	name, title string
	ids         []string
}{
	{"power", "Where the power comes from", []string{
		"dc_vital", "gen_left", "gen_right", "apu_gen", "ram_turbine", "ram_gen", "ram_contactor", "tie_left", "tie_right",
		"ac_left", "ac_right", "ac_vital", "ac_backup", "tr_left", "tr_right", "tr_vital", "dc_tie", "dc_left", "dc_right",
		"vital_diode_left", "vital_diode_right", "battery_main", "dc_direct", "inverter"}},
	{"pressure", "Where the pressure comes from", []string{
		"hyd_left", "reservoir_left", "reservoir_right", "pump_left", "pump_right", "pump_left_delivers", "pump_right_delivers",
		"pump_standby", "standby_runs", "transfer_unit", "transfer_runs", "hyd_right", "ac_left", "ac_right"}},
	{"surfaces", "How the surfaces are moved", []string{
		"pitch_control", "hyd_left", "hyd_right", "surface_pressure_left", "surface_pressure_right", "ac_backup", "control_computer_1", "control_computer_2", "control_backup", "control_passes",
		"elevator_left_servo", "elevator_right_servo", "elevator_electric_servo", "aileron_left_servo", "aileron_right_servo",
		"aileron_electric_servo", "rudder_upper_servo", "rudder_lower_servo", "rudder_electric_servo",
		"roll_control", "yaw_control"}},
	{"known", "What it knows, and how it says so", []string{
		"warning_unit", "pitot_1", "pitot_2", "pitot_3", "air_data_1", "air_data_2", "inertial_1", "inertial_2", "standby_instrument",
		"alert_computer_1", "alert_computer_2", "alerting", "warning_lane_1", "warning_lane_2",
		"data_unit_1", "data_unit_2", "picture_unit_left", "picture_unit_right", "picture_unit_spare",
		"left_pictures", "right_pictures", "left_flight_display", "dc_left", "dc_right", "dc_vital", "ac_backup"}},
}

// block is what a picture says of one block of the book, and what it reads.
func block(k *book.Build, id string) (title, says string, reads []*book.Expr, ok bool) {
	for _, u := range k.Units {
		if u.ID == id {
			return u.Title, fmt.Sprintf("fails %.0e times an hour", u.RatePerHour), []*book.Expr{u.Needs}, true
		}
	}
	for _, s := range k.Signals {
		if s.ID == id {
			return s.Title, "", []*book.Expr{s.Value, s.Set, s.Reset}, true
		}
	}
	for _, f := range k.Functions {
		if f.ID == id {
			return f.Title, "", []*book.Expr{f.Works}, true
		}
	}
	return "", "", nil, false
}

// chainOf draws ids with an arrow from each to what reads it.
func chainOf(t *testing.T, k *book.Build, name, title string, ids []string) figure.Chain {
	at := map[string]int{}
	for i, id := range ids {
		at[id] = i
	}
	c := figure.Chain{ID: name, Title: title, Description: title + ": an arrow leads to what needs or reads a thing.", Foot: []string{sheet.NotForFlight}}
	for _, id := range ids {
		label, says, reads, ok := block(k, id)
		if !ok {
			t.Errorf("the book has no %s", id)
		}
		c.Steps = append(c.Steps, figure.Step{Label: label, Says: says, Note: id, Causes: drawnIn(reads, at, at[id])})
	}
	return c
}

// drawnIn gives the numbers of the drawn things that expressions name, each once.
func drawnIn(reads []*book.Expr, at map[string]int, self int) (from []int) {
	seen := map[int]bool{self: true}
	for _, e := range reads {
		if e == nil {
			continue
		}
		e.Walk(func(e *book.Expr) {
			if i, drawn := at[e.ID]; drawn && !seen[i] {
				seen[i] = true
				from = append(from, i)
			}
		})
	}
	return from
}

// TestPictures_AreThoseOfTheBook holds the pictures of docs/corvane.md to the
// book; -redraw draws them again.
func TestPictures_AreThoseOfTheBook(t *testing.T) {
	k := corvane.Build(t, "second_series")
	for _, d := range drawn {
		c := chainOf(t, k, d.name, d.title, d.ids)
		want := c.SVG(layout.Layered(c.Graph()))
		file := "../docs/corvane-" + d.name + ".svg"
		if *redraw {
			if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := os.ReadFile(file); err != nil || string(got) != want {
			t.Errorf("%s is not what the book says (%v); run this test with -redraw", file, err)
		}
	}
}
