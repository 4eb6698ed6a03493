package follow_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/follow"
)

const little = `
aircraft "little" {
  title       = "Little"
  cabin_hears = speaker
}
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
unit "speaker" {}
signal "early" { value = !a && !down }
function "f" { works = a }
alert "x" {
  level     = "LEVEL"
  message   = "X"
  when      = WHEN
  procedure = x_list
}
procedure "x_list" {
  title = "X"
  LIST
}
`

// TestOf_Lines: what a line shows by itself is found, with its place in the book, and
// only that.
func TestOf_Lines(t *testing.T) {
	const tell = "tell {\n whom = \"cabin\"\n says = \"we land\"\n OTHER\n}"
	const left = "later {\n in = down\n says = \"for landing\"\n IF\n note { says = \"slowly\" }\n}"
	const waits = "note { says = \"one\" }\nnote {\n says = \"two\"\n wait_for = seen.on_ground\n}"
	for _, c := range []struct {
		name, level, when, list, at string
		want                        follow.Kind // "": nothing
		says                        string
	}{
		{"told over a dead system", "caution", "!a && !speaker", tell, "air", follow.Unheard, "“we land” of “X” (book.hcl:32:3) is not heard at +0:"},
		{"with another way", "caution", "!a && !speaker", strings.Replace(tell, "OTHER", "else {\n note { says = \"at the door\" }\n}", 1), "air", "", ""},
		{"over when it is read", "caution", "early", left, "air", follow.Over, "“for landing” of “X” (book.hcl:32:3) is read at +"},
		{"asked again", "caution", "early", strings.Replace(left, "IF", "if = x || air", 1), "air", "", ""},
		{"still so when it is read", "caution", "!a", left, "air", "", ""},
		{"not done at touchdown", "caution", "!a", waits, "down", follow.Undone, "“X” is begun at +0:05, and is not done when the wheels touch "},
		{"of an advisory", "advisory", "!a", waits, "down", "", ""},
		{"read when it is down", "warning", "!a", "do {\n says = \"fly\"\n from_memory = true\n}\nnote {\n says = \"two\"\n wait_for = seen.on_ground\n}", "down", "", ""},
		{"done in the air", "warning", "!a", "note { says = \"one\" }", "down", "", ""},
	} {
		list := strings.NewReplacer("OTHER", "", "IF", "").Replace(c.list)
		text := strings.NewReplacer("LEVEL", c.level, "WHEN", c.when, "LIST", list).Replace(little)
		b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
		if diags.HasErrors() {
			t.Fatal(c.name, diags[0])
		}
		build, _ := b.Build("")
		tm, err := crew.NewTeam(build, nil, crew.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		at := book.Moment{Phase: c.at, Offset: 10 * book.Second}
		f, err := follow.Of(t.Context(), follow.Question{Team: tm, At: at, Fail: [][]book.FailureRef{{{Unit: "a"}, {Unit: "speaker"}}}, Workers: 1}, nil)
		if err != nil {
			t.Fatal(err)
		}
		rows := f.View(build).Findings
		switch {
		case c.want == "" && len(rows) > 0:
			t.Errorf("%s: %+v", c.name, rows)
		case c.want != "" && (len(rows) != 1 || rows[0].Kind != c.want || !strings.HasPrefix(rows[0].Says, c.says)):
			t.Errorf("%s: %+v", c.name, rows)
		case c.want != "" && !strings.Contains(f.View(build).Lead, "After 1 of them "):
			t.Errorf("%s: %s", c.name, f.View(build).Lead)
		}
	}
}
