package book

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// docs/language.md is the contract; these tests hold it and the code together.

func languagePage(t *testing.T) string {
	t.Helper()
	return readText(t, "../docs/language.md")
}

// What the examples of the page name but do not define.
const aroundExamples = `
aircraft "example" { title = "Example" }
phase "ground" {}
phase "climb" { begins = !real.on_ground }
phase "descent" { begins = real.vertical_speed_ft_per_min < -500 }
phase "landing_roll" { begins = real.on_ground }
unit "engine_1" {}
unit "ground_cart" {}
unit "pump_2" {}
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
}
`

func TestLanguagePage_ExamplesLoad(t *testing.T) {
	examples := regexp.MustCompile("(?s)```hcl\n(.*?)```").FindAllStringSubmatch(languagePage(t), -1)
	if len(examples) < 2 {
		t.Fatalf("only %d examples", len(examples))
	}
	parts := []string{"around.hcl", aroundExamples}
	for i, e := range examples {
		parts = append(parts, fmt.Sprintf("example-%d.hcl", i), e[1])
	}
	bookOf(t, parts...)
}

var inBackticks = regexp.MustCompile("`([a-z_]+)(?: = [a-z]+)?`(\\\\\\*)?")

// rowsOf gives the cells of the table rows whose first cell matches.
func rowsOf(page, first string) [][]string {
	var rows [][]string
	for _, line := range strings.Split(page, "\n") {
		cells := strings.Split(strings.Trim(line, "|"), "|")
		if regexp.MustCompile("^ " + first).MatchString(cells[0]) {
			rows = append(rows, cells)
		}
	}
	return rows
}

func TestLanguagePage_NamesEveryAttribute(t *testing.T) {
	page := languagePage(t)
	for _, word := range topWords {
		rows := rowsOf(page, "`"+word+` "id"`+"`")
		if len(rows) != 1 {
			t.Errorf("%d rows are about %q", len(rows), word)
			continue
		}
		k := topKinds[word]
		var named, must []string
		for _, m := range inBackticks.FindAllStringSubmatch(rows[0][1], -1) {
			if named = append(named, m[1]); m[2] != "" {
				must = append(must, m[1])
			}
		}
		for _, name := range k.may {
			common := slices.Contains([]string{"title", "also_called", "chapter", "note", "source", "not_modelled", "only", "except", "mirror"}, name)
			if !common && !slices.Contains(k.numbers, name) && !slices.Contains(named, name) {
				t.Errorf("the page does not name %q of %q", name, word)
			}
		}
		for _, name := range named {
			known := slices.Contains(k.may, name) || k.endings || slices.Contains([]string{"standard", "unit", "given"}, name)
			if !known {
				t.Errorf("the page gives %q an attribute %q", word, name)
			}
		}
		for _, name := range k.must {
			if !slices.Contains(k.numbers, name) && !slices.Contains(must, name) {
				t.Errorf("the page does not say that %q must have %q", word, name)
			}
		}
	}
}

func TestLanguagePage_NamesEveryStepAndSubBlock(t *testing.T) {
	page := languagePage(t)
	for _, word := range strings.Fields(stepWords) {
		form := regexp.MustCompile("`" + word + ` \{ ([^}]*)`).FindStringSubmatch(page)
		if form == nil {
			t.Errorf("the page does not show %q", word)
			continue
		}
		for _, name := range subKinds[word].may {
			if !regexp.MustCompile(`\b` + name + `\b`).MatchString(form[1]) {
				t.Errorf("the page does not show %q of %q", name, word)
			}
		}
	}
	for _, word := range []string{"given", "also", "act", "set_up", "fault", "setting"} {
		for _, name := range subKinds[word].may {
			if !regexp.MustCompile(`\b` + name + `\b`).MatchString(page) {
				t.Errorf("the page does not name %q of %q", name, word)
			}
		}
	}
}

