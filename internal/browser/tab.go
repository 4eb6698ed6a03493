package browser

import (
	"context"
	_ "embed"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// Tab is a page in a real browser.
type Tab struct {
	*testing.T
	Ctx context.Context // the tab, for chromedp
}

func (b *Tab) Do(actions ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	for _, a := range actions {
		if err := b.one(a); err != nil {
			b.Fatal(err)
		}
	}
}

// one tries once more what met a page on its way out: the browser says that the
// node is not there, and has done nothing.
func (b *Tab) one(a chromedp.Action[chromedp.Void]) (err error) {
	for range 100 {
		if err = chromedp.Do(b.Ctx, a); err == nil || !strings.Contains(err.Error(), "No node with given id") {
			return err
		}
		time.Sleep(20 * time.Millisecond)
	}
	return err
}

// Patience is for a machine that does much else; a test that passes does not wait.
const Patience = 120 * time.Second

// page is a Tab, or what a test has made of one.
type page interface{ self() *Tab }

func (b *Tab) self() *Tab { return b }

// Eval gives the value of an expression in the page.
func Eval[T any](p page, expression string) T {
	b := p.self()
	b.Helper()
	v, err := try[T](b, expression)
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return v
}

func try[T any](b *Tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(b.Ctx, Patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// Until waits for a condition in the page, or in the one that it gives way to.
func (b *Tab) Until(condition string) {
	b.Helper()
	for deadline := time.Now().Add(Patience); ; time.Sleep(20 * time.Millisecond) {
		if is, err := try[bool](b, "!!("+condition+")"); err == nil && is {
			return
		}
		if time.Now().After(deadline) {
			text, _ := try[string](b, "(document.querySelector('main') ?? document.body).innerText.slice(0, 900)")
			b.Shoot("failed")
			b.Fatalf("never came true: %s; the page says: %s", condition, text)
		}
	}
}

// Quote writes a text as the page's script does.
func Quote(s string) string { text, _ := json.Marshal(s); return string(text) }

// Press presses keys, one after the other, on what has the focus.
func (b *Tab) Press(keys ...string) {
	b.Helper()
	for _, k := range keys {
		b.Do(chromedp.KeyEvent(k))
	}
}

// axe is an accessibility checker, axe-core; its licence lies beside it.
//
//go:embed axe/axe.min.js
var axe string

// Axe runs the accessibility checker, which must find nothing.
func (b *Tab) Axe() {
	b.Helper()
	b.Do(chromedp.Evaluate[chromedp.Void](axe))
	b.Do(chromedp.Evaluate[chromedp.Void]("scrollTo(0, 0)")) // what is scrolled under a strip that stays is no fault
	where := Eval[string](b, "location.pathname + location.search + ' at ' + innerWidth")
	for _, v := range Eval[[]string](b, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r =>
		r.violations.map(v => v.impact + " " + v.id + ": " + v.help + " " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + (n.any[0]?.message ?? "")).join(" | ")))`) {
		b.Errorf("%s: axe: %s", where, v)
	}
}

// Shoot writes a picture of the page for a person to look at, if asked to:
// KNOCKON_PICTURES names the folder.
func (b *Tab) Shoot(name string) {
	b.Helper()
	dir := os.Getenv("KNOCKON_PICTURES")
	if dir == "" {
		return
	}
	for kind, take := range map[string]chromedp.Action[[]byte]{"": chromedp.CaptureScreenshot(), "-full": chromedp.FullScreenshot(100)} {
		png, err := chromedp.Run(b.Ctx, take)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, name+kind+".png"), png, 0o644)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
}
