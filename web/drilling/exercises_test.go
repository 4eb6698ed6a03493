package drilling_test

import (
	"encoding/json"
	"math"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"knockon/book"
	"knockon/drill"
	"knockon/internal/corvane"
)

var (
	anExercise = regexp.MustCompile(`<label data-theme="([^"]*)" data-minutes="(\d+)"><input type="radio" name="scenario" value="([^"]+)">`)
	aTheme     = regexp.MustCompile(`<option>([^<]+)</option>`)
)

// TestStart_ASurpriseOfAThemeAndALength is one of those that the page shows for them.
func TestStart_ASurpriseOfAThemeAndALength(t *testing.T) {
	r := enter(t, t.TempDir())
	_, page := r.get("/drill/")
	list := anExercise.FindAllStringSubmatch(page, -1)
	if len(list) < 100 || len(aTheme.FindAllString(page, -1)) < 5 {
		t.Fatalf("%d exercises: %s", len(list), page)
	}
	short := map[string]bool{}
	for _, x := range list {
		if m, _ := strconv.Atoi(x[2]); m <= 60 && x[1] == "Electrical power" {
			short[x[3]] = true
		}
	}
	if len(short) == 0 || len(short) > len(list)/2 {
		t.Fatalf("%d of %d fit: the test shows nothing", len(short), len(list))
	}
	for range 8 {
		seats := r.chosen("theme=Electrical+power&most=60&scenario=")
		script := r.script(seats)
		unit, _, _ := strings.Cut(script.Fail[0].What[0], ".")
		k, _ := corvane.Book(t).Build("")
		item, ok := k.Item(unit)
		if !ok || book.ChapterTitle(item.Named().Chapter) != "Electrical power" {
			t.Errorf("%s is not of the theme", unit)
		}
		if m := r.minutes(script); m > 60 {
			t.Errorf("%+v lasts %d minutes", script, m)
		}
	}
	for name, form := range map[string]string{"of no theme": "theme=Cooking", "of no length": "most=1", "not there": "scenario=nothing.7"} {
		if status, text := r.ask("POST", "/drill/new", "form:for=crew&from=near&"+form); status != 400 || !strings.Contains(text, "Refused: ") {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
}

// TestStart_TheLengthIsToTheEndOfTheFlight: an exercise lasts as long as its flight goes
// on behind the beginning of the drill.
func TestStart_TheLengthIsToTheEndOfTheFlight(t *testing.T) {
	r := enter(t, t.TempDir())
	_, page := r.get("/drill/")
	for i, x := range anExercise.FindAllStringSubmatch(page, -1) {
		if i%60 != 0 {
			continue
		}
		script := r.script(r.chosen("scenario=" + url.QueryEscape(x[3])))
		if want := strconv.Itoa(r.minutes(script)); x[2] != want {
			t.Errorf("%s: %s minutes, want %s", x[3], x[2], want)
		}
	}
}

// chosen begins a drill for a crew as the start page does.
func (r *room) chosen(form string) of {
	r.Helper()
	status, to := r.ask("POST", "/drill/new", "form:for=crew&from=near&"+form)
	if status != 303 {
		r.Fatalf("%s: %d %s", form, status, to)
	}
	seats, err := peopleOf(r.server.URL + to[strings.Index(to, "/drill/of/"):])
	if err != nil {
		r.Fatal(err)
	}
	return seats
}

// script is what a drill began from.
func (r *room) script(seats of) (s drill.Script) {
	r.Helper()
	_, log := r.get(seats[drill.Instructor] + "/log")
	line, _, _ := strings.Cut(log, "\n")
	if err := json.Unmarshal([]byte(line), &s); err != nil {
		r.Fatalf("%s: %v", line, err)
	}
	return s
}

// minutes are those from 45 s before the first failure of a script to the end of the
// flight on which nothing fails, flown by itself.
func (r *room) minutes(s drill.Script) int {
	r.Helper()
	d, err := drill.NewDeck(corvane.Book(r), s.Build, s.Flight, nil)
	if err != nil {
		r.Fatal(err)
	}
	x, err := d.Open(r.Context(), drill.Script{Build: s.Build, Flight: s.Flight})
	if err != nil {
		r.Fatal(err)
	}
	for !x.Ended() {
		if err := x.Advance(r.Context(), x.Now()+3600*book.Second); err != nil {
			r.Fatal(err)
		}
	}
	m, err := book.ParseMoment(s.Fail[0].At, d.Build())
	if err != nil {
		r.Fatal(err)
	}
	at, err := d.Course().Resolve(r.Context(), m)
	if err != nil {
		r.Fatal(err)
	}
	return int(math.Round((x.Now().Seconds() - max(0, at.Seconds()-45)) / 60))
}
