// Package browser turns an address into a page in a real browser, for tests: one
// browser for all tests of a package, a tab for each. Whatever a page complains
// of (an error of its script, or something that the content policy forbids)
// fails the test that opened it. Start reading at Open.
package browser

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// Path finds the browser: KNOCKON_CHROMIUM, or one in the path. Without one the
// test is skipped.
func Path(t *testing.T) string {
	t.Helper()
	if path, ok := Find(); ok {
		return path
	}
	t.Skip("no Chromium found: install one, or say where it is in KNOCKON_CHROMIUM, to run the browser tests")
	return ""
}

// Find finds the browser as Path does.
func Find() (path string, ok bool) {
	if path := os.Getenv("KNOCKON_CHROMIUM"); path != "" {
		return path, true
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, true
		}
	}
	return "", false
}

var started struct {
	sync.Once
	ctx context.Context
	end func()
	err error
}

// Start starts a browser and gives it with what ends it. It waits for the browser
// without a limit: one on the first call would end it.
func Start(path string) (ctx context.Context, end func(), err error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path))
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // as root Chromium has no sandbox
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, closeIt := chromedp.NewContext(allocator)
	return ctx, func() { closeIt(); stop() }, chromedp.Do(ctx)
}

// Main is the TestMain of a package whose tests open pages: it runs them, then
// ends the browser.
func Main(m *testing.M) {
	code := m.Run()
	if started.end != nil {
		started.end()
	}
	os.Exit(code)
}

// Open opens an address in a tab of the given size.
func Open(t *testing.T, width, height int64, address string) *Tab {
	t.Helper()
	path := Path(t)
	started.Do(func() { started.ctx, started.end, started.err = Start(path) })
	if started.err != nil {
		t.Fatalf("Chromium does not start: %v", started.err)
	}
	ctx, cancel := chromedp.NewContext(started.ctx)
	t.Cleanup(cancel)
	b := &Tab{t, ctx}
	b.Do(chromedp.EmulateViewport(width, height))
	b.listen()
	b.Do(chromedp.Navigate(address))
	return b
}

func (b *Tab) listen() {
	b.Do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		go func() {
			for m, err := range chromedp.Console(b.Ctx) {
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
