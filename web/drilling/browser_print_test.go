package drilling_test

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"knockon/internal/browser"
)

// paper lays the page out as it prints, or as it stands on the screen again.
func (b *tab) paper(media string) {
	b.Helper()
	if _, err := chromedp.Call(b.Ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media}); err != nil {
		b.Fatal(err)
	}
}

// prints fails where the page has something to press or fill in on paper, or lacks what
// it is printed for.
func (b *tab) prints(name string, wants ...string) {
	b.Helper()
	visible := "[...document.querySelectorAll('button, select, textarea, input:not([type=hidden]), .leave a, .jump a')].filter((e) => e.checkVisibility()).map((e) => e.id || e.textContent).join('; ')"
	if on := browser.Eval[string](b, visible); on == "" {
		b.Errorf("%s: nothing to press on the screen", name)
	}
	b.paper("print")
	defer b.paper("")
	if on := browser.Eval[string](b, visible); on != "" {
		b.Errorf("%s: on paper one can press %s", name, on)
	}
	b.Shoot("print-" + name)
	text := browser.Eval[string](b, "document.body.innerText")
	for _, want := range append(wants, "not for use in flight") {
		if !strings.Contains(text, want) {
			b.Errorf("%s: %q is not on paper: %s", name, want, text)
		}
	}
}

// TestBrowser_DrillOnPaper: what is known, told and true, and nothing to press.
func TestBrowser_DrillOnPaper(t *testing.T) {
	r := ticking(t)
	b := begins(t, r, 1440, 900)
	b.prints("alone", "What you are told", "Checklists", "What you know without looking")
	b = device(t, r, 1440, 900, "/drill/")
	b.prints("begin", "Live a failure")
	b.Do(chromedp.Click("#choose > summary"), chromedp.Click("button[value=crew]"))
	b.Until("document.querySelector('.seats')")
	b.prints("people", "Who is who")
	b.Do(chromedp.Click("main a[href='./']"))
	b.Until(live)
	r.watch.pass(70 * time.Second)
	b.Until("document.querySelectorAll('#failed li').length > 0")
	b.prints("instructor", "Programme", "Failed", "Notes for the debrief")
}
