package web

import (
	"encoding/json"
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"knockon/ledger"
	"knockon/point/vary"
)

// TestVary_SaysWhatOtherRunsMakeOfIt: part, page and file say the lines of package vary,
// each with the way to the two runs side by side, and the page keeps as many places.
func TestVary_SaysWhatOtherRunsMakeOfIt(t *testing.T) {
	s := demoSite(t)
	s.variedWithin, s.savedWithin = time.Minute, time.Minute // this is not about speed
	const asked = "fail=duct_burst&at=cruise+%2B+60+s"
	a, err := s.shelves[0].kept.answer(t.Context(), s.parse(values(asked)).typed())
	if err != nil {
		t.Fatal(err)
	}
	lines := vary.Of(t.Context(), a.Answer, 2)
	places := strings.Count(get(s, "/?"+asked).Body.String(), "<li data-axis=")
	part := html.UnescapeString(get(s, "/vary/part?"+asked).Body.String())
	page := html.UnescapeString(get(s, "/vary?"+asked).Body.String())
	if len(lines) != 6 || places != len(lines) || strings.Count(part, "<li data-axis=") != len(lines) {
		t.Errorf("%d lines, %d places, and a part:\n%s", len(lines), places, part)
	}
	for _, l := range lines {
		for _, body := range []string{part, page} {
			if !strings.Contains(body, l.Text) || l.Change != "" && !strings.Contains(body, "other="+strings.ReplaceAll(strings.Split(l.Change, "=")[0], " ", "+")+"%3D") {
				t.Errorf("%s: %q is not said, or leads nowhere:\n%s", l.Axis, l.Text, body)
			}
		}
	}
	const saved = "Cross-bleed valve switch to “shut” until +9:59"
	rescue := html.UnescapeString(get(s, "/vary/rescue?"+asked).Body.String())
	for _, body := range []string{rescue, page} {
		if !strings.Contains(body, saved) || !strings.Contains(body, "row=loss-sound_wing") {
			t.Errorf("what saves it is not said:\n%s", body)
		}
	}
	var file struct {
		Lines  []ledger.Varied `json:"with_other_runs"`
		Rescue *ledger.Varied
	}
	if err := json.Unmarshal(get(s, "/vary.json?"+asked).Body.Bytes(), &file); err != nil || len(file.Lines) != len(lines) || file.Lines[1].Text != lines[1].Text || file.Rescue == nil || !file.Rescue.Point {
		t.Errorf("%v, a file of %+v", err, file)
	}
}

// TestVary_WithoutTime: what there was no time for is said to be so, and asked again it
// is flown again.
func TestVary_WithoutTime(t *testing.T) {
	s := demoSite(t)
	const asked = "fail=gen_left&at=climb&crew=none"
	s.variedWithin, s.savedWithin = 0, 0
	if body := html.UnescapeString(get(s, "/vary?"+asked).Body.String()); !strings.Contains(body, "could not be flown in the time there is") || !strings.Contains(body, "could not be looked for in the time there is") {
		t.Errorf("it does not say that there was no time:\n%s", body)
	}
	s.variedWithin = time.Minute
	if body := get(s, "/vary/part?"+asked).Body.String(); strings.Contains(body, "in the time there is") {
		t.Errorf("what there was no time for was kept:\n%s", body)
	}
}

// TestVary_WhereNothingIsHidden: no rescue is looked for and no place kept; a question
// that is none is refused.
func TestVary_WhereNothingIsHidden(t *testing.T) {
	s := demoSite(t)
	const asked = "fail=gen_left&at=climb"
	if body := get(s, "/vary/rescue?"+asked).Body.String(); strings.TrimSpace(body) != "" {
		t.Errorf("something is saved: %q", body)
	}
	if body := get(s, "/?"+asked).Body.String(); strings.Contains(body, "varied-rescue") || !strings.Contains(body, `id="varied"`) {
		t.Error("a place is kept for what never comes, or none for what does")
	}
	for _, path := range []string{"/vary", "/vary/part", "/vary/rescue", "/vary.json"} {
		if w := get(s, path+"?fail=nothing_such"); w.Code != http.StatusBadRequest {
			t.Errorf("%s: status %d", path, w.Code)
		}
	}
}

func values(query string) url.Values {
	v, err := url.ParseQuery(query)
	if err != nil {
		panic(err)
	}
	return v
}
