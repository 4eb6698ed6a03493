package find_test

import (
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"knockon/book"
	"knockon/find"
	"knockon/internal/corvane"
)

var demo = sync.OnceValues(func() (*find.Index, error) {
	b, err := corvane.Load()
	if err != nil {
		return nil, err
	}
	return find.New(b), nil
})

func index(t *testing.T) *find.Index {
	t.Helper()
	x, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// asked is a question in few words: what fails, what is inoperative, when, on what.
type asked struct {
	fail, out               string
	at, build, flight, crew string
}

func askedOf(v *find.View) (a asked) {
	q := v.Question
	if len(q.Fail) > 0 {
		a.fail, a.at = strings.Join(q.Fail[0].What, " "), q.Fail[0].At
	}
	a.out, a.build, a.flight, a.crew = strings.Join(q.Out, " "), q.Build, q.Flight, q.Crew
	return a
}

// TestRead: word starts, abbreviations, other names, sides, moments and whole
// sentences.
func TestRead(t *testing.T) {
	for text, want := range map[string]asked{
		"gen 1":                   {fail: "gen_left"},
		"GEN 2":                   {fail: "gen_right"},
		"left gen":                {fail: "gen_left"},
		"radalt":                  {fail: "radio_alt_1"},
		"tru 2":                   {fail: "tr_right"},
		"RAT":                     {fail: "ram_turbine"},
		"radalt 2":                {fail: "radio_alt_2"},
		"transformer":             {fail: "tr_left"},
		"tr2":                     {fail: "tr_right"},
		"tr_right climb + 120 s":  {fail: "tr_right", at: "climb + 120 s"},
		"wrong oil in the cruise": {fail: "wrong_oil", at: "cruise"},
		"smoke bay left 45:00":    {fail: "bay.left_smokes", at: "2700 s"},
		"What if both generators fail in the climb with one rectifier deferred, second series?":         {fail: "gen_left gen_right", out: "tr_left", at: "climb", build: "second_series"},
		"with one rectifier deferred both generators fail on short final":                               {fail: "gen_left gen_right", out: "tr_left", at: "short_final"},
		"left generator and right engine-driven pump at top of descent, hands off":                      {fail: "gen_left pump_right", at: "descent", crew: "none"},
		"tr right at 10,000 ft in the climb":                                                            {fail: "tr_right", at: "climb at 10000 ft"},
		"tr right 1:05:00 on the short hop":                                                             {fail: "tr_right", at: "3900 s", flight: "short_hop"},
		"right transformer rectifier inop and left generator lost, 2 min into the cruise, by the book.": {out: "tr_right", fail: "gen_left", at: "cruise + 120 s", crew: "by_the_book"},
	} {
		v := index(t).Read(text)
		if got := askedOf(v); got != want || len(v.Strange) > 0 || v.Says != "All of it was understood." || !v.Asks {
			t.Errorf("%q is\n%+v, %q, %v; want\n%+v", text, got, v.Says, v.Strange, want)
		}
	}
}

// TestRead_WhatIsNotUnderstoodIsSaid: another language, nonsense, a part of a
// sentence, a slip of the pen.
func TestRead_WhatIsNotUnderstoodIsSaid(t *testing.T) {
	for text, want := range map[string]struct {
		strange, says string
		asks          bool
	}{
		"beide Generatoren im Steigflug": {"beide Generatoren im Steigflug", "Nothing of this was understood. The names are English", false},
		"les deux générateurs":           {"les deux générateurs", "Nothing of this was understood.", false},
		"xyzzy":                          {"xyzzy", "Nothing of this was understood.", false},
		"":                               {"", "Nothing was typed.", false},
		"what if":                        {"", "There is nothing in it to look for.", false},
		"left generator quux":            {"quux", "“quux” was not understood: the question leaves it out.", true},
		"left generator quux, plugh":     {"quux plugh", "“quux” and “plugh” were not understood: the question leaves them out.", true},
		"take-off configuration":         {"take-off configuration", "Nothing of this was understood.", false},
		"in the climb":                   {"", "All of it was understood; say what fails.", false},
		"tr left deferred":               {"", "say what fails beside what is inoperative", false},
		"ATA 24":                         {"", "All of it was understood; say what fails.", false},
		"ATA 97":                         {"97", "", true},
	} {
		v := index(t).Read(text)
		var strange []string
		for _, s := range v.Strange {
			strange = append(strange, s.Word)
		}
		if text == "ATA 97" { // no such chapter: nothing is made of the number
			if slices.ContainsFunc(v.Parts, func(p find.Part) bool { return p.Role == find.Chapter }) {
				t.Errorf("%q is %+v", text, v.Parts)
			}
			continue
		}
		if strings.Join(strange, " ") != want.strange || !strings.Contains(v.Says, want.says) || v.Asks != want.asks {
			t.Errorf("%q: %v, %q, asks %v", text, strange, v.Says, v.Asks)
		}
	}
	if v := index(t).Read("generater"); len(v.Strange) != 1 || v.Strange[0].Near != "generator" {
		t.Errorf("a slip of the pen: %+v", v.Strange)
	}
}

// TestRead_AlternativesAreListed, each with the question in which it stands.
func TestRead_AlternativesAreListed(t *testing.T) {
	v := index(t).Read("gen 1 in the climb, second series")
	want := map[string][2]string{ // role, and a question that one of the others makes
		find.Fails: {"Right generator", "gen_right"}, find.When: {"the beginning of “First climb, from 600 ft”", "first_climb"}, find.Build: {"First series, as first delivered", "first_series"},
	}
	for _, p := range v.Parts {
		i := slices.IndexFunc(p.Others, func(c find.Choice) bool { return c.Title == want[p.Role][0] })
		if i < 0 {
			t.Errorf("%s: %+v", p.Role, p.Others)
			continue
		}
		q := p.Others[i].Question
		got := map[string]string{find.Fails: strings.Join(q.Fail[0].What, " "), find.When: q.Fail[0].At, find.Build: q.Build}
		if got[p.Role] != want[p.Role][1] {
			t.Errorf("%s: the other question has %v", p.Role, got)
		}
		delete(got, p.Role)
		for role, is := range got {
			if is != map[string]string{find.Fails: "gen_left", find.When: "climb", find.Build: "second_series"}[role] {
				t.Errorf("%s: the other question has %q as %s", p.Role, is, role)
			}
		}
	}
	if len(v.Parts) != 3 || v.Parts[0].Role != find.Fails || v.Parts[1].Role != find.When {
		t.Errorf("what, when, which aircraft: %+v", v.Parts)
	}
	if c := index(t).Read("ATA 24").Parts[0]; len(c.Refs) != 0 || len(c.Others) != 40 || c.More == 0 || c.Others[0].Question.Fail == nil {
		t.Errorf("a chapter: %d, %d more, %v", len(c.Others), c.More, c.Refs)
	}
}

// TestRead_AnyText: whatever is typed, the same text means the same, nothing is
// invented, every word that tells something is accounted for, and each question that
// is offered can be read on its build.
func TestRead_AnyText(t *testing.T) {
	x := index(t)
	b, err := corvane.Load()
	if err != nil {
		t.Fatal(err)
	}
	pool := []string{"left", "gen", "1", "pump", "with", "and", "deferred", "in", "the", "climb", "second", "series", "ATA", "24", "45:00", "10,000", "ft", ",", "xyzzy", "tr_right", "both", "short", "final", "+", "30", "s", "\xff", "é"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pool), 0, 14).Draw(t, "words"), " ")
		v := x.Read(text)
		if !reflect.DeepEqual(v, x.Read(text)) {
			t.Fatalf("%q means two things", text)
		}
		said := ""
		for _, p := range v.Parts {
			said += " " + p.Words
			for _, c := range p.Others {
				readable(t, b, c.Question)
			}
		}
		for _, s := range v.Strange {
			said += " " + s.Word
		}
		for _, w := range []string{"xyzzy", "tr_right", "pump", "45:00", "é"} {
			if strings.Contains(text, w) && !strings.Contains(said, w) {
				t.Fatalf("%q: %q is neither understood nor not: %s", text, w, said)
			}
		}
		readable(t, b, v.Question)
	})
}

func readable(t *rapid.T, b *book.Book, q find.Question) {
	build, err := b.BuildNamed(q.Build)
	if err == nil {
		_, err = q.Read(build)
	}
	if err != nil {
		t.Fatalf("%+v: %v", q, err)
	}
}
