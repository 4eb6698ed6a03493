package drilling_test

import (
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// TestStart_BadInputHasWordsAndAWayOut: what the book does not have is refused before
// anybody begins, in words.
func TestStart_BadInputHasWordsAndAWayOut(t *testing.T) {
	r := enter(t, t.TempDir())
	for query, want := range map[string]string{
		"fail=tr_right":                     "The failure that you came with:",
		"fail=tr_right&at=climb":            "The failure that you came with:",
		"fail=gone":                         "nothing that can fail is called",
		"fail=tr_right&at=never":            "There is no phase called",
		"fail=tr_right&flight=old":          "no flight",
		"fail=tr_right&build=old":           "no build",
		"fail=tr_right&out=gone":            "nothing that can fail is called",
		"fail=" + strings.Repeat("x", 3000): "nothing that can fail is called",
		"fail=" + url.QueryEscape("<b>"):    "nothing that can fail is called",
		"flight=old":                        "Live a failure",
	} {
		reply, err := http.Get(r.server.URL + "/drill/?" + query)
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(reply.Body)
		reply.Body.Close()
		good := want == "The failure that you came with:" || want == "Live a failure"
		if (reply.StatusCode == http.StatusOK) != good || reply.StatusCode >= 500 || !strings.Contains(string(body), want) || !strings.Contains(string(body), `href="/`) || strings.Contains(string(body), "<b>") {
			t.Errorf("%.40s: status %d, it does not say %q: %.1500s", query, reply.StatusCode, want, body)
		}
	}
}
