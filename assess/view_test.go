package assess_test

import (
	"strings"
	"testing"

	"knockon/assess"
	"knockon/internal/smallbook"
	"knockon/say"
	"knockon/sweep"
)

// watched is a book of which everything can be said: parts that an alert
// watches, others, a common cause, and a function of each class.
const watched = `
unit "gen" {
  rate_per_hour = 1e-7
}
unit "lamp" {
  rate_per_hour   = 1e-7
  checked_every_h = 500
}
unit "spare" {
  rate_per_hour   = 1e-7
  checked_every_h = 500
}
event "burst" {
  title         = "Burst"
  fails         = [gen, lamp]
  rate_per_hour = 1e-13
}
alert "gen_off" {
  level   = "caution"
  message = "GEN OFF"
  when    = !gen
}
function "light" {
  title    = "Light"
  works    = gen || lamp
  severity = "catastrophic"
}
function "voice" {
  title    = "Voice"
  works    = gen
  severity = "hazardous"
}
function "heat" {
  title    = "Heat"
  works    = gen || lamp || spare
  wanted   = landing
  severity = "major"
}
`

type change struct{ from, to string }

// text is the view of a book with some changes, on one line.
func text(t *testing.T, order int, changes ...change) string {
	t.Helper()
	book := watched
	for _, c := range changes {
		if !strings.Contains(book, c.from) {
			t.Fatalf("the book has no %q", c.from)
		}
		book = strings.Replace(book, c.from, c.to, 1)
	}
	_, data := swept(t, smallbook.Course(t, book), order)
	data.Flight = data.Build.Flights[0]
	p := say.NewPage(100)
	assess.Of(data).View(5).Text(p, true)
	return strings.Join(strings.Fields(p.String()), " ")
}

