package web

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/browser"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/say"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const costsAddress = "/costs?" + demoOpening

// shown is the text of an element as it stands on the screen.
func (b *tab) shown(selector string) string {
	b.Helper()
	return browser.Eval[string](b, "document.querySelector("+browser.Quote(selector)+").innerText")
}

// words are the texts of a picture, in the order of its file.
func (b *tab) words(selector string) string {
	b.Helper()
	return browser.Eval[string](b, "[...document.querySelectorAll("+browser.Quote(selector+" text")+")].map(t => t.textContent).join(' | ')")
}

func TestBrowserCosts_FiguresHoldTheNumbersOfTheTable(t *testing.T) {
	v := getPrice(t, "&to=QSTO")
	var row = v.Costs.Rows[0]
	for _, r := range v.Costs.Rows {
		if r.Ident == "QSTO" {
			row = r
		}
	}
	if row.Ident != "QSTO" || len(row.Failed.Runways) == 0 {
		t.Fatalf("no landing with the failure at QSTO to draw: %+v", row.Failed)
	}
	b := browse(t, costsSite(t), 1440, 900, costsAddress+"&to=QSTO")
	b.says(v.Costs.Summary)
	b.Until("document.querySelectorAll('figure svg').length >= 10") // each wide and narrow: map, roll, fuel, waterfalls
	failed := row.Failed
	for selector, want := range map[string][]string{
		"svg.map.wide":             {"QSTO 109 NM, runway", "reach with the failure", "reach healthy"},
		"svg.roll.wide":            {"stops at " + say.Whole(failed.Runways[0].DistanceM) + " m", say.Whole(failed.Runways[0].RequiredM) + " m", "available"},
		"svg.fuel.wide":            {say.Whole(failed.LandsKg) + " kg", "final reserve " + say.Whole(failed.ReserveKg) + " kg"},
		"#steps-runway-wide-title": nil,
	} {
		if b.Until("document.querySelector(" + browser.Quote(selector) + ")"); want == nil {
			continue
		}
		if size := browser.Eval[[]float64](b, "(() => { const r = document.querySelector("+browser.Quote(selector)+").getBoundingClientRect(); return [r.width, r.height] })()"); size[0] < 600 || size[1] < 150 {
			t.Errorf("%s is %v points large", selector, size)
		}
		text := b.words(selector)
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s does not say %q: %s", selector, w, text)
			}
		}
	}
	steps := b.words("svg.waterfall.wide")
	for _, part := range v.Parts.Parts {
		if part.Back.RequiredM != 0 && !strings.Contains(steps, signedCount(part.Back.RequiredM)+" m") {
			t.Errorf("the waterfalls do not say that %s adds %v m: %s", part.Title, part.Back.RequiredM, steps)
		}
	}
	for i := range v.Costs.Rows {
		cells := b.shown(fmt.Sprintf(".airfields tbody:nth-of-type(%d)", i+1))
		if !strings.Contains(cells, v.Costs.Rows[i].Name) || strings.Count(strings.ToLower(cells), "yes")+strings.Count(strings.ToLower(cells), "no ") < 2 {
			t.Errorf("no two verdicts: %q", cells)
		}
	}
	b.Shoot("costs-wide")
}

func signedCount(v float64) string {
	if v > 0 {
		return "+" + say.Whole(v)
	}
	return say.Whole(v)
}

