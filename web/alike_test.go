package web

import (
	"encoding/json"
	"html"
	"net/http"
	"strings"
	"testing"

	"knockon/book"
	"knockon/proof"
)

// TestAlike_SaysWhatTheCommandSays: page and JSON are one view; each failure that looks
// the same leads to its answer.
func TestAlike_SaysWhatTheCommandSays(t *testing.T) {
	s := ternSite(t)
	for _, asks := range []string{"fail=brake_box&at=climb+%2B+60+s", "fail=source_2&out=source_1&at=climb+%2B+60+s&after=5"} {
		w := get(s, "/alike?"+asks)
		page := html.UnescapeString(w.Body.String())
		var v proof.View
		if err := json.Unmarshal(get(s, "/alike.json?"+asks).Body.Bytes(), &v); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%s: status %d, %v", asks, w.Code, err)
		}
		for _, say := range []string{v.Heading, v.Lead, book.Caution} {
			if say == "" || !strings.Contains(page, say) {
				t.Errorf("%s: the page does not say %q", asks, say)
			}
		}
		for _, same := range v.Same {
			if !strings.Contains(page, ">"+same+"</a>") {
				t.Errorf("%s: %q leads nowhere", asks, same)
			}
		}
	}
}

// TestAlike_WhatCannotBeAskedHasAWayOut.
func TestAlike_WhatCannotBeAskedHasAWayOut(t *testing.T) {
	s := ternSite(t)
	for address, wants := range map[string][]string{
		"/alike":                                  {"Choose one failure first", `href="/ask"`},
		"/alike?fail=source_1&fail=source_2":      {"of one failure alone", "/alike?fail=source_2"},
		"/alike?fail=source_1&act=fan_switch=off": {"with nothing moved"},
		"/alike?fail=source_1&after=soon":         {"“soon” is no number of seconds"},
		"/alike?fail=source_1&after=-1":           {"from 0 to 14400"},
		"/alike?fail=source_1&after=14400":        {"so nothing is answered"},
		"/alike?fail=source_1&x=y":                {"there is no part"},
	} {
		body := html.UnescapeString(get(s, address).Body.String())
		for _, want := range append(wants, book.Caution) {
			if !strings.Contains(body, want) {
				t.Errorf("%s does not say %q: %s", address, want, body)
			}
		}
	}
}
