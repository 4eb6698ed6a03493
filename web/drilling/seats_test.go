package drilling_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"knockon/drill"
	"knockon/internal/corvane"
)

// curious is a client that tries everything.
type curious struct {
	*room
	seats of
	tried int
	secs  map[string]string // what must not be learnt, and what it is
}

// hidden is a unit of which no page of a pilot says anything.
func (r *room) hidden(page string, nth int) (id, title string) {
	r.Helper()
	b, err := corvane.Load()
	if err != nil {
		r.Fatal(err)
	}
	k, _ := b.Build("")
	for _, a := range k.Alerts {
		page += a.Message
	}
	for _, u := range k.Units {
		if !strings.Contains(page, u.ID) && !strings.Contains(page, u.Title) {
			if nth--; nth < 0 {
				return u.ID, u.Title
			}
		}
	}
	r.Fatal("every unit is spoken of somewhere")
	return "", ""
}

// secretly begins a drill of which a pilot must learn nothing but what is told.
func secretly(t *testing.T) *curious {
	r := enter(t, t.TempDir())
	_, page := r.get(r.begin(left)[drill.PilotFlying] + "/")
	x, xTitle := r.hidden(page, 0)
	y, yTitle := r.hidden(page, 1)
	c := &curious{room: r, secs: map[string]string{x: "what fails", xTitle: "what fails", y: "what the instructor lets fail", yTitle: "what the instructor lets fail",
		"title of the script": "the script", "12345.5": "the script", "tablet of the instructor": "the log", `"truth":`: "readings as they are", `"failed":`: "what has failed", `"inputs":`: "the log", "Only the instructor sees": "the instructor's page", "What to watch for": "the programme", "to be said afterwards": "a note"}}
	c.seats = r.begin(drill.Script{Title: "title of the script", Flight: "northern_link", Fail: []drill.Strike{{What: []string{x}, At: "cruise + 60 s", ForS: 12345.5}}})
	r.watch.pass(50 * time.Second)
	r.send(c.seats, drill.Input{Client: "tablet of the instructor", Number: 1, Who: drill.Instructor, Do: drill.Inject, Strike: &drill.Strike{What: []string{y}}})
	r.send(c.seats, drill.Input{Client: "tablet of the instructor", Number: 2, Who: drill.Instructor, Do: drill.Note, Says: "to be said afterwards"})
	r.watch.pass(20 * time.Second)
	c.readings()
	r.debrief(c.seats[drill.Instructor], "")
	return c
}

// readings adds what the indications read in truth, as far as no pilot is told it.
func (c *curious) readings() {
	c.Helper()
	var truth, told drill.Screen
	_, body := c.get(c.seats[drill.Instructor] + "/now")
	_, pilots := c.get(c.seats[drill.PilotFlying] + "/now")
	_, anyone := c.get("/drill/") // a claim of the book can speak of the same figure
	if json.Unmarshal([]byte(body), &truth) != nil || json.Unmarshal([]byte(pilots), &told) != nil {
		c.Fatal(body, pilots)
	}
	n := 0
	for _, x := range truth.Truth {
		if len(x.Text) >= 6 && strings.ContainsAny(x.Text, "0123456789") && !strings.Contains(pilots+anyone, x.Text) {
			c.secs[x.Text] = "a reading as it is"
			n++
		}
	}
	if n < 5 {
		c.Fatalf("only %d readings to hide", n)
	}
}

// reads gives all that a request is answered with; a stream for a moment.
func (c *curious) reads(method, address, kind, body string) (int, string) {
	c.Helper()
	ctx, cancel := context.WithTimeout(c.Context(), 20*time.Second)
	defer cancel()
	ask, err := http.NewRequestWithContext(ctx, method, c.server.URL+address, strings.NewReader(body))
	if err != nil {
		c.Fatal(err)
	}
	ask.Header.Set("Content-Type", kind)
	reply, err := stay.Do(ask)
	if err != nil {
		c.Fatal(method, address, err)
	}
	defer reply.Body.Close()
	if reply.Header.Get("Content-Type") == "text/event-stream" {
		time.AfterFunc(300*time.Millisecond, cancel)
	}
	text, _ := io.ReadAll(reply.Body)
	var head bytes.Buffer
	_ = reply.Header.Write(&head)
	c.tried++
	return reply.StatusCode, head.String() + string(text)
}

