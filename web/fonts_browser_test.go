package web

import (
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/chromedp"

	"knockon/figure/face"
	"knockon/internal/browser"
)

func call[P, R any](b *tab, command cdp.Command[P, R], params P) R {
	b.Helper()
	got, err := chromedp.Call(b.Ctx, command, params)
	if err != nil {
		b.Fatal(err)
	}
	return got
}

// Whatever fonts the machine has, pages and pictures are set in those that the
// program serves.
func TestBrowser_TextIsInTheFontsThatComeAlong(t *testing.T) {
	b := browse(t, demoSite(t), 1440, 900, "/?"+demoOpening)
	b.Do(chromedp.Click(".group.denied .row > summary"))
	b.Until("document.querySelector('.row[open] svg.chain') && document.fonts.status === 'loaded'")
	call(b, dom.Enable, dom.EnableParams{})
	call(b, css.Enable, cdp.Empty{})
	root := call(b, dom.GetDocument, dom.GetDocumentParams{}).Root.NodeID
	for _, selector := range []string{"h1", "#lead", ".running .aircraft a", ".running .caution", ".row > summary *", ".chain-words *", "svg.line.wide text", "svg.chain text", "button", "label"} {
		letters := 0.0
		for i, node := range call(b, dom.QuerySelectorAll, dom.QuerySelectorAllParams{NodeID: root, Selector: selector}).NodeIDs {
			if i == 12 {
				break
			}
			for _, f := range call(b, css.GetPlatformFontsForNode, css.GetPlatformFontsForNodeParams{NodeID: node}).Fonts {
				letters += f.GlyphCount
				if !f.IsCustomFont {
					t.Errorf("%s: %v letters are in %s, a font of the machine", selector, f.GlyphCount, f.FamilyName)
				}
			}
		}
		if letters == 0 {
			t.Errorf("%s: the page has no such text", selector)
		}
	}
}

// What a picture counts on is what a browser makes of it.
func TestBrowser_TextsAreAsWideAsMeasured(t *testing.T) {
	b := browse(t, demoSite(t), 1440, 900, "/?"+demoOpening)
	b.Until("document.fonts.status === 'loaded'")
	type text struct {
		Words        string
		Size, Length float64
		Slants       bool
	}
	texts := browser.Eval[[]text](b, `[...document.querySelectorAll('svg.line.wide text')].map(t => { const s = getComputedStyle(t);
		return {Words: t.textContent, Size: parseFloat(s.fontSize), Length: t.getComputedTextLength(), Slants: s.fontStyle === 'italic'} })`)
	if len(texts) < 20 {
		t.Fatalf("only %d texts", len(texts))
	}
	for _, got := range texts {
		cut := face.Upright
		if got.Slants {
			cut = face.Italic
		}
		if want := face.Of(cut).Width(got.Words, got.Size); got.Length > want+0.3 || got.Length < want-0.3 {
			t.Errorf("%q is %.2f wide in the browser, measured %.2f", got.Words, got.Length, want)
		}
	}
}