// TestText_SaysWhatIsSo: every sentence is there where it is so, and is not
// where it is not.
func TestText_SaysWhatIsSo(t *testing.T) {
	light := func(text string) string {
		_, text, _ = strings.Cut(text, "Light (light)")
		text, _, _ = strings.Cut(text, " HAZARDOUS ")
		return text
	}
	rare := change{"rate_per_hour = 1e-13", "rate_per_hour = 1e-20"}
	alone := change{"event \"burst\" {\n  title         = \"Burst\"\n  fails         = [gen, lamp]", "event \"burst\" {\n  title         = \"Burst\"\n  fails         = [spare]"}
	often := change{"unit \"gen\" {\n  rate_per_hour = 1e-7", "unit \"gen\" {\n  rate_per_hour = 2e-4"}
	unchecked := change{"  checked_every_h = 500\n", ""}
	for _, c := range []struct {
		name, sentence string
		so, not        []change
		order          int // of the book where it is not so
		of             func(string) string
	}{
		{"a single failure", "A single failure reaches it, and none may: Burst.", nil, []change{alone}, 3, light},
		{"met", "per hour of flight, within the objective of 1e-9.", []change{alone}, []change{alone, often}, 3, light},
		{"over", "times the objective of 1e-9.", []change{alone, often}, []change{alone}, 3, light},
		{"in the slack", "over the objective of 1e-9, and within 3 times it", []change{alone, {"unit \"gen\" {\n  rate_per_hour = 1e-7", "unit \"gen\" {\n  rate_per_hour = 8e-5"}}, []change{alone}, 3, light},
		{"not known", "by what is known, within the objective of 1e-9; not all is known.", []change{alone, {"  rate_per_hour   = 1e-7\n", ""}}, []change{alone}, 3, light},
		{"a set without a rate", "1 set has a member without a rate, and counts for nothing here.", []change{alone, {"  rate_per_hour   = 1e-7\n", ""}}, []change{alone}, 3, light},
		{"parts without a rate", "1 failure has no rate, and every set with one of them counts for nothing: lamp.", []change{{"  rate_per_hour   = 1e-7\n", ""}}, nil, 3, nil},
		{"no check", "1 latent failure: no alert or indication tells of it, no check is known, and it is taken to stay for 60,000 h: lamp.", []change{unchecked}, nil, 3, nil},
		{"no severity", "1 function has no severity, and is not assessed: voice.", []change{{"  severity = \"hazardous\"\n", ""}}, nil, 3, nil},
		{"not looked for", "Sets of more than 2 failures were not looked for, so nothing is met for certain.", nil, nil, 3, nil},
		{"no set", "No set of up to 3 failures takes it away.", []change{alone, {"works    = gen || lamp\n", "works    = gen || lamp || spare || more\n"}, {"event ", "unit \"more\" {\n  rate_per_hour = 1e-7\n}\nevent "}}, []change{alone}, 3, light},
		{"on purpose", "Over on purpose, as the book says: For a lesson.", []change{{"severity = \"catastrophic\"", "severity = \"catastrophic\"\n  over_on_purpose = \"for a lesson\""}}, []change{alone, {"severity = \"catastrophic\"", "severity = \"catastrophic\"\n  over_on_purpose = \"for a lesson\""}}, 3, light},
		{"on purpose and not over", "The book says that it is over on purpose, and by what is known here it is not.", []change{alone, {"severity = \"catastrophic\"", "severity = \"catastrophic\"\n  over_on_purpose = \"for a lesson\""}}, []change{{"severity = \"catastrophic\"", "severity = \"catastrophic\"\n  over_on_purpose = \"for a lesson\""}}, 3, light},
		{"counted on purpose", "(1 on purpose, as the book says)", []change{{"severity = \"catastrophic\"", "severity = \"catastrophic\"\n  over_on_purpose = \"for a lesson\""}}, nil, 3, nil},
		{"hazardous and single", "A single failure reaches it: ", nil, []change{{"works    = gen\n", "works    = gen || spare\n"}}, 3, nil},
		{"within (b)(5)", "Every pair with a latent member and without a failure that reaches it alone is within the limits", nil, []change{often}, 3, light},
		{"residual", "Once lamp has come, unseen, one more failure takes it, and that has 2e-4 per hour of flight: over the limit of 1e-5.", []change{alone, often}, []change{alone}, 3, light},
		{"latent", "The latent failures that wait for gen come to 6e-3: over the limit of 1e-3.", []change{unchecked}, nil, 3, light},
		{"a pair without a rate", "Of some pairs with a latent member a rate is not given", []change{alone, {"  rate_per_hour   = 1e-7\n", ""}}, []change{alone}, 3, light},
		{"latent member", "latent: lamp", nil, []change{{"when    = !gen", "when    = !gen || !lamp"}}, 3, light},
		{"common cause", "common cause: burst", nil, []change{alone}, 3, light},
		{"without a rate", "without a rate: lamp", []change{{"  rate_per_hour   = 1e-7\n", ""}}, nil, 3, light},
		{"every phase", "in every phase", nil, []change{{"works    = gen || lamp\n", "works    = gen || lamp\n  wanted = climb\n"}}, 3, light},
		{"some phases", "On the ground and Climb", []change{{"works    = gen || lamp\n", "works    = gen || lamp\n  wanted = climb\n"}}, nil, 3, light},
	} {
		of := c.of
		if of == nil {
			of = func(text string) string { return text }
		}
		order := 3
		if c.name == "not looked for" {
			order = 2
		}
		if so := of(text(t, order, append([]change{rare}, c.so...)...)); !strings.Contains(so, c.sentence) {
			t.Errorf("%s: %q is not said:\n%s", c.name, c.sentence, so)
		}
		if not := of(text(t, c.order, append([]change{rare}, c.not...)...)); strings.Contains(not, c.sentence) {
			t.Errorf("%s: %q is said where it is not so:\n%s", c.name, c.sentence, not)
		}
	}
}

// TestText_SaysWhatIsMissing: phases that were not swept, and runs that break off.
func TestText_SaysWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		name, sentence, verdict string
		spoil                   func(*assess.Swept)
	}{
		{"nothing", "", "MET", func(*assess.Swept) {}},
		{"phases", "PARTIAL: these phases were not swept: cruise, landing.", "NOT KNOWN", func(s *assess.Swept) { s.Sheets = s.Sheets[:2] }},
		{"a loop", "The flight breaks off in a loop that never settles, and what comes after that is not known, with: gen.", "NOT KNOWN", func(s *assess.Swept) { s.Sheets[0].Broken = []uint64{sweep.Set{0}.Key()} }},
	} {
		_, data := swept(t, smallbook.Course(t, watched), 3)
		data.Flight = data.Build.Flights[0]
		c.spoil(&data)
		p := say.NewPage(100)
		assess.Of(data).View(5).Text(p, true)
		text := strings.Join(strings.Fields(p.String()), " ")
		for _, s := range []string{"PARTIAL", "breaks off"} {
			if strings.Contains(text, s) != strings.Contains(c.sentence, s) {
				t.Errorf("%s: %q is said: %v", c.name, s, strings.Contains(text, s))
			}
		}
		if !strings.Contains(text, c.sentence) || !strings.Contains(text, "Heat (heat) "+c.verdict) {
			t.Errorf("%s: no %q, or another verdict than %s:\n%s", c.name, c.sentence, c.verdict, text)
		}
	}
}
