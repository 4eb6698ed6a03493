package web

import (
	"encoding/json"
	"html"
	"net/http"
	"strings"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
)

// TestCrew_IsTheAnswersOwn: the page lists what the crew of the answer do, numbered as
// they do it, each with what leaving it out brings, and page and JSON say the same.
func TestCrew_IsTheAnswersOwn(t *testing.T) {
	s := demoSite(t)
	const asks = "fail=gen_left&flight=short_hop&at=cruise"
	w := get(s, "/crew?"+asks)
	page := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusOK || !strings.Contains(page, book.Caution) {
		t.Fatalf("status %d: %s", w.Code, page)
	}
	var v struct {
		Crew  crew.View
		Worth worth.Omitted
	}
	if err := json.Unmarshal(get(s, "/crew.json?"+asks).Body.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	_, a, err := s.asked(request("/crew?" + asks))
	if err != nil || len(v.Crew.Lines) != len(a.Crew.Lines) || len(v.Crew.Lines) < 3 {
		t.Fatalf("%d lines: %v", len(v.Crew.Lines), err)
	}
	for _, l := range v.Crew.Lines {
		if !strings.Contains(page, l.Said()) {
			t.Errorf("the page does not say %q", l.Said())
		}
	}
	if !strings.Contains(page, v.Worth.Most) || !strings.Contains(v.Worth.Most, "Most hangs on step") || !strings.Contains(page, `class="heavy"`) {
		t.Errorf("which step matters most: %s", v.Worth.Most)
	}
	if again := get(s, "/crew?"+asks+"&crew=none").Body.String(); strings.Count(again, `class="says"`) != len(v.Crew.Lines) {
		t.Error("of a question with nobody acting it shows another crew")
	}
	var slow struct{ Crew crew.View }
	if err := json.Unmarshal(get(s, "/crew.json?"+asks+"&crew=slowly").Body.Bytes(), &slow); err != nil {
		t.Fatal(err)
	}
	for i, f := range slow.Crew.Pace {
		if usual := v.Crew.Pace[i]; f.Name == "caution_s" && f.Value != 2*usual.Value {
			t.Errorf("the pace of a slow crew: %+v, usual %+v", f, usual)
		}
	}
	if planned := get(s, "/crew?"+asks+"&plan=descend+10000%40cruise").Body.String(); !strings.Contains(planned, "does not keep to its profile") || strings.Contains(planned, "Most hangs on") {
		t.Error("of a flight that is planned to go elsewhere it says which step matters most")
	}
}

// TestCrew_SaysWhyNothingIsSaid: where no list is done, and where the question is at fault.
func TestCrew_SaysWhyNothingIsSaid(t *testing.T) {
	s := ternSite(t)
	for address, want := range map[string]string{
		"/crew?fail=source_1":                        "No list is done",
		"/crew?fail=nothing":                         "fail:",
		"/crew?fail=source_1&at=never":               "at:",
		"/crew?fail=source_1&build=plain&flight=off": "flight:",
	} {
		if body := html.UnescapeString(get(s, address).Body.String()); !strings.Contains(body, want) || !strings.Contains(body, book.Caution) {
			t.Errorf("%s does not say %q: %s", address, want, body)
		}
	}
}
