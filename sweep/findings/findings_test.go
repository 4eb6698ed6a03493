package findings_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// text is a book small enough to work out by hand.
const text = `
aircraft "test" { title = "Test aircraft" }
variant "old" { title = "Old" }
variant "new" { title = "New" }
phase "early" { title = "Early" }
phase "fast"  { begins = real.airspeed_kt > 100 }
phase "late"  { begins = real.on_ground && real.airspeed_kt < 90 }
flight "hop" {
  from = "A"
  to   = "B"
  takeoff_mass_kg = 30000
  fuel_kg = 5000
  cruise_altitude_ft = 4000
  distance_nm = 25
  rotate_kt = 130
  climb_kt = 250
  climb_mach = 0.7
  descent_kt = 250
  approach_kt = 130
}
unit "pump_1" {
  title = "Pump 1"
  chapter = 29
}
unit "pump_2" {
  title = "Pump 2"
  chapter = 29
}
unit "computer" {
  title = "Alert computer"
  chapter = 31
}
unit "lamp" {
  title = "Lamp"
  chapter = 33
}
unit "fan" {
  title = "Fan"
  chapter = 21
}
unit "valve" {
  title = "Valve"
  chapter = 21
}
function "brakes" {
  title    = "Wheel brakes"
  chapter  = 32
  works    = pump_1 || pump_2
  severity = "hazardous"
}
function "cooling" {
  title    = "Cooling"
  chapter  = 21
  works    = fan
  severity = "major"
}
function "fresh_air" {
  title    = "Fresh air"
  chapter  = 21
  works    = valve
  severity = "minor"
}
function "light" {
  title    = "Light"
  chapter  = 33
  works    = lamp
  wanted   = late
  severity = "catastrophic"
  variant "new" { works = true }
}
alert "air_fault" {
  level    = "caution"
  message  = "Air fault"
  when     = !fan || !valve
  given_by = computer
  quiet_in = [fast]
  tells    = [cooling, fresh_air]
}
`

