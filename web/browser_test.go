package web

import (
	"bytes"
	"context"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// tab is a page in a real browser.
type tab struct {
	*testing.T
	ctx  context.Context
	base string
}

// chromium finds the browser: KNOCKON_CHROMIUM, or one in the path.
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

// started is the one browser of all tests; each has a tab of its own.
var started struct {
	sync.Once
	ctx    context.Context
	cancel []context.CancelFunc
	err    error
}

func browser(t *testing.T) (context.Context, error) {
	t.Helper()
	path := chromium(t)
	started.Do(func() {
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path))
		if os.Geteuid() == 0 {
			options = append(options, chromedp.NoSandbox) // as root Chromium has no sandbox
		}
		allocator, end := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, closeIt := chromedp.NewContext(allocator)
		started.ctx, started.cancel = ctx, []context.CancelFunc{closeIt, end}
		started.err = chromedp.Do(ctx) // without a limit: one on the first call would end the browser
	})
	return started.ctx, started.err
}

func TestMain(m *testing.M) {
	code := m.Run()
	for _, end := range started.cancel {
		end()
	}
	os.Exit(code)
}

// browse serves a site and opens a tab of the given size on an address of it.
func browse(t *testing.T, s *Site, width, height int64, address string) *tab {
	t.Helper()
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	parent, err := browser(t)
	if err != nil {
		t.Fatalf("Chromium does not start: %v", err)
	}
	ctx, cancel := chromedp.NewContext(parent)
	t.Cleanup(cancel)
	b := &tab{t, ctx, server.URL}
	b.do(chromedp.EmulateViewport(width, height))
	b.listen()
	b.do(chromedp.Navigate(server.URL + address))
	return b
}

// listen makes whatever the page complains of fail the test: an error of the
// script, or something that the content policy forbids.
func (b *tab) listen() {
	b.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		go func() {
			for m, err := range chromedp.Console(b.ctx) {
				if err != nil {
					return
				}
				if text := m.String(); m.IsException() || strings.Contains(text, "Content Security Policy") {
					b.Errorf("the page complains: %s", text)
				}
			}
		}()
		return nil
	}))
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

// eval gives the value of an expression in the page.
func eval[T any](b *tab, expression string) T {
	b.Helper()
	v, err := try[T](b, expression)
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return v
}

