package web

import (
	"bytes"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"knockon/internal/browser"
)

func TestMain(m *testing.M) { browser.Main(m) }

// tab is a page of a site that is served at base.
type tab struct {
	*browser.Tab
	base string
}

// browse serves a site and opens a tab of the given size on an address of it.
func browse(t *testing.T, s *Site, width, height int64, address string) *tab {
	t.Helper()
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return &tab{browser.Open(t, width, height, server.URL+address), server.URL}
}

// says waits until the answer's sentence holds a text.
func (b *tab) says(text string) {
	b.Helper()
	b.Until("document.getElementById('lead')?.textContent.includes(" + browser.Quote(text) + ")")
}

// inGroup waits until a row stands in a group of the ledger.
func (b *tab) inGroup(row, group string) {
	b.Helper()
	b.Until("document.getElementById('row-" + row + "')?.closest('.group')?.id === 'group-" + group + "'")
}

// place is the middle of an element on the screen.
func (b *tab) place(selector string) (x, y float64) {
	b.Helper()
	at := browser.Eval[[]float64](b, "(() => { const r = document.querySelector("+browser.Quote(selector)+").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2] })()")
	return at[0], at[1]
}

// placeOf is where a moment in seconds lies on the wide line.
func (b *tab) placeOf(seconds string) float64 {
	b.Helper()
	return browser.Eval[float64](b, `(() => { const s = document.querySelector('svg.line.wide'); const r = s.getBoundingClientRect();
		return r.left + between(axis(s).t, axis(s).x, `+seconds+`) * r.width / s.viewBox.baseVal.width })()`)
}

