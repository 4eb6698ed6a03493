package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// opening is the question that the test site opens with.
const opening = "fail=source_2&out=source_1&at=climb+%2B+60+s"

func loadTern(t testing.TB) *ask.Desk {
	t.Helper()
	b, diags := book.Load(t.Context(), os.DirFS("testdata/book"))
	for _, d := range diags {
		if d.Severity == book.Error {
			t.Fatalf("testdata/book: %s: %s %s", d.Subject, d.Summary, d.Detail)
		}
	}
	return ask.NewDesk(b)
}

func ternSite(t testing.TB) *Site {
	t.Helper()
	s, err := New(Setting{Opening: opening, Log: quiet()}, loadTern(t))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func quiet() *slog.Logger { return slog.New(slog.NewTextHandler(io.Discard, nil)) }

var demoDesk = sync.OnceValues(func() (*ask.Desk, error) {
	b, err := corvane.Load()
	if err != nil {
		return nil, err
	}
	return ask.NewDesk(b), nil
})

// demoOpening is the headline of the demonstration.
const demoOpening = "fail=tr_right&out=tr_left&at=climb+%2B+120+s"

func demoSite(t testing.TB) *Site {
	t.Helper()
	desk, err := demoDesk()
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(Setting{Opening: demoOpening, Log: quiet()}, desk)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// get asks a site as a browser on this machine would.
func get(s http.Handler, address string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, address, nil)
	r.Host = "127.0.0.1:8765"
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w
}

func TestPage_AnswersTheQuestionOfItsAddress(t *testing.T) {
	w := get(ternSite(t), "/?fail=source_2&out=source_1&at=climb%2B60s")
	body := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, body)
	}
	for _, want := range []string{
		"Nothing that is lost when it is called for is hidden: 2 follow from what is told and 2 told.",
		`id="row-loss-brakes"`, `id="row-wrong-fan_lamp"`, `id="row-dark-brake_gauge"`, `id="row-alert-no_power"`,
		book.Caution,
		`/?fail=source_2&out=source_1&build=plain&flight=hop&at=climb+%2B+60+s`,
		`<option value="plain" selected>As first built</option>`,
		`value="climb + 60 s"`,
		"With both sources gone the cabin fan stops, and nobody is told.",
	} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

func TestPage_SaysWhenAllIsTold(t *testing.T) {
	body := get(ternSite(t), "/?fail=fan&build=told").Body.String()
	if !strings.Contains(body, "Nothing that is lost when it is called for is hidden: 1 told.") {
		t.Error("the sentence is missing")
	}
	if body = get(ternSite(t), "/?fail=source_1").Body.String(); !strings.Contains(body, "This takes nothing away.") {
		t.Error("a failure that takes nothing away is not called that")
	}
}

func TestPage_OpensWithTheOpeningQuestion(t *testing.T) {
	s := ternSite(t)
	if body := get(s, "/").Body.String(); !strings.Contains(body, "follow from what is told") {
		t.Error("the bare address does not open with the answer to the opening question")
	}
	if body := get(s, "/?build=told").Body.String(); !strings.Contains(body, "What does a failure take away") {
		t.Error("a question in which nothing fails is not asked for")
	}
}

