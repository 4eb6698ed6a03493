package web

import (
	"net/http"
	"strings"
	"testing"

	"knockon/internal/browser"
)

// TestCosts_BadInputHasWordsAndAWayOut: on the page of the price and on that of until
// when, as in their files.
func TestCosts_BadInputHasWordsAndAWayOut(t *testing.T) {
	s := costsSite(t)
	for _, page := range []string{"/costs", "/costs/until", "/costs.json", "/costs/until.json"} {
		for query, want := range map[string]string{
			"fail=gone": "nothing that can fail", "fail=tr_right&at=never": "no phase", "fail=tr_right&reserve=all": "no rule", "fail=tr_right&turn=never": "no phase",
			"fail=tr_right&flight=old": "no flight", "fail=tr_right&build=old": "no build", "fail=%ff%fe": "Nothing fails", "fail=tr_right&act=gone": "gone",
			"failure=tr_right": "", strings.Repeat("fail=tr_right&fail=x&", 100): "nothing that can fail",
		} {
			w := get(s, page+"?"+query)
			body := w.Body.String()
			if w.Code < 400 || w.Code >= 500 || !strings.Contains(body, want) || len(body) < 20 {
				t.Errorf("%s?%.60s: status %d, it does not say %q: %.400s", page, query, w.Code, want, body)
			}
			if html := page == "/costs" || page == "/costs/until"; html && (!strings.Contains(body, "not for use in flight") || !strings.Contains(body, `href="/`)) {
				t.Errorf("%s?%.60s leads nowhere", page, query)
			}
		}
	}
	if w := get(s, "/costs/gone.svg?fail=tr_right"); w.Code != http.StatusNotFound {
		t.Errorf("a picture that is none: status %d", w.Code)
	}
}

// TestBrowser_CrewAndAlikeAreAccessible: as they stand, and where they cannot answer.
func TestBrowser_CrewAndAlikeAreAccessible(t *testing.T) {
	s := ternSite(t)
	for _, width := range []int64{1440, 390} {
		for _, address := range []string{"/crew?fail=source_1&fail=source_2&at=climb", "/crew?fail=gone", "/alike?fail=brake_box&at=climb+%2B+60+s", "/alike"} {
			b := browse(t, s, width, 900, address)
			b.Until("document.querySelector('main')")
			b.Axe()
			if wide := browser.Eval[int64](b, "document.documentElement.scrollWidth"); wide > width {
				t.Errorf("%s is %d wide at %d", address, wide, width)
			}
		}
	}
}