func (b *tab) mouse(kind input.DispatchMouseEventType, x, y float64) {
	b.Helper()
	b.Do(chromedp.MouseEvent(kind, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

const begins = "axis(document.querySelector('svg.line.wide')).t"

func TestBrowser_ChooseByNameDragAcrossAndReload(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?build=plain")
	b.Until("document.querySelector('#catalogue li')")
	b.Do(chromedp.Focus("#q"), chromedp.KeyEvent("brake"))
	b.Until("document.querySelectorAll('#catalogue li:not([hidden])').length === 1")
	b.Press(kb.Enter)
	b.inGroup("loss-brakes", "told") // at the start of the flight, nothing is held back
	b.Until("location.search.includes('fail=brake_box')")

	// Into the take-off, where the alert is held back until the climb.
	x, y := b.place("svg.line.wide .mark .handle")
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	takeOff := b.placeOf(begins + "[1] + 5")
	for step := range 12 {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x+(takeOff-x)*float64(step+1)/12, y)
	}
	b.inGroup("loss-brakes", "late")
	// Over the climb, where it is given at once, into the landing roll, where it never is.
	b.mouse(input.DispatchMouseEventTypeMouseMoved, b.placeOf(begins+"[2] + 30"), y)
	b.inGroup("loss-brakes", "told")
	b.mouse(input.DispatchMouseEventTypeMouseMoved, b.placeOf(begins+"[5] + 3"), y)
	b.says("wheel brakes, all wheels")
	b.mouse(input.DispatchMouseEventTypeMouseReleased, b.placeOf(begins+"[5] + 3"), y)
	b.Until("location.search.includes('at=landing_roll')")
	b.inGroup("loss-brakes", "hidden")
}

func TestBrowser_MoveByKeyboard(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?fail=brake_box&at=climb+%2B+60+s")
	b.inGroup("loss-brakes", "told")
	b.Do(chromedp.Focus("svg.line.wide .mark"))
	now := "document.querySelector('svg.line.wide .mark').getAttribute('aria-valuetext')"
	for _, c := range []struct {
		key   string
		shift bool
		want  string
	}{
		{kb.ArrowRight, false, "climb + 70 s"}, {kb.ArrowLeft, false, "climb + 60 s"}, {kb.ArrowLeft, true, "climb"},
		{kb.Home, false, "take off"}, {kb.End, false, "climb"}, {kb.End, false, "cruise"}, {kb.Home, false, "climb"}, {kb.Home, false, "take off"},
	} {
		var keys []chromedp.KeyOption
		if c.shift {
			keys = append(keys, chromedp.KeyModifiers(kb.ModifierShift))
		}
		b.Do(chromedp.KeyEvent(c.key, keys...))
		b.Until(now + " === " + browser.Quote(c.want))
	}
	b.inGroup("loss-brakes", "late")
	b.Until("document.activeElement.matches('svg.line.wide .mark')")
	b.Until("document.getElementById('at').value === 'take_off'")
	b.Until("location.search.includes('at=take_off')")
}

func TestBrowser_OpenAChainAndReload(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.Do(chromedp.Focus("#row-loss-cabin_air > summary"))
	b.Press(kb.Enter)
	b.Until("document.querySelector('#row-loss-cabin_air .chain-words')?.textContent.includes('Second source')")
	b.Until("document.querySelector('#row-loss-cabin_air svg.chain')")
	b.Until("location.search.includes('why=loss-cabin_air')")
	b.Do(chromedp.Reload())
	b.Until("document.querySelector('#row-loss-cabin_air[open] .chain-words')?.textContent.includes('Second source')")
	b.Until("document.getElementById('row-loss-cabin_air')")
	// The chain follows the question.
	b.Do(chromedp.Focus("svg.line.wide .mark"))
	b.Press(kb.End)
	b.Until("document.querySelector('#row-loss-cabin_air .asks').textContent.includes('Cruise')")
	b.Until("!document.querySelector('.why.stale')")
}

func TestBrowser_TakeOutAndChooseAtDispatch(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.Do(chromedp.Click("#chosen a.less[data-ref=source_1]"))
	b.Until("!document.getElementById('row-loss-cabin_air')")
	b.Until("!location.search.includes('out=')")
	b.Do(chromedp.Focus("#q"), chromedp.KeyEvent("first source"))
	b.Do(chromedp.Click("#catalogue button[name=out][value=source_1]"))
	b.Until("document.getElementById('row-loss-cabin_air')")
	b.Until("location.search.includes('out=source_1')")
	b.Until("document.querySelector('#chosen').textContent.includes('inoperative at dispatch')")
}

func TestBrowser_ABadMomentIsSaid(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.Do(chromedp.SetValue("#at", "crruise"), chromedp.Focus("#at"), chromedp.KeyEvent(kb.Enter))
	b.Until("document.querySelector('.problem')?.textContent.includes('Did you mean \"cruise\"?')")
	b.Do(chromedp.SetValue("#at", "cruise"), chromedp.Focus("#at"), chromedp.KeyEvent(kb.Enter))
	b.Until("document.getElementById('row-loss-cabin_air')")
	b.Until("!document.querySelector('.problem')")
}

func TestBrowser_ABarLeadsToItsRow(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.Do(chromedp.Focus(`svg.line.wide a[href="#row-loss-cabin_air"]`))
	b.Press(kb.Enter)
	b.Until("document.activeElement === document.querySelector('#row-loss-cabin_air > summary')")
	b.Until("document.querySelector('#row-loss-cabin_air[open] svg.chain')")
}

func TestBrowser_WorksWithoutScript(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/static/mark.svg")
	if _, err := chromedp.Call(b.Ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	b.Do(chromedp.Navigate(b.base + "/?fail=source_1"))
	b.says("This takes nothing away")
	b.Do(chromedp.Click(".all > summary"), chromedp.Click(".chapter:nth-of-type(2) > summary"), chromedp.Click("#catalogue button[name=fail][value=source_2]"))
	b.Until("document.getElementById('row-loss-cabin_air')")
	b.Do(chromedp.SetValue("#at", "cruise"), chromedp.Click("button.answer"))
	b.Until("document.querySelector('main > h1').textContent.includes('Cruise')")
	b.Do(chromedp.Click("#row-loss-cabin_air > summary"), chromedp.Click("#row-loss-cabin_air .why a"))
	b.Until("document.querySelector('#row-loss-cabin_air[open] svg.chain')")
	b.Do(chromedp.Click("#chosen a.less[data-ref=source_1]"))
	b.Until("!document.querySelector('main').textContent.includes('Air for the cabin')")
}

func TestBrowser_DemonstrationIsAccessibleAtBothWidths(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/?"+demoOpening)
			b.says("denied by what is shown")
			b.Shoot("demo-" + name)
			b.Do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('.group.denied .row, .group.follows .row').forEach((r, i) => { if (i < 2) r.open = true })"))
			b.Until("document.querySelectorAll('.row[open] svg.chain').length === 2")
			b.Shoot("demo-" + name + "-chains")
			b.Axe()
			if wide := browser.Eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
				t.Errorf("the page is %v points wide", wide)
			}
		})
	}
}

func TestBrowser_Print(t *testing.T) {
	b := browse(t, demoSite(t), 1440, 900, "/?"+demoOpening)
	b.Do(chromedp.Click(".group.denied .row > summary"))
	b.Until("document.querySelector('.row[open] svg.chain')")
	if _, err := chromedp.Call(b.Ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	for selector, shown := range map[string]bool{
		"#question": false, ".narrow-only": false, "figcaption .screen-only": false, ".row:not([open]) .why": false,
		"h1": true, "#lead": true, "svg.line.wide": true, ".ledger .row": true, ".row[open] .chain-words": true, ".row[open] svg.chain": true,
		"footer .caution": true, "#address": true,
	} {
		if got := browser.Eval[bool](b, "document.querySelector("+browser.Quote(selector)+").getClientRects().length > 0"); got != shown {
			t.Errorf("%s on paper: %v", selector, got)
		}
	}
	pdf, err := chromedp.Run(b.Ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) > 2<<20 {
		t.Errorf("%d bytes that begin with %q", len(pdf), pdf[:min(len(pdf), 8)])
	}
	if dir := os.Getenv("KNOCKON_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "demo.pdf"), pdf, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