func swept(t *testing.T, build string) *findings.Swept {
	t.Helper()
	b, diags := book.Load(t.Context(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	of, _ := b.Build(build)
	course, err := run.NewCourse(of, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := sweep.New(course, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := &findings.Swept{Build: of, Failures: w.Failures()}
	for i := range w.Phases() {
		sheet, err := w.Run(t.Context(), i, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Sheets = append(s.Sheets, sheet)
	}
	return s
}

func name(s *findings.Swept, set sweep.Set) (ids []string) {
	for _, n := range set {
		ids = append(ids, s.Failures[n].String())
	}
	return ids
}

// TestTraps: the light is catastrophic (8) and hidden (4), in the chapter of
// the lamp (1), and called for late in whatever phase the lamp fails: 32. What
// the fan (major, 2) and the valve (minor, 1) take is told (a quarter), but late if
// they fail in the fast phase: as late as that phase still lasts.
func TestTraps(t *testing.T) {
	s := swept(t, "old")
	traps := s.Traps(0)
	if len(traps) != 3 {
		t.Fatalf("%d traps, want the lamp, the fan and the valve: %v", len(traps), traps)
	}
	lamp := traps[0]
	if got := name(s, lamp.Set); !slices.Equal(got, []string{"lamp"}) || lamp.Score != 32 || lamp.In != 3 || lamp.Silent != 1 || lamp.Strange != 0 || lamp.Severity != "catastrophic" {
		t.Errorf("the first trap is %v %+v", got, lamp)
	}
	fan := traps[1]
	late := float64(fan.LateS)
	if got := name(s, fan.Set); !slices.Equal(got, []string{"fan"}) || fan.In != 1 || s.Sheets[fan.Phase].Phase.ID != "fast" || fan.Score != 2*2*late/(late+60) || late < 60 {
		t.Errorf("the second trap is %v %+v", got, fan)
	}
	if valve := traps[2]; valve.Score != fan.Score/2 {
		t.Errorf("the third trap has %g, want half of %g", valve.Score, fan.Score)
	}
}

// TestTogether: both pumps take the brakes (4), hidden (4), of a chapter in
// which neither is (2): 32, in all three phases. The computer with the fan or
// the valve takes the word: of the cooling, major, 2 times 4, less 2 times a quarter
// for what is told, in the early phase.
func TestTogether(t *testing.T) {
	s := swept(t, "old")
	list := s.Together(0)
	if len(list) != 3 {
		t.Fatalf("%d sets, want 3: %+v", len(list), list)
	}
	first := list[0]
	if got := name(s, first.Set); !slices.Equal(got, []string{"pump_1", "pump_2"}) || first.Excess != 32 || first.In != 3 || len(first.New) != 1 || len(first.Worse) != 0 {
		t.Errorf("first %v %+v", got, first)
	}
	second := list[1]
	if got := name(s, second.Set); !slices.Equal(got, []string{"computer", "fan"}) || second.Excess != 7.5 || len(second.New) != 0 || len(second.Worse) != 1 || second.In != 3 {
		t.Errorf("second %v %+v", got, second)
	}
	if third := list[2]; third.Excess != 3.75 {
		t.Errorf("third %+v, want the computer and the valve with 3.75", third)
	}
}

func TestPhaseMatters(t *testing.T) {
	s := swept(t, "old")
	list := s.PhaseMatters(0)
	if len(list) != 2 {
		t.Fatalf("%d, want the fan and the valve: %+v", len(list), list)
	}
	fan := list[0]
	if s.Failures[fan.Failure].Unit != "fan" || s.Sheets[fan.Worst].Phase.ID != "fast" || s.Sheets[fan.Best].Phase.ID != "early" || len(fan.Only) != 1 {
		t.Errorf("%+v", fan)
	}
}

func TestBuildMatters(t *testing.T) {
	old, later := swept(t, "old"), swept(t, "new")
	list := findings.BuildMatters([]*findings.Swept{old, later}, 0)
	if len(list) != 1 {
		t.Fatalf("%d, want the lamp: %+v", len(list), list)
	}
	if d := list[0]; d.Failure != "lamp" || d.Worst != 0 || d.Best != 1 || d.Spread != 32 || !slices.Equal(d.Only, []string{"light"}) {
		t.Errorf("%+v", d)
	}
	if findings.BuildMatters([]*findings.Swept{old}, 0) != nil {
		t.Error("one build differs from itself")
	}
}

// TestGuardians: the alert alone tells of two functions (2 + 1), each by one
// failure in three phases; the computer takes away all six.
func TestGuardians(t *testing.T) {
	s := swept(t, "old")
	list := s.Guardians(0)
	if len(list) != 1 {
		t.Fatalf("%d guardians, want the alert: %+v", len(list), list)
	}
	g := list[0]
	if g.ID != "air_fault" || !g.Alert || g.Losses != 6 || g.Weight != 3 || len(g.Functions) != 2 || len(g.Failures) != 2 {
		t.Errorf("%+v", g)
	}
	if len(g.Takers) != 1 || s.Failures[g.Takers[0].Failure].Unit != "computer" || g.Takers[0].Losses != 6 {
		t.Errorf("takers %+v, want the computer with 6", g.Takers)
	}
}

// TestFaces: fan and valve give the same alert and take different functions.
// The lamp alone takes something with no alert at all, so that is no face.
func TestFaces(t *testing.T) {
	s := swept(t, "old")
	list := s.Faces(1, 0)
	if len(list) != 1 || len(list[0].Causes) != 2 || len(list[0].Alerts) != 1 {
		t.Fatalf("%+v, want one face with two causes", list)
	}
	if got := name(s, slices.Concat(list[0].Causes[0].Set, list[0].Causes[1].Set)); !slices.Equal(got, []string{"fan", "valve"}) {
		t.Errorf("causes %v", got)
	}
	if both := s.Faces(2, 0); len(both) != 2 || len(both[0].Alerts) != 0 {
		t.Errorf("with pairs %+v, want also the face without alerts: the lamp, the pumps, and what the computer silences", both)
	}
}

// TestWeight_GoesByHowALossIsKnown: minor (1) as long as people can know of it,
// catastrophic (8) where it is hidden (4) or denied (4); the book says so.
func TestWeight_GoesByHowALossIsKnown(t *testing.T) {
	s := swept(t, "old")
	n := slices.IndexFunc(s.Build.Functions, func(f *book.Function) bool { return f.ID == "fresh_air" })
	s.Build.Functions[n].SeverityIfHidden = "catastrophic"
	for _, c := range []struct {
		loss sweep.Lost
		want float64
	}{
		{sweep.Lost{Known: ledger.Hidden}, 32}, {sweep.Lost{Known: ledger.Denied}, 32}, {sweep.Lost{Known: ledger.InUse}, 3},
		{sweep.Lost{Known: ledger.Late, KnownS: 60}, 1}, {sweep.Lost{Known: ledger.Follows}, 1}, {sweep.Lost{Known: ledger.Follows, Distant: true}, 2},
		{sweep.Lost{Known: ledger.AtOnce}, 0.25}, {sweep.Lost{Known: ledger.IsTold}, 0.25},
		{sweep.Lost{Known: ledger.Follows, Class: ledger.NotTold}, 1}, // whatever the class
	} {
		c.loss.Function, c.loss.Mattered = int32(n), true
		if got := s.Weight(c.loss, []int{21}); got != c.want {
			t.Errorf("%v weighs %g, want %g", c.loss, got, c.want)
		}
		if c.loss.Mattered = false; s.Weight(c.loss, []int{21}) != 0 {
			t.Errorf("%v weighs something, though it did not matter", c.loss)
		}
	}
}