func TestPage_KeepsWhatItUnderstands(t *testing.T) {
	for _, c := range []struct {
		name, query, says string
		answered          bool
	}{
		{"unknown unit", "fail=source_2&fail=sorce_1", "did you mean &#34;source_1&#34;", true},
		{"unknown fault", "fail=source_2&out=source_2.surge", "did you mean &#34;surges&#34;", true},
		{"a function cannot fail", "fail=source_2&fail=brakes", "only units and events can fail", true},
		{"unknown phase", "fail=source_2&at=clim", "Did you mean &#34;climb&#34;", false},
		{"no moment", "fail=source_2&at=climb+120", "", false},
		{"after the end", "fail=source_2&at=100+h", "outside flight", false},
		{"unknown build", "fail=source_2&build=tolt", "did you mean &#34;told&#34;", true},
		{"unknown flight", "fail=source_2&flight=hopp", "did you mean &#34;hop&#34;", true},
		{"unknown book", "fail=source_2&book=tern_3", "did you mean &#34;tern_2&#34;", true},
		{"no condition", "fail=source_2&when=real.height_ft", "a yes/no is needed", false},
		{"no seconds", "fail=source_2&for=long", "is no number of seconds", true},
		{"no action", "fail=source_2&act=fan_switch", "control=position@moment", false},
		{"no setting", "fail=source_2&set=fan_switch", "control=position@moment", false},
		{"no position", "fail=source_2&act=fan_switch%3Dom", "did you mean &#34;on&#34;", false},
		{"bad bytes", "fail=source_2&fail=%ff%00%3Cscript%3E", "nothing that can fail", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := get(ternSite(t), "/?"+c.query)
			body := w.Body.String()
			if w.Code != http.StatusBadRequest {
				t.Errorf("status %d", w.Code)
			}
			if !strings.Contains(body, "was not understood") || !strings.Contains(body, c.says) {
				t.Errorf("the page does not say %q", c.says)
			}
			if answered := strings.Contains(body, `id="lead"`); answered != c.answered {
				t.Errorf("answered: %v", answered)
			}
			if !strings.Contains(body, `name="fail" value="source_2"`) {
				t.Error("what was understood is not kept")
			}
		})
	}
}

// What is set and what is moved by hand are two things, and every link of the
// page keeps both.
func TestPage_KeepsSettingsAndActs(t *testing.T) {
	body := html.UnescapeString(get(ternSite(t), "/?fail=source_2&set=fan_switch%3Doff&act=fan_switch%3Don%40climb").Body.String())
	for _, want := range []string{
		`<input name="set" type="text" value="fan_switch=off"`, `<input name="act" type="text" value="fan_switch=on@climb"`,
		"set=fan_switch%3Doff&act=fan_switch%3Don%40climb", "set, whatever fails: Fan switch to off from the start; the crew: Fan switch to on at climb",
	} {
		if !strings.Contains(body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	for link := range strings.SplitSeq(body, `href="`) {
		link, _, _ = strings.Cut(link, `"`)
		if strings.Contains(link, "act=") != strings.Contains(link, "set=") {
			t.Errorf("a link keeps only one of them: %s", link)
		}
	}
	if body := get(ternSite(t), "/answer.json?fail=source_2&set=fan_switch%3Doff").Body.String(); !strings.Contains(body, "set=fan_switch%3Doff") {
		t.Error("the question in JSON has lost its setting")
	}
}

func TestPage_ReadsAPlusThatAnAddressLost(t *testing.T) {
	if body := get(ternSite(t), "/?fail=source_2&at=climb+60+s").Body.String(); !strings.Contains(html.UnescapeString(body), `value="climb + 60 s"`) {
		t.Error("a plus in an address, which means a space, is not taken for one")
	}
}

func TestPage_LimitsOneQuestion(t *testing.T) {
	w := get(ternSite(t), "/?fail="+strings.Repeat("x", 5000)+strings.Repeat("&act=a", 100)+strings.Repeat("&fail=source_2", 100))
	if w.Code != http.StatusBadRequest || w.Body.Len() > 100_000 {
		t.Errorf("status %d, %d bytes", w.Code, w.Body.Len())
	}
}

func TestPage_EscapesTheBooksText(t *testing.T) {
	s := ternSite(t)
	for _, address := range []string{"/?fail=brake_box&q=%22%3E%3Cscript%3E", "/line.svg?fail=brake_box", "/why?fail=brake_box&row=loss-brakes", "/?fail=%3Cscript%3E", "/nowhere/%3Cscript%3E"} {
		body := get(s, address).Body.String()
		for _, bad := range []string{"<b>", "<script>"} {
			if strings.Contains(body, bad) {
				t.Errorf("%s: has %s in it", address, bad)
			}
		}
	}
	if body := get(s, "/why?fail=brake_box&row=loss-brakes").Body.String(); !strings.Contains(body, "Brake box &lt;b&gt;&amp;amp;&lt;/b&gt;") {
		t.Error("the title is not shown as it is written")
	}
}

func TestPage_SaysWhatIsNotModelled(t *testing.T) {
	page := get(ternSite(t), "/?"+opening).Body.String()
	if !strings.Contains(page, "how its voltage &lt;falls&gt;") {
		t.Error("the page does not say what the book does not work out about what fails")
	}
	if other := get(ternSite(t), "/?fail=source_1&at=climb").Body.String(); strings.Contains(other, "how its voltage") {
		t.Error("it says so of what does not fail")
	}
}

func TestPage_HasNothingInline(t *testing.T) {
	body := get(demoSite(t), "/?"+demoOpening+"&why=all").Body.String()
	for _, bad := range []string{" style=", "<style", " onclick=", "javascript:", "<script>", "https://", "src=\"//"} {
		if strings.Contains(body, bad) {
			t.Errorf("the page has %q in it, which its own policy forbids", bad)
		}
	}
}

func TestSite_SetsItsHeaders(t *testing.T) {
	s := ternSite(t)
	for _, address := range []string{"/", "/answer?" + opening, "/nowhere", "/static/book.css", "/line.svg?" + opening} {
		h := get(s, address).Header()
		if !strings.HasPrefix(h.Get("Content-Security-Policy"), "default-src 'self';") || h.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: %v", address, h)
		}
	}
}

func TestSite_AnswersToItsOwnNamesOnly(t *testing.T) {
	s, err := New(Setting{Hosts: []string{"classroom"}}, loadTern(t))
	if err != nil {
		t.Fatal(err)
	}
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8765": 200, "127.0.0.1:8765": 200, "[::1]:8765": 200, "192.168.1.20:8765": 200, "Classroom:80": 200,
		"evil.example": 421, "localhost.evil.example:8765": 421, "": 421, "127.0.0.1.evil.example": 421,
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.Host = host
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("host %q: status %d, want %d", host, w.Code, want)
		}
	}
}