func try[T any](b *tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// patience is for a machine that does much else; a test that passes does not wait.
const patience = 90 * time.Second

// until waits for a condition in the page, or in the one that it gives way to.
func (b *tab) until(condition string) {
	b.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(15 * time.Millisecond) {
		if is, err := try[bool](b, "!!("+condition+")"); err == nil && is {
			return
		}
		if time.Now().After(deadline) {
			b.Fatalf("never came true: %s; the page says: %s", condition, eval[string](b, "document.querySelector('main').innerText.slice(0, 300)"))
		}
	}
}

// says waits until the answer's sentence holds a text.
func (b *tab) says(text string) {
	b.Helper()
	b.until("document.getElementById('lead')?.textContent.includes(" + quote(text) + ")")
}

func quote(s string) string { return "'" + strings.ReplaceAll(s, "'", "\\'") + "'" }

// inGroup waits until a row stands in a group of the ledger.
func (b *tab) inGroup(row, group string) {
	b.Helper()
	b.until("document.getElementById('row-" + row + "')?.closest('.group')?.id === 'group-" + group + "'")
}

// press presses a key on what has the focus.
func (b *tab) press(key string, shift ...chromedp.KeyOption) {
	b.Helper()
	b.do(chromedp.KeyEvent(key, shift...))
}

// place is the middle of an element on the screen.
func (b *tab) place(selector string) (x, y float64) {
	b.Helper()
	at := eval[[]float64](b, "(() => { const r = document.querySelector("+quote(selector)+").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2] })()")
	return at[0], at[1]
}

// placeOf is where a moment in seconds lies on the wide line.
func (b *tab) placeOf(seconds string) float64 {
	b.Helper()
	return eval[float64](b, `(() => { const s = document.querySelector('svg.line.wide'); const r = s.getBoundingClientRect();
		return r.left + between(axis(s).t, axis(s).x, `+seconds+`) * r.width / s.viewBox.baseVal.width })()`)
}

func (b *tab) mouse(kind input.DispatchMouseEventType, x, y float64) {
	b.Helper()
	b.do(chromedp.MouseEvent(kind, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// shoot writes a picture of the page for a person to look at, if asked to:
// KNOCKON_PICTURES names the folder.
func (b *tab) shoot(name string) {
	b.Helper()
	dir := os.Getenv("KNOCKON_PICTURES")
	if dir == "" {
		return
	}
	for kind, take := range map[string]chromedp.Action[[]byte]{"": chromedp.CaptureScreenshot(), "-full": chromedp.FullScreenshot(100)} {
		png, err := chromedp.Run(b.ctx, take)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, name+kind+".png"), png, 0o644)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
}

const begins = "axis(document.querySelector('svg.line.wide')).t"

func TestBrowser_ChooseByNameDragAcrossAndReload(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?build=plain")
	b.until("document.querySelector('#catalogue li')")
	b.do(chromedp.Focus("#q"), chromedp.KeyEvent("brake"))
	b.until("document.querySelectorAll('#catalogue li:not([hidden])').length === 1")
	b.press(kb.Enter)
	b.inGroup("loss-brakes", "told") // at the start of the flight, nothing is held back
	b.until("location.search.includes('fail=brake_box')")

	// Into the take-off, where the alert is held back until the climb.
	x, y := b.place("svg.line.wide .mark .handle")
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	takeOff := b.placeOf(begins + "[1] + 5")
	for step := range 12 {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x+(takeOff-x)*float64(step+1)/12, y)
	}
	b.inGroup("loss-brakes", "told_late")
	// Over the climb, where it is given at once, into the landing roll, where it never is.
	b.mouse(input.DispatchMouseEventTypeMouseMoved, b.placeOf(begins+"[2] + 30"), y)
	b.inGroup("loss-brakes", "told")
	b.mouse(input.DispatchMouseEventTypeMouseMoved, b.placeOf(begins+"[5] + 3"), y)
	b.says("wheel brakes, all wheels")
	b.mouse(input.DispatchMouseEventTypeMouseReleased, b.placeOf(begins+"[5] + 3"), y)
	b.until("location.search.includes('at=landing_roll')")
	b.inGroup("loss-brakes", "not_told")
}

func TestBrowser_MoveByKeyboard(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?fail=brake_box&at=climb+%2B+60+s")
	b.inGroup("loss-brakes", "told")
	b.do(chromedp.Focus("svg.line.wide .mark"))
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
		b.press(c.key, keys...)
		b.until(now + " === " + quote(c.want))
	}
	b.inGroup("loss-brakes", "told_late")
	b.until("document.activeElement.matches('svg.line.wide .mark')")
	b.until("document.getElementById('at').value === 'take_off'")
	b.until("location.search.includes('at=take_off')")
}

func TestBrowser_OpenAChainAndReload(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.do(chromedp.Focus("#row-loss-cabin_air > summary"))
	b.press(kb.Enter)
	b.until("document.querySelector('#row-loss-cabin_air .chain-words')?.textContent.includes('Second source')")
	b.until("document.querySelector('#row-loss-cabin_air svg.chain')")
	b.until("location.search.includes('why=loss-cabin_air')")
	b.do(chromedp.Reload())
	b.until("document.querySelector('#row-loss-cabin_air[open] .chain-words')?.textContent.includes('Second source')")
	b.says("air for the cabin")
	// The chain follows the question.
	b.do(chromedp.Focus("svg.line.wide .mark"))
	b.press(kb.End)
	b.until("document.querySelector('#row-loss-cabin_air .asks').textContent.includes('Cruise')")
	b.until("!document.querySelector('.why.stale')")
}

func TestBrowser_TakeOutAndChooseAtDispatch(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.do(chromedp.Click("#chosen a.less[data-ref=source_1]"))
	b.until("!document.getElementById('row-loss-cabin_air')")
	b.until("!location.search.includes('out=')")
	b.do(chromedp.Focus("#q"), chromedp.KeyEvent("first source"))
	b.do(chromedp.Click("#catalogue button[name=out][value=source_1]"))
	b.says("air for the cabin")
	b.until("location.search.includes('out=source_1')")
	b.until("document.querySelector('#chosen').textContent.includes('inoperative at dispatch')")
}

func TestBrowser_ABadMomentIsSaid(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.do(chromedp.SetValue("#at", "crruise"), chromedp.Focus("#at"), chromedp.KeyEvent(kb.Enter))
	b.until("document.querySelector('.problem')?.textContent.includes('Did you mean \"cruise\"?')")
	b.do(chromedp.SetValue("#at", "cruise"), chromedp.Focus("#at"), chromedp.KeyEvent(kb.Enter))
	b.says("air for the cabin")
	b.until("!document.querySelector('.problem')")
}

func TestBrowser_ABarLeadsToItsRow(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/?"+opening)
	b.do(chromedp.Focus(`svg.line.wide a[href="#row-loss-cabin_air"]`))
	b.press(kb.Enter)
	b.until("document.activeElement === document.querySelector('#row-loss-cabin_air > summary')")
	b.until("document.querySelector('#row-loss-cabin_air[open] svg.chain')")
}

func TestBrowser_WorksWithoutScript(t *testing.T) {
	b := browse(t, ternSite(t), 1440, 900, "/static/mark.svg")
	if _, err := chromedp.Call(b.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	b.do(chromedp.Navigate(b.base + "/?fail=source_1"))
	b.says("This takes nothing away")
	b.do(chromedp.Click(".chapter:nth-of-type(2) > summary"), chromedp.Click("#catalogue button[name=fail][value=source_2]"))
	b.says("air for the cabin")
	b.do(chromedp.SetValue("#at", "cruise"), chromedp.Click("button.answer"))
	b.until("document.querySelector('main > h1').textContent.includes('Cruise')")
	b.do(chromedp.Click("#row-loss-cabin_air > summary"), chromedp.Click("#row-loss-cabin_air .why a"))
	b.until("document.querySelector('#row-loss-cabin_air[open] svg.chain')")
	b.do(chromedp.Click("#chosen a.less[data-ref=source_1]"))
	b.until("!document.querySelector('main').textContent.includes('Air for the cabin')")
}

// axe runs the accessibility checker and fails on what it calls serious.
func (b *tab) axe() {
	b.Helper()
	source, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		b.Fatal(err)
	}
	b.do(chromedp.Evaluate[chromedp.Void](string(source)))
	found := eval[[]string](b, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r =>
		r.violations.map(v => v.impact + " " + v.id + ": " + v.help + " " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + (n.any[0]?.message ?? "")).join(" | ")))`)
	for _, v := range found {
		if strings.HasPrefix(v, "serious") || strings.HasPrefix(v, "critical") {
			b.Errorf("axe: %s", v)
		} else {
			b.Logf("axe: %s", v)
		}
	}
}

func TestBrowser_DemonstrationIsAccessibleAtBothWidths(t *testing.T) {
	for name, size := range map[string][2]int64{"wide": {1440, 900}, "narrow": {390, 844}} {
		t.Run(name, func(t *testing.T) {
			b := browse(t, demoSite(t), size[0], size[1], "/")
			b.says("Nobody is told that you have lost")
			b.shoot("demo-" + name)
			b.do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('.group.not_told .row').forEach((r, i) => { if (i < 2) r.open = true })"))
			b.until("document.querySelectorAll('.row[open] svg.chain').length === 2")
			b.shoot("demo-" + name + "-chains")
			b.axe()
			if wide := eval[float64](b, "document.documentElement.scrollWidth"); wide > float64(size[0]) {
				t.Errorf("the page is %v points wide", wide)
			}
		})
	}
}

func TestBrowser_Print(t *testing.T) {
	b := browse(t, demoSite(t), 1440, 900, "/?"+demoOpening)
	b.do(chromedp.Click(".group.not_told .row > summary"))
	b.until("document.querySelector('.row[open] svg.chain')")
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	for selector, shown := range map[string]bool{
		"#question": false, ".narrow-only": false, "figcaption .screen-only": false, ".row:not([open]) .why": false,
		"h1": true, "#lead": true, "svg.line.wide": true, ".ledger .row": true, ".row[open] .chain-words": true, ".row[open] svg.chain": true,
		"footer .caution": true, "#address": true,
	} {
		if got := eval[bool](b, "document.querySelector("+quote(selector)+").getClientRects().length > 0"); got != shown {
			t.Errorf("%s on paper: %v", selector, got)
		}
	}
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
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
