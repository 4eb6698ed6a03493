package view_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/sweep"
	"knockon/sweep/findings"
	"knockon/sweep/view"
)

// restless is a book whose twist makes a loop that never settles from the cruise
// on. What LINES adds makes findings, or none.
const restless = `
aircraft "toy" { title = "Toy" }
phase "climb" {}
phase "cruise" { begins = real.time_s >= 200 }
variant "one" { title = "One" }
variant "two" { title = "Two" }
flight "hop" {
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
unit "pump" {}
unit "spare" {}
unit "twist" {}
signal "chase" { value = !twist && TURNS && !before(chase) }
alert "low" {
  level   = "caution"
  message = "Low"
  when    = !pump || !spare || !twist
  tells   = [pressure, flow]
}
alert "lower" {
  level   = "caution"
  message = "Lower"
  when    = !pump || !spare || !twist
  tells   = [pressure, flow]
}
function "pressure" { works = pump }
function "flow" { works = pump && twist && (chase || !chase) }
`

// sweepOf sweeps some phases of a build of the book.
func sweepOf(t *testing.T, turns, build string, phases ...int) *findings.Swept {
	t.Helper()
	b, diags := book.Load(t.Context(), fstest.MapFS{"book.hcl": {Data: []byte(strings.Replace(restless, "TURNS", turns, 1))}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	on, _ := b.Build(build)
	w, err := sweep.Of(t.Context(), on, nil, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := &findings.Swept{Build: on, Failures: w.Failures()}
	for _, p := range phases {
		sheet, err := w.Run(t.Context(), p, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Sheets = append(s.Sheets, sheet)
	}
	return s
}

// The sentences of empty lists are said where they are known to be so, and not
// of phases that were not done or of flights that break off.
func TestOf_SaysNoneOnlyOfWhatIsKnown(t *testing.T) {
	const settles, breaks = "false", "real.time_s >= 300"
	nones := func(turns string, missing []string, phases ...int) (all []string) {
		s := sweepOf(t, turns, "one", phases...)
		for _, l := range view.Of(s, view.Asked{Flight: s.Build.Flights[0], Order: 2, Most: 5, Missing: missing}).Lists {
			if len(l.Rows) == 0 {
				all = append(all, l.None)
			}
		}
		other := sweepOf(t, turns, "two", phases...)
		if l := view.Builds([]*findings.Swept{s, other}, missing, 5); len(l.Rows) == 0 {
			all = append(all, l.None)
		}
		return all
	}
	known := []string{
		"No set is worse than its parts.", "Every single loss that matters is told, or noticed at once.", "Every failure does the same in each of these phases.",
		"No loss rests on one alert or indication alone.", "Every failure does the same on these builds.",
	}
	if got := nones(settles, nil, 0, 1); strings.Join(got, " ") != strings.Join(known, " ") {
		t.Errorf("where all is known: %q", got)
	}
	for name, got := range map[string][]string{"breaks off": nones(breaks, nil, 0, 1), "a phase is missing": nones(settles, []string{"cruise"}, 0)} {
		for _, sentence := range known {
			if slices.Contains(got, sentence) {
				t.Errorf("%s: %q", name, sentence)
			}
		}
		if len(got) == 0 {
			t.Errorf("%s: no list is empty, so nothing was tested", name)
		}
	}
	if got := nones(settles, nil, 0); slices.Contains(got, known[2]) || !slices.Contains(got, "Not known: one phase alone was swept.") {
		t.Errorf("one phase: %q", got)
	}
}

// A sweep opens with what broke off, and each row and cell of such a set with that.
func TestOf_OpensWithWhatBreaksOff(t *testing.T) {
	s := sweepOf(t, "real.time_s >= 300", "one", 0, 1)
	p := view.Of(s, view.Asked{Flight: s.Build.Flights[0], Order: 2, Most: 5})
	const want = "The flight breaks off in a loop that never settles, and what comes after that is not known, with these failures: twist."
	if p.Open != want {
		t.Errorf("%q", p.Open)
	}
	twist := slices.IndexFunc(s.Failures, func(f book.FailureRef) bool { return f.Unit == "twist" })
	for set, open := range map[string]bool{"0": false, "1": false, "2": true, "01": false, "02": true, "12": true} {
		var of sweep.Set
		for _, r := range set {
			of = append(of, int(r-'0'))
		}
		if got := s.Sheets[0].Open(of); got != open || slices.Contains(of, twist) != open {
			t.Errorf("%v breaks off: %v", of, got)
		}
	}
	if p := sweepOf(t, "false", "one", 0, 1); view.Of(p, view.Asked{Flight: p.Build.Flights[0], Order: 2, Most: 5}).Open != "" {
		t.Error("a sweep in which all settles opens with a break")
	}
}
