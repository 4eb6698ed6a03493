package web

import (
	"encoding/json"
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"knockon/beside"
	"knockon/internal/browser"
)

// TestBeside_PageAndJSONAreOneView: every row of the view stands on the page, and the
// page leads to both answers.
func TestBeside_PageAndJSONAreOneView(t *testing.T) {
	s := demoSite(t)
	address := "?" + demoOpening + "&other=crew%3Dnone&other=at%3Dcruise"
	page := html.UnescapeString(get(s, "/beside"+address).Body.String())
	var v beside.View
	if err := json.Unmarshal(get(s, "/beside.json"+address).Body.Bytes(), &v); err != nil || len(v.Sections) < 3 {
		t.Fatalf("%d sections, %v", len(v.Sections), err)
	}
	says := []string{v.Says, v.First.Opens, v.Second.Opens, v.AlikeText(), "/?" + "fail=tr_right&out=tr_left&build=first_series&flight=northern_link&at=cruise&crew=none"}
	for _, section := range v.Sections {
		for _, r := range section.Rows {
			says = append(says, r.Title, r.First, r.Second)
		}
	}
	for _, text := range says {
		if !strings.Contains(page, text) {
			t.Errorf("the page does not say %q", text)
		}
	}
}

// TestBeside_OneStepFromAnAnswer: every choice that an answer offers is laid beside it.
func TestBeside_OneStepFromAnAnswer(t *testing.T) {
	s := ternSite(t)
	page := html.UnescapeString(get(s, "/?"+opening).Body.String())
	count := 0
	for _, kind := range besideChoices(s.parse(s.opening)) {
		for _, c := range kind.List {
			count++
			if !strings.Contains(page, `href="`+c.Address+`"`) {
				t.Errorf("the answer does not lead to %s", c.Address)
			}
			w := get(s, c.Address)
			if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "Side by side: ") {
				t.Errorf("%s: status %d", c.Address, w.Code)
			}
		}
	}
	if count < 6 { // who acts, nothing inoperative, a build, the other phases
		t.Errorf("%d choices", count)
	}
}

func TestBeside_WhatCannotBeLaid(t *testing.T) {
	s := ternSite(t)
	for address, want := range map[string]struct {
		status int
		says   string
	}{
		"/beside":                                                {200, "Choose a failure first"},
		"/beside?fail=fan":                                       {200, "Lay it beside"},
		"/beside?fail=fan&other=":                                {200, "Lay it beside"},
		"/beside?fail=fan&other=when%3Dx":                        {400, "no part"},
		"/beside?fail=fan&other=at%3Dnever":                      {400, "There is no phase called"},
		"/beside?fail=fan&other=build%3Dx":                       {400, "no build"},
		"/beside?fail=fan&other=without%3Dfan":                   {400, "nothing fails then"},
		"/beside?fail=fan&nonsense=1":                            {400, "no part"},
		"/beside.json?fail=fan":                                  {400, "what is otherwise"},
		"/beside.json?fail=fun&other=crew%3Dnone":                {400, "fun"},
		"/beside?fail=fan&other=and%3D" + url.QueryEscape("<b>"): {400, "&lt;b&gt;"},
	} {
		w := get(s, address)
		if w.Code != want.status || !strings.Contains(w.Body.String(), want.says) {
			t.Errorf("%s: status %d, and it does not say %q", address, w.Code, want.says)
		}
	}
}

func TestBrowser_SideBySide(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/?"+demoOpening)
			b.Until("document.querySelector('.besides > summary')")
			b.Do(chromedp.Click(".besides > summary"), chromedp.Click(".besides dd a"))
			b.Until("location.pathname === '/beside' && document.querySelector('.pair')")
			b.Shoot("beside-" + name)
			b.Axe()
			if wide := browser.Eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
				t.Errorf("the page is %v points wide", wide)
			}
		})
	}
}
