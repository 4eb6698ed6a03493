package web_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/ask"
	"knockon/book"
	"knockon/web"
	"knockon/web/swept"
)

// pagesOfAll are the pages that take a question.
var pagesOfAll = []string{"/", "/ask", "/find", "/beside", "/snapshot", "/crew", "/alike", "/handout", "/vary", "/rescue", "/why", "/sweep", "/ways", "/assess", "/dispatch"}

// bare is a book with next to nothing: no phases, no alerts, no flights, but for what
// more says.
const bare = `
aircraft "bare" {
  title        = "Bare"
  wing_area_m2 = 70
}
unit "pump" { title = "Pump" }
function "brakes" {
  title = "Brakes"
  works = pump
}
`

func siteOf(t *testing.T, text string) *httptest.Server {
	t.Helper()
	b, diags := book.Load(t.Context(), fstest.MapFS{"bare.hcl": {Data: []byte(text)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	desk := ask.NewDesk(b)
	more, err := swept.New(desk, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(more.Close)
	s, err := web.New(web.Setting{More: more.Mounts()}, desk)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return server
}

// words fails where a page is the server's own fault, is empty, or leads nowhere.
func words(t *testing.T, address string) {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Errorf("%s: %v", address, err)
		return
	}
	defer r.Body.Close()
	body, _ := io.ReadAll(r.Body)
	_, main, found := strings.Cut(string(body), "<main")
	if r.StatusCode >= 500 || !found || !strings.Contains(string(body), "not for use in flight") || !strings.Contains(string(body), `href="/"`) || len(main) < 80 {
		t.Errorf("%s: status %d: %.300s", address, r.StatusCode, main)
	}
}

// TestPages_BadInputHasWordsAndAWayOut: on every page, with a book that has next to
// nothing.
func TestPages_BadInputHasWordsAndAWayOut(t *testing.T) {
	flight := `
flight "hop" {
  title              = "The hop"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 10000
  distance_nm        = 60
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
`
	for _, text := range []string{bare, bare + flight} {
		server := siteOf(t, text)
		for _, page := range pagesOfAll {
			for _, query := range []string{
				"", "fail=pump", "fail=pump&at=cruise", "fail=pump&at=99:00:00", "fail=gone", "fail=pump&row=loss-gone", "failure=pump&time=4",
				"q=" + url.QueryEscape("beide Generatoren im Steigflug"), "function=gone", "item=gone", "item=pump", "build=old&flight=old&fail=pump",
				strings.Repeat("fail=pump&fail=x&", 100), "moment=never&fail=pump", "other=at%3Dnever&fail=pump", "fail=%ff%fe",
			} {
				words(t, server.URL+page+"?"+query)
			}
		}
	}
}
