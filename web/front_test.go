package web

import (
	"encoding/json"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/find"
	"knockon/internal/browser"
	"knockon/web/frame"
)

// TestFront_OpensWithTheCase: the front page says what the answer to the opening
// question says first, and its first points, word for word; the others are counted.
func TestFront_OpensWithTheCase(t *testing.T) {
	s := demoSite(t)
	page := html.UnescapeString(get(s, "/").Body.String())
	_, answered, err := s.asked(request("/?" + demoOpening))
	if err != nil {
		t.Fatal(err)
	}
	points := answered.view.Worth.Points
	if len(points) <= openPoints {
		t.Fatalf("%d points: nothing is left for the answer", len(points))
	}
	for i, p := range points {
		if strings.Contains(page, p.Text) != (i < openPoints) {
			t.Errorf("point %d of the answer, %q, on the front page: %v", i, p.Text, i >= openPoints)
		}
	}
	for _, sentence := range answered.view.Sayings() {
		if !strings.Contains(page, sentence.Says) {
			t.Errorf("the front page does not say %q", sentence.Says)
		}
	}
	if !strings.Contains(page, answered.view.Heading) || !strings.Contains(page, "/?fail=tr_right&out=tr_left") {
		t.Error("the case has no heading or leads nowhere")
	}
	if n := strings.Count(page, "<li><a href=\"/?fail="); n != openQuestions {
		t.Errorf("%d questions to begin with", n)
	}
	if again := html.UnescapeString(get(demoSite(t), "/").Body.String()); again != page {
		t.Error("another server shows another front page")
	}
}

func request(address string) *http.Request {
	u, _ := url.Parse(address)
	return &http.Request{Method: http.MethodGet, URL: u, Host: "localhost"}
}

// TestFront_WhatItShowsAsAnExampleIsUnderstood as the question that it is.
func TestFront_WhatItShowsAsAnExampleIsUnderstood(t *testing.T) {
	for _, s := range []*Site{demoSite(t), ternSite(t)} {
		q := s.parse(s.opening)
		text := s.shelves[0].example(q)
		v := s.shelves[0].names.Read(text)
		if len(v.Strange) > 0 || !v.Asks || !slices.Equal(v.Question.Fail[0].What, q.What) || !slices.Equal(v.Question.Out, q.Out) {
			t.Errorf("%q is %+v", text, v)
		}
	}
}

// TestFront_WithoutAnOpening it opens with the first of its own questions.
func TestFront_WithoutAnOpening(t *testing.T) {
	s, err := New(Setting{}, loadTern(t))
	if err != nil {
		t.Fatal(err)
	}
	w := get(s, "/")
	list, err := s.begins(t.Context(), s.shelves[0])
	if err != nil || len(list) == 0 {
		t.Fatalf("%v, %v", list, err)
	}
	if to := "/?" + s.asking(s.shelves[0], list[0].Asks).Query(); w.Code != http.StatusOK || !strings.Contains(html.UnescapeString(w.Body.String()), `<h2 id="case"><a href="`+to+`">`) {
		t.Errorf("status %d; it does not open with %s", w.Code, to)
	}
}

// TestSite_EveryPageHasTheContents, and each place of it is there.
func TestSite_EveryPageHasTheContents(t *testing.T) {
	s := demoSite(t)
	form := regexp.MustCompile(`(?s)<nav class="contents".*?</nav>`)
	want := form.FindString(get(s, "/").Body.String())
	if strings.Count(want, "<a ") != len(s.frame.Rooms) || want == "" {
		t.Fatalf("contents: %q", want)
	}
	for _, address := range []string{"/ask", "/?" + demoOpening, "/find?q=gen", "/nowhere"} {
		if got := form.FindString(get(s, address).Body.String()); got != want {
			t.Errorf("%s has the contents %q", address, got)
		}
	}
	for _, room := range s.frame.Rooms {
		if w := get(s, room.To); w.Code != http.StatusOK {
			t.Errorf("%s: status %d", room.To, w.Code)
		}
	}
	whole, err := New(Setting{More: map[string]http.Handler{"/drill/": http.NotFoundHandler()}}, loadTern(t))
	if err != nil || !slices.ContainsFunc(whole.frame.Rooms, func(r frame.Room) bool { return r.To == "/drill/" }) {
		t.Errorf("a room that is there is not in the contents: %v", err)
	}
}

