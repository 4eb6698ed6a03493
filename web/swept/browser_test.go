package swept_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/web"
	"knockon/web/swept"
)

// tab is a page in a real browser.
type tab struct {
	*testing.T
	ctx context.Context
}

// browse serves the whole site and opens an address of it.
func browse(t *testing.T, width, height int64, address string) *tab {
	t.Helper()
	server := httptest.NewServer(site(t))
	t.Cleanup(server.Close)
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium(t)))
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // as root Chromium has no sandbox
	}
	allocator, end := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(end)
	ctx, closeIt := chromedp.NewContext(allocator)
	t.Cleanup(closeIt)
	b := &tab{t, ctx}
	b.do(chromedp.EmulateViewport(width, height), chromedp.Navigate(server.URL+address))
	return b
}

func chromium(t *testing.T) string {
	t.Helper()
	if path := os.Getenv("KNOCKON_CHROMIUM"); path != "" {
		return path
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("no Chromium found: install one, or say where it is in KNOCKON_CHROMIUM, to run the browser tests")
	return ""
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

func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	for _, a := range actions {
		if err := b.doOne(a); err != nil {
			b.Fatal(err)
		}
	}
}

// doOne tries once more what met a page on its way out: the browser says that the
// node is not there, and has done nothing.
func (b *tab) doOne(a chromedp.Action[chromedp.Void]) (err error) {
	for range 100 {
		if err = chromedp.Do(b.ctx, a); err == nil || !strings.Contains(err.Error(), "No node with given id") {
			return err
		}
		time.Sleep(20 * time.Millisecond)
	}
	return err
}

func try[T any](b *tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// patience is for a machine that does much else; a test that passes does not wait.
const patience = 120 * time.Second

func (b *tab) until(condition string) {
	b.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		if is, err := try[bool](b, "!!("+condition+")"); err == nil && is {
			return
		}
		if time.Now().After(deadline) {
			text, _ := try[string](b, "document.body.innerText.slice(0, 400)")
			b.Fatalf("never came true: %s; the page says: %s", condition, text)
		}
	}
}

func (b *tab) text(expression string) string {
	b.Helper()
	text, err := try[string](b, expression)
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return text
}

// TestBrowser_WorstUntoldPairInThreeClicks goes from the ways to the sweep, and
// from its first line to the answer, which must say what the line says.
func TestBrowser_WorstUntoldPairInThreeClicks(t *testing.T) {
	b := browse(t, 1280, 900, "/ways")
	clicks := 0
	click := func(selector string) {
		t.Helper()
		clicks++
		b.do(chromedp.Click(selector))
	}
	click(`.question a[href="/sweep"]`)
	b.until("location.pathname == '/sweep'")
	click("main .act button")
	b.until("document.querySelector('#together .findings li')")
	loss := b.text("document.querySelector('#together .findings .loss').innerText")
	names := b.text("document.querySelector('#together .findings a').innerText")
	function, told, _ := strings.Cut(loss, ": ")
	if told != "not told" || !strings.Contains(names, " + ") {
		t.Fatalf("the first line is %q with %q, no untold pair", names, loss)
	}
	click("#together .findings a")
	b.until("location.pathname == '/' && document.querySelector('.group.not_told .row')")
	if all := b.text("document.querySelector('.group.not_told').innerText"); !strings.Contains(all, function) {
		t.Errorf("the answer to %s does not say that %s is not told", names, function)
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
	b.do(chromedp.Click("main .act button"))
	b.until("document.querySelector('#map td.s5 a')")
	b.do(chromedp.Click("#map td.s5 a"))
	b.until("document.querySelector('#map a[href^=\"/sweep/cell\"]')")
	b.do(chromedp.Click("#map td.s5 a"))
	b.until("location.pathname == '/' && document.querySelector('.group.not_told .row')")
}

// begun presses the button that begins what the page is about, if it has one, after
// a look at it, and waits for the end.
func (b *tab) begun() {
	b.Helper()
	if b.text("String(!!document.querySelector('main .act'))") == "true" {
		b.axe("the button")
		b.do(chromedp.Click("main .act button"))
		b.until("document.readyState == 'complete' && document.querySelector('main .group') && !document.querySelector('main .act')")
	}
}

// axe runs the accessibility checker, which must find nothing.
func (b *tab) axe(what string) {
	b.Helper()
	source, err := os.ReadFile("../testdata/axe/axe.min.js")
	if err != nil {
		b.Fatal(err)
	}
	if err := chromedp.Do(b.ctx, chromedp.Evaluate[chromedp.Void](string(source))); err != nil {
		b.Fatal(err)
	}
	found := b.text(`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r =>
		r.violations.map(v => v.impact + " " + v.id + ": " + v.help + " " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + (n.any[0]?.message ?? "")).join(" | ")).join("\n"))`)
	if found != "" {
		b.Errorf("%s: axe: %s", what, found)
	}
}

// TestBrowser_EveryPageAtBothWidths: the accessibility checker finds nothing, and
// nothing hangs out of the page.
func TestBrowser_EveryPageAtBothWidths(t *testing.T) {
	for _, address := range []string{"/sweep?order=1", "/ways?function=brakes_normal&in=landing_roll", "/ways?out=tr_left", "/ways?function=brakes_norml", "/sweep/none", "/ways?function=brakes_normal&order=0"} {
		for _, width := range []int64{390, 1440} {
			b := browse(t, width, 900, address)
			b.until("document.readyState == 'complete' && document.querySelector('h1')")
			b.begun()
			b.axe(fmt.Sprint(address, " at ", width))
			if wide := b.text("String(document.documentElement.scrollWidth)"); wide != strconv.FormatInt(width, 10) {
				t.Errorf("%s is %s wide on a screen of %d", address, wide, width)
			}
		}
	}
}

func TestBrowser_FitsSmallScreens(t *testing.T) {
	for _, address := range []string{"/sweep?order=1", "/ways?function=brakes_normal"} {
		b := browse(t, 360, 740, address)
		b.begun()
		b.until("document.querySelector('.group')")
		if wide := b.text("String(document.documentElement.scrollWidth)"); wide != "360" {
			t.Errorf("%s is %s wide on a screen of 360", address, wide)
		}
	}
}
