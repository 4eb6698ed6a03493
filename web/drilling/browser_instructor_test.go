package drilling_test

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

// TestBrowser_AnInstructorInSixActions: from the front page over an exercise that is
// searched for to the debrief of its drill.
func TestBrowser_AnInstructorInSixActions(t *testing.T) {
	r := ticking(t)
	b := device(t, r, 1440, 900, "/")
	actions := 0
	click := func(what string) {
		t.Helper()
		actions++
		b.Until("document.querySelector(" + browser.Quote(what) + ")")
		b.Do(chromedp.Click(what))
	}
	click("a[href='/drill/']")
	click("#choose > summary")
	b.Until("document.getElementById('search').checkVisibility()")
	b.Axe()
	b.Shoot("choose")
	actions++
	b.Do(chromedp.Focus("#search"), chromedp.KeyEvent("generator"), chromedp.KeyEvent(kb.Enter))
	b.Until("document.getElementById('found').textContent.startsWith('Chosen: ')")
	click("button[value=crew]")
	click("main a[href='./']")
	b.Until(live)
	r.watch.pass(70 * time.Second)
	b.Until("document.querySelectorAll('#failed li').length > 0 && document.querySelector('.cues .past')")
	b.Shoot("programme")
	b.Axe()
	click("#leave")
	b.Until("document.querySelector('main.debrief')")
	if actions > 6 {
		t.Errorf("%d actions", actions)
	}
	if text := browser.Eval[string](b, "document.querySelector('main').innerText"); !strings.Contains(text, "failed at") || !strings.Contains(text, "Not reached") {
		t.Errorf("the debrief: %s", text)
	}
}

// TestBrowser_AnInstructorByTheKeyboard does the same in eight actions, and notes
// something on the way, which the debrief has.
func TestBrowser_AnInstructorByTheKeyboard(t *testing.T) {
	r := ticking(t)
	b := device(t, r, 390, 844, "/")
	actions := 0
	enter := func(condition string, keys ...string) {
		t.Helper()
		actions++
		b.tabTo(condition)
		for _, k := range keys {
			b.Do(chromedp.KeyEvent(k))
		}
		b.Press(kb.Enter)
	}
	enter("e.getAttribute('href') === '/drill/'")
	b.Until("document.getElementById('choose')")
	enter("e.parentElement.id === 'choose'")
	enter("e.id === 'search'", "generator")
	b.Until("document.getElementById('found').textContent.startsWith('Chosen: ')")
	enter("e.value === 'crew'")
	b.Until("document.querySelector('.seats')")
	enter("e.getAttribute('href') === './'")
	b.Until(live)
	r.watch.pass(70 * time.Second)
	b.Until("document.querySelectorAll('#failed li').length > 0")
	enter("e.id === 'note'", "watch the bus")
	b.Until("document.querySelector('#notes li')?.textContent.endsWith('watch the bus')")
	enter("e.id === 'leave'")
	b.Until("document.querySelector('main.debrief')")
	if actions > 8 {
		t.Errorf("%d actions", actions)
	}
	if text := browser.Eval[string](b, "document.querySelector('main').innerText"); !strings.Contains(text, "watch the bus") {
		t.Errorf("the debrief: %s", text)
	}
}
