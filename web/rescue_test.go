package web

import (
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"knockon/book"
)

// TestRescue_FromTheRowOfALoss: a row of a loss that mattered leads to what saves
// it, which says what was tried, under the caution; what is no loss has no such page.
func TestRescue_FromTheRowOfALoss(t *testing.T) {
	s := ternSite(t)
	page := html.UnescapeString(get(s, "/?"+opening).Body.String())
	m := regexp.MustCompile(`href="(/rescue\?[^"]*&row=loss-[a-z_0-9]+)"`).FindStringSubmatch(page)
	if m == nil {
		t.Fatal("no row leads to what saves it")
	}
	w := get(s, m[1])
	body := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusOK || !strings.Contains(body, book.Caution) || !strings.Contains(body, "what saves it</h1>") {
		t.Fatalf("%s: status %d\n%s", m[1], w.Code, body)
	}
	if !strings.Contains(body, "is lost, and wanted, from") && !strings.Contains(body, "nothing to rescue") {
		t.Errorf("it does not say what is lost:\n%s", body)
	}
	for _, row := range []string{"alert-nobody", "loss-nobody", ""} {
		if w := get(s, "/rescue?"+opening+"&row="+row); w.Code != http.StatusNotFound {
			t.Errorf("row %q: status %d", row, w.Code)
		}
	}
}