func TestBrowserCosts_AnotherAirfieldWithoutScript(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, "/static/mark.svg")
	if _, err := chromedp.Call(b.Ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	// Each waits for its own page to be there whole: what is done while it comes in
	// may still meet the one before.
	b.Do(chromedp.Navigate(b.base + "/?" + demoOpening))
	b.Do(chromedp.Click("#costs a"))
	b.Until("document.readyState === 'complete' && document.querySelector('#place-title')?.textContent.includes('Kestrin')")
	b.Do(chromedp.Click(`.airfields a[href*="to=QSTO"]`))
	b.Until("document.readyState === 'complete' && document.querySelector('#place-title')?.textContent.includes('Tolmarry')")
	b.Until("document.readyState === 'complete' && document.querySelector('.airfields tbody.chosen').innerText.includes('Tolmarry')")
	b.Do(chromedp.SetValue("#turn", "climb + 3 min"), chromedp.Focus("#reserve"), chromedp.KeyEvent("ICAO"), chromedp.Focus("#to"), chromedp.KeyEvent("Brannoch"), chromedp.Click("button.answer"))
	b.Until("document.readyState === 'complete' && document.querySelector('#place-title')?.textContent.includes('Brannoch')")
	b.Until("document.readyState === 'complete' && document.querySelector('#turn').value === 'climb + 3 min' && document.querySelector('#reserve').value === 'icao'")
	b.Do(chromedp.SetValue("#turn", "crruise"), chromedp.Click("button.answer"))
	b.Until("document.readyState === 'complete' && document.querySelector('.problem')?.textContent.includes('Did you mean \"cruise\"?')")
	b.Do(chromedp.SetValue("#turn", "climb + 2 min"), chromedp.Click("button.answer"))
	b.Until("document.readyState === 'complete' && !document.querySelector('.problem') && document.querySelector('#until a')")
	b.says("airfields")
	b.Do(chromedp.Click("#until a"))
	b.Until("document.readyState === 'complete' && document.querySelector('table.until tbody tr')")
	b.Do(chromedp.Click(".question a"))
	b.Until("document.readyState === 'complete' && location.pathname === '/costs' && document.querySelector('.question a')")
	b.Do(chromedp.Click(".question a"))
	b.Until("document.readyState === 'complete' && location.pathname === '/'")
	b.says("denied by what is shown")
}

func TestBrowserCosts_UntilWhenComesInPlace(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, costsAddress)
	b.Until("document.querySelector('#until a.load')")
	b.Do(chromedp.Evaluate[chromedp.Void]("window.heard = []; new MutationObserver(() => heard.push(document.querySelector('#until [role=status]').textContent)).observe(document.getElementById('until'), {subtree: true, childList: true, characterData: true})"))
	b.Do(chromedp.Focus("#until a.load"))
	b.Press(kb.Enter)
	b.Until("document.querySelector('#until table.until tbody tr')")
	b.Until("heard[0].includes('takes some seconds') && heard.at(-1) === ''")
	b.Until("document.activeElement.id === 'until-found' && location.pathname === '/costs'")
	if text := b.shown("#until"); !strings.Contains(text, "after the turn") || !strings.Contains(text, "never good") && !strings.Contains(text, "NEVER GOOD") {
		t.Errorf("it says %q", text)
	}
	if n := browser.Eval[int](b, "document.querySelectorAll('#lead').length"); n != 1 {
		t.Errorf("%d elements are called lead", n)
	}
	b.Axe()
}

func TestBrowserCosts_UntilWhenSaysThatTheServerIsGone(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, costsAddress)
	b.Until("document.querySelector('#until a.load')")
	b.Do(chromedp.Evaluate[chromedp.Void]("window.fetch = () => Promise.reject(new TypeError('gone'))"), chromedp.Click("#until a.load"))
	b.Until("document.querySelector('#until [role=status]').textContent.includes('does not answer')")
	b.Until("document.querySelector('#until a.load') && !document.querySelector('#until[aria-busy]')")
}

const costsLead = "document.querySelector('#costs .costs-lead')?.textContent"

