package web

import (
	"testing"
	"time"

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