// everything asks every route in every way under an id and a word, and gives all
// that came back.
func (c *curious) everything(id, word string) string {
	c.Helper()
	var all strings.Builder
	form := "application/x-www-form-urlencoded"
	bodies := [][2]string{{"application/json", ""}, {form, "role=instructor"}, {form, "end=yes&who=instructor"}, {form, "for=alone"},
		{"application/json", `{"client":"a","number":1,"who":"instructor","do":"rewind"}`}, {"application/json", `{"client":"tablet of the instructor","number":1,"do":"inject","strike":{"what":["gen_left"]}}`},
		{"application/json", `{"client":"server","number":2,"do":"clock","rate":0}`}, {"application/json", `{"client":"a","number":1,"do":"finish"}`}}
	for _, pattern := range c.hall.Patterns() {
		_, path, _ := strings.Cut(pattern, " ")
		path = strings.NewReplacer("{id}", id, "{word}", word, "{$}", "", "{name}", "drill.js").Replace(path)
		for _, method := range []string{"GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS"} {
			for i, b := range bodies {
				if i > 0 && method != "POST" {
					break
				}
				for _, query := range []string{"", "?who=instructor&role=instructor&word=instructor&seat=instructor&as=instructor"} {
					status, text := c.reads(method, path+query, b[0], b[1])
					if status >= 500 && status != http.StatusServiceUnavailable {
						c.Errorf("%s %s: %d", method, path, status)
					}
					all.WriteString(method + " " + path + "\n" + text + "\n")
				}
			}
		}
	}
	return all.String()
}

// learns says what of the secrets stands in a text.
func (c *curious) learns(text, own string) (found []string) {
	for s, what := range c.secs {
		if strings.Contains(text, s) {
			at := strings.Index(text, s)
			found = append(found, what+": …"+text[max(0, at-80):min(len(text), at+80)])
		}
	}
	for role, seat := range c.seats {
		if word := filepath.Base(seat); word != own && strings.Contains(text, word) {
			found = append(found, "the seat of "+string(role))
		}
	}
	return found
}

// TestSeats_NobodyLearnsAnything: a pilot, or somebody from outside, who tries every
// route with every method, with words that are nobody's or another drill's, with
// bodies and questions that claim another seat, learns nothing of what fails, of what
// is true, of what the instructor does, and of the other seats, before the end.
func TestSeats_NobodyLearnsAnything(t *testing.T) {
	c := secretly(t)
	id := strings.Split(c.seats[drill.PilotFlying], "/")[3]
	other := c.begin(left)
	otherID, otherWord := strings.Split(other[drill.Instructor], "/")[3], filepath.Base(other[drill.Instructor])
	instructor := filepath.Base(c.seats[drill.Instructor])
	try := func(who, id, word string) {
		t.Helper()
		if found := c.learns(c.everything(id, word), word); len(found) > 0 {
			t.Errorf("%s learns of %d things: %s", who, len(found), strings.Join(found, "\n"))
		}
	}
	for _, role := range []drill.Role{drill.PilotFlying, drill.PilotMonitoring, drill.Alone} {
		try(string(role), id, filepath.Base(c.seats[role]))
	}
	outsiders := func() {
		for who, x := range map[string][2]string{
			"who has no word": {id, "x"}, "who takes the drill's name for one": {id, id}, "who says instructor": {id, "instructor"},
			"who has nearly the word": {id, instructor[:25] + "0"}, "who has part of it": {id, instructor[:25]}, "who shouts it": {id, strings.ToUpper(instructor)},
			"who has another drill's": {id, otherWord}, "who guesses a drill": {"aaaaaaaaaaaaaaaaaaaaaaaaaa", instructor}, "who asks another drill": {otherID, filepath.Base(c.seats[drill.PilotFlying])},
			"who climbs": {"..%2f" + id, instructor}, "who reads the folder": {id + ".drill", instructor},
		} {
			try(who, x[0], x[1])
		}
	}
	outsiders()
	if _, now := c.get(c.seats[drill.Instructor] + "/now"); !strings.Contains(now, `"over":false`) || len(c.inputs(c.seats)) != 2 {
		t.Errorf("one of them has changed the drill: %s", now)
	}
	c.shut()
	c.open()
	outsiders() // of a drill that is not in memory
	t.Logf("%d requests", c.tried)

	// The test would notice: the instructor learns all of it.
	_, now := c.get(c.seats[drill.Instructor] + "/now")
	_, page := c.get(c.seats[drill.Instructor] + "/")
	_, log := c.get(c.seats[drill.Instructor] + "/log")
	_, people := c.get(c.seats[drill.Instructor] + "/people")
	c.debrief(c.seats[drill.Instructor], "")
	if found := c.learns(now+page+log+people, instructor); len(found) != len(c.secs)+3 {
		t.Errorf("of %d secrets the instructor has %d: %v", len(c.secs)+3, len(found), found)
	}
}

