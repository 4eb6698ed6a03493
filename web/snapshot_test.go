package web

import (
	"encoding/json"
	"html"
	"net/http"
	"strings"
	"testing"

	"knockon/internal/browser"
	"knockon/snapshot"
)

// TestSnapshot_PageAndJSONAreOneView, and each moment that an answer offers is there.
func TestSnapshot_PageAndJSONAreOneView(t *testing.T) {
	s := demoSite(t)
	address := "?" + demoOpening + "&moment=%2B11:00"
	page := html.UnescapeString(get(s, "/snapshot"+address).Body.String())
	var v snapshot.View
	if err := json.Unmarshal(get(s, "/snapshot.json"+address).Body.Bytes(), &v); err != nil || len(v.Lost) < 20 || len(v.Told) == 0 {
		t.Fatalf("%d lost, %v", len(v.Lost), err)
	}
	texts := append(v.Dark, v.Says, v.Heading)
	for _, x := range v.Lost {
		texts = append(texts, x.Name())
	}
	for _, x := range v.Told {
		texts = append(texts, x.Text())
	}
	for _, list := range [][]snapshot.Figure{v.Flight, v.Weather, v.Set} {
		for _, f := range list {
			texts = append(texts, f.Title, f.Text)
		}
	}
	for _, text := range texts {
		if !strings.Contains(page, text) {
			t.Errorf("the page does not say %q", text)
		}
	}
	answered := html.UnescapeString(get(s, "/?"+demoOpening).Body.String())
	q, a, err := s.asked(request("/?" + demoOpening))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range momentsOf(q, a) {
		if !strings.Contains(answered, m.Address) || get(s, m.Address).Code != http.StatusOK {
			t.Errorf("%s is not on the answer, or not there", m.Address)
		}
	}
}

func TestSnapshot_WhatIsWrong(t *testing.T) {
	s := ternSite(t)
	for address, want := range map[string]struct {
		status int
		says   string
	}{
		"/snapshot":                              {200, "Choose a failure first"},
		"/snapshot?fail=fan":                     {200, "into the flight"},
		"/snapshot?fail=fan&moment=never":        {400, "There is no phase called"},
		"/snapshot?fail=fan&moment=99:00:00":     {400, "outside flight"},
		"/snapshot?fail=fan&nonsense=1":          {400, "no part"},
		"/snapshot.json":                         {400, "Say what fails"},
		"/snapshot.json?fail=fun":                {400, "fun"},
		"/snapshot?fail=fan&moment=%3Cb%3E":      {400, "&lt;b&gt;"},
		"/snapshot?fail=fan&at=climb&moment=":    {200, "into the flight"},
		"/snapshot.json?fail=fan&moment=%2B1:00": {200, `"after": "+1:00"`},
	} {
		w := get(s, address)
		if w.Code != want.status || !strings.Contains(w.Body.String(), want.says) {
			t.Errorf("%s: status %d, and it does not say %q", address, w.Code, want.says)
		}
	}
}

func TestBrowser_Snapshot(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/snapshot?"+demoOpening+"&moment=%2B11:00")
			b.Until("document.querySelector('.now')")
			b.Shoot("snapshot-" + name)
			b.Axe()
			if wide := browser.Eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
				t.Errorf("the page is %v points wide", wide)
			}
		})
	}
}
