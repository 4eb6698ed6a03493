package web

import (
	"math/rand/v2"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"knockon/book"
	"knockon/internal/browser"
)

// sheetsOf counts the pages of a printed document.
func sheetsOf(pdf []byte) int { return len(regexp.MustCompile(`/Type\s*/Page[^s]`).FindAll(pdf, -1)) }

// handed are the headline case and ten of the book's single failures, at the beginnings of
// phases, by seed.
func handed(s *Site) []string {
	b := s.shelves[0].lists.of(mustBuild(s))
	list, r := []string{demoOpening}, rand.New(rand.NewPCG(12, 0))
	var refs []string
	for _, c := range b.Chapters {
		for _, e := range c.Entries {
			refs = append(refs, e.Ref)
		}
	}
	phases := mustBuild(s).Phases
	for len(list) < 11 {
		list = append(list, "fail="+url.QueryEscape(refs[r.IntN(len(refs))])+"&at="+phases[r.IntN(len(phases))].ID)
	}
	return list
}

func mustBuild(s *Site) *book.Build {
	b, _ := s.shelves[0].desk.Book.Build("")
	return b
}

// TestBrowser_AHandoutIsOneSheet: the headline and ten other answers print on one sheet of
// A4, with all that a handout has, and with the appendix on more.
func TestBrowser_AHandoutIsOneSheet(t *testing.T) {
	s := demoSite(t)
	s.variedWithin, s.savedWithin = 2*time.Second, time.Second // what there is no time for says so, and takes its room all the same
	for i, q := range handed(s) {
		b := browse(t, s, 1440, 900, "/handout?"+q)
		b.Until("document.querySelector('.sheet h1')")
		if _, err := chromedp.Call(b.Ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
			t.Fatal(err)
		}
		b.Do(chromedp.EmulateViewport(703, 1032)) // A4 within its margins
		high := browser.Eval[float64](b, "document.querySelector('.sheet').getBoundingClientRect().height * 0.75")
		if pdf := b.pdf(); sheetsOf(pdf) != 1 {
			t.Errorf("%s: %d sheets; it is %.0f points high", q, sheetsOf(pdf), high)
		}
		t.Logf("%s: %.0f of 774 points", q, high)
		text := browser.Eval[string](b, "document.querySelector('.sheet').innerText")
		for _, want := range []string{"Keep", "The list", "Rescue", "Builds", "Sources", "Again\n", "knockon handout ", "The same failure at the beginning of each phase", book.Caution} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the handout does not say %q", q, want)
			}
		}
		if strings.Contains(text, "127.0.0.1") || strings.Contains(text, "http") {
			t.Errorf("%s: the handout names the machine", q)
		}
		if rows := browser.Eval[int](b, "document.querySelectorAll('.told tbody tr').length"); rows > 8 {
			t.Errorf("%s: %d moments", q, rows)
		}
		if mm := browser.Eval[float64](b, "document.querySelector('.sheet svg').getBoundingClientRect().height") * 25.4 / 96; mm > 60 {
			t.Errorf("%s: a picture %.0f mm high", q, mm)
		}
		if i == 0 {
			b.Do(chromedp.Navigate(b.base + "/handout?" + q + "&appendix=yes"))
			b.Until("document.querySelector('.appendix')")
			if n := sheetsOf(b.pdf()); n < 2 {
				t.Errorf("%d sheets with the appendix", n)
			}
		}
	}
}

func (b *tab) pdf() []byte {
	b.Helper()
	pdf, err := chromedp.Run(b.Ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		b.Fatal(err)
	}
	return pdf
}

// TestBrowser_AHandoutIsOneClickFromItsAnswer, is accessible at both widths, and leads back.
func TestBrowser_AHandoutIsOneClickFromItsAnswer(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, ternSite(t), size[0], size[1], "/?"+opening)
			b.Do(chromedp.Click(`a[href^="/handout?"]`))
			b.Until("document.querySelector('.sheet h1')")
			b.Shoot("handout-" + name)
			b.Axe()
			if over := browser.Eval[float64](b, "document.documentElement.scrollWidth"); over > float64(size[0]) {
				t.Errorf("the page is %v points wide", over)
			}
			b.Do(chromedp.Click(`.ways-on a[href^="/?"]`))
			b.says("follow from what is told")
		})
	}
}

// TestHandout_AsAFile needs nothing beside itself, and says why where it cannot be made.
func TestHandout_AsAFile(t *testing.T) {
	s := ternSite(t)
	w := get(s, "/handout.html?"+opening)
	if body := w.Body.String(); w.Code != 200 || !strings.Contains(body, "<style>") || strings.Contains(body, "<link") || strings.Contains(body, "<script") || strings.Contains(body, "127.0.0.1") {
		t.Errorf("status %d, %d bytes", w.Code, len(body))
	}
	if got := w.Header().Get("Content-Disposition"); !strings.Contains(got, "handout.html") {
		t.Error(got)
	}
	if w := get(s, "/handout?fail=sorce_1"); w.Code != 400 || !strings.Contains(w.Body.String(), "source_1") {
		t.Errorf("status %d", w.Code)
	}
}