func TestSite_ReadsOnly(t *testing.T) {
	s := ternSite(t)
	for _, method := range []string{http.MethodPost, http.MethodPut, http.MethodDelete} {
		r := httptest.NewRequest(method, "/answer", strings.NewReader("x"))
		r.Host = "localhost"
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != http.StatusMethodNotAllowed || w.Header().Get("Allow") == "" {
			t.Errorf("%s: status %d, Allow %q", method, w.Code, w.Header().Get("Allow"))
		}
	}
	r := httptest.NewRequest(http.MethodPost, "/answer", nil)
	r.Host = "localhost"
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code != http.StatusForbidden {
		t.Errorf("a foreign page's POST: status %d", w.Code)
	}
}

func TestSite_StatusOfAddresses(t *testing.T) {
	s := ternSite(t)
	for address, want := range map[string]int{
		"/nowhere": 404, "/static/": 404, "/static/none.css": 404, "/static/..%2fbook.css": 404,
		"/why?" + opening: 404, "/why?" + opening + "&row=loss-nothing": 404, "/why.svg?" + opening + "&row=x": 404,
		"/why?" + opening + "&row=loss-cabin_air": 200, "/why.svg?" + opening + "&row=loss-cabin_air": 200, "/line.svg?" + opening: 200,
		"/line.svg?at=climb": 400, "/line.svg?fail=nothing": 400, "/answer.json?fail=source_2&at=100+h": 400, "/answer.json?" + opening: 200,
	} {
		if got := get(s, address).Code; got != want {
			t.Errorf("%s: status %d, want %d", address, got, want)
		}
	}
}

