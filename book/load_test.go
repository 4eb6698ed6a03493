package book

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// bookOf makes a book of one file, or of several as name, text, name, text.
func bookOf(t *testing.T, parts ...string) *Book {
	t.Helper()
	b, problems := Load(context.Background(), filesOf(parts...))
	if problems.HasErrors() {
		var s strings.Builder
		problems.Write(&s, nil)
		t.Fatalf("the book does not load:\n%s", s.String())
	}
	return b
}

func filesOf(parts ...string) fstest.MapFS {
	if len(parts) == 1 {
		parts = []string{"book.hcl", parts[0]}
	}
	files := fstest.MapFS{}
	for i := 0; i < len(parts); i += 2 {
		files[parts[i]] = &fstest.MapFile{Data: []byte(parts[i+1])}
	}
	return files
}

const smallBook = `
aircraft "small" {
  title        = "Small"
  wing_area_m2 = 120
}
phase "ground" {}
phase "climb" { begins = !real.on_ground }
phase "landing_roll" { begins = real.on_ground }
unit "engine_1" {}
unit "pump_1" {
  needs = engine_1
  fault "leaks" { stops = true }
}
event "bird_strike" { fails = [engine_1, pump_1.leaks] }
control "ground_cart" {
  positions = ["off", "on"]
  initial   = "off"
}
signal "pressure_1" { value = pump_1 || ground_cart == "on" }
signal "pressure_1_psi" { value = pressure_1 ? 3000 : 0 }
signal "level_word" { value = pressure_1_psi > 2000 ? "high" : "low" }
signal "latched" {
  set   = !pressure_1
  reset = false
}
function "main_brakes" {
  works    = pressure_1
  wanted   = landing_roll
  severity = "hazardous"
}
alert "pressure_low" {
  level    = "caution"
  message  = "Pressure low"
  when     = !pressure_1
  quiet_in = [landing_roll]
  tells    = [main_brakes]
}
flight "short" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
  runway_wet         = true
}
claim "pump_takes_brakes" {
  says   = "The pump takes the brakes"
  source = "fictional"
  given {
    fail = [bird_strike, pump_1]
    at   = "climb + 2 min"
  }
  expect = [lost(main_brakes), first(!pressure_1) < 2]
}
`

func TestLoad_FillsTheBuild(t *testing.T) {
	book := bookOf(t, smallBook)
	b, ok := book.Build("")
	if !ok || b.Variant != "standard" {
		t.Fatalf("first build is %v, %v", b, ok)
	}
	if got := b.Aircraft.FlyableAgainS; got != 2 {
		t.Errorf("flyable_again_s is %v by default, want 2", got)
	}
	if got := b.Aircraft.ToldWithinS; got != 10 {
		t.Errorf("told_within_s is %v by default, want 10", got)
	}
	if item, ok := b.Item("pump_1"); !ok || item.(*Unit).Needs.ID != "engine_1" {
		t.Errorf("pump_1 is %v", item)
	}
	if f := b.Events[0].Fails; len(f) != 2 || f[1].String() != "pump_1.leaks" {
		t.Errorf("bird_strike fails %v", f)
	}
	if s := b.Signals[1]; s.Type != Number || s.Unit != "psi" {
		t.Errorf("pressure_1_psi is %v in %q", s.Type, s.Unit)
	}
	if s := b.Signals[2]; s.Type != Word || strings.Join(s.Words, " ") != "high low" {
		t.Errorf("level_word is %v of %v", s.Type, s.Words)
	}
	if wet, ok := b.Flights[0].Number("runway_wet"); !ok || wet != 1 {
		t.Errorf("runway_wet is %v, %v", wet, ok)
	}
	if g := b.Claims[0].Given[0]; len(g.Strikes) != 1 || len(g.Strikes[0].Fail) != 2 || len(g.Expect) != 2 {
		t.Errorf("the claim is given %+v", g)
	}
	if u := b.Units[1].Title; u != "pump 1" {
		t.Errorf("title of pump_1 is %q", u)
	}
}

