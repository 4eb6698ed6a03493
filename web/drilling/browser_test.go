package drilling_test

import (
	"context"
	"encoding/json"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// tab is a page in a real browser.
type tab struct {
	*testing.T
	ctx context.Context
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

// started is the one browser of all tests; each device has a tab of its own.
var started struct {
	sync.Once
	ctx    context.Context
	cancel []context.CancelFunc
	err    error
}

func browser(t *testing.T) context.Context {
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
		started.err = chromedp.Do(ctx)
	})
	if started.err != nil {
		t.Fatalf("Chromium does not start: %v", started.err)
	}
	return started.ctx
}

func TestMain(m *testing.M) {
	code := m.Run()
	for _, end := range started.cancel {
		end()
	}
	os.Exit(code)
}

// device opens an address on a device of its own.
func device(t *testing.T, r *room, width, height int64, address string) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(browser(t))
	t.Cleanup(cancel)
	b := &tab{t, ctx}
	b.do(chromedp.EmulateViewport(width, height))
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
	b.do(chromedp.Navigate(r.server.URL + address))
	return b
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

func try[T any](b *tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

func eval[T any](b *tab, expression string) T {
	b.Helper()
	v, err := try[T](b, expression)
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return v
}

// patience is for a machine that does much else; a test that passes does not wait.
const patience = 90 * time.Second

// until waits for a condition in the page, or in the one that it gives way to.
func (b *tab) until(condition string) {
	b.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		if is, err := try[bool](b, "!!("+condition+")"); err == nil && is {
			return
		}
		if time.Now().After(deadline) {
			text, _ := try[string](b, "document.querySelector('main').innerText.slice(0, 900)")
			b.shoot("failed")
			b.Fatalf("never came true: %s; the page says: %s", condition, text)
		}
	}
}

func (b *tab) press(keys ...string) {
	b.Helper()
	for _, k := range keys {
		b.do(chromedp.KeyEvent(k))
	}
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
			err = os.WriteFile(filepath.Join(dir, "drill-"+name+kind+".png"), png, 0o644)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
}

// ticking is a room whose clock never stands quite still.
func ticking(t *testing.T) *room {
	t.Helper()
	chromium(t)
	r := enter(t, t.TempDir())
	r.watch.tick = 50 * time.Microsecond
	return r
}

func quote(s string) string { text, _ := json.Marshal(s); return string(text) }

// begins asks for the demonstration failure on the start page and begins alone.
func begins(t *testing.T, r *room, width, height int64) *tab {
	t.Helper()
	b := device(t, r, width, height, "/drill/?"+url.Values{"fail": left.Fail[0].What, "at": {left.Fail[0].At}, "flight": {left.Flight}}.Encode())
	b.do(chromedp.Click("button[value=alone]"))
	b.until(live)
	return b
}

const live = "document.body.dataset.live"

// told waits for an alert.
func (b *tab) told(message string) {
	b.Helper()
	b.until("[...document.querySelectorAll('#alerts .message')].some(m => m.textContent === " + quote(message) + ")")
}

// takes takes a list in hand by a search.
func (b *tab) takes(list string) {
	b.Helper()
	b.do(chromedp.Focus("#take-find"), chromedp.KeyEvent(list), chromedp.KeyEvent(kb.Enter))
	b.until("[...document.querySelectorAll('#lists h3')].some(h => h.textContent === " + quote(list) + ")")
}

// moves moves a control and waits until it stands there.
func (b *tab) moves(control, to string) {
	b.Helper()
	is := "document.querySelector('button[data-control=" + control + "][value=" + to + "]')"
	b.do(chromedp.Evaluate[chromedp.Void](is + ".click()"))
	b.until(is + ".getAttribute('aria-pressed') === 'true'")
}

// ticks finishes a line, or answers it, by its number.
func (b *tab) ticks(number, how string) {
	b.Helper()
	row := "document.querySelector('#lists li[data-key=" + quote(number) + "]')"
	b.until(row)
	b.do(chromedp.Evaluate[chromedp.Void]("[..." + row + ".querySelectorAll('button')].find(b => b.textContent === " + quote(how) + ").click()"))
	b.until(row + ".classList.contains('done')")
}