func TestSite_LetsReadersKeepWhatCannotChange(t *testing.T) {
	s := ternSite(t)
	page := get(s, "/").Body.String()
	_, rest, _ := strings.Cut(page, `href="/static/book.css?v=`)
	version, _, _ := strings.Cut(rest, `"`)
	if got := get(s, "/static/book.css?v="+version).Header().Get("Cache-Control"); !strings.Contains(got, "immutable") {
		t.Errorf("the style sheet under its version: %q", got)
	}
	if got := get(s, "/static/book.css").Header().Get("Cache-Control"); strings.Contains(got, "immutable") {
		t.Errorf("the style sheet without a version: %q", got)
	}
	first := get(s, "/")
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.Host = "127.0.0.1:8765"
	r.Header.Set("If-None-Match", first.Header().Get("ETag"))
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code != http.StatusNotModified || w.Body.Len() != 0 {
		t.Errorf("the same page again: status %d, %d bytes", w.Code, w.Body.Len())
	}
}

func TestFragment_IsPartOfThePage(t *testing.T) {
	s := ternSite(t)
	page, fragment := get(s, "/?"+opening).Body.String(), get(s, "/answer?"+opening).Body.String()
	for _, id := range []string{"chosen", "answer", "address"} {
		if !strings.Contains(fragment, `id="`+id+`"`) {
			t.Errorf("the fragment has no %s", id)
		}
	}
	_, main, _ := strings.Cut(fragment, `<main id="answer"`)
	main, _, _ = strings.Cut(main, "</main>")
	// Without a script a row leads to the page with its chain open.
	page = regexp.MustCompile(`<p><a href="[^"]*">Why\?</a></p>`).ReplaceAllString(page, "")
	if !strings.Contains(page, main) {
		t.Error("the fragment's answer differs from the page's")
	}
}

