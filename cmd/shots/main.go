// Command shots makes the small pictures of docs/pages.md: the pages of a running
// demonstration that an address opens at once, as they are at 1440 by 900, at 390 by 844 and as an A4 sheet. Start
// `knockon demo`, then this from the top of the tree; the list of pages is pages.go.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"knockon/internal/browser"
)

func main() {
	address := flag.String("address", "http://127.0.0.1:8765", "where the demonstration is served")
	out := flag.String("out", "docs/pages", "folder for the pictures")
	only := flag.String("only", "", "name of the one page to picture")
	flag.Parse()
	if err := shoot(*address, *out, *only); err != nil {
		fmt.Fprintln(os.Stderr, "shots:", err)
		os.Exit(1)
	}
}

func shoot(address, out, only string) error {
	found, ok := browser.Find()
	if !ok {
		return fmt.Errorf("no Chromium found: install one, or say where it is in KNOCKON_CHROMIUM")
	}
	ctx, end, err := browser.Start(found)
	defer end()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	for _, p := range pages {
		if only != "" && only != p.name {
			continue
		}
		if err := p.write(ctx, address, filepath.Join(out, p.name+".png")); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		fmt.Println(p.name)
	}
	return nil
}

// size is how a page is looked at, and how much smaller its picture is.
type size struct {
	width, height int64
	scale         float64
	paper         bool
}

// sizes are a desk, a telephone, and what an A4 sheet has within its margins.
var sizes = []size{{1440, 900, 0.5, false}, {390, 844, 0.5, false}, {680, 1010, 0.44, true}}

// write puts the pictures of a page at all sizes side by side into one file.
func (p page) write(ctx context.Context, address, name string) error {
	var shots [][]byte
	for _, s := range sizes {
		shot, err := p.at(ctx, address, s)
		if err != nil {
			return err
		}
		shots = append(shots, shot)
	}
	return compose(name, shots)
}

// at is a page at one size, once it shows what it is for and its script is at rest.
func (p page) at(ctx context.Context, address string, s size) ([]byte, error) {
	tab, end := chromedp.NewContext(ctx)
	defer end()
	if err := chromedp.Do(tab, chromedp.EmulateViewport(s.width, s.height, chromedp.EmulateScale(s.scale))); err != nil {
		return nil, err
	}
	if s.paper {
		if _, err := chromedp.Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
			return nil, err
		}
	}
	limit, stop := context.WithTimeout(tab, 2*time.Minute)
	defer stop()
	if err := chromedp.Do(limit, chromedp.Navigate(address+p.path), chromedp.WaitReady(p.until)); err != nil {
		return nil, fmt.Errorf("%s never shows %s: %w", p.path, p.until, err)
	}
	time.Sleep(p.rest())
	return chromedp.Run(tab, chromedp.CaptureScreenshot())
}
