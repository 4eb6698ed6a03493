package web

import (
	"cmp"
	"encoding/json"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

var (
	rowPattern    = regexp.MustCompile(`<details class="row" id="([^"]+)"`)
	choicePattern = regexp.MustCompile(`<li><a id="choice-\d+-\d+" href="([^"]+)"( aria-current="true")?>([^<]+)</a> <span class="count">(\d+)</span>`)
	shownPattern  = regexp.MustCompile(`id="shown">([^<]*)`)
)

// rowsAt lists the rows of a page, what it says of them, and its choices.
func rowsAt(t *testing.T, s http.Handler, address string) (rows []string, says string, choices [][]string) {
	t.Helper()
	w := get(s, address)
	if w.Code != http.StatusOK {
		t.Fatalf("%s: status %d", address, w.Code)
	}
	body := w.Body.String()
	for _, m := range rowPattern.FindAllStringSubmatch(body, -1) {
		rows = append(rows, m[1])
	}
	if m := shownPattern.FindStringSubmatch(body); m != nil {
		says = m[1]
	}
	return rows, says, choicePattern.FindAllStringSubmatch(body, -1)
}

func unescaped(address string) string {
	return strings.ReplaceAll(strings.TrimSuffix(address, "#rows"), "&amp;", "&")
}

// TestOnly_EveryChoiceLeadsToAsManyRows: the count beside each choice is that of the
// rows of the page that it leads to; chosen again it is left out.
func TestOnly_EveryChoiceLeadsToAsManyRows(t *testing.T) {
	s := ternSite(t)
	const query = "/?fail=brake_box&fail=fan&build=plain&at=climb"
	all, says, choices := rowsAt(t, s, query)
	if len(choices) < 8 || says != "All "+strconv.Itoa(len(all))+" rows are shown." {
		t.Fatalf("%d choices, says %q", len(choices), says)
	}
	for _, c := range choices {
		rows, says, after := rowsAt(t, s, unescaped(c[1]))
		if n, _ := strconv.Atoi(c[4]); n != len(rows) || n == 0 || !strings.HasPrefix(says, c[4]+" of "+strconv.Itoa(len(all))+" rows shown: ") || !strings.Contains(says, c[3]) {
			t.Errorf("%s: %d rows beside %s: %s", c[1], len(rows), c[4], says)
		}
		i := slices.IndexFunc(after, func(x []string) bool { return x[3] == c[3] && x[2] != "" })
		if len(after) != len(choices) || i < 0 {
			t.Fatalf("%s: choices have moved: %v", c[1], after)
		}
		if back, _, _ := rowsAt(t, s, unescaped(after[i][1])); !slices.Equal(back, all) {
			t.Errorf("%s: left out again there are %d rows of %d", c[1], len(back), len(all))
		}
	}
}

// TestOnly_NoneSaysSoWithAWayOut, and what is not shown is still led to, on the page of
// the whole answer.
func TestOnly_NoneSaysSoWithAWayOut(t *testing.T) {
	s := ternSite(t)
	const query = "/?fail=brake_box&fail=fan&build=plain&at=climb&group=hidden&has=nowhere"
	body := get(s, query).Body.String()
	for _, want := range []string{"0 of ", "No row fits all of this.", `>Without the words: `, `>All rows</a>`, `class="wish" name="group" value="hidden"`, `name="has" type="search" value="nowhere"`} {
		if !strings.Contains(body, want) {
			t.Errorf("%q is missing", want)
		}
	}
	if rowPattern.MatchString(body) {
		t.Error("there are rows")
	}
	for _, m := range regexp.MustCompile(`href="([^"]*)#(row-[^"]+|group-[^"]+)"`).FindAllStringSubmatch(body, -1) {
		whole := get(s, cmp.Or(unescaped(m[1]), query)).Body.String()
		if !strings.Contains(whole, `id="`+m[2]+`"`) {
			t.Errorf("%s#%s leads nowhere", m[1], m[2])
		}
	}
	if strings.Count(body, `#row-`) < 3 {
		t.Error("hardly any row is led to")
	}
}

// TestOnly_BadChoices: said in words, the others kept; a file with rows left out says so.
func TestOnly_BadChoices(t *testing.T) {
	s := ternSite(t)
	const query = "fail=brake_box&build=plain&at=climb"
	for bad, want := range map[string]string{
		"phase=climbs": "there is no phase", "chapter=brakes": "such as 24", "severity=bad": "there is no severity", "group=x": "there is no group", "figure=all": "there is no figure",
		strings.Repeat("x", 300) + "=1": "there is no part",
	} {
		w := get(s, "/?"+query+"&"+bad+"&group=told")
		if w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%.40s: status %d", bad, w.Code)
		}
	}
	many := url.Values{}
	for i := range 200 {
		many.Add("has", "w"+strconv.Itoa(i))
	}
	if w := get(s, "/?"+query+"&"+many.Encode()); w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), "at most 120 choices of rows") {
		t.Errorf("200 words: status %d", w.Code)
	}
	var v struct {
		Question string
		Ledger   struct {
			Only   struct{ Rows, Of int }
			Groups []struct{ Rows []any }
		}
	}
	if err := json.Unmarshal(get(s, "/answer.json?"+query+"&fail=fan&has=brake").Body.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, g := range v.Ledger.Groups {
		n += len(g.Rows)
	}
	if n == 0 || n != v.Ledger.Only.Rows || n >= v.Ledger.Only.Of || !strings.HasSuffix(v.Question, "&has=brake") {
		t.Errorf("%d rows, %+v", n, v)
	}
}

