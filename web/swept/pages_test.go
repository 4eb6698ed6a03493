package swept

import (
	"bytes"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"reflect"
	"strings"
	"testing"
	"time"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/sweep/view"
	"knockon/web/door"
)

func pagesOf(t *testing.T) *Pages {
	t.Helper()
	b := corvane.Book(t)
	p, err := New(ask.NewDesk(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

func get(t *testing.T, p *Pages, address string) (int, string) {
	t.Helper()
	w := httptest.NewRecorder()
	p.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
	text, _ := io.ReadAll(w.Result().Body)
	if to := w.Result().Header.Get("Location"); to != "" {
		return w.Code, to
	}
	return w.Code, string(text)
}

// post sends the parts of an address as a form.
func post(t *testing.T, p *Pages, address string) (int, http.Header, string) {
	t.Helper()
	path, query, _ := strings.Cut(address, "?")
	r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(query))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w.Code, w.Header(), w.Body.String()
}

// mainOf is the part of a page that answers.
func mainOf(text string) string {
	_, after, _ := strings.Cut(text, "<main")
	return after
}

// swept begins a sweep and asks for it until it is done.
func swept(t *testing.T, p *Pages, address string) string {
	t.Helper()
	if code, _, text := post(t, p, strings.Replace(address, "/sweep?", "/sweep/begin?", 1)); code != http.StatusSeeOther {
		t.Fatalf("begin %s: %d %s", address, code, text)
	}
	for range 300 {
		code, text := get(t, p, address)
		if code != http.StatusOK {
			t.Fatalf("%s: %d %s", address, code, text)
		}
		if !strings.Contains(text, `id="working"`) {
			return text
		}
		if !strings.Contains(text, "http-equiv=\"refresh\"") {
			t.Fatal("a page that is not done does not ask again")
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("the sweep does not end")
	return ""
}

func TestSweep_FindsAndDraws(t *testing.T) {
	p := pagesOf(t)
	text := swept(t, p, "/sweep?order=1")
	for _, want := range []string{"Traps", "Lone guardians", "The pair map", "not for use in flight", `class="s5"`, "/?at="} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if strings.Contains(text, "Worse together") {
		t.Error("single failures are said not to be worse together")
	}
	text = swept(t, p, "/sweep?order=1&phase=cruise&layer=whole&a=24&b=32")
	if !strings.Contains(text, "/sweep/cell?") || !strings.Contains(text, "Units of chapter 24 by units of chapter 32") {
		t.Error("two chapters do not open their units")
	}
	code, to := get(t, p, "/sweep/cell?order=1&phase=cruise&a=gen_left&b=gen_right")
	q, err := url.Parse(to)
	if code != http.StatusSeeOther || err != nil || q.Path != "/" || q.Query().Get("at") != "cruise + 5 s" || len(q.Query()["fail"]) != 2 {
		t.Errorf("a cell leads to %d %s", code, to)
	}
}

func TestSweep_StoppedAndGoneOn(t *testing.T) {
	p := pagesOf(t)
	do := func(what string) {
		t.Helper()
		if code, h, text := post(t, p, "/sweep/"+what+"?order=3"); code != http.StatusSeeOther || !strings.HasPrefix(h.Get("Location"), "/sweep?") {
			t.Fatalf("%s: %d %s", what, code, text)
		}
	}
	do("begin")
	do("stop")
	code, text := get(t, p, "/sweep?order=3")
	if code != http.StatusOK || !strings.Contains(text, "Go on") || !strings.Contains(text, "stopped") {
		t.Errorf("stopped: %d, no way to go on", code)
	}
	do("begin")
	if _, text := get(t, p, "/sweep?order=3"); !strings.Contains(text, `id="working"`) {
		t.Error("it does not go on")
	}
	do("stop")
}

// TestSweep_AGetBeginsNothing: an address can be given away, and be in a page of
// anybody's, without setting the server to work.
func TestSweep_AGetBeginsNothing(t *testing.T) {
	p := pagesOf(t)
	for _, address := range []string{"/sweep", "/sweep?order=1", "/sweep?order=3"} {
		code, text := get(t, p, address)
		if code != http.StatusOK || !strings.Contains(text, "Begin the sweep") || !strings.Contains(text, `action="/sweep/begin" method="post"`) {
			t.Errorf("%s: %d, no button that begins it", address, code)
		}
	}
	if code, to := get(t, p, "/sweep/cell?order=1&phase=cruise&a=gen_left&b=gen_right"); code != http.StatusSeeOther || !strings.HasPrefix(to, "/sweep?") {
		t.Errorf("a cell of no sweep: %d %s", code, to)
	}
	post(t, p, "/sweep/stop?order=1")
	if _, text := get(t, p, "/sweep?order=1"); !strings.Contains(text, "Begin the sweep") || len(p.jobs.all) != 0 {
		t.Errorf("something has begun: %d", len(p.jobs.all))
	}
}

// TestSweep_OneOfThreeInMemory: a second sweep of three together is told which one
// is there, and what to do about it.
func TestSweep_OneOfThreeInMemory(t *testing.T) {
	p := pagesOf(t)
	other := "?order=3&build=second_series"
	if code, _, _ := post(t, p, "/sweep/begin?order=3"); code != http.StatusSeeOther {
		t.Fatal("the first is not begun")
	}
	code, h, text := post(t, p, "/sweep/begin"+other)
	if code != http.StatusServiceUnavailable || h.Get("Retry-After") == "" || !strings.Contains(text, "Only one sweep of three") || !strings.Contains(text, "still at work") {
		t.Errorf("a second: %d %v %s", code, h, text)
	}
	if code, _, _ := post(t, p, "/sweep/begin"+other+"&instead=yes"); code != http.StatusServiceUnavailable {
		t.Errorf("one at work is thrown out: %d", code)
	}
	if _, text := get(t, p, "/sweep"+other); !strings.Contains(text, "still at work") || strings.Contains(text, "Let it go") || !strings.Contains(text, `<a href="/sweep?build=first_series`) {
		t.Errorf("its page does not say what is there: %s", mainOf(text))
	}
	post(t, p, "/sweep/stop?order=3")
	if code, _, _ := post(t, p, "/sweep/begin"+other); code != http.StatusServiceUnavailable {
		t.Errorf("one that rests is let go of unasked: %d", code)
	}
	if _, text := get(t, p, "/sweep"+other); !strings.Contains(text, "Let it go and begin this one") {
		t.Error("no button that lets the other go")
	}
	if code, _, _ := post(t, p, "/sweep/begin"+other+"&instead=yes"); code != http.StatusSeeOther {
		t.Errorf("instead: %d", code)
	}
	post(t, p, "/sweep/stop"+other)
	threes := 0
	for key := range p.jobs.all {
		if key.order == 3 {
			threes++
		}
	}
	if threes != 1 || p.jobs.heavy().build.Variant != "second_series" {
		t.Errorf("%d sweeps of three are kept", threes)
	}
}

// TestSweep_QueueIsBounded: who finds no place is told to come again, and nobody's
// work is thrown out for them.
func TestSweep_QueueIsBounded(t *testing.T) {
	p := pagesOf(t)
	begun := 0
	for _, q := range []string{"order=3", "order=2", "order=2&build=second_series", "order=2&build=island_kit", "order=2&flight=short_hop"} {
		code, h, text := post(t, p, "/sweep/begin?"+q)
		switch code {
		case http.StatusSeeOther:
			begun++
		case http.StatusServiceUnavailable:
			if h.Get("Retry-After") == "" || !strings.Contains(text, "Nothing is wrong with the question") {
				t.Errorf("full: %v %s", h, text)
			}
		default:
			t.Errorf("%s: %d", q, code)
		}
	}
	if begun != 1+mostWaiting || len(p.jobs.all) != begun {
		t.Errorf("%d begun, %d kept", begun, len(p.jobs.all))
	}
}

// TestSweep_ShorterListsAreTheBeginning: what is worked out once serves every length.
func TestSweep_ShorterListsAreTheBeginning(t *testing.T) {
	p := pagesOf(t)
	swept(t, p, "/sweep?order=1")
	j := p.jobs.look(jobKey{"first_series", "northern_link", 1})
	for _, most := range []int{1, 8, 40} {
		page := &sweepPage{}
		if err := page.fill(asked{build: j.build, flight: j.flight, order: 1, most: most}, j.state()); err != nil {
			t.Fatal(err)
		}
		for i, want := range view.Of(&j.swept, view.Asked{Flight: j.flight, Order: 1, Most: most}).Lists {
			if !reflect.DeepEqual(page.Lists[i].List, want) {
				t.Errorf("%s, %d at most: %d rows, want %d", want.ID, most, len(page.Lists[i].Rows), len(want.Rows))
			}
		}
	}
}

// TestWays_WithoutABoundIsBegunByHand: a GET shows a button, then the progress, then
// the answer.
func TestWays_WithoutABoundIsBegunByHand(t *testing.T) {
	p := pagesOf(t)
	const q = "?function=brakes_normal&in=landing_roll&order=0"
	code, text := get(t, p, "/ways"+q)
	if code != http.StatusOK || !strings.Contains(text, `action="/ways/begin" method="post"`) || strings.Contains(text, "Complete") {
		t.Fatalf("%d %s", code, mainOf(text))
	}
	if code, h, text := post(t, p, "/ways/begin"+q); code != http.StatusSeeOther || !strings.Contains(h.Get("Location"), "order=0") {
		t.Fatalf("begin: %d %s", code, text)
	}
	for range 300 {
		if _, text = get(t, p, "/ways"+q); !strings.Contains(text, `id="working"`) {
			break
		}
	}
	if !strings.Contains(text, "Held still there, all smallest sets were found.") || !strings.Contains(text, "Either one of these alone") {
		t.Errorf("no answer: %s", mainOf(text))
	}
	if code, _, text := post(t, p, "/ways/begin?function=brakes_norml&order=0"); code != http.StatusBadRequest || !strings.Contains(text, "did you mean") {
		t.Errorf("a wrong question is begun: %d", code)
	}
	if code, text := get(t, p, "/ways?function=brakes_normal&order=9"); code != http.StatusBadRequest || !strings.Contains(text, "order is a number from 0 to 8") {
		t.Errorf("order 9: %d %s", code, text)
	}
}

// TestWays_FullIsNoFaultOfTheQuestion: while all places are taken the answer is 503
// with a sentence, and never advice to ask another question.
func TestWays_FullIsNoFaultOfTheQuestion(t *testing.T) {
	p := pagesOf(t)
	for range quickWays.AtWork + quickWays.Waiting {
		place, err := p.quick.Enter()
		if err != nil {
			t.Fatal(err)
		}
		defer place.Leave()
	}
	for _, address := range []string{"/ways?function=brakes_normal", "/ways?out=tr_left"} {
		w := httptest.NewRecorder()
		p.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
		if text := w.Body.String(); w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" || !strings.Contains(text, "Nothing is wrong with the question") || strings.Contains(text, "fewer") {
			t.Errorf("%s: %d %s", address, w.Code, mainOf(text))
		}
	}
	if code, _ := get(t, p, "/ways"); code != http.StatusOK {
		t.Errorf("a page that works nothing out: %d", code)
	}
}

// TestPages_WhatIsNoAddressHasTheFrame: 404 and 405 are pages like all others.
func TestPages_WhatIsNoAddressHasTheFrame(t *testing.T) {
	p := pagesOf(t)
	for _, c := range []struct {
		method, address, allow string
		status                 int
	}{
		{"GET", "/sweep/nothing", "", 404}, {"GET", "/ways/nothing", "", 404}, {"POST", "/sweep", "GET, HEAD", 405},
		{"GET", "/sweep/begin", "POST", 405}, {"DELETE", "/ways", "GET, HEAD", 405}, {"HEAD", "/ways", "", 200}, {"HEAD", "/sweep", "", 200},
	} {
		w := httptest.NewRecorder()
		p.ServeHTTP(w, httptest.NewRequest(c.method, c.address, nil))
		if w.Code != c.status || w.Header().Get("Allow") != c.allow {
			t.Errorf("%s %s: %d, Allow %q", c.method, c.address, w.Code, w.Header().Get("Allow"))
		}
		if text := w.Body.String(); c.method != "HEAD" && (!strings.Contains(text, "not for use in flight") || !strings.Contains(text, "<h1>")) {
			t.Errorf("%s %s has no frame", c.method, c.address)
		}
	}
}

// TestSweep_APanicInTheWorkIsSaid: on a goroutine of its own it would take the
// server with it.
func TestSweep_APanicInTheWorkIsSaid(t *testing.T) {
	p := pagesOf(t)
	var log bytes.Buffer
	p.jobs.log = slog.New(slog.NewTextHandler(&log, nil))
	key := jobKey{"none", "none", 1}
	if err := p.jobs.begin(key, nil, nil, false); err != nil { // no build: preparing it panics
		t.Fatal(err)
	}
	j := p.jobs.look(key)
	j.work().Wait(t.Context(), time.Minute)
	if s := j.state(); s.Err == nil || s.Done || !strings.Contains(log.String(), "panic") {
		t.Errorf("%+v; the log says %q", s.Err, log.String())
	}
}

func TestPages_SayWhatIsWrong(t *testing.T) {
	p := pagesOf(t)
	swept(t, p, "/sweep?order=1")
	for address, want := range map[string]string{
		"/sweep?build=first_serie":              "did you mean &#34;first_series&#34;?",
		"/sweep?order=9":                        "order is a number from 1 to 3",
		"/sweep?flight=none":                    "no flight",
		"/sweep?layer=x":                        "layer is",
		"/ways?function=brakes_norml":           "did you mean",
		"/ways?function=brakes_normal&told=x":   "say not, wrong",
		"/ways?when=1%2B":                       "Missing expression",
		"/ways?out=nothing_such":                "nothing that can fail",
		"/ways?function=brakes_normal&in=crois": "no phase called",
	} {
		code, text := get(t, p, address)
		if code != http.StatusBadRequest || !strings.Contains(text, want) {
			t.Errorf("%s: %d, does not say %q", address, code, want)
		}
	}
	if code, text := get(t, p, "/sweep/cell?order=1&phase=none&a=x&b=<script>"); code != http.StatusBadRequest || strings.Contains(text, "<script>") {
		t.Errorf("a wrong cell: %d %s", code, text)
	}
}

func TestWays_ListsSetsByOrder(t *testing.T) {
	p := pagesOf(t)
	patient := quickWays // what the page lists is asked here, not how fast a busy machine is
	patient.Limit = 4 * time.Minute
	p.quick = door.New(patient)
	code, text := get(t, p, "/ways?function=brakes_normal&in=landing_roll")
	if code != http.StatusOK {
		t.Fatalf("%d %s", code, text)
	}
	for _, want := range []string{"Either one of these alone", "or both of", "a flight", "/?at=landing_roll", "all sets of up to 3 failures together were found", "Not answered with the aircraft held still", "Flown on from there to the end of the flight"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if _, few := get(t, p, "/ways?function=brakes_normal&in=landing_roll&unit=dc_right"); strings.Count(few, "<li>") >= strings.Count(text, "<li>") {
		t.Error("a unit does not narrow the list")
	}
	for _, want := range []string{"How likely", "Birnbaum", "The failures that matter most"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if _, blank := get(t, p, "/ways"); !strings.Contains(blank, "Choose a function") {
		t.Error("the bare page says nothing")
	}
}

func TestWays_MoreThanOneFunctionAndWhatIsDeferred(t *testing.T) {
	p := pagesOf(t)
	for address, want := range map[string]string{
		"/ways?function=both_ac_sides&also=shaped_control":                                      "are both lost",
		"/ways?function=brakes_normal&told=wrong":                                               "shows it shows wrong",
		"/ways?when=" + url.QueryEscape(`gear_lever == "down" && !brakes_normal`) + "&in=final": "One of these alone",
		"/ways?out=tr_left":                        "one failure",
		"/ways?out=tr_left&function=brakes_normal": "tr_left",
	} {
		code, text := get(t, p, address)
		if code != http.StatusOK || !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
			t.Errorf("%s: %d, no %q", address, code, want)
		}
	}
	_, text := get(t, p, "/ways?out=tr_left")
	for _, want := range []string{"Major", "Both main DC buses", "fail=tr_right", "out=tr_left"} {
		if !strings.Contains(text, want) {
			t.Errorf("what a deferral leaves has no %q", want)
		}
	}
}

// A form that cannot be read is the form's fault, not the program's.
func TestBegin_FormsThatCannotBeRead(t *testing.T) {
	p := pagesOf(t)
	for _, address := range []string{"/ways/begin", "/ways/stop", "/sweep/begin", "/sweep/stop", "/assess/begin", "/assess/stop"} {
		if code, _, text := post(t, p, address+"?function=%zz"); code != http.StatusBadRequest || !strings.Contains(text, "The form could not be read") {
			t.Errorf("%s: %d %.200s", address, code, text)
		}
	}
}