// On a flight that the crew turn the mark goes where it is pulled: the place under
// the pointer is a time of the picture that it was taken in, counted from where the
// phase begins with nothing failed.
func TestBrowserCosts_TheMarkOfATurnedFlight(t *testing.T) {
	ground := islands.Region(t)
	site, err := New(Setting{Opening: demoOpening, Region: ground, Log: quiet()}, ask.NewDesk(corvane.Book(t)).Over(ground))
	if err != nil {
		t.Fatal(err)
	}
	b := browse(t, site, 1440, 900, "/?"+demoOpening)
	b.Until(costsLead + "?.includes('Of 13 airfields')")
	want := browser.Eval[float64](b, "axis(document.querySelector('svg.line.wide')).t.at(-1) - 200")
	if want > 3000 {
		t.Fatalf("the flight lasts %g s: nobody turns it", want+200)
	}
	b.Do(chromedp.Evaluate[chromedp.Void]("document.querySelector('svg.line.wide .mark .handle').scrollIntoView({block: 'center', behavior: 'instant'})"))
	to, there := b.placeOf(fmt.Sprint(want)), fmt.Sprintf("Math.abs(now(document.querySelector('svg.line.wide')) - %g) < 10", want)
	x, y := b.place("svg.line.wide .mark .handle")
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	for step := range 6 {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x+(to-x)*float64(step+1)/6, y)
		b.Until("!document.querySelector('#costs.stale')") // another picture is there
	}
	b.mouse(input.DispatchMouseEventTypeMouseReleased, to, y)
	b.Until(there + " && !document.querySelector('#costs.stale') && document.querySelector('#lead, h1, main')?.textContent.length > 0")
	if at := browser.Eval[string](b, "document.querySelector('input[name=at]').value"); !strings.HasPrefix(at, "cruise") {
		t.Errorf("pulled to %g s, which is in the cruise with nothing failed: %q", want, at)
	}
}

func TestBrowserCosts_TheSectionFollowsTheMark(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, "/?"+demoOpening+"&crew=none")
	b.Until(costsLead + "?.includes('Of 13 airfields')")
	b.Do(chromedp.Click("#costs-table > summary"))
	b.Until("document.querySelectorAll('#costs-table .airfields tbody').length === 13")
	at := "document.querySelector('#costs a').href.match(/at=([^&]*)/)[1]"
	before := browser.Eval[string](b, at)

	b.Do(chromedp.Evaluate[chromedp.Void]("document.querySelector('svg.line.wide .mark .handle').scrollIntoView({block: 'center', behavior: 'instant'})"))
	x, y := b.place("svg.line.wide .mark .handle")
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	cruise := b.placeOf(begins + "[6] + 900")
	for step := range 8 {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x+(cruise-x)*float64(step+1)/8, y)
	}
	b.Until(at + ".startsWith('cruise') && !document.querySelector('#costs.stale')") // while it is held
	b.Until("document.querySelector('#costs-table').open")
	// On the ground nothing is priced, and nothing older stays.
	b.mouse(input.DispatchMouseEventTypeMouseMoved, b.placeOf(begins+"[11] + 120"), y)
	b.Until("document.querySelector('#costs').textContent.includes('The aircraft is on the ground') && !document.querySelector('#costs table')")
	b.mouse(input.DispatchMouseEventTypeMouseMoved, x, y)
	b.mouse(input.DispatchMouseEventTypeMouseReleased, x, y)
	b.Until("document.querySelectorAll('#costs .airfields tbody').length === 13 && !document.querySelector('#costs.stale')")
	now := "document.querySelector('#costs').dataset"
	b.Until(now + ".from === " + now + ".query && " + now + ".query === answer().dataset.query")
	if after := browser.Eval[string](b, at); !strings.HasPrefix(after, "climb") {
		t.Errorf("from %s it came back to %s", before, after)
	}
}

func TestBrowserCosts_NoOlderPriceStays(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, "/?"+demoOpening)
	b.Until(costsLead + "?.includes('Of 13 airfields')")
	// The same question once more: nothing is faded for good.
	b.Do(chromedp.Evaluate[chromedp.Void]("window.shows = 0; const before = show; show = (t) => { before(t); shows++ }; ask()"))
	b.Until("shows === 1 && !document.querySelector('#costs.stale')")
	// A price that does not come: what stood there goes, and comes with the next.
	b.Do(chromedp.Evaluate[chromedp.Void]("window.real = fetch; window.fetch = (a, ...r) => a.startsWith('/costs') ? Promise.reject(new TypeError('gone')) : real(a, ...r)"))
	b.Do(chromedp.Focus("svg.line.wide .mark"))
	b.Press(kb.ArrowRight)
	b.Until("document.querySelector('#costs').textContent.includes('The server gives no price') && !document.querySelector('#costs table')")
	b.Do(chromedp.Evaluate[chromedp.Void]("window.fetch = real"))
	b.Press(kb.ArrowRight)
	b.Until(costsLead + "?.includes('Of 13 airfields') && !document.querySelector('#costs.stale')")
	b.Until("document.querySelector('#costs a').href.includes('140')")
}

