package swept_test

import (
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"knockon/ask"
	"knockon/internal/browser"
	"knockon/internal/corvane"
	"knockon/web"
	"knockon/web/swept"
)

func TestMain(m *testing.M) { browser.Main(m) }

// tab is a page of the whole site.
type tab struct{ *browser.Tab }

// browse serves the whole site and opens an address of it.
func browse(t *testing.T, width, height int64, address string) *tab {
	t.Helper()
	server := httptest.NewServer(site(t))
	t.Cleanup(server.Close)
	return &tab{browser.Open(t, width, height, server.URL+address)}
}

func site(t *testing.T) http.Handler {
	t.Helper()
	b := corvane.Book(t)
	desk := ask.NewDesk(b)
	pages, err := swept.New(desk, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(pages.Close)
	s, err := web.New(web.Setting{More: pages.Mounts()}, desk)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestBrowser_WorstHiddenPairInThreeClicks goes from the ways to the sweep, and
// from its first line to the answer, which must say what the line says.
func TestBrowser_WorstHiddenPairInThreeClicks(t *testing.T) {
	b := browse(t, 1280, 900, "/ways")
	clicks := 0
	click := func(selector string) {
		t.Helper()
		clicks++
		b.Do(chromedp.Click(selector))
	}
	click(`.question a[href="/sweep"]`)
	b.Until("location.pathname == '/sweep'")
	click("main .act button")
	b.Until("document.querySelector('#together .findings li')")
	loss := browser.Eval[string](b, "document.querySelector('#together .findings .losses').innerText.split(/[;.]/)[0]")
	names := browser.Eval[string](b, "document.querySelector('#together .findings a').innerText")
	function, told, _ := strings.Cut(loss, ": ")
	if told != "hidden" && told != "denied" || !strings.Contains(names, " + ") {
		t.Fatalf("the first line is %q with %q, no pair that nobody knows of", names, loss)
	}
	click("#together .findings a")
	b.Until("location.pathname == '/' && document.querySelector('.group .row')")
	// The sweep counts to the end what is lost; an answer stops where nobody can fly on.
	all := browser.Eval[string](b, "[...document.querySelectorAll('.hidden, .denied, .found_when_used, .late, .follows, .noticed')].map(g => g.innerText).join(' ')")
	unflown := strings.Contains(browser.Eval[string](b, "document.querySelector('main').innerText"), "can no longer be flown")
	if !strings.Contains(all, function) && !(unflown && strings.Contains(all, "Pitch control")) {
		t.Errorf("the answer to %s does not say that %s is lost", names, function)
	}
	if clicks > 3 {
		t.Errorf("it took %d clicks", clicks)
	}
	t.Logf("%d clicks to %s: %s", clicks, names, loss)
}

// TestBrowser_MapZoomsToAnAnswer opens a dark cell of the chapters, then a dark
// cell of their units.
func TestBrowser_MapZoomsToAnAnswer(t *testing.T) {
	b := browse(t, 1280, 900, "/sweep")
	b.Do(chromedp.Click("main .act button"))
	b.Until("document.querySelector('#map td.s5 a')")
	b.Do(chromedp.Click("#map td.s5 a"))
	b.Until("document.querySelector('#map a[href^=\"/sweep/cell\"]')")
	b.Do(chromedp.Click("#map td.s5 a"))
	b.Until("location.pathname == '/' && document.querySelector('.group .row')")
}

// begun presses the button that begins what the page is about, if it has one, after
// a look at it, and waits for the end.
func (b *tab) begun() {
	b.Helper()
	if browser.Eval[string](b, "String(!!document.querySelector('main .act'))") == "true" {
		b.Axe()
		b.Do(chromedp.Click("main .act button"))
		b.Until("document.readyState == 'complete' && document.querySelector('main .group') && !document.querySelector('main .act')")
	}
}

// TestBrowser_EveryPageAtBothWidths: the accessibility checker finds nothing, and
// nothing hangs out of the page.
func TestBrowser_EveryPageAtBothWidths(t *testing.T) {
	for _, address := range []string{"/sweep?order=1", "/assess?order=1", "/ways?function=brakes_normal&in=landing_roll", "/ways?out=tr_left", "/ways?function=brakes_norml", "/sweep/none", "/ways?function=brakes_normal&order=0"} {
		for _, width := range []int64{390, 1440} {
			b := browse(t, width, 900, address)
			b.Until("document.readyState == 'complete' && document.querySelector('h1')")
			b.begun()
			b.Axe()
			if wide := browser.Eval[string](b, "String(document.documentElement.scrollWidth)"); wide != strconv.FormatInt(width, 10) {
				t.Errorf("%s is %s wide on a screen of %d", address, wide, width)
			}
		}
	}
}

func TestBrowser_FitsSmallScreens(t *testing.T) {
	for _, address := range []string{"/sweep?order=1", "/assess?order=1", "/ways?function=brakes_normal"} {
		b := browse(t, 360, 740, address)
		b.begun()
		b.Until("document.querySelector('.group')")
		if wide := browser.Eval[string](b, "String(document.documentElement.scrollWidth)"); wide != "360" {
			t.Errorf("%s is %s wide on a screen of 360", address, wide)
		}
	}
}
