package drilling_test

import (
	"net/url"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

func TestMain(m *testing.M) { browser.Main(m) }

// tab is a page of the hall.
type tab struct{ *browser.Tab }

// device opens an address on a device of its own.
func device(t *testing.T, r *room, width, height int64, address string) *tab {
	t.Helper()
	return &tab{browser.Open(t, width, height, r.server.URL+address)}
}

// ticking is a room whose clock never stands quite still.
func ticking(t *testing.T) *room {
	t.Helper()
	browser.Path(t)
	r := enter(t, t.TempDir())
	r.watch.tick = 50 * time.Microsecond
	return r
}

// begins asks for the demonstration failure on the start page and begins alone.
func begins(t *testing.T, r *room, width, height int64) *tab {
	t.Helper()
	b := device(t, r, width, height, "/drill/?"+url.Values{"fail": left.Fail[0].What, "at": {left.Fail[0].At}, "flight": {left.Flight}}.Encode())
	b.Do(chromedp.Click("button[value=alone]"))
	b.Until(live)
	return b
}

const live = "document.body.dataset.live"

// told waits for an alert.
func (b *tab) told(message string) {
	b.Helper()
	b.Until("[...document.querySelectorAll('#alerts .message')].some(m => m.textContent === " + browser.Quote(message) + ")")
}

// takes takes a list in hand by a search.
func (b *tab) takes(list string) {
	b.Helper()
	b.Do(chromedp.Focus("#take-find"), chromedp.KeyEvent(list), chromedp.KeyEvent(kb.Enter))
	b.Until("[...document.querySelectorAll('#lists h3')].some(h => h.textContent === " + browser.Quote(list) + ")")
}

// moves moves a control and waits until it stands there.
func (b *tab) moves(control, to string) {
	b.Helper()
	is := "document.querySelector('button[data-control=" + control + "][value=" + to + "]')"
	b.Do(chromedp.Evaluate[chromedp.Void](is + ".click()"))
	b.Until(is + ".getAttribute('aria-pressed') === 'true'")
}

// ticks finishes a line, or answers it, by its number.
func (b *tab) ticks(number, how string) {
	b.Helper()
	row := "document.querySelector('#lists li[data-key=" + browser.Quote(number) + "]')"
	b.Until(row)
	b.Do(chromedp.Evaluate[chromedp.Void]("[..." + row + ".querySelectorAll('button')].find(b => b.textContent === " + browser.Quote(how) + ").click()"))
	b.Until(row + ".classList.contains('done')")
}