func TestJSON_HoldsTheLedger(t *testing.T) {
	w := get(ternSite(t), "/answer.json?"+opening)
	var got struct {
		Question string
		Ledger   struct {
			Caution string
			Groups  []struct {
				ID   string
				Rows []struct{ ID string }
			}
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Ledger.Caution != book.Caution || got.Ledger.Groups[0].ID != "hidden" || got.Ledger.Groups[4].ID != "follows" || got.Ledger.Groups[4].Rows[0].ID != "cabin_air" {
		t.Errorf("got %+v", got)
	}
	if again := get(ternSite(t), got.Question); again.Code != http.StatusOK {
		t.Errorf("the question %q does not lead back: %d", got.Question, again.Code)
	}
}

func TestWhy_LeadsToTheFailures(t *testing.T) {
	body := get(ternSite(t), "/why?"+opening+"&row=loss-cabin_air").Body.String()
	for _, want := range []string{"Why is it lost?", "First source", "Second source", "tern.hcl:", "No alert of the book tells of it.", "<svg", "/why.svg?fail=source_2"} {
		if !strings.Contains(body, want) {
			t.Errorf("the chain does not say %q", want)
		}
	}
	held := get(ternSite(t), "/why?fail=brake_box&at=landing_roll&row=loss-brakes").Body.String()
	if !strings.Contains(held, "Why does “Brakes lost” (warning) not tell?") {
		t.Error("the chain does not say why the alert is silent")
	}
}

func TestWhy_OpensEveryRowThatIsAsked(t *testing.T) {
	s := ternSite(t)
	body := get(s, "/?"+opening+"&why=loss-cabin_air").Body.String()
	if n := strings.Count(body, `class="chain-words"`); n != 1 {
		t.Errorf("%d chains are open", n)
	}
	body = get(s, "/?"+opening+"&why=all").Body.String()
	if rows, chains := strings.Count(body, `class="row"`), strings.Count(body, `class="chain-words"`); rows != chains || rows < 5 {
		t.Errorf("%d rows, %d chains are open", rows, chains)
	}
}

func TestPictures_CarryTheCaution(t *testing.T) {
	s := ternSite(t)
	for _, address := range []string{"/line.svg?" + opening, "/why.svg?" + opening + "&row=loss-cabin_air"} {
		w := get(s, address)
		if w.Header().Get("Content-Type") != "image/svg+xml" || !strings.Contains(w.Header().Get("Content-Disposition"), ".svg") {
			t.Errorf("%s: %v", address, w.Header())
		}
		if !strings.Contains(w.Body.String(), "For training and study only") || !strings.Contains(w.Body.String(), `role="img"`) {
			t.Errorf("%s: no caution or role", address)
		}
	}
}

func TestSearch_WorksWithoutAScript(t *testing.T) {
	body := get(ternSite(t), "/?q=source+second").Body.String()
	shown := regexp.MustCompile(`<li data-search="[^"]*"><button type="submit" name="fail" value="([^"]*)"`)
	var found []string
	for _, m := range shown.FindAllStringSubmatch(body, -1) {
		found = append(found, m[1])
	}
	if !slices.Equal(found, []string{"source_2", "source_2.surges"}) || !strings.Contains(body, "2 found.") {
		t.Errorf("found %q", found)
	}
	if body = get(ternSite(t), "/?q=zzz").Body.String(); !strings.Contains(body, "Nothing is called that.") {
		t.Error("a search that finds nothing does not say so")
	}
}

func TestNew_RefusesWhatCannotBeShown(t *testing.T) {
	desk := loadTern(t)
	if _, err := New(Setting{}); err == nil {
		t.Error("a site without a book")
	}
	if _, err := New(Setting{}, desk, desk); err == nil {
		t.Error("a site with one aircraft twice")
	}
	if _, err := New(Setting{Opening: "fail=nothing"}, desk); err == nil {
		t.Error("an opening question that cannot be asked")
	}
}

func TestSite_ShowsSeveralBooks(t *testing.T) {
	desk, _ := demoDesk()
	s, err := New(Setting{}, loadTern(t), desk)
	if err != nil {
		t.Fatal(err)
	}
	body := get(s, "/?book=corvane_88&fail=tr_right&flight=short_hop").Body.String()
	if !strings.Contains(body, "Corvane 71") || !strings.Contains(body, "/?book=corvane_88&amp;fail=tr_right") {
		t.Error("the second book is not shown, or its address does not name it")
	}
}

func TestKeeper_WorksOneQuestionOutOnce(t *testing.T) {
	k := newKeeper(loadTern(t))
	q := ask.Question{Fail: []scenario.Strike{{What: []string{"source_2"}}}}
	first, err := k.answer(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	if again, _ := k.answer(t.Context(), q); again != first {
		t.Error("the same question was worked out again")
	}
	for i := range mostAnswers {
		q.Fail[0].ForS = float64(i + 1)
		if _, err := k.answer(t.Context(), q); err != nil {
			t.Fatal(err)
		}
	}
	if len(k.byKey) != mostAnswers || k.recent.Len() != mostAnswers {
		t.Errorf("%d answers are kept", len(k.byKey))
	}
	if again, _ := k.answer(t.Context(), ask.Question{Fail: []scenario.Strike{{What: []string{"source_2"}}}}); again == first {
		t.Error("the oldest answer was not let go")
	}
}

func TestKeeper_StopsWhenTheReaderLeaves(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := newKeeper(loadTern(t)).answer(ctx, ask.Question{Fail: []scenario.Strike{{What: []string{"source_2"}}}}); err == nil {
		t.Error("an answer for nobody")
	}
}

func BenchmarkAnswerPage(b *testing.B) {
	s := demoSite(b)
	get(s, "/")
	for i := 0; b.Loop(); i++ {
		at := fmt.Sprintf("%d.%03d", 60+i%500, i%1000)
		if w := get(s, "/answer?fail=tr_right&out=tr_left&at=climb+%2B+"+at+"+s"); w.Code != http.StatusOK {
			b.Fatal(w.Body.String())
		}
	}
}

// TestSite_WhatIsNoAddressHasTheFrame: 404, 405 and a refusal are pages like all
// others, with the caution.
func TestSite_WhatIsNoAddressHasTheFrame(t *testing.T) {
	s := ternSite(t)
	for _, c := range []struct {
		method, address, site, allow string
		status                       int
	}{
		{"GET", "/nowhere", "", "", 404}, {"POST", "/nowhere", "", "", 404}, {"GET", "/static/none.css", "", "", 404},
		{"POST", "/answer", "", "GET, HEAD", 405}, {"POST", "/answer", "cross-site", "", 403}, {"HEAD", "/nowhere", "", "", 404},
	} {
		r := httptest.NewRequest(c.method, c.address, nil)
		r.Host = "localhost"
		if c.site != "" {
			r.Header.Set("Sec-Fetch-Site", c.site)
		}
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != c.status || w.Header().Get("Allow") != c.allow {
			t.Errorf("%s %s: %d, Allow %q", c.method, c.address, w.Code, w.Header().Get("Allow"))
		}
		if text := w.Body.String(); c.method != "HEAD" && (!strings.Contains(text, html.EscapeString(book.Caution)) || !strings.Contains(text, "book.") || !strings.Contains(text, "<h1>")) {
			t.Errorf("%s %s has no frame", c.method, c.address)
		}
		if c.method == "HEAD" && w.Body.Len() > 0 {
			t.Errorf("HEAD %s has a text", c.address)
		}
	}
}

// TestSite_APanicAnywhereIsAPage: also in another room, and never an empty reply.
func TestSite_APanicAnywhereIsAPage(t *testing.T) {
	var log bytes.Buffer
	slip := http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("a slip") })
	s, err := New(Setting{Log: slog.New(slog.NewTextHandler(&log, nil)), More: map[string]http.Handler{"/room/": slip}}, loadTern(t))
	if err != nil {
		t.Fatal(err)
	}
	w := get(s, "/room/x")
	if w.Code != http.StatusInternalServerError || !strings.Contains(w.Body.String(), "not for use in flight") || !strings.Contains(log.String(), "a slip") {
		t.Errorf("%d %s; the log says %q", w.Code, w.Body, log.String())
	}
}

// TestSite_FullIsNoFaultOfTheQuestion: when all places are taken the answer is 503
// with a sentence and a time, whatever was asked.
func TestSite_FullIsNoFaultOfTheQuestion(t *testing.T) {
	s := ternSite(t)
	keeper := s.shelves[0].kept
	for range answers.AtWork + answers.Waiting {
		place, err := keeper.door.Enter()
		if err != nil {
			t.Fatal(err)
		}
		defer place.Leave()
	}
	for _, address := range []string{"/?fail=source_1", "/answer?fail=source_1", "/answer.json?fail=source_1", "/why?fail=source_1&row=x"} {
		w := get(s, address)
		if w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" || !strings.Contains(w.Body.String(), "Nothing is wrong with the question") {
			t.Errorf("%s: %d %v", address, w.Code, w.Header())
		}
	}
	if w := get(s, "/?"+opening); w.Code != http.StatusOK {
		t.Errorf("an answer that is kept: %d", w.Code)
	}
}

// What is cut off an address is not left out in silence.
func TestSite_BrokenAddressesAreRefused(t *testing.T) {
	s := ternSite(t)
	for _, address := range []string{"/?fail=source_2&out=source_1%2", "/?fail=source_2&at=%zz", "/answer.json?fail=source_2;out=source_1"} {
		if w := get(s, address); w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), "This address is broken") {
			t.Errorf("%s: %d %.200s", address, w.Code, w.Body)
		}
	}
}

// A part of an address under a name that means nothing is refused with what was
// perhaps meant: left out, it would be the answer to another question.
func TestPage_RefusesPartsThatMeanNothing(t *testing.T) {
	w := get(ternSite(t), "/?fial=fan&build=told")
	if body := w.Body.String(); w.Code != http.StatusBadRequest || !strings.Contains(body, "did you mean") || !strings.Contains(body, "fail") || strings.Contains(body, `id="row-`) {
		t.Errorf("%d %s", w.Code, body)
	}
	if w := get(ternSite(t), "/?fail=fan&build=told"); w.Code != http.StatusOK {
		t.Errorf("%d", w.Code)
	}
}
