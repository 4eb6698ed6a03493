package web

import (
	"html"
	"strings"
	"testing"
)

// TestPage_SaysWhereAGaugeLed: with a crew, as a page and as JSON; hands off nobody
// looks.
func TestPage_SaysWhereAGaugeLed(t *testing.T) {
	site := demoSite(t)
	const query, lie = "fail=gen_left&out=static_left.blocked&at=cruise&flight=northern_link", "the crew saw Left altitude at 60 ft, while 34,000 ft was true: they answered yes"
	for address, there := range map[string]bool{"/?" + query: true, "/answer.json?" + query: true, "/?" + query + "&crew=none": false, "/answer.json?" + query + "&crew=none": false} {
		body := html.UnescapeString(get(site, address).Body.String())
		if strings.Contains(body, lie) != there {
			t.Errorf("%s: the lie is told: %v", address, !there)
		}
	}
}