// TestBrowser_RowsAreChosen: by pointer and by keyboard; what is chosen is in the
// address, Back takes it out, another question keeps it, and the choices stay where they
// are on the screen.
func TestBrowser_RowsAreChosen(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?fail=brake_box&fail=fan&build=plain&at=climb")
	rows := func() int { return browser.Eval[int](b, "document.querySelectorAll('.row').length") }
	all := rows()
	b.Do(chromedp.Evaluate[chromedp.Void]("document.getElementById('vary').dataset.mine = 'yes'; document.querySelector('.facets').open = true; document.getElementById('rows').scrollIntoView()"))
	place := "document.getElementById('rows').getBoundingClientRect().top"
	before := browser.Eval[float64](b, place)
	told := `[...document.querySelectorAll('.facets a')].find((a) => a.textContent === 'Told')`
	b.Do(chromedp.Evaluate[chromedp.Void](told + ".focus()"))
	b.Press(kb.Enter)
	b.Until("location.search.includes('&group=told') && document.getElementById('shown').textContent.includes('“Told”')")
	if n := rows(); n == 0 || n >= all {
		t.Errorf("%d rows of %d", n, all)
	}
	if after := browser.Eval[float64](b, place); after-before > 1 || before-after > 1 {
		t.Errorf("the choices moved from %.0f to %.0f", before, after)
	}
	b.Until("document.activeElement.textContent === 'Told' && document.querySelector('.facets').open && document.getElementById('vary')?.dataset.mine !== undefined")
	b.Do(chromedp.SetValue("#has", "brake"), chromedp.Focus("#has"))
	b.Press(kb.Enter)
	b.Until("location.search.includes('&group=told&has=brake') && document.activeElement.id === 'has'")
	b.Axe()
	b.Until("document.getElementById('heard').textContent.includes('rows shown')")
	b.Do(chromedp.SetValue("#at", "cruise"), chromedp.Click("button.answer"))
	b.Until("location.search.includes('at=cruise') && location.search.includes('&group=told&has=brake')")
	for _, want := range []string{"location.search.includes('at=climb') && location.search.includes('has=brake')", "!location.search.includes('has=brake') && location.search.includes('group=told')", "!location.search.includes('group=told')"} {
		b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
		b.Until(want)
	}
	b.Until("document.querySelectorAll('.row').length === " + strconv.Itoa(all))
	b.Axe()
}