// Files are asked for as a reader asks for them: by what the page's links say.
func TestBrowserCosts_FilesDownload(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, costsAddress)
	b.Until("document.querySelector('#place figcaption a')")
	kinds := map[string]int{}
	for _, file := range browser.Eval[[]string](b, `Promise.all([...document.querySelectorAll('figcaption a, .costs > .help a')].map(async (a) => {
		const r = await fetch(a.href), begin = (await r.text()).slice(0, 8);
		return [r.status, r.headers.get('Content-Type'), (r.headers.get('Content-Disposition') ?? '').replace(/.*filename="|"$/g, ''), begin].join(' ') }))`) {
		part := strings.Fields(file)
		kinds[part[1]]++
		if part[0] != "200" {
			t.Errorf("a file: %s", file)
		}
		if part[1] != "application/json" {
			kinds[part[2]]++
		}
	}
	figures := kinds["image/svg+xml"]
	if figures < 5 || kinds["image/png"] != figures || kinds["application/json"] != 1 {
		t.Errorf("files by kind and name: %v", kinds)
	}
	for name, n := range kinds {
		if strings.Contains(name, ".") && n != 1 {
			t.Errorf("%d files are called %s", n, name)
		}
	}
}

func TestBrowserCosts_EverythingByKeyboard(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, costsAddress)
	b.Until("document.querySelector('#place')")
	want := browser.Eval[int](b, `(() => { window.reached = new Set(); window.all = [...document.querySelectorAll('a[href], input:not([type=hidden]), select, button, [tabindex="0"]')].filter(e => e.checkVisibility()); return all.length })()`)
	hidden := ""
	for range want + 5 {
		b.Press(kb.Tab)
		hidden += browser.Eval[string](b, `(() => { const e = document.activeElement; reached.add(e); const s = getComputedStyle(e), r = e.getBoundingClientRect();
			return e === document.body || s.outlineStyle !== 'none' && r.bottom > 0 && r.top < innerHeight ? '' : e.outerHTML.slice(0, 80) + '; ' })()`)
	}
	if left := browser.Eval[string](b, "all.filter(e => !reached.has(e)).map(e => e.outerHTML.slice(0, 80)).join('; ')"); left != "" || want < 30 {
		t.Errorf("of %d things not reached by Tab: %s", want, left)
	}
	if hidden != "" {
		t.Errorf("has the focus and does not show it: %s", hidden)
	}
	b.Do(chromedp.Focus(`.airfields a[href*="to=QSGA"]`))
	b.Press(kb.Enter)
	b.Until("document.querySelector('#place-title')?.textContent.includes('Great Ansa')")
}

func TestBrowserCosts_AccessibleAtBothWidths(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		for page, address := range map[string]string{"costs": costsAddress + "&to=QSOR", "until": "/costs/until?" + demoOpening, "wrong": costsAddress + "&turn=taxi_out", "answer": "/?" + demoOpening} {
			t.Run(page+"-"+name, func(t *testing.T) {
				b := browse(t, costsSite(t), size[0], size[1], address)
				b.Until("document.querySelector('footer .caution')")
				if page == "answer" {
					b.Until("document.querySelector('#costs-table')")
					b.Do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('#costs-table').forEach(d => d.open = true)"))
				}
				b.Axe()
				if wide := browser.Eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
					t.Errorf("the page is %v points wide", wide)
				}
				// What sticks out of its place is in a region that scrolls.
				if out := browser.Eval[string](b, `[...document.querySelectorAll('main *')].filter(e => e.checkVisibility() && !e.closest('.scroll, svg') && e.getBoundingClientRect().right > innerWidth + 0.5).map(e => e.outerHTML.slice(0, 80)).join('; ')`); out != "" {
					t.Errorf("sticks out: %s", out)
				}
				b.Shoot(page + "-costs-" + name)
			})
		}
	}
}

