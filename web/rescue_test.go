package web

import (
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestRescue_FromTheRowOfALoss: a row of a loss that mattered leads to what saves
// it, which says what was tried, under the caution; what is no loss has no such page.
func TestRescue_FromTheRowOfALoss(t *testing.T) {
	s := ternSite(t)
	page := html.UnescapeString(get(s, "/?"+opening).Body.String())
	m := regexp.MustCompile(`href="(/rescue\?[^"]*&row=loss-[a-z_0-9]+)"`).FindStringSubmatch(page)
	if m == nil {
		t.Fatal("no row leads to what saves it")
	}
	w := get(s, m[1])
	body := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusOK || !strings.Contains(body, book.Caution) || !strings.Contains(body, "what saves it</h1>") {
		t.Fatalf("%s: status %d\n%s", m[1], w.Code, body)
	}
	if !strings.Contains(body, "is lost, and wanted, from") && !strings.Contains(body, "nothing to rescue") {
		t.Errorf("it does not say what is lost:\n%s", body)
	}
	for _, row := range []string{"alert-nobody", "loss-nobody", ""} {
		if w := get(s, "/rescue?"+opening+"&row="+row); w.Code != http.StatusNotFound {
			t.Errorf("row %q: status %d", row, w.Code)
		}
	}
}

// TestRescue_SaysHowManyMovesItLookedFor: two within its time, else one; and the
// command that looks for three asks the same question.
func TestRescue_SaysHowManyMovesItLookedFor(t *testing.T) {
	s, err := New(Setting{}, ask.NewDesk(corvane.Book(t)))
	if err != nil {
		t.Fatal(err)
	}
	const row = "/rescue?fail=gen_left&at=climb+%2B+5+s&flight=short_hop&row=loss-cabin_supply"
	for _, k := range []struct {
		within time.Duration
		says   string
		order  string
	}{{time.Minute, "Up to two moves are looked for here.", "3"}, {time.Nanosecond, "Single moves only are looked for here: sets of two take longer than a page may.", "2"}} {
		s.rescueWithin = k.within
		body := html.UnescapeString(get(s, row).Body.String())
		if strings.Contains(body, "there is nothing to rescue") {
			t.Fatalf("no rescue is looked for:\n%s", body)
		}
		if !strings.Contains(body, k.says) {
			t.Errorf("within %s it does not say %q:\n%s", k.within, k.says, body)
		}
		if !regexp.MustCompile(`knockon rescue [a-z_0-9]+ --fail \S+ .*--order ` + k.order + `</code>`).MatchString(body) {
			t.Errorf("the command does not say what fails:\n%s", body)
		}
	}
}

// TestTyped_IsTheQuestion: the options of a command, as a shell takes them.
func TestTyped_IsTheQuestion(t *testing.T) {
	q := scenario.Typed{Fail: []scenario.Strike{{What: []string{"a", "b.low"}, At: "climb + 5 s", ForS: 1.5, Resettable: true}}, Out: []string{"c"},
		Sets: []string{"lever=it's up"}, Acts: []string{"x=y@3 min"}, Plan: []string{"return@climb"}, Build: "one", Flight: "hop"}
	want := ` --fail a --fail b.low --at 'climb + 5 s' --for 1.5 --resettable --out c --set 'lever=it'\''s up' --act 'x=y@3 min' --plan return@climb --build one --flight hop`
	if got := typed(q); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// TestRescue_OfAFlightThatBreaksOff: the answer of a flight that does not arrive leads
// to what lets it arrive; that of one that arrives does not.
func TestRescue_OfAFlightThatBreaksOff(t *testing.T) {
	s, err := New(Setting{}, ask.NewDesk(corvane.Book(t)))
	if err != nil {
		t.Fatal(err)
	}
	const asked = "fail=radio_alt_1.reads_low&fail=radio_alt_2.reads_low&at=approach&flight=short_hop&crew=none"
	page := html.UnescapeString(get(s, "/?"+asked).Body.String())
	m := regexp.MustCompile(`href="(/rescue\?[^"]*&row=flight)"`).FindStringSubmatch(page)
	if m == nil {
		t.Fatal("nothing leads to what lets it arrive")
	}
	body := html.UnescapeString(get(s, m[1]).Body.String())
	for _, part := range []string{`<svg`, "until +2:53", "breaks off at +2:54", "The flight breaks off at +2:54", "let it arrive", "the flight arrives at Little Ansa", "knockon rescue --fail radio_alt_1.reads_low --fail radio_alt_2.reads_low", book.Caution} {
		if !strings.Contains(body, part) {
			t.Errorf("it does not say %q:\n%s", part, body)
		}
	}
	svg := get(s, strings.Replace(m[1], "/rescue?", "/rescue.svg?", 1)).Body.String()
	if !strings.Contains(svg, "Autothrottle switch to") || !strings.Contains(svg, "not for use in flight") {
		t.Errorf("the picture:\n%s", svg)
	}
	if page := get(s, "/?fail=duct_burst&at=climb&flight=short_hop").Body.String(); strings.Contains(page, "row=flight") {
		t.Error("a flight that arrives is to be rescued")
	}
}