// defaultOf says on the page what holds where a book has no such effect.
func defaultOf(e EffectKind) string {
	switch {
	case e.Type == Word:
		return "the first"
	case e.Type == YesNo:
		return [2]string{"no", "yes"}[int(e.Default)]
	case e.Default == NoLimit:
		return "none"
	}
	return fmt.Sprint(e.Default)
}

func TestLanguagePage_ListsAreWhole(t *testing.T) {
	page := languagePage(t)
	must := func(line string) {
		t.Helper()
		if !strings.Contains(page, line+"\n") {
			t.Errorf("the page lacks the line %s", line)
		}
	}
	for _, q := range Quantities {
		kind := ""
		if q.Type == YesNo {
			kind = "yes/no: "
		}
		must(fmt.Sprintf("| `%s` | %s%s |", q.Name, kind, q.Title))
	}
	for _, n := range FlightNumbers {
		star := ""
		if n.Required {
			star = `\*`
		}
		must(fmt.Sprintf("| `%s`%s | %s |", n.Name, star, n.Title))
	}
	for _, n := range AircraftNumbers {
		must(fmt.Sprintf("| `%s` | %s |", n.Name, n.Title))
		if UnitOf(n.Name) != n.Unit {
			t.Errorf("%s is not in %s", n.Name, n.Unit)
		}
	}
	for _, s := range Sights {
		must(fmt.Sprintf("| `%s` | %s |", s.Name, s.Title))
	}
	for _, e := range Effects {
		must(fmt.Sprintf("| `%s` | %s%s | %s |", e.Name, map[Type]string{YesNo: "yes/no: ", Word: "word: "}[e.Type], e.Title, defaultOf(e)))
	}
	for _, c := range Codes {
		advice := ""
		if c.Severity == Advice {
			advice = "advice: "
		}
		must(fmt.Sprintf("| `%s` | %s%s |", c.Name, advice, c.Meaning))
	}
	for _, f := range Calls {
		for _, form := range strings.Split(callForm(f.Name), " or ") {
			if !strings.Contains(page, "`"+form+"`") {
				t.Errorf("the page does not show %s", form)
			}
		}
	}
	for _, f := range ClaimFunctions {
		if !regexp.MustCompile("`" + f.Name + "[`(]").MatchString(page) {
			t.Errorf("the page does not name %s", f.Name)
		}
	}
	_, endings, _ := strings.Cut(page, "Endings: ")
	endings, _, _ = strings.Cut(endings, "\n")
	for _, u := range Units {
		if !strings.Contains(endings, "`"+u+"`") {
			t.Errorf("the page does not name the ending %s", u)
		}
	}
}

func TestLanguagePage_NamesEveryTable(t *testing.T) {
	page := languagePage(t)
	starred := func(columns []string) string {
		var list []string
		for _, c := range columns {
			name, star := strings.CutSuffix(c, "*")
			list = append(list, "`"+name+"`"+map[bool]string{true: `\*`}[star])
		}
		return strings.Join(list, ", ")
	}
	for _, k := range TableKinds {
		gives := starred(k.Gives)
		if k.Speed {
			gives = `a speed\*, ` + gives
		}
		if line := fmt.Sprintf("| `%s` | %s | %s | %s |\n", k.Word, k.Title, starred(k.Keys), gives); !strings.Contains(page, line) {
			t.Errorf("the page lacks the line %s", line)
		}
	}
	for _, name := range slices.Concat(SpeedColumns, Combines) {
		if !regexp.MustCompile("`\"?" + name + "\"?`").MatchString(page) {
			t.Errorf("the page does not name %s", name)
		}
	}
	form := regexp.MustCompile("`factor \"id\" \\{ ([^}]*)").FindStringSubmatch(page)
	if form == nil {
		t.Fatal("the page does not show a factor")
	}
	for _, name := range subKinds["factor"].may {
		if !regexp.MustCompile(`\b` + name + `\b`).MatchString(form[1]) {
			t.Errorf("the page does not show %q of a factor", name)
		}
	}
}