// TestFind_SaysHowItUnderstood: page and JSON are the same view; what is not
// understood has a way out.
func TestFind_SaysHowItUnderstood(t *testing.T) {
	s := demoSite(t)
	const text = "both generators in the climb with one rectifier deferred, second series"
	page := html.UnescapeString(get(s, "/find?q="+url.QueryEscape(text)).Body.String())
	var v find.View
	if err := json.Unmarshal(get(s, "/find.json?q="+url.QueryEscape(text)).Body.Bytes(), &v); err != nil || len(v.Parts) != 4 {
		t.Fatalf("%+v, %v", v, err)
	}
	for _, p := range v.Parts {
		for _, say := range append([]string{p.Title, "for “" + p.Words + "”"}, titles(p.Others)...) {
			if !strings.Contains(page, say) {
				t.Errorf("the page does not say %q", say)
			}
		}
	}
	to := "/?fail=gen_left&fail=gen_right&out=tr_left&build=second_series&at=climb"
	if !strings.Contains(page, `<h2 id="case"><a href="`+to+`">`) || get(s, to).Code != http.StatusOK {
		t.Error("it does not lead to the answer")
	}
	for typed, wants := range map[string][]string{
		"beide Generatoren":        {"Nothing of this was understood.", `href="/ask"`, `Did you mean <a href="/find?q=beide+generator">generator</a>`},
		"<script>":                 {"&lt;script&gt;"},
		"gen_left at 1:20:00":      {"80:00 after the start", "Left generator"},
		"tr_right on the 40:00:00": {"is outside flight"},
	} {
		w := get(s, "/find?q="+url.QueryEscape(typed))
		for _, want := range wants {
			if body := w.Body.String(); w.Code != http.StatusOK || !strings.Contains(body, want) && !strings.Contains(html.UnescapeString(body), want) {
				t.Errorf("%q: status %d, and it does not say %q", typed, w.Code, want)
			}
		}
	}
	for address, want := range map[string]int{"/find?q=a&p=b": 400, "/find?book=none": 400, "/find": 200, "/find.json?book=corvane_88": 200} {
		if got := get(s, address).Code; got != want {
			t.Errorf("%s: status %d, want %d", address, got, want)
		}
	}
}

func titles(list []find.Choice) (titles []string) {
	for _, c := range list {
		titles = append(titles, c.Title)
	}
	return titles
}

// TestBrowser_FrontPageAndSearch: by keyboard from the front page to an answer and
// back; nothing for the accessibility checker at both widths, and the front page's
// point on the first screen.
func TestBrowser_FrontPageAndSearch(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/")
			b.Until("document.querySelector('.front .questions')")
			b.Shoot("front-" + name)
			b.Axe()
			if y := browser.Eval[float64](b, "document.querySelector('.front .lead').getBoundingClientRect().bottom"); y > float64(size[1]) {
				t.Errorf("the point ends at %v of %d", y, size[1])
			}
			if wide := browser.Eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
				t.Errorf("the page is %v points wide", wide)
			}
			b.Do(chromedp.Focus("#find"), chromedp.KeyEvent("gen 1 in the climb"))
			b.Press(kb.Enter)
			b.Until("location.pathname === '/find' && document.querySelector('.parts-of-it')")
			b.Shoot("find-" + name)
			b.Axe()
			b.Do(chromedp.Click("#case a"))
			b.Until("location.search.includes('fail=gen_left') && document.querySelector('svg.line')")
			b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
			b.Until("location.pathname === '/find'")
		})
	}
}
