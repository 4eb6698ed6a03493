package web

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

// TestBrowser_WhatMattersIsOnTheFirstScreen: what happened, every point and the waves
// are seen without scrolling at 1440 by 900, and within two screens of a telephone.
func TestBrowser_WhatMattersIsOnTheFirstScreen(t *testing.T) {
	for name, c := range map[string]struct{ width, height, screens int64 }{"wide": {1440, 900, 1}, "narrow": {390, 844, 2}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), c.width, c.height, "/?"+demoOpening)
			b.says("denied by what is shown")
			if n := browser.Eval[int](b, "document.querySelectorAll('.worth li').length"); n < 3 || n > 7 {
				t.Errorf("%d points", n)
			}
			if n := browser.Eval[int](b, "document.querySelectorAll('.waves > ol > li').length"); n < 3 {
				t.Errorf("%d waves", n)
			}
			for _, part := range []string{"main > h1", "#lead", ".worth li:last-child", ".waves > ol > li:last-child"} {
				if end := browser.Eval[float64](b, "document.querySelector("+browser.Quote(part)+").getBoundingClientRect().bottom + scrollY"); end > float64(c.height*c.screens) || end < 1 {
					t.Errorf("%s ends at %v, of %d", part, end, c.height*c.screens)
				}
			}
		})
	}
}

// TestBrowser_FigureFitsTheScreen: with what goes together and the alerts, whose bars
// lead to them; it unfolds to a bar for each row, which is a step that one goes back from,
// and is so from the address alone.
func TestBrowser_FigureFitsTheScreen(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/?"+demoOpening)
			bars := func() int { return browser.Eval[int](b, "document.querySelectorAll('svg.line."+name+" .bar').length") }
			high := func(of string) int {
				return browser.Eval[int](b, "Math.ceil(document.querySelector('"+of+"').getBoundingClientRect().height)")
			}
			if n := high(".line-figure"); n > int(size[1]) || n < 300 {
				t.Errorf("the figure is %d high", n)
			}
			few := bars()
			wave := "document.querySelector('svg.line." + name + " a[href^=\"#wave-\"]')"
			b.Do(chromedp.Evaluate[chromedp.Void](wave + ".dispatchEvent(new MouseEvent('click', {bubbles: true, cancelable: true}))"))
			b.Until("document.querySelector(" + wave + ".getAttribute('href')).open")
			b.Shoot("folded-" + name)
			b.Do(chromedp.Evaluate[chromedp.Void]("document.getElementById('unfold').scrollIntoView(); document.getElementById('unfold').focus()"))
			b.Press(kb.Enter)
			b.Until("location.search.includes('&figure=rows') && document.activeElement.id === 'unfold' && document.getElementById('unfold').textContent.startsWith('Only')")
			if many := bars(); many < few+50 || many < browser.Eval[int](b, "document.querySelectorAll('.row[id^=row-loss-]').length") {
				t.Errorf("%d bars, unfolded %d", few, many)
			}
			b.Do(chromedp.Evaluate[chromedp.Void]("history.back()"))
			b.Until("!location.search.includes('figure=') && document.getElementById('unfold').textContent === 'A bar for each row'")
			if n := bars(); n != few {
				t.Errorf("%d bars, back %d", few, n)
			}
		})
	}
}

// TestBrowser_OtherRunsMoveNothing: what other runs make of the answer comes into places
// that are kept for it: what stands below stays where it was, and the texts fit or can be
// scrolled by keyboard.
func TestBrowser_OtherRunsMoveNothing(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			s := demoSite(t)
			s.variedWithin, s.savedWithin = 20*time.Second, 20*time.Second // not about speed
			a, err := s.shelves[0].kept.answer(t.Context(), s.parse(values(demoOpening)).typed())
			if err != nil {
				t.Fatal(err)
			}
			a.varying.Lock() // until the page has been measured
			a.saving.Lock()
			b := browse(t, s, size[0], size[1], "/?"+demoOpening)
			b.Until("document.querySelector('.vary-lead').textContent === 'Other runs are being flown.'")
			const below = "document.querySelector('.line-figure').getBoundingClientRect().top + scrollY"
			before := browser.Eval[float64](b, below)
			a.varying.Unlock()
			a.saving.Unlock()
			b.Until("document.querySelectorAll('#varied .says').length === 6 && document.querySelector('#varied-rescue .says')")
			b.Until("document.querySelector('.vary-lead').textContent.includes('of them add')")
			if after := browser.Eval[float64](b, below); after != before {
				t.Errorf("the figure moved from %v to %v", before, after)
			}
			b.Until("[...document.querySelectorAll('#varied li, #varied-rescue')].every(p => p.scrollHeight <= p.clientHeight + 1 || p.tabIndex === 0)")
			b.Shoot("vary-" + name)
			b.Axe()
		})
	}
}