func TestLoad_SharesWhatIsTheSameOnTwoBuilds(t *testing.T) {
	book := bookOf(t, variedBook)
	early, _ := book.Build("early")
	middle, _ := book.Build("middle")
	late, _ := book.Build("late")
	works := func(b *Build) *Expr { return b.Functions[0].Works }
	if works(early) != works(middle) || works(early) != works(late) {
		t.Error("an expression that is the same on all builds is there more than once")
	}
	mode := func(b *Build) *Signal { item, _ := b.Item("mode"); return item.(*Signal) }
	if mode(early).Value == mode(middle).Value {
		t.Error("an expression is shared although the words that it can be differ")
	}
	if got := strings.Join(mode(middle).Words, " "); got != `a \ b arm off on reset` {
		t.Errorf("on build middle the words are %s", got)
	}
	if got := strings.Join(mode(late).Words, " "); got != "on x" {
		t.Errorf("on build late the words are %s", got)
	}
}

func TestLoad_TheSameTwice(t *testing.T) {
	for range 5 {
		if d := difference(bookOf(t, variedBook), bookOf(t, variedBook)); d != "" {
			t.Fatal(d)
		}
	}
}

// Long files are parsed in pieces; places must be those of the file.
func TestLoad_PlacesInLongFiles(t *testing.T) {
	var text strings.Builder
	text.WriteString("\ufeff# é\naircraft \"a\" { title = \"A\" }\n")
	for i := range 2000 {
		fmt.Fprintf(&text, "unit \"u%d\" {\n  title = \"Ünit %d\" # \"{\n  note  = <<END\n} { \"\nEND\n}\r\n\n", i, i)
	}
	b := oneBuild(t, text.String())
	lines := strings.Split(text.String(), "\n")
	for _, u := range b.Units {
		want := fmt.Sprintf("unit %q", u.ID)
		if got := text.String()[u.Range.Offset:u.Range.EndOffset]; got != want {
			t.Fatalf("at the bytes of %s stands %q", u.ID, got)
		}
		if got := lines[u.Range.Line-1]; !strings.HasPrefix(got, want) {
			t.Fatalf("in line %d stands %q, want %s", u.Range.Line, got, want)
		}
	}
}

// TestLoad_GivesEveryFlightTheActsOfTheBook: before its own, and each flight its own copy.
func TestLoad_GivesEveryFlightTheActsOfTheBook(t *testing.T) {
	base, err := os.ReadFile("testdata/base.hcl")
	if err != nil {
		t.Fatal(err)
	}
	act := func(title string) string {
		return "act \"" + title + "\" {\n set = lever\n to = \"on\"\n when = climb\n}\n"
	}
	numbers := string(base[bytes.Index(base, []byte("  takeoff_mass_kg")):])
	two := string(base) + "flight \"long\" {\n" + act("own") + numbers
	build, _ := bookOf(t, "a.hcl", two, "b.hcl", act("shared")).Build("")
	var said []string
	for _, f := range build.Flights {
		for _, a := range f.Acts {
			said = append(said, f.ID+" "+a.Title+" "+a.Set+" "+a.To)
		}
	}
	if want := []string{"short shared lever on", "long shared lever on", "long own lever on"}; !slices.Equal(said, want) {
		t.Fatalf("%q, want %q", said, want)
	}
	if build.Flights[0].Acts[0] == build.Flights[1].Acts[0] {
		t.Error("two flights have one act between them")
	}
}

// TestLoad_GivesBlocksTheChapterOfTheirFile: those that say none, in that file only,
// claims among them; long files are read in pieces.
func TestLoad_GivesBlocksTheChapterOfTheirFile(t *testing.T) {
	long := strings.Repeat("# a line of a long file, so that it is read in pieces\n", 40000)
	b := bookOf(t, "a.hcl", "chapter = 24\naircraft \"any\" { title = \"Any\" }\nunit \"one\" {}\n"+long+"unit \"two\" { chapter = 29 }\nunit \"three\" {}\n",
		"b.hcl", "unit \"four\" {}\n")
	build, _ := b.Build("")
	for id, want := range map[string]int{"one": 24, "two": 29, "three": 24, "four": 0} {
		if item, _ := build.Item(id); item.Named().Chapter != want {
			t.Errorf("%s is of chapter %d, want %d", id, item.Named().Chapter, want)
		}
	}
}