// On a telephone a line of the table of airfields fits without scrolling.
func TestBrowserCosts_NarrowTableFits(t *testing.T) {
	b := browse(t, costsSite(t), 390, 844, costsAddress)
	b.Until("document.querySelector('.airfields')")
	if over := browser.Eval[float64](b, "(() => { const r = document.querySelector('.airfields').parentElement; return r.scrollWidth - r.clientWidth })()"); over > 0 {
		t.Errorf("the table of airfields is %v points too wide", over)
	}
	// The verdict stands under the name, in the same width, and numbers under their heads.
	if bad := browser.Eval[string](b, `[...document.querySelectorAll('.airfields tbody')].filter(t => {
		const name = t.querySelector('.name').getBoundingClientRect(), v = t.querySelector('.failed .verdict').getBoundingClientRect();
		return v.top < name.bottom - 1 || v.right > innerWidth }).map(t => t.innerText.slice(0, 40)).join('; ')`); bad != "" {
		t.Errorf("verdicts out of place: %s", bad)
	}
	if off := browser.Eval[float64](b, `Math.max(...[3, 4, 5, 6, 7].map(i => Math.abs(document.querySelector('.airfields thead tr').children[i].getBoundingClientRect().right - document.querySelector('.airfields .healthy').children[i - 2].getBoundingClientRect().right)))`); off > 1 {
		t.Errorf("numbers stand %v points beside their heads", off)
	}
	// The form is folded, so that the answer is on the first screen.
	if top := browser.Eval[float64](b, "document.getElementById('lead').getBoundingClientRect().bottom"); top > 844 {
		t.Errorf("the answer ends %v points down", top)
	}
}

func TestBrowserCosts_Print(t *testing.T) {
	b := browse(t, costsSite(t), 1440, 900, costsAddress+"&to=QSBR")
	b.Until("document.querySelector('#place')")
	if _, err := chromedp.Call(b.Ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	b.Do(chromedp.EmulateViewport(688, 1000)) // A4 within its margins, at 96 points an inch
	for selector, shown := range map[string]bool{
		".question": false, ".narrow-only": false, "figcaption .screen-only": false, "#until": false, // until it is asked for
		"svg.map.wide": true, "svg.roll.wide": true, "svg.fuel.wide": true, "svg.waterfall.wide": true, ".airfields .verdict": true, ".parts": true, ".runways": true,
		"header .caution": true, "footer .caution": true, "footer .address": true,
	} {
		if got := browser.Eval[bool](b, "document.querySelector("+browser.Quote(selector)+").getClientRects().length > 0"); got != shown {
			t.Errorf("%s on paper: %v", selector, got)
		}
	}
	if broken := browser.Eval[string](b, `[...document.querySelectorAll('figure, .airfields tbody, .prices tr')].filter(e => e.checkVisibility() && getComputedStyle(e).breakInside !== 'avoid').map(e => e.outerHTML.slice(0, 60)).join('; ')`); broken != "" {
		t.Errorf("may be broken over two pages: %s", broken)
	}
	if out := browser.Eval[string](b, `[...document.querySelectorAll('main *')].filter(e => e.checkVisibility() && e.getBoundingClientRect().right > 689).map(e => e.outerHTML.slice(0, 60)).join('; ')`); out != "" {
		t.Errorf("off the paper: %s", out)
	}
	if tall := browser.Eval[float64](b, `Math.max(...[...document.querySelectorAll('figure')].map(f => f.getBoundingClientRect().height))`); tall > 1000 {
		t.Errorf("a figure is %v points high: it fits no page", tall)
	}
	pdf, err := chromedp.Run(b.Ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) > 2<<20 {
		t.Errorf("%d bytes that begin with %q", len(pdf), pdf[:min(len(pdf), 8)])
	}
	if dir := os.Getenv("KNOCKON_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "costs.pdf"), pdf, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
