package crew_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
)

// frame is a small aircraft: units that fail, alerts that call, and a flight of
// some minutes. Each test adds what it needs.
const frame = `
aircraft "small" { title = "Small" }
phase "ground" {}
phase "air" { begins = !real.on_ground }
phase "down" { begins = real.vertical_speed_ft_per_min < -200 }
flight "hop" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 8000
  distance_nm        = 60
  rotate_kt          = 140
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 135
}
unit "a" {}
unit "b" {}
unit "c" { needs = a }
control "left" {
  positions = ["on", "off"]
  initial   = "on"
}
control "right" {
  positions = ["on", "off"]
  initial   = "on"
}
signal "reads" { value = left == "on" && right == "on" }
indication "reads_lamp" {
	shows = reads
	means = reads
}
function "f" { works = reads }
`

// round is a pace of whole seconds: a line that is read takes a second a word
// and one to look, a hand one more.
func round() *crew.Pace {
	return &crew.Pace{WarningS: 2, CautionS: 4, AdvisoryS: 8, AloudPerMin: 60, MindS: 1, ReachS: 1, ListS: 10, RadioS: 20, BriefS: 30,
		ReadAboveFt: 400, ReadBelowKt: 60, MostCalls: 2}
}

func small(t *testing.T, more string) *crew.Team {
	t.Helper()
	return smallOf(t, frame+more)
}

func smallOf(t *testing.T, text string) *crew.Team {
	t.Helper()
	return paced(t, text, round())
}

func paced(t *testing.T, text string, pace *crew.Pace) *crew.Team {
	t.Helper()
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: pace})
	if err != nil {
		t.Fatal(err)
	}
	return tm
}

// lines is a plan with its times in seconds from the failure, which comes 60 s
// after the phase "air" begins unless at says otherwise.
func lines(t *testing.T, tm *crew.Team, at string, what ...string) (string, *crew.Plan) {
	t.Helper()
	p, err := tm.Fly(context.Background(), failing(t, tm.Build(), at, what...))
	if err != nil {
		t.Fatal(err)
	}
	slow, err := tm.FlySlowly(context.Background(), failing(t, tm.Build(), at, what...))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "slowly", p, slow)
	from, _ := p.Record.FirstStrike()
	var s strings.Builder
	for _, l := range p.Lines {
		what := l.Number
		if what == "" {
			what = string(l.Kind)
		}
		if l.Control != "" {
			what += " " + l.Control + "=" + l.Position
		}
		if l.Answer != crew.None {
			what += " " + string(l.Answer)
		}
		fmt.Fprintf(&s, "%g-%g %s %s %s\n", (l.From - from).Seconds(), (l.To - from).Seconds(), l.By, l.Procedure.ID, what)
	}
	return s.String(), p
}

func alert(id, level, when, list string) string {
	return fmt.Sprintf("alert %q {\n level = %q\n message = %q\n when = %s\n procedure = %s\n}\n", id, level, strings.ToUpper(id), when, list)
}