// TestSeats_ALinkIsIssuedAgain: the old link dies, an open page with it; the new one
// works, also after the server was started again.
func TestSeats_ALinkIsIssuedAgain(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	old := seats[drill.PilotFlying]
	reply, lines := r.listen(t.Context(), old)
	defer reply.Body.Close()
	event(t, lines)
	if status, text := r.ask("POST", old+"/people", "form:role=PF"); status != 403 || !strings.Contains(text, "This is the instructor") {
		t.Errorf("a pilot issues a link: %d %s", status, text)
	}
	if status, text := r.ask("POST", seats[drill.Instructor]+"/people", "form:role=captain"); status != 400 || !strings.Contains(text, "no such seat") {
		t.Errorf("%d %s", status, text)
	}
	if status, to := r.ask("POST", seats[drill.Instructor]+"/people", "form:role=PF"); status != 303 || to != seats[drill.Instructor]+"/people" {
		t.Fatalf("%d %s", status, to)
	}
	for lines.Scan() { // the page that was open is let go of
	}
	again, err := peopleOf(r.server.URL + seats[drill.Instructor] + "/people")
	if err != nil || again[drill.PilotFlying] == old || again[drill.PilotMonitoring] != seats[drill.PilotMonitoring] {
		t.Fatalf("%v, %v", again, err)
	}
	for range 2 {
		for _, what := range []string{"/", "/now", "/stream", "/debrief"} {
			if status, _ := r.get(old + what); status != 404 {
				t.Errorf("the old link, %s: %d", what, status)
			}
		}
		if status, text := r.post(old, `{"client":"a","number":1,"do":"look","id":"gen_left_lamp"}`); status != 404 {
			t.Errorf("the old link acts: %d %s", status, text)
		}
		if status, _ := r.get(again[drill.PilotFlying] + "/now"); status != 200 {
			t.Errorf("the new link: %d", status)
		}
		r.shut()
		r.open()
	}
	_, to := r.ask("POST", again[drill.Instructor]+"/people", "form:role=instructor")
	if status, _ := r.get(to); status != 200 || to == again[drill.Instructor]+"/people" {
		t.Errorf("the instructor's own: %d %s", status, to)
	}
	if status, _ := r.get(again[drill.Instructor] + "/"); status != 404 {
		t.Errorf("and the old one: %d", status)
	}
}

// TestSeats_WordsAreNobodysGuess: long, and never the same.
func TestSeats_WordsAreNobodysGuess(t *testing.T) {
	r := enter(t, t.TempDir())
	var words []string
	for range 20 {
		for _, seat := range r.begin(left) {
			words = append(words, filepath.Base(seat))
		}
	}
	slices.Sort(words)
	if len(words) != 80 || len(slices.Compact(words)) != 80 {
		t.Errorf("%d words", len(words))
	}
	for _, w := range words {
		if len(w) != 26 { // 16 bytes, five bits a letter
			t.Errorf("%q", w)
		}
	}
}

// TestSeats_TheLogHoldsNoWord: who is given a log is given no seat.
func TestSeats_TheLogHoldsNoWord(t *testing.T) {
	r := enter(t, t.TempDir())
	seats := r.begin(left)
	r.send(seats, drill.Input{Client: "a", Number: 1, Who: drill.PilotFlying, Do: drill.Call, ID: "left_generator_off"})
	id := strings.Split(seats[drill.Instructor], "/")[3]
	kept, err := os.ReadFile(filepath.Join(r.dir, id+".drill"))
	if err != nil {
		t.Fatal(err)
	}
	_, log := r.get(seats[drill.Instructor] + "/log")
	if log != string(kept) || !strings.Contains(log, `"PF a"`) {
		t.Errorf("%s\n%s", kept, log)
	}
	for role, seat := range seats {
		if strings.Contains(log, filepath.Base(seat)) {
			t.Errorf("the word of %s stands in the log", role)
		}
	}
}
