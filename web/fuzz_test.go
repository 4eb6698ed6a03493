package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzAddress asks whatever one can write behind the question mark: a page
// comes back that is text, and that says what was wrong instead of failing.
func FuzzAddress(f *testing.F) {
	for _, seed := range []string{
		opening, "fail=source_2&at=climb", "fail=lightning&out=fan&build=told&flight=leg&at=3+min", "fail=source_2.surges&for=20&resettable=yes",
		"fail=source_2&when=real.height_ft+%3E+500&act=fan_switch%3Doff%40climb", "q=fan+21", "fail=%ff%fe&at=%00", "book=tern_2&why=all&fail=fan",
		"at=1e300+h&fail=fan", "for=NaN&fail=fan", "for=-1&fail=fan", "fail=fan&at=-5+s", "when=1%2F0+%3E+1&fail=fan", ";&&==%zz", strings.Repeat("fail=fan&", 60),
	} {
		f.Add(seed)
	}
	s := ternSite(f)
	f.Fuzz(func(t *testing.T, query string) {
		u := url.URL{Path: "/answer", RawQuery: query}
		if _, err := url.ParseRequestURI(u.String()); err != nil || strings.ContainsAny(query, " \r\n\x7f") || len(query) > 1000 {
			return // no address that a server is given
		}
		w := get(s, u.String())
		if w.Code != http.StatusOK && w.Code != http.StatusBadRequest {
			t.Errorf("status %d", w.Code)
		}
		if body := w.Body.String(); !utf8.ValidString(body) || strings.Contains(body, "<script") {
			t.Errorf("not a page of ours: %q", body)
		}
	})
}
